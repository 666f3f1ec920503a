"""Outlines as cubic curves, for the pens of PDF and SVG, which know no conjugate half-axes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from mockup.geometry.affine import Affine
from mockup.geometry.outline import Arc, Cubic, Line, Outline, Segment, Shape
from mockup.geometry.point import Point

ARC_STEP_DEG = 45.0  # eight cubics a circle: radius off by 4.2e-6 of itself


def drawable(outline: Outline) -> list[Line | Cubic]:
    """Returns an outline's segments with every arc as cubics of at most 45 degrees."""
    return drawn_segments(outline.segments)


def drawn_segments(segments: Sequence[Segment]) -> list[Line | Cubic]:
    """Returns a run of segments with every arc as cubics of at most 45 degrees."""
    return [part for segment in segments for part in _drawable(segment)]


def svg_path(shape: Shape, affine: Affine) -> str:
    """Returns SVG path data (SVG 1.1 8.3) of a shape mapped by `affine`, outlines closed."""
    return " ".join(_svg_outline(outline.mapped(affine)) for outline in shape.outlines)


def pdf_path(segments: Sequence[Segment], affine: Affine) -> str:
    """Returns path construction operators of PDF (ISO 32000-1 table 59) for a run of segments
    mapped by `affine`, not closed; eight decimals, for user space may be in inches."""
    run = drawn_segments([segment.mapped(affine) for segment in segments])
    lines = [f"{_pdf_xy(run[0].start)} m"]
    for part in run:
        if isinstance(part, Line):
            lines.append(f"{_pdf_xy(part.end)} l")
        else:
            points = (part.control1, part.control2, part.end)
            lines.append(f"{' '.join(map(_pdf_xy, points))} c")
    return "\n".join(lines)


def _drawable(segment: Segment) -> list[Line | Cubic]:
    if not isinstance(segment, Arc):
        return [segment]
    count = max(1, math.ceil(abs(segment.sweep_deg) / ARC_STEP_DEG - 1e-9))
    step = segment.sweep_deg / count
    # The cubic that touches a circle at both ends and its middle: control length 4/3 tan(step/4).
    reach = 4 / 3 * math.tan(math.radians(step) / 4)
    return [_arc_cubic(segment, segment.start_deg + step * k, step, reach) for k in range(count)]


def _arc_cubic(arc: Arc, start_deg: float, step_deg: float, reach: float) -> Cubic:
    start, end = arc.at_angle(start_deg), arc.at_angle(start_deg + step_deg)
    out, back = _tangent(arc, start_deg), _tangent(arc, start_deg + step_deg)
    return Cubic(
        start,
        Point(start.x + reach * out.x, start.y + reach * out.y),
        Point(end.x - reach * back.x, end.y - reach * back.y),
        end,
    )


def _tangent(arc: Arc, angle_deg: float) -> Point:
    ahead = arc.at_angle(angle_deg + 90)  # the derivative is the point a quarter turn ahead
    return Point(ahead.x - arc.centre.x, ahead.y - arc.centre.y)


def _svg_outline(outline: Outline) -> str:
    start = outline.segments[0].start
    commands = [f"M{_xy(start)}"]
    for part in drawable(outline):
        if isinstance(part, Line):
            commands.append(f"L{_xy(part.end)}")
        else:
            commands.append(f"C{_xy(part.control1)} {_xy(part.control2)} {_xy(part.end)}")
    return " ".join([*commands, "Z"])


def _xy(point: Point) -> str:
    return f"{point.x:.7g},{point.y:.7g}"


def _pdf_xy(point: Point) -> str:
    return f"{point.x:.8f} {point.y:.8f}"
