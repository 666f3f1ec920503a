"""Sheets as triangles for the path tracer: top, quarter-round rim, sides and underside.

Bow and plane are the sheet's own, by the formula in `scene`; all else is cut by shapely (GEOS).
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.render.light.scene import Sheet, height

RIM = 4  # rings of the quarter-round edge


def slab(sheet: Sheet) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Triangles (n, 3, 3) of a sheet's top face, and of its rim, sides and underside."""
    outline = shapely.Polygon(sheet.rings[0], sheet.rings[1:])
    b, t = sheet.material.bevel_in, sheet.thickness_in
    insets = [b * (1 - np.cos(a)) for a in np.linspace(0, np.pi / 2, RIM + 1)]
    # Measured from the side in: depth below the top of a quarter circle of radius b.
    depths = [b * (1 - np.sin(a)) for a in np.linspace(0, np.pi / 2, RIM + 1)]
    shapes = [outline.buffer(-i, join_style="mitre") if i else outline for i in insets]
    top = raised_faces(shapes[-1], lambda xy: np.full(len(xy), t), sheet)
    rest = [raised_faces(outline, lambda xy: np.zeros(len(xy)), sheet)]
    for k in range(RIM):
        inner = shapes[k + 1].boundary
        outer = shapes[k].boundary
        low, high = t - depths[k], t - depths[k + 1]

        def level(xy: NDArray[np.float64], inner=inner, outer=outer, low=low, high=high):
            points = shapely.points(xy)
            near = shapely.distance(points, inner) < shapely.distance(points, outer)
            return np.where(near, high, low)

        rest.append(raised_faces(shapes[k].difference(shapes[k + 1]), level, sheet))
    rest += [walls(ring, t - b, sheet) for ring in rings(outline)]
    return top, np.concatenate(rest)


def rings(shape: shapely.Polygon) -> list[shapely.LinearRing]:
    return [shape.exterior, *shape.interiors]


def raised_faces(shape, level, sheet: Sheet) -> NDArray[np.float64]:
    if shape.is_empty:  # no rim at all, or a sheet narrower than its rim
        return np.empty((0, 3, 3))
    if sheet.bow is not None:
        shape = shapely.segmentize(shape, 0.1)
        pieces = [
            part
            for x in np.arange(*np.array(shape.bounds)[[0, 2]], 0.15)
            for y in np.arange(*np.array(shape.bounds)[[1, 3]], 0.15)
            for part in shapely.get_parts(
                shapely.intersection(shape, shapely.box(x, y, x + 0.15, y + 0.15))
            )
            if part.geom_type == "Polygon"
        ]
    else:
        pieces = [p for p in shapely.get_parts(shape) if p.geom_type == "Polygon"]
    found = []
    for part in pieces:
        for triangle in shapely.get_parts(shapely.constrained_delaunay_triangles(part)):
            found.append(np.asarray(triangle.exterior.coords)[:3])
    flat = np.array(found).reshape(-1, 2)
    return solid(flat, level(flat), sheet).reshape(-1, 3, 3)


def walls(ring: shapely.LinearRing, top: float, sheet: Sheet) -> NDArray[np.float64]:
    # Curled with the sheet: a long straight side that was not would stand above its own edge.
    curled = ring if sheet.bow is None else shapely.segmentize(ring, 0.1)
    points = np.asarray(curled.coords)
    a, b = points[:-1], points[1:]
    low, high = np.zeros(len(a)), np.full(len(a), top)
    a0, a1, b0, b1 = (solid(p, z, sheet) for p, z in ((a, low), (a, high), (b, low), (b, high)))
    return np.concatenate([np.stack([a0, b0, b1], 1), np.stack([a0, b1, a1], 1)])


def solid(xy: NDArray[np.float64], z: NDArray[np.float64], sheet: Sheet) -> NDArray[np.float64]:
    rest = height(sheet.plane, sheet.bow, xy[:, 0].copy(), xy[:, 1].copy())
    return np.column_stack([xy[:, 0], -xy[:, 1], z + rest])
