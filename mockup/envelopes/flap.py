"""The flap: its corners, its outline open and folded down, and the gum on it."""

from __future__ import annotations

import math

from mockup.envelopes.corners import Corner, rounded
from mockup.envelopes.spec import EnvelopeSpec
from mockup.geometry.affine import scaling
from mockup.geometry.outline import Outline, Shape

STRAIGHT_TAPER = 1 / 8  # a straight flap's sides lean in by this much of its depth; common practice


def flap_corners(spec: EnvelopeSpec) -> list[Corner]:
    """Returns the open flap's corners, clockwise as seen, from the fold's left end to its right.

    Inches, origin at the top left of the body as seen from the back, flap towards negative y.
    """
    left, right = spec.shoulder_in, spec.width_in - spec.shoulder_in
    top = -spec.flap_depth_in
    if spec.flap == "straight":
        lean = STRAIGHT_TAPER * spec.flap_depth_in
        upper = [
            Corner(left + lean, top, spec.tip_radius_in),
            Corner(right - lean, top, spec.tip_radius_in),
        ]
    else:
        rise = -spec.shoulder_rise_in
        upper = [
            Corner(left, rise, spec.shoulder_radius_in),
            Corner(spec.width_in / 2, top, spec.tip_radius_in),
            Corner(right, rise, spec.shoulder_radius_in),
        ]
    return [Corner(left, 0.0), *upper, Corner(right, 0.0)]


def open_flap(spec: EnvelopeSpec) -> Shape:
    """Returns the flap as it stands open above the fold."""
    return Shape(rounded(flap_corners(spec)))


def closed_flap(spec: EnvelopeSpec) -> Shape:
    """Returns the flap folded down on the pocket: the open one mirrored in the top fold."""
    return Shape(rounded(flap_corners(spec)).mapped(scaling(1, -1)).reversed())


def gummed_edge_y(spec: EnvelopeSpec, x: float, inset_in: float) -> float:
    """Returns y of the line `inset_in` inside the left gummed edge of the flap, at `x`.

    A straight flap is gummed along its far edge, a pointed one along both slopes.
    """
    if spec.flap == "straight":
        return inset_in - spec.flap_depth_in
    slope = spec.gummed_slope
    at_shoulder = -spec.shoulder_rise_in - slope * (x - spec.shoulder_in)
    return at_shoulder + inset_in * math.hypot(1, slope)


def gum_strip(spec: EnvelopeSpec) -> Shape:
    """Returns the gummed strip on the inside of the open flap, cut square at both ends."""
    near, far = spec.gum_offset_in, spec.gum_offset_in + spec.gum_width_in
    inner_end, outer_end = _gum_ends(spec, near, far)
    if spec.flap == "straight":
        ridge, valley = [], []
    else:
        ridge, valley = [_gum_tip(spec, near)], [_gum_tip(spec, far)]
    corners = [
        Corner(inner_end, gummed_edge_y(spec, inner_end, far)),
        Corner(outer_end, gummed_edge_y(spec, outer_end, near)),
        *ridge,
        Corner(spec.width_in - outer_end, gummed_edge_y(spec, outer_end, near)),
        Corner(spec.width_in - inner_end, gummed_edge_y(spec, inner_end, far)),
        *valley,
    ]
    return Shape(rounded(corners))


def _gum_ends(spec: EnvelopeSpec, near: float, far: float) -> tuple[float, float]:
    """Returns x of the strip's left end on its inner and on its outer line."""
    if spec.flap == "straight":  # between the rounded corners
        end = spec.shoulder_in + STRAIGHT_TAPER * spec.flap_depth_in + spec.tip_radius_in
        return end + near, end + near
    bare = spec.shoulder_in + max(near, spec.shoulder_radius_in)
    slope = spec.gummed_slope
    back = (far - near) * slope / math.hypot(1, slope)  # from inner to outer end, across the strip
    middle = spec.width_in / 2
    # Where the inner line comes down to the bare margin above the fold.
    at_fold = middle - (-near - gummed_edge_y(spec, middle, far)) / slope
    inner_end = max(bare + back, at_fold)
    return inner_end, inner_end - back


def _gum_tip(spec: EnvelopeSpec, inset_in: float) -> Corner:
    middle = spec.width_in / 2
    radius = max(0.0, spec.tip_radius_in - inset_in)
    return Corner(middle, gummed_edge_y(spec, middle, inset_in), radius)


def sheet_outline(spec: EnvelopeSpec) -> Outline:
    """Returns the outline of face panel and open flap, one sheet, notched at the shoulders."""
    width, height = spec.width_in, spec.height_in
    return rounded(
        [
            Corner(0.0, height, spec.corner_radius_in),
            Corner(0.0, 0.0, spec.shoulder_in),
            *flap_corners(spec),
            Corner(width, 0.0, spec.shoulder_in),
            Corner(width, height, spec.corner_radius_in),
        ]
    )
