"""A sample address on an envelope, where the post reads it; for the studio the zones too."""

from __future__ import annotations

from mockup.colour.srgb import Rgb
from mockup.geometry.affine import translation
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.plan import Telling
from mockup.output.typography import Style, line_width_in
from mockup.suite.suite import Envelope
from mockup.trade.postal import Zone, zones
from mockup.trade.postal_tables import likely_operator, postal_operator

ADDRESS = ("A sample address", "The Tide Mill", "1 Samphire Hard", "Eelgrass Reach")
"""Of the demo's own world, so that nobody lives there."""

_READ = "address read area"
_LARGEST_PT, _SMALLEST_PT = 17.0, 8.0
_LEADING = 1.35
_SHARE = 0.8  # of the zone's height that the lines take at most
_AREA = (0.18, 0.34, 0.92, 0.84)  # where no rule says: shares of the face, common practice
_ZONE_PT = 0.5


def draw_address(pdf: Pdf, telling: Telling, envelope: Envelope, at: Point, colour: Rgb) -> None:
    """Sets the sample address on a face whose top left is `at`; the studio is shown the zones."""
    kept = zones_of(telling, envelope)
    room = address_area(envelope, kept)
    style = _style(room, colour)
    wide = max(line_width_in(line, style) for line in ADDRESS)
    high = style.leading_in * (len(ADDRESS) - 1) + style.size_pt / 72 * 0.7
    left = at.x + room.centre.x - wide / 2
    y = at.y + room.centre.y - high / 2 + style.size_pt / 72 * 0.7
    for line in ADDRESS:
        pdf.text(Point(left, y), line, style)
        y += style.leading_in
    if telling.for_studio:
        for zone in kept:
            corners = [(corner.x, corner.y) for corner in zone.box.corners()]
            box = Shape(polygon_outline(*corners)).mapped(translation(*at))
            pdf.stroke(box, colour, _ZONE_PT, (0.05, 0.04))


def zones_of(telling: Telling, envelope: Envelope) -> tuple[Zone, ...]:
    """Returns the places the post keeps on an envelope's face, by the suite's post or the
    likeliest."""
    suite = telling.suite
    operator = postal_operator(suite.post_from or likely_operator(suite.paper, suite.units))
    return zones(operator, envelope.spec.width_in, envelope.spec.height_in)


def address_area(envelope: Envelope, kept: tuple[Zone, ...]) -> Box:
    """Returns where the address goes, inches from the face's top left."""
    read = next((zone.box for zone in kept if zone.name == _READ), None)
    if read is not None:
        return read
    wide, high = envelope.spec.width_in, envelope.spec.height_in
    left, top, right, bottom = _AREA
    return Box(left * wide, top * high, right * wide, bottom * high)


def _style(room: Box, colour: Rgb) -> Style:
    """Returns the address's style: as large as its area holds, up to a hand's size."""
    size = min(_LARGEST_PT, room.height * _SHARE * 72 / (len(ADDRESS) * _LEADING))
    style = Style("text", size, size * _LEADING, colour)
    wide = max(line_width_in(line, style) for line in ADDRESS)
    size = max(_SMALLEST_PT, size * min(1.0, room.width / wide))
    return Style("text", size, size * _LEADING, colour)
