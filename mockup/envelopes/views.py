"""The envelope as sheets to be stacked: open from the back, closed from the back, and its face.

All in inches; origin at the top left of the body as seen from the back, y down, the open flap
towards negative y. Sheets are given in the order they lie, the lowest first.
"""

from __future__ import annotations

from dataclasses import dataclass

from mockup.envelopes.corners import Corner, rounded
from mockup.envelopes.flap import closed_flap, gum_strip, open_flap, sheet_outline
from mockup.envelopes.liner import liner_in_envelope
from mockup.envelopes.spec import EnvelopeSpec
from mockup.geometry.affine import Affine
from mockup.geometry.measure import area
from mockup.geometry.outline import Line, Shape
from mockup.geometry.point import Point


@dataclass(frozen=True)
class OpenBack:
    """The back with the flap up: what lies on what, and the lines between."""

    back_sheet: Shape
    """Inside of the face panel and of the open flap, one sheet."""
    gum: Shape
    liner: Shape
    side_flaps: tuple[Shape, Shape]
    """Left and right, on the liner and under the bottom flap."""
    bottom_flap: Shape
    pocket: Shape
    """Side flaps and bottom flap together: everything below the throat."""
    seams: tuple[Line, Line]
    """The bottom flap's visible side edges, left and right."""
    fold: Line
    """The top fold, left to right."""


@dataclass(frozen=True)
class ClosedBack:
    """The back with the flap down on the pocket."""

    body: Shape
    side_flaps: tuple[Shape, Shape]
    bottom_flap: Shape
    flap: Shape
    seams: tuple[Line, Line]
    fold: Line


@dataclass(frozen=True)
class FaceUp:
    """The address side, the envelope closed and lying on its back."""

    sheet: Shape


def open_back(spec: EnvelopeSpec) -> OpenBack:
    """Returns the sheets of the envelope open from the back."""
    return OpenBack(
        back_sheet=Shape(sheet_outline(spec)),
        gum=gum_strip(spec),
        liner=liner_in_envelope(spec),
        side_flaps=side_flaps(spec),
        bottom_flap=bottom_flap(spec),
        pocket=pocket(spec),
        seams=_seams(spec),
        fold=_fold(spec),
    )


def closed_back(spec: EnvelopeSpec) -> ClosedBack:
    """Returns the sheets of the envelope closed from the back."""
    return ClosedBack(
        body=face(spec),
        side_flaps=side_flaps(spec),
        bottom_flap=bottom_flap(spec),
        flap=closed_flap(spec),
        seams=_seams(spec),
        fold=_fold(spec),
    )


def face(spec: EnvelopeSpec) -> Shape:
    """Returns the address side: the envelope closed, from the front."""
    width, height = spec.width_in, spec.height_in
    return Shape(
        rounded(
            [
                Corner(0.0, height, spec.corner_radius_in),
                Corner(0.0, 0.0, spec.shoulder_in),
                Corner(width, 0.0, spec.shoulder_in),
                Corner(width, height, spec.corner_radius_in),
            ]
        )
    )


def face_up(spec: EnvelopeSpec) -> FaceUp:
    """Returns the envelope with its address side up; inches from the top left as that is seen."""
    return FaceUp(face(spec))


def side_flaps(spec: EnvelopeSpec) -> tuple[Shape, Shape]:
    """Returns the left and right side flaps, folded in; their ends lie under the bottom flap."""
    height = spec.height_in
    middle = spec.width_in / 2
    if spec.seam == "side":
        reach = spec.seam_width_in
        inner = [
            Corner(reach, _throat_y(spec, reach)),
            Corner(reach, height - reach, reach / 2),
        ]
    else:
        reach = middle - 0.6 * _throat_flat(spec)
        top = _throat_y(spec, reach)
        inner = [
            Corner(reach, top, 0.02 * spec.width_in),
            Corner(0.8 * reach, top + 0.25 * (height - top), 0.1 * spec.width_in),
        ]
    fold = [Corner(0.0, height, spec.corner_radius_in), Corner(0.0, spec.shoulder_in)]
    foot = Corner(1 / 8, height)  # under the bottom flap, so that nothing shows through beside it
    left = Shape(rounded([foot, *fold, *inner]))
    return left, _other_side(spec, left)


def bottom_flap(spec: EnvelopeSpec) -> Shape:
    """Returns the bottom flap, folded up over the side flaps and gummed to them."""
    left = [Corner(spec.seam_inset_in, spec.height_in, spec.corner_radius_in), *_bottom_side(spec)]
    right = [Corner(spec.width_in - c.x, c.y, c.radius) for c in reversed(left)]
    return Shape(rounded([*left, *right]))


def pocket(spec: EnvelopeSpec) -> Shape:
    """Returns the whole pocket: all that lies below the throat."""
    left = [
        Corner(0.0, spec.height_in, spec.corner_radius_in),
        Corner(0.0, spec.shoulder_in),
        _throat_corner(spec),
    ]
    right = [Corner(spec.width_in - c.x, c.y, c.radius) for c in reversed(left)]
    return Shape(rounded([*left, *right]))


def paper_area_in2(spec: EnvelopeSpec) -> float:
    """Returns the area of paper in the envelope, square inches, without its liner."""
    left, right = side_flaps(spec)
    parts = [face(spec), open_flap(spec), left, right, bottom_flap(spec)]
    return sum(area(part) for part in parts)


def _throat_flat(spec: EnvelopeSpec) -> float:
    """Returns half the length of the throat's level middle."""
    return (0.33 if spec.seam == "side" else 0.06) * spec.width_in


def _throat_corner(spec: EnvelopeSpec) -> Corner:
    """Returns the left corner where the throat's slope comes to its level middle."""
    return Corner(spec.width_in / 2 - _throat_flat(spec), spec.throat_in, spec.throat_radius_in)


def _throat_y(spec: EnvelopeSpec, x: float) -> float:
    """Returns y on the slope from the left end of the side fold to the throat's corner, or past."""
    corner = _throat_corner(spec)
    return spec.shoulder_in + (corner.y - spec.shoulder_in) * x / corner.x


def _bottom_side(spec: EnvelopeSpec) -> list[Corner]:
    """Returns the bottom flap's left corners from its side edge to the throat's level middle."""
    throat = _throat_corner(spec)
    if spec.seam == "side":
        shoulder_x = spec.seam_width_in * 0.45
        low = _throat_y(spec, shoulder_x) + shoulder_x
        edge = [Corner(spec.seam_inset_in, low, shoulder_x)]
    else:
        shoulder_x = spec.width_in * 0.36
        edge = []
    return [*edge, Corner(shoulder_x, _throat_y(spec, shoulder_x), 0.0175 * spec.width_in), throat]


def _seams(spec: EnvelopeSpec) -> tuple[Line, Line]:
    first = _bottom_side(spec)[0]
    left = Line(Point(spec.seam_inset_in, spec.height_in), first.point)
    return left, left.mapped(_mirror(spec))


def _fold(spec: EnvelopeSpec) -> Line:
    return Line(Point(spec.shoulder_in, 0.0), Point(spec.width_in - spec.shoulder_in, 0.0))


def _mirror(spec: EnvelopeSpec) -> Affine:
    return Affine(-1, 0, 0, 1, spec.width_in, 0)


def _other_side(spec: EnvelopeSpec, shape: Shape) -> Shape:
    return Shape(shape.outer.mapped(_mirror(spec)).reversed())
