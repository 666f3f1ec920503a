"""What an envelope is made from: face, flap, shoulders, throat, seams, gum line, liner.

No standard for social envelopes was found: every default here is common practice, and every one
can be replaced by a measurement of the envelope in hand.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Literal

from mockup.errors import Mistake, SuiteError, nearest
from mockup.units import Unit, format_length

Flap = Literal["straight", "pointed", "deep-pointed"]
Seam = Literal["side", "diagonal"]

FLAPS: tuple[Flap, ...] = ("straight", "pointed", "deep-pointed")

# Fractions of the envelope's height; the middle of the trade's ranges. Common practice.
FLAP_DEPTH: dict[Flap, float] = {"straight": 0.38, "pointed": 0.56, "deep-pointed": 0.78}
THROAT: dict[Flap, float] = {"straight": 1 / 7, "pointed": 4 / 21, "deep-pointed": 4 / 21}
SEAM: dict[Flap, Seam] = {"straight": "side", "pointed": "diagonal", "deep-pointed": "diagonal"}
TIP_RADIUS_IN: dict[Flap, float] = {"straight": 3 / 8, "pointed": 1 / 4, "deep-pointed": 1 / 4}


@dataclass(frozen=True)
class EnvelopeSpec:
    """An envelope's measures in inches, seen from the back with the flap up."""

    width_in: float
    height_in: float
    flap: Flap
    seam: Seam
    flap_depth_in: float
    """From the top fold to the tip of the flap."""
    shoulder_in: float
    """How far in from the side the flap leaves the top fold, each side."""
    shoulder_rise_in: float
    """How far a pointed flap rises straight before it turns to the tip."""
    shoulder_radius_in: float
    tip_radius_in: float
    corner_radius_in: float
    throat_in: float
    """From the top fold down to the pocket's edge, in the middle."""
    throat_radius_in: float
    seam_inset_in: float
    """How far the bottom flap stays from the side folds, each side."""
    seam_width_in: float
    """How far a side flap reaches under the bottom flap of a side-seam envelope."""
    gum_offset_in: float
    """Bare paper between the flap's edge and the gum."""
    gum_width_in: float
    liner_side_in: float
    """How much narrower than the envelope the liner is, each side."""
    liner_inset_in: float
    """From the gummed edges of the flap to the liner."""
    liner_bottom_in: float
    """From the top fold down to the liner's raw edge."""

    @property
    def gummed_slope(self) -> float:
        """How much the flap's left gummed edge rises for an inch to the right; 0 if straight.

        A straight flap is gummed along its far edge, a pointed one along both slopes.
        """
        if self.flap == "straight":
            return 0.0
        rise = self.flap_depth_in - self.shoulder_rise_in
        return rise / (self.width_in / 2 - self.shoulder_in)


def envelope_spec(
    width_in: float,
    height_in: float,
    flap: str = "pointed",
    overrides: Mapping[str, float] | None = None,
    units: Unit = "in",
) -> EnvelopeSpec:
    """Returns an envelope of the usual proportions, with any measure of it replaced.

    The flap hinges on the top side, `width_in` long. `overrides` are lengths in inches by the names
    of EnvelopeSpec's fields. Raises SuiteError for an unknown flap or field, and for measures that
    make no envelope, told in `units`; such a mistake's key is the field's name.
    """
    if flap not in FLAPS:
        raise SuiteError(f'no flap called "{flap}"{nearest(flap, FLAPS)}; allowed: {_list(FLAPS)}')
    kind: Flap = next(known for known in FLAPS if known == flap)
    measures = _usual(width_in, height_in, kind)
    given = dict(overrides or {})
    for name in given:
        if name not in measures:
            hint = nearest(name, measures)
            raise SuiteError(f'no envelope measure called "{name}"{hint}')
    measures.update(given)
    if "liner_inset_in" not in given:  # follows the gum, wherever that was put
        gum = measures["gum_offset_in"] + measures["gum_width_in"]
        measures["liner_inset_in"] = gum + 1 / 16
    spec = EnvelopeSpec(width_in, height_in, kind, SEAM[kind], **measures)
    _check(spec, units)
    return spec


def _usual(width_in: float, height_in: float, flap: Flap) -> dict[str, float]:
    """Returns the usual measures by field name, inches; common practice."""
    return {
        "flap_depth_in": FLAP_DEPTH[flap] * height_in,
        "shoulder_in": 1 / 16,
        "shoulder_rise_in": 1 / 8,
        "shoulder_radius_in": 1 / 8,
        "tip_radius_in": TIP_RADIUS_IN[flap],
        "corner_radius_in": 1 / 32,
        "throat_in": max(0.5, THROAT[flap] * height_in),
        "throat_radius_in": 0.1 * width_in,
        "seam_inset_in": 1 / 32,
        "seam_width_in": max(0.25, 0.1 * width_in),
        "gum_offset_in": 1 / 16,
        "gum_width_in": 3 / 8,
        "liner_side_in": 1 / 8,
        "liner_inset_in": 1 / 2,
        "liner_bottom_in": height_in - 1 / 4,
    }


def _check(spec: EnvelopeSpec, units: Unit) -> None:
    """Raises SuiteError where measures contradict one another."""
    for item in fields(spec):
        value = getattr(spec, item.name)
        if isinstance(value, str):
            continue
        if not (math.isfinite(value) and value >= 0):
            said = f"envelope {_words(item.name)} is {value}; it must be a length of 0 or more"
            raise SuiteError(Mistake(said, key=item.name))
    width, height = spec.width_in, spec.height_in
    # The farthest a line along the gummed edges may be inset and still lie on the flap.
    deepest_inset = 0.7 * spec.flap_depth_in / math.hypot(1, spec.gummed_slope)
    limits = [  # name, least, most, what the most comes from
        ("width_in", 2.2, 40.0, "what the program draws"),
        ("height_in", 2.2, 40.0, "what the program draws"),
        ("flap_depth_in", 0.75, height - 0.125, "the face below it"),
        ("throat_in", 0.25, height * 0.5, "half the height"),
        ("shoulder_in", 0.0, 0.25, "a quarter inch"),
        ("shoulder_rise_in", 0.01, spec.flap_depth_in * 0.5, "half the flap"),
        ("seam_width_in", 0.25, width * 0.25, "a quarter of the width"),
        ("seam_inset_in", 0.0, 0.25, "a quarter inch"),
        ("liner_side_in", spec.shoulder_in, width * 0.25, "a quarter of the width"),
        ("liner_bottom_in", spec.throat_in, height, "the bottom fold"),
        ("gum_offset_in", 0.0, 0.5, "half an inch"),
        ("gum_width_in", 1 / 16, deepest_inset - spec.gum_offset_in, "what the flap leaves"),
        ("liner_inset_in", 0.0, deepest_inset, "what the flap leaves"),
    ]
    for name, least, most, reason in limits:
        value = getattr(spec, name)
        if not least - 1e-9 <= value <= most + 1e-9:
            said = (
                f"envelope {_words(name)} is {format_length(value, units)}; for this envelope it "
                f"is from {format_length(least, units)} to {format_length(most, units)} ({reason})"
            )
            raise SuiteError(Mistake(said, key=name))


def _words(field: str) -> str:
    return field.removesuffix("_in").replace("_", " ")


def _list(names: tuple[str, ...]) -> str:
    return ", ".join(names)
