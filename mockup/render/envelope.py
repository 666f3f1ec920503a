"""An open envelope as the sheets of paper it is folded from, each with its art and thickness."""

from __future__ import annotations

from mockup.artwork.page import ArtPage, Placement, place_card, read_page
from mockup.envelopes.liner import liner_placement, liner_shape
from mockup.errors import InputError
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box
from mockup.suite.suite import Envelope, Liner
from mockup.units import Unit, format_length, format_size


def liner_art(
    envelope: Envelope, liner: Liner, bleed_in: float
) -> tuple[ArtPage, Placement, Affine]:
    """Returns a liner's art page, where the liner's box lies on it, and the map to the envelope.

    The map goes from the liner's inches, origin at the top left of its box, to those of the
    envelope's back. The art may be of the liner's own size, or a larger sheet, whose middle is
    taken. Raises InputError for art that is too small, with the measure.
    """
    box = liner_shape(envelope.spec).box
    page = read_page(liner.art)
    to_envelope = liner_placement(envelope.spec)
    try:
        return page, place_card(page, box.width, box.height, bleed_in, envelope.units), to_envelope
    except InputError:
        return page, _middle(page, box, envelope.units), to_envelope


def _middle(page: ArtPage, box: Box, units: Unit) -> Placement:
    sheet = page.trim or page.visible
    short_wide, short_high = box.width - page.visible.width, box.height - page.visible.height
    if short_wide > 0 or short_high > 0:
        raise InputError(
            f"{page.where}: the art is "
            f"{format_size(page.visible.width, page.visible.height, units)}, the liner needs "
            f"{format_size(box.width, box.height, units)}: "
            f"{format_length(max(short_wide, 0), units)} more width, "
            f"{format_length(max(short_high, 0), units)} more height"
        )
    left = sheet.centre.x - box.width / 2
    top = sheet.centre.y - box.height / 2
    trim = Box(left, top, left + box.width, top + box.height)
    bleed_in = min(trim.left, trim.top, page.visible.right - trim.right)
    return Placement(trim, max(0.0, bleed_in), "a larger sheet, its middle taken")
