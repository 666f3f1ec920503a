"""The cut line: a thin stroke along the die, in a tone that stays visible on both sides of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely import get_coordinates, line_interpolate_point
from shapely.geometry import Polygon

from mockup.colour.contrast import LINE_CONTRAST, contrast, luminance
from mockup.colour.srgb import Rgb
from mockup.geometry.flatten import polygon, ring
from mockup.geometry.offset import polygons_of, quadrant_segments
from mockup.geometry.outline import Shape
from mockup.pixels import Bytes, Coverage, View
from mockup.render.coverage import coverage
from mockup.units import pt_to_in

WIDTH_PT = 0.5  # common practice, no source: die lines are drawn 0.25 to 1 pt
CASING_FACTOR = 2.0  # the casing shows a quarter of it on either side of the line
CASING: Rgb = (255, 255, 255)
_SAMPLE_IN = 0.02
_GRAPHITE: Rgb = (74, 70, 67)
_RAMP: tuple[Rgb, ...] = tuple(
    (round(255 * k / 32), round(250 * k / 32), round(246 * k / 32)) for k in range(33)
)


@dataclass(frozen=True)
class CutLine:
    """How a cut line is drawn: its colour, its width at true size, and a light casing or none."""

    colour: Rgb
    width_pt: float = WIDTH_PT
    casing: Rgb | None = None
    contrast: float = 21.0
    """The lowest contrast along the line against what lies beside it, or against its casing."""


def choose_cut_line(beside: Bytes, width_pt: float = WIDTH_PT) -> CutLine:
    """Returns the quietest line that keeps 3:1 contrast (WCAG 2.2, 1.4.11) with `beside`.

    `beside` is (n, 3) uint8 sRGB: the colours on both sides along the whole line. Graphite is
    taken where it will do, else the tone whose lowest contrast is highest; where no tone reaches
    3:1 everywhere, a dark line on a white casing.
    """
    grounds = np.unique(luminance(beside.reshape(-1, 3)))
    graphite = _lowest(_GRAPHITE, grounds)
    if graphite >= LINE_CONTRAST:
        return CutLine(_GRAPHITE, width_pt, None, graphite)
    single = _clearest(grounds, width_pt)
    if single.contrast >= LINE_CONTRAST:
        return single
    on_casing = _lowest(_GRAPHITE, luminance(np.array([CASING], np.uint8)))
    return CutLine(_GRAPHITE, width_pt, CASING, on_casing)


def one_tone(line: CutLine, beside: Bytes) -> CutLine:
    """Returns a line without a casing: itself, or the tone that stands out most from `beside`.

    On a table a sheet's own edge cuts off the outer half of a casing, and what is left of it and
    of the line in each pixel reads as dashes. One tone may fall short of 3:1 somewhere.
    """
    if line.casing is None:
        return line
    return _clearest(np.unique(luminance(beside.reshape(-1, 3))), line.width_pt)


def _clearest(grounds: NDArray[np.float32], width_pt: float) -> CutLine:
    """Returns the line of the tone whose lowest contrast against `grounds` is highest."""
    lowest = [_lowest(tone, grounds) for tone in _RAMP]
    best = int(np.argmax(lowest))
    return CutLine(_RAMP[best], width_pt, None, lowest[best])


def colours_beside(
    shape: Shape, inside: tuple[Bytes, View], outside: Bytes, width_pt: float = WIDTH_PT
) -> Bytes:
    """Returns (n, 3) uint8: the picture's colours just inside a shape's line, and `outside` ones.

    `inside` is an opaque sRGB picture and its view; it is read every 0.02 in along the line, at
    the edge of the stroke. `outside` is (m, 3): what the shape will lie on.
    """
    pixels, view = inside
    reach = pt_to_in(width_pt) / 2 + 1 / view.ppi
    points: list[NDArray[np.float64]] = []
    for part in polygons_of(polygon(shape).buffer(-reach)):
        for edge in (part.exterior, *part.interiors):
            steps = np.arange(0, edge.length, _SAMPLE_IN)
            points.append(get_coordinates(line_interpolate_point(edge, steps)))
    if not points:
        return outside.reshape(-1, 3)
    places = np.concatenate(points)
    columns = np.floor((places[:, 0] - view.left_in) * view.ppi).astype(int)
    rows = np.floor((places[:, 1] - view.top_in) * view.ppi).astype(int)
    columns = np.clip(columns, 0, view.width_px - 1)
    rows = np.clip(rows, 0, view.height_px - 1)
    return np.concatenate([pixels[rows, columns, :3], outside.reshape(-1, 3)])


def stroke_coverage(shape: Shape, width_in: float, view: View) -> Iterator[tuple[slice, Coverage]]:
    """Yields the coverage of a stroke of `width_in` centred on a shape's outlines, mitred.

    In bands of rows, top to bottom, those it touches: which rows of the view, and (rows, w) of it.
    """
    strokes = [
        [np.asarray(edge.coords)[:-1] for edge in (band.exterior, *band.interiors)]
        for band in _stroke(shape, width_in, 0.1 / view.ppi)
    ]
    for rows, part in view.bands():
        total = np.zeros((part.height_px, part.width_px), np.float32)
        for rings in strokes:
            np.maximum(total, coverage(rings, part), out=total)
        if total.any():
            yield rows, total


def _stroke(shape: Shape, width_in: float, tolerance_in: float) -> Sequence[Polygon]:
    bands: list[Polygon] = []
    for outline in shape.outlines:
        edge = Polygon(ring(outline, min(tolerance_in, 0.0002))).exterior
        bands += polygons_of(
            edge.buffer(
                width_in / 2,
                quad_segs=quadrant_segments(width_in / 2, tolerance_in),
                join_style="mitre",
                mitre_limit=2.0,
            )
        )
    return bands


def _lowest(colour: Rgb, grounds: NDArray[np.float32]) -> float:
    own = luminance(np.array(colour, np.uint8))
    return float(contrast(own, grounds).min())
