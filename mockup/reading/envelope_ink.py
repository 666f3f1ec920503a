"""Where a side of an envelope is printed: its ink, told apart from its own bare paper."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from mockup.colour.srgb import parse_hex
from mockup.geometry.point import Point
from mockup.reading.page_facts import PageFacts

_CELL = 3  # pixels of the page's picture a side: a hundredth of an inch
_SEEN = 10  # judgement: of 255; less than that beside the bare paper is no ink


@dataclass(frozen=True, eq=False)
class SideInk:
    """The middles of all cells of a side that have ink, (n, 2) float64 inches from its own top
    left, and how large a cell is, square inches."""

    places: NDArray[np.float64]
    cell_in2: float

    def within(self, area: BaseGeometry) -> NDArray[np.float64]:
        """Returns the inked places inside an area."""
        left, top, right, bottom = area.bounds
        low, high = np.array([left, top]), np.array([right, bottom])
        near = self.places[np.all((self.places >= low) & (self.places <= high), axis=1)]
        shapely.prepare(area)
        return near[np.asarray(shapely.contains_xy(area, near[:, 0], near[:, 1]), bool)]

    def area_in2(self, places: NDArray[np.float64]) -> float:
        """Returns how much paper inked places cover, square inches."""
        return len(places) * self.cell_in2


def ink_of_side(page: PageFacts) -> SideInk:
    """Returns where a side is inked, within its own outline."""
    sight, zones = page.printed, page.zones
    paper = np.array(parse_hex(page.piece.stock.colour_hex), np.int16)
    off = np.abs(sight.picture.astype(np.int16) - paper)
    inked: NDArray[np.bool_] = np.max(off, axis=-1) > _SEEN
    high, wide = (side // _CELL * _CELL for side in inked.shape)
    cells = inked[:high, :wide].reshape(high // _CELL, _CELL, wide // _CELL, _CELL).any(axis=(1, 3))
    rows, columns = np.nonzero(cells)
    cell_in = _CELL / sight.view.ppi
    middles = np.stack([columns, rows], axis=1).astype(np.float64) + 0.5
    places = np.array([sight.view.left_in, sight.view.top_in]) + middles * cell_in
    inside = shapely.contains_xy(zones.cut, places[:, 0], places[:, 1])
    return SideInk(places[inside], cell_in**2)


def middle_of(places: NDArray[np.float64]) -> Point:
    """Returns the place nearest the middle of them: amid what is told."""
    off = places - np.median(places, axis=0)
    x, y = places[int(np.hypot(off[:, 0], off[:, 1]).argmin())]
    return Point(float(x), float(y))
