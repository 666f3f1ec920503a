"""What is said of a band beside its strip: what it goes round, and how it is closed."""

from __future__ import annotations

from mockup.output.band_lines import LEGEND
from mockup.output.proof.notes import Note
from mockup.output.proof.plan import Telling
from mockup.output.proof.words import unbroken
from mockup.reading.binding import Bound, bound
from mockup.suite.suite import Piece
from mockup.units import format_length


def band_notes(telling: Telling, piece: Piece) -> list[Note]:
    """Returns what a piece goes round, if it is a band; to the studio with its measures."""
    bundle = next((each for each in bound(telling.suite) if each.band.name == piece.name), None)
    if bundle is None:
        return []
    *before, last = (card.title for card in bundle.cards)
    cards = f"{', '.join(before)} and {last}" if before else last
    way = "from side to side" if bundle.goes_across else "from head to foot"
    told = [f"{cards}, {way}. The middle of the strip is its front; its ends meet behind."]
    if telling.for_studio:
        told.append(_measures(telling, bundle))
        told.append(f"{LEGEND}.".capitalize())
    return [Note("Goes round", tuple(told))]


def _measures(telling: Telling, bundle: Bound) -> str:
    units = telling.suite.units
    girth = unbroken(format_length(bundle.girth_in, units))
    overlap = unbroken(format_length(abs(bundle.overlap_in), units))
    if bundle.overlap_in <= 0:
        return f"Girth {girth}; the ends stay {overlap} apart"
    over = "the right end over the left" if bundle.goes_across else "the lower end over the upper"
    return f"Girth {girth}; overlap {overlap}, {over}"
