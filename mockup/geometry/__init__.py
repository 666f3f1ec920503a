"""Plane geometry in inches, x right and y down: exact until drawn, no files, no pixels."""
