"""A liner's template: what is cut, what is seen, what the pocket hides, the gum and the fold.

In the liner's own inches: origin at the top left of its box, the flap's tip up.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely.geometry import Polygon

from mockup.envelopes.flap import gum_strip
from mockup.envelopes.liner import liner_placement, liner_shape
from mockup.envelopes.spec import EnvelopeSpec
from mockup.envelopes.views import pocket
from mockup.geometry.affine import translation
from mockup.geometry.flatten import polygon
from mockup.geometry.offset import offset, polygons_of
from mockup.geometry.outline import Line, Outline, Shape, polygon_outline
from mockup.geometry.point import Point


@dataclass(frozen=True)
class LinerTemplate:
    """The parts of a liner's template."""

    cut: Shape
    bleed: tuple[Shape, ...]
    """How far art must reach beyond the cut."""
    seen: tuple[Shape, ...]
    """What shows while the envelope is open."""
    hidden: tuple[Shape, ...]
    """What lies in the pocket."""
    gum: Shape
    """The flap's gum, which no liner covers."""
    fold: Line
    """Where liner and flap are folded, from side to side of the liner."""


def liner_template(spec: EnvelopeSpec, bleed_in: float) -> LinerTemplate:
    """Returns the template of the liner of an envelope, its art to bleed by so many inches."""
    to_liner = liner_placement(spec).inverse()
    cut = liner_shape(spec)
    held = polygon(pocket(spec).mapped(to_liner))
    flat = polygon(cut)
    top = to_liner.point(Point(0.0, 0.0)).y
    return LinerTemplate(
        cut,
        tuple(_shape(part) for part in offset(cut, bleed_in)),
        tuple(_shape(part) for part in polygons_of(flat.difference(held))),
        tuple(_shape(part) for part in polygons_of(flat.intersection(held))),
        gum_strip(spec).mapped(to_liner),
        Line(Point(cut.box.left, top), Point(cut.box.right, top)),
    )


def moved(template: LinerTemplate, by: Point) -> LinerTemplate:
    """Returns a template with its origin at a point of a page."""
    to_page = translation(*by)
    return LinerTemplate(
        template.cut.mapped(to_page),
        tuple(each.mapped(to_page) for each in template.bleed),
        tuple(each.mapped(to_page) for each in template.seen),
        tuple(each.mapped(to_page) for each in template.hidden),
        template.gum.mapped(to_page),
        template.fold.mapped(to_page),
    )


def _shape(part: Polygon) -> Shape:
    return Shape(
        _outline(part.exterior.coords), tuple(_outline(hole.coords) for hole in part.interiors)
    )


def _outline(coords: object) -> Outline:
    points = [(float(x), float(y)) for x, y, *_ in coords]  # pyright: ignore[reportGeneralTypeIssues]
    return polygon_outline(*points[:-1])
