"""Dies: families of outlines fitted to a size, each with one formula and its source."""
