"""A template read as a printer reads it: its outlines, what speaks for each, the cut among them."""
