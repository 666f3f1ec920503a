"""Paths read from foreign PDF and SVG files, exact, in inches."""
