"""Mockup: honest flat-lays and proofs of die-cut stationery, drawn from the print files."""

__version__ = "0.1.0"
