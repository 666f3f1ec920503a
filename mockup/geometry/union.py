"""Several areas taken as one: what lies together is arranged, and kept clear, as one thing."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from shapely import unary_union
from shapely.geometry.base import BaseGeometry

from mockup.geometry.flatten import Ring
from mockup.geometry.offset import polygons_of


def rim_of(areas: Iterable[BaseGeometry]) -> Ring:
    """Returns the outer line of what areas make together, as `rim` does."""
    return rim(unary_union(list(areas)))


def rim(area: BaseGeometry) -> Ring:
    """Returns the outer line of an area, (n, 2) float64, its first point told once; of several
    parts the largest one's. Raises ValueError where there is no area at all."""
    largest = max(polygons_of(area.buffer(0)), key=lambda part: part.area)
    return np.array(largest.exterior.coords[:-1], dtype=np.float64)
