"""Colour as numbers to numbers: sRGB, Lab, difference, contrast, ink on stock."""
