"""Two pictures of one piece compared: what a person would ring, and what no press would show."""
