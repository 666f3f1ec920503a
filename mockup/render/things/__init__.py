"""Things that lie beside the paper: read from SVG, placed on the table, made into sheets."""
