"""Suites with one thing each that a printer does not do, and suites without."""
