"""Type set on an envelope: its lines in their places, and the colour their ink has on its paper."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import shapely

from mockup.colour.icc_reading import Condition, read_condition
from mockup.colour.ink import on_stock
from mockup.colour.lab import rgb_of_xyz
from mockup.colour.press import COATED, UNCOATED
from mockup.colour.printing import table_on
from mockup.colour.reflectance import of_paper
from mockup.colour.srgb import Rgb
from mockup.colour.white_ink import white_on
from mockup.envelopes.flap import closed_flap
from mockup.envelopes.lettering import LEADING, SetBlock, block_size_in, set_block
from mockup.geometry.flatten import polygon
from mockup.geometry.point import Box, Point
from mockup.suite.outside import EnvelopeSide, Ink, Lettering
from mockup.suite.suite import Envelope, Suite
from mockup.trade.postal import Zone, zones
from mockup.trade.postal_tables import likely_operator, postal_operator
from mockup.units import PT_PER_INCH

READ_AREA = "address read area"
LARGEST_PT, SMALLEST_PT = 17.0, 8.0  # a hand's size; USPS DMM 202.1: at least 8 pt
SENDER_PT, SENDER_LEAST_PT = 10.0, 5.0  # common practice, no source
DARK = 0.18  # judgement: of luminance; on darker paper black is not read
_SHARE = 0.8  # of the area's height that the lines take at most
_AREA = (0.18, 0.34, 0.92, 0.84)  # where no rule says: shares of the face, common practice
_SENDER_AT_IN = (0.4, 0.35)  # on the face, from its top left; common practice
_ON_FLAP = 0.4  # of the flap's depth below the fold; judgement: where it is widest, and clear of it
_CLEAR_IN = 0.25  # of the flap's edge; common practice


@dataclass(frozen=True)
class SetType:
    """Lines of type on a side, and the colour they are seen in on the envelope's paper."""

    what: str
    lettering: Lettering
    block: SetBlock
    colour: Rgb


def type_on(suite: Suite, envelope: Envelope, side: EnvelopeSide) -> tuple[SetType, ...]:
    """Returns the lines set on a side, inches from its top left as it is seen."""
    outside = envelope.outside
    named = (("address", outside.address), ("return address", outside.return_address))
    return tuple(
        SetType(what, each, _block(suite, envelope, each, what), ink_colour(envelope, each))
        for what, each in named
        if each is not None and each.side == side
    )


def zones_kept(suite: Suite, envelope: Envelope) -> tuple[Zone, ...]:
    """Returns the places the post keeps on an envelope's face, by the suite's post or the
    likeliest."""
    operator = postal_operator(suite.post_from or likely_operator(suite.paper, suite.units))
    return zones(operator, envelope.spec.width_in, envelope.spec.height_in)


def address_area(envelope: Envelope, kept: tuple[Zone, ...]) -> Box:
    """Returns where the address goes, inches from the face's top left."""
    read = next((zone.box for zone in kept if zone.name == READ_AREA), None)
    if read is not None:
        return read
    wide, high = envelope.spec.width_in, envelope.spec.height_in
    left, top, right, bottom = _AREA
    return Box(left * wide, top * high, right * wide, bottom * high)


def ink_of(envelope: Envelope, lettering: Lettering) -> Ink:
    """Returns what lines are printed in: as said, else black, on dark paper white ink."""
    if lettering.ink is not None:
        return lettering.ink
    return "white" if of_paper(envelope.colour).luminance < DARK else "black"


def ink_colour(envelope: Envelope, lettering: Lettering) -> Rgb:
    """Returns how the ink of lines looks on the envelope's paper, as its art would."""
    ink, paper = ink_of(envelope, lettering), envelope.colour
    if ink == "white":
        return white_on(paper, lettering.hits)
    if ink == "black":
        return rgb_of_xyz(table_on(_condition(envelope.stock.coated), paper)[0, 0, 0, -1])
    red, green, blue = on_stock(np.array([[ink]], np.uint8), paper)[0, 0]
    return int(red), int(green), int(blue)


@cache
def _condition(coated: bool) -> Condition:
    press = COATED if coated else UNCOATED
    return read_condition(press.profile.read_bytes())  # one that comes with the program


def _block(suite: Suite, envelope: Envelope, lettering: Lettering, what: str) -> SetBlock:
    if lettering.at is None and what == "address":
        area = address_area(envelope, zones_kept(suite, envelope))
        return _amid(lettering, lettering.size_pt or _size_in(lettering, area), area.centre)
    size_pt = lettering.size_pt or (LARGEST_PT if what == "address" else SENDER_PT)
    if lettering.at is not None:
        return set_block(lettering.lines, lettering.face, size_pt, lettering.align, lettering.at)
    if lettering.side == "face":
        at = Point(*_SENDER_AT_IN)
        return set_block(lettering.lines, lettering.face, size_pt, lettering.align, at)
    return _on_flap(envelope, lettering)


def _size_in(lettering: Lettering, area: Box) -> float:
    """Returns the size of an address: as large as its area holds, up to a hand's size."""
    lines = lettering.lines
    size = min(LARGEST_PT, area.height * _SHARE * PT_PER_INCH / (len(lines) * LEADING))
    wide_in, _ = block_size_in(lines, lettering.face, size)
    return max(SMALLEST_PT, size * min(1.0, area.width / max(wide_in, 1e-6)))


def _amid(lettering: Lettering, size_pt: float, middle: Point) -> SetBlock:
    wide, high = block_size_in(lettering.lines, lettering.face, size_pt)
    at = Point(middle.x - wide / 2, middle.y - high / 2)
    return set_block(lettering.lines, lettering.face, size_pt, lettering.align, at)


def _on_flap(envelope: Envelope, lettering: Lettering) -> SetBlock:
    """Returns a sender's lines amid the flap, smaller where they would come near its edge."""
    flap = closed_flap(envelope.spec)
    within = polygon(flap).buffer(-_CLEAR_IN)
    middle = Point(envelope.spec.width_in / 2, _ON_FLAP * envelope.spec.flap_depth_in)
    size_pt = lettering.size_pt or SENDER_PT
    block = _amid(lettering, size_pt, middle)
    while lettering.size_pt is None and size_pt > SENDER_LEAST_PT:
        if within.contains(shapely.box(*block.box)):
            break
        size_pt = max(SENDER_LEAST_PT, size_pt - 0.5)
        block = _amid(lettering, size_pt, middle)
    return block
