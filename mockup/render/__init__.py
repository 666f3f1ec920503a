"""Pixels from pixels: coverage, the cut line, pieces, envelopes, light, the flat-lay."""
