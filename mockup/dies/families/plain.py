"""Straight-sided cards: rectangle, hexagon, gable."""

from __future__ import annotations

from mockup.dies.family import Family
from mockup.geometry.outline import Shape, polygon_outline


def rectangle(width_in: float, height_in: float) -> Shape:
    """Returns the card cut square, area W H, perimeter 2 (W + H)."""
    return Shape(polygon_outline((0, 0), (width_in, 0), (width_in, height_in), (0, height_in)))


RECTANGLE = Family("rectangle", "a plain card, cut square", "Euclid", (), rectangle)
