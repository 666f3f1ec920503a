"""Artwork: a page of a file that is printed, its boxes, its pixels, what it paints."""
