"""What is said of what an envelope bears: its art, the type set on it, what is in a print file."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.artwork.art import Art
from mockup.colour.srgb import to_hex
from mockup.output.proof.notes import Note
from mockup.output.proof.plan import Telling
from mockup.output.proof.words import art_words, file_mark, finish_notes, press_notes, sentence
from mockup.reading.envelope_sides import PrintedSide, printed_sides
from mockup.reading.envelope_type import SetType, ink_of, type_on
from mockup.suite.suite import Envelope

_CALLED = {"face": "address side"}
_SAMPLE = "A sample, set by us: in no print file"


def side_notes(telling: Telling, envelope: Envelope) -> list[Note]:
    """Returns what is said of an envelope's sides. Raises what reading their art raises."""
    printed = printed_sides(envelope, telling.suite.bleed_in)
    notes = [Note(f"Printed on the {_called(each)}", _printed(telling, each)) for each in printed]
    return [*notes, *_set(telling, envelope)]


def _called(side: PrintedSide) -> str:
    return _CALLED.get(side.called, side.called)


def _printed(telling: Telling, side: PrintedSide) -> tuple[str, ...]:
    art: Art = side.piece.art
    if not telling.for_studio:
        return finish_notes(art) or ("As drawn here",)
    inks = press_notes(art, side.piece.stock)
    return (art_words(art), f"file {file_mark(art)}", *inks)


def _set(telling: Telling, envelope: Envelope) -> Iterator[Note]:
    """Yields a note of each block of type that is set; her own art says for itself what it is."""
    for side in ("face", "flap"):
        for each in type_on(telling.suite, envelope, side):
            told = [f"In {_ink_told(envelope, each)}", _SAMPLE]
            if telling.for_studio:
                told.insert(0, f"{each.block.face}, {each.block.size_pt:.3g}\u00a0pt")
            yield Note(sentence(each.what), tuple(told))


def _ink_told(envelope: Envelope, each: SetType) -> str:
    ink = ink_of(envelope, each.lettering)
    if ink == "white":
        hits = each.lettering.hits
        return "white ink" if hits == 1 else f"white ink, {hits} hits"
    return ink if isinstance(ink, str) else f"the colour {to_hex(ink)}"
