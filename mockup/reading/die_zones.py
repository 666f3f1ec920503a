"""A die's cut, safe and bleed outlines as polygons, and distances from the cut."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from mockup.geometry.flatten import polygon
from mockup.geometry.offset import quadrant_segments
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box

# Judgement: a tenth of a pixel at 200 to the inch; clearances are told to 0.001 in.
FLAT_IN = 0.0005
FEW_SEGMENTS = 250  # judgement: under this many, plain search beats the tree
# Judgement: two pixels; art that comes this near the end of the bleed has reached it.
REACHED_IN = 0.006


@dataclass(frozen=True)
class DieZones:
    """The outlines checks measure against, all true offsets of one die, card inches."""

    shape: Shape
    safe_in: float
    bleed_in: float
    page: Box
    """The page as it lies round the trim, card inches."""

    @cached_property
    def card(self) -> Box:
        """The trim's rectangle, worked out once."""
        return self.shape.box

    @cached_property
    def cut(self) -> Polygon:
        """What the die cuts out, holes left out."""
        made = polygon(self.shape, FLAT_IN)
        shapely.prepare(made)
        return made

    @cached_property
    def edge(self) -> BaseGeometry:
        """The cut itself, as a line."""
        made = self.cut.boundary
        shapely.prepare(made)
        return made

    @cached_property
    def safe(self) -> BaseGeometry:
        """Where type may stand."""
        return self.inside(self.safe_in)

    @cached_property
    def reached(self) -> BaseGeometry:
        """What art has to leave to count as bleeding: the cut grown by the bleed, on the page.

        Small holes fill up when grown; what is drawn over a hole runs through it.
        """
        grown = self.cut.buffer(
            self.bleed_in - REACHED_IN, quad_segs=quadrant_segments(self.bleed_in, FLAT_IN)
        )
        made = grown.intersection(shapely.box(*self.page.grown(-REACHED_IN)))
        shapely.prepare(made)
        return made

    def inside(self, distance_in: float) -> BaseGeometry:
        """Returns the die shrunk by a distance."""
        segments = quadrant_segments(distance_in, FLAT_IN)
        made = self.cut.buffer(-distance_in, quad_segs=segments)
        shapely.prepare(made)
        return made

    def signed(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Returns the distance of (n, 2) points from the cut, positive inside, inches."""
        if len(points) == 0:
            return np.empty(0)
        places = shapely.points(points)
        if len(self._segments) < FEW_SEGMENTS:
            distance = shapely.distance(places, self.edge)
        else:
            pairs, found = self._tree.query_nearest(places, all_matches=False, return_distance=True)
            distance = np.empty(len(points))
            distance[pairs[0]] = found
        inside = shapely.contains_xy(self.cut, points[:, 0], points[:, 1])
        return np.where(inside, distance, -distance)

    @cached_property
    def _segments(self) -> NDArray[np.object_]:
        rings = [self.cut.exterior, *self.cut.interiors]
        pairs = [np.asarray(ring.coords) for ring in rings]
        ends = np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in pairs])
        return np.asarray(shapely.linestrings(ends), np.object_)

    @cached_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree(self._segments)
