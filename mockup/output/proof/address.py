"""A sample address on an envelope, where the post reads it; for the studio the zones too."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.colour.srgb import Rgb
from mockup.envelopes.lettering import LEADING
from mockup.geometry.affine import translation
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.plan import Telling
from mockup.output.typography import Style, line_width_in
from mockup.reading.envelope_type import (
    LARGEST_PT,
    SMALLEST_PT,
    SetType,
    address_area,
    type_on,
    zones_kept,
)
from mockup.suite.suite import Envelope

ADDRESS = ("A sample address", "The Tide Mill", "1 Samphire Hard", "Eelgrass Reach")
"""Of the demo's own world, so that nobody lives there."""

_SHARE = 0.8  # of the zone's height that the lines take at most
_ZONE_PT = 0.5


def draw_address(pdf: Pdf, telling: Telling, envelope: Envelope, at: Point, colour: Rgb) -> None:
    """Sets the address, her own or a sample in a colour, and what else is set on a face whose top
    left is `at`; the studio is shown the zones."""
    kept = zones_kept(telling.suite, envelope)
    draw_type(pdf, type_on(telling.suite, envelope, "face"), at)
    if envelope.outside.address is None:
        _draw_sample(pdf, address_area(envelope, kept), at, colour)
    if telling.for_studio:
        for zone in kept:
            corners = [(corner.x, corner.y) for corner in zone.box.corners()]
            box = Shape(polygon_outline(*corners)).mapped(translation(*at))
            pdf.stroke(box, colour, _ZONE_PT, (0.05, 0.04))


def draw_type(pdf: Pdf, blocks: Sequence[SetType], at: Point) -> None:
    """Sets lines of type on a side whose top left is `at`, each in its ink's colour."""
    for each in blocks:
        block = each.block
        style = Style(block.face, block.size_pt, block.size_pt * LEADING, each.colour)
        for line in block.lines:
            pdf.text(Point(at.x + line.at.x, at.y + line.at.y), line.text, style)


def _draw_sample(pdf: Pdf, room: Box, at: Point, colour: Rgb) -> None:
    style = _style(room, colour)
    wide = max(line_width_in(line, style) for line in ADDRESS)
    high = style.leading_in * (len(ADDRESS) - 1) + style.size_pt / 72 * 0.7
    left = at.x + room.centre.x - wide / 2
    y = at.y + room.centre.y - high / 2 + style.size_pt / 72 * 0.7
    for line in ADDRESS:
        pdf.text(Point(left, y), line, style)
        y += style.leading_in


def _style(room: Box, colour: Rgb) -> Style:
    """Returns the address's style: as large as its area holds, up to a hand's size."""
    size = min(LARGEST_PT, room.height * _SHARE * 72 / (len(ADDRESS) * LEADING))
    style = Style("text", size, size * LEADING, colour)
    wide = max(line_width_in(line, style) for line in ADDRESS)
    size = max(SMALLEST_PT, size * min(1.0, room.width / wide))
    return Style("text", size, size * LEADING, colour)
