"""The liner: its cutting shape, where it lies in the envelope, and whether it does its work."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely.geometry import box

from mockup.envelopes.corners import Corner, inset_sides, rounded
from mockup.envelopes.flap import flap_corners, gummed_edge_y
from mockup.envelopes.spec import EnvelopeSpec
from mockup.geometry.affine import Affine, translation
from mockup.geometry.flatten import polygon
from mockup.geometry.outline import Shape

LINER_RADIUS_IN = 1 / 16  # corners are eased, so that none lifts; common practice

# What the three measures of LinerFit must at least be; common practice.
GUM_BARE_IN = 0.0
RAW_EDGE_HIDDEN_IN = 1 / 2
SIDE_PLAY_IN = 1 / 8


@dataclass(frozen=True)
class LinerFit:
    """How a liner sits, inches: each at least its limit, or the liner fails in that way."""

    gum_clearance_in: float
    """From the gum to the liner; below 0 the liner covers gum and the flap will not close."""
    hidden_in: float
    """How far below the throat the raw edge lies; below 1/2 it may show."""
    side_play_in: float
    """How much narrower than the envelope it is; below 1/8 it does not slide in."""


def liner_in_envelope(spec: EnvelopeSpec) -> Shape:
    """Returns the liner where it lies: body and flap part as one convex sheet, inches.

    Origin top left of the body as seen from the back. Sides `liner_side_in` inside the envelope's,
    gummed edges of the flap kept bare by `liner_inset_in`.
    """
    flap = flap_corners(spec)
    side = spec.liner_side_in - spec.shoulder_in
    bottom_left = Corner(spec.shoulder_in, spec.liner_bottom_in)
    bottom_right = Corner(spec.width_in - spec.shoulder_in, spec.liner_bottom_in)
    if spec.flap == "straight":
        around, far_edges = [bottom_left, *flap, bottom_right], [side, spec.liner_inset_in, side]
    else:
        # The straight rise at the shoulder goes on in the side of the body.
        around, far_edges = [bottom_left, *flap[1:-1], bottom_right], [spec.liner_inset_in] * 2
    corners = inset_sides(around, [side, *far_edges, side, 0.0])
    eased = [Corner(c.x, c.y, max(c.radius, LINER_RADIUS_IN)) for c in corners]
    return Shape(rounded(eased))


def liner_shape(spec: EnvelopeSpec) -> Shape:
    """Returns the liner as it is ordered and cut: origin at the top left of its box, tip up."""
    return liner_in_envelope(spec).mapped(liner_placement(spec).inverse())


def liner_placement(spec: EnvelopeSpec) -> Affine:
    """Returns the map from the liner's own coordinates to those of the envelope's back."""
    left, top, _, _ = liner_in_envelope(spec).box
    return translation(left, top)


def liner_fit(spec: EnvelopeSpec, liner: Shape) -> LinerFit:
    """Returns the measures of any liner, given where it lies in the envelope.

    Measured on its outline, so that a liner cut to another template is judged by what it is.
    """
    extent = liner.box
    return LinerFit(
        gum_clearance_in=_edge_clearance(spec, liner) - spec.gum_offset_in - spec.gum_width_in,
        hidden_in=extent.bottom - spec.throat_in,
        side_play_in=spec.width_in - extent.width,
    )


def _edge_clearance(spec: EnvelopeSpec, liner: Shape) -> float:
    """Returns the least distance of the liner's part on the flap from a gummed edge, inches."""
    around = liner.box.grown(1)
    on_flap = polygon(liner).intersection(box(around.left, around.top, around.right, 0))
    if on_flap.is_empty:
        return spec.flap_depth_in
    points = np.concatenate(
        [np.asarray(part.exterior.coords) for part in getattr(on_flap, "geoms", [on_flap])]
    )
    mirrored = np.minimum(points[:, 0], spec.width_in - points[:, 0])  # to the left half
    edge_y = np.array([gummed_edge_y(spec, x, 0.0) for x in mirrored])
    return float((points[:, 1] - edge_y).min() / np.hypot(1, spec.gummed_slope))
