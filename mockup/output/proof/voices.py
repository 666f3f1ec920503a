"""What is said beside a piece or an envelope: to the client its size and make in words, to the
studio every number as well."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from mockup.dies import Die
from mockup.dies.folding import closed_size
from mockup.envelopes.liner import liner_shape
from mockup.output.proof.aside import Aside, aside_notes
from mockup.output.proof.band_words import band_notes
from mockup.output.proof.envelope_notes import side_notes
from mockup.output.proof.finish_map import finish_notes_drawn
from mockup.output.proof.layout import Layout, is_folded, larger_paper
from mockup.output.proof.notes import Note
from mockup.output.proof.plan import Telling
from mockup.output.proof.words import (
    art_words,
    colour_words,
    die_measures,
    die_name,
    envelopes_of,
    file_mark,
    finishes_in_brief,
    held_by,
    paper_words,
    press_notes,
    sentence,
    size_name,
    size_told,
    size_told_otherwise,
    stock_words,
    template_words,
    unbroken,
)
from mockup.suite.audience import Audience
from mockup.suite.suite import Envelope, Piece
from mockup.units import Unit, format_length, format_size

TRUE_SIZE = "True size, 100\u00a0%"


def card_notes(telling: Telling, piece: Piece, aside: Aside, folded: str) -> tuple[Note, ...]:
    """Returns what is said beside a piece; `folded` says that and why its page is larger."""
    return _CARD[telling.audience](telling, piece, aside, folded)


def outside_notes(telling: Telling, envelope: Envelope, folded: str) -> tuple[Note, ...]:
    """Returns what is said beside an envelope as it is posted."""
    spec = envelope.spec
    size = _size(spec.width_in, spec.height_in, envelope.size.name, telling.suite.units)
    paper = stock_words if telling.for_studio else paper_words
    notes = [
        Note("Drawn", (TRUE_SIZE, *_told(folded))),
        Note("Size", size),
        Note("Colour", (colour_words(envelope.colour_name),)),
        Note("Paper", (paper(envelope.stock, telling.suite.units),)),
        *side_notes(telling, envelope),
    ]
    held = held_by(telling.suite, envelope)
    if held:
        notes.append(Note("Holds", (held,)))
    return (*notes, *_quantity(envelope.quantity))


def inside_notes(telling: Telling, envelope: Envelope, folded: str) -> tuple[Note, ...]:
    """Returns what is said beside an envelope open."""
    spec, units = envelope.spec, telling.suite.units
    deep = unbroken(f"{format_length(spec.flap_depth_in, units)} deep")
    flap = sentence(spec.flap.replace("-", " "))
    notes = [
        Note("Drawn", (TRUE_SIZE, *_told(folded))),
        Note("Flap", (f"{flap}, {deep}" if telling.for_studio else flap,)),
        *_liner_notes(telling, envelope),
    ]
    told = "Makers cut and fold each their own way. Hold a real one before you order"
    told += ", and measure it before liners are cut." if envelope.liner else "."
    return (*notes, Note("Please note", (told,)))


def folded_words(paper: str, layout: Layout, units: Unit) -> str:
    """Returns that a page is folded out, to what size, and what it is printed on; or nothing."""
    if not is_folded(paper, layout):
        return ""
    size = unbroken(format_size(layout.width_in, layout.height_in, units))
    larger = larger_paper(paper, layout.width_in, layout.height_in)
    on = f"it is printed whole on {unbroken(larger)}" if larger else "no usual paper holds it whole"
    name = {"letter": "letter", "a4": "A4"}[paper]
    return f"A page folded out to {size}, larger than {name} paper: {on}."


def _client_card(telling: Telling, piece: Piece, aside: Aside, folded: str) -> tuple[Note, ...]:
    suite = telling.suite
    notes = [
        Note("Drawn", (TRUE_SIZE, *_told(folded))),
        Note("Size", _card_size(piece, suite.units)),
        *_folds(piece, suite.units),
        *band_notes(telling, piece),
        Note("Shape", (die_name(piece.die),)),
        Note("Paper", (paper_words(piece.stock, suite.units),)),
        *finish_notes_drawn(piece),
        *_noted("Shown here", finishes_in_brief(piece.art)),
        *_quantity(piece.quantity),
        *_goes_in(telling, piece),
        Note("The thin line", ("Where the blade cuts. It is not printed.",)),
        *aside_notes(piece, aside),
    ]
    return (*notes, Note("Fingerprint", (telling.code(piece),)))


def _studio_card(telling: Telling, piece: Piece, aside: Aside, folded: str) -> tuple[Note, ...]:
    suite, units = telling.suite, telling.suite.units
    line = unbroken(f"{suite.cut_line.width_pt:g} pt")
    lines = f"Cut black, {line}, not printed; bleed dashed, red; safe margin dotted, blue"
    lines += "; fold long dashes, green" if piece.die.folds else ""
    die = tuple(text for text in (die_name(piece.die), die_measures(piece.die, units)) if text)
    bleed, safe = (
        unbroken(format_length(each, units)) for each in (piece.bleed_in, telling.safe_in)
    )
    notes = [
        Note("Drawn", (TRUE_SIZE, *_told(folded), lines)),
        Note("Size", _card_size(piece, units)),
        *_folds(piece, units),
        *band_notes(telling, piece),
        Note("Die", die),
        Note("Margins", (f"bleed {bleed}, safe {safe}",)),
        Note("Stock", (stock_words(piece.stock, units),)),
        *finish_notes_drawn(piece),
        *_noted("Inks shown as", press_notes(piece.art, piece.stock)),
        *_quantity(piece.quantity),
        *_noted("Price", telling.prices.get(piece.name, ())),
        *_goes_in(telling, piece),
        Note("Art", (art_words(piece.art), f"file {file_mark(piece.art)}")),
        Note("Fingerprint", (telling.code(piece),)),
        *_noted("Template", template_words(_of_template(piece), units)),
    ]
    return (*notes, *aside_notes(piece, aside))


_CARD: dict[Audience, Callable[[Telling, Piece, Aside, str], tuple[Note, ...]]] = {
    Audience.CLIENT: _client_card,
    Audience.STUDIO: _studio_card,
}


def _liner_notes(telling: Telling, envelope: Envelope) -> list[Note]:
    liner = envelope.liner
    if liner is None:
        return []
    if not telling.for_studio:
        paper = paper_words(liner.stock, telling.suite.units)
        return [Note("Liner", (paper,)), *_noted("Shown here", finishes_in_brief(liner.art))]
    box = liner_shape(envelope.spec).box
    told = (
        size_told(box.width, box.height, envelope.units),
        stock_words(liner.stock, telling.suite.units),
        art_words(liner.art),
        f"file {file_mark(liner.art)}",
    )
    return [
        Note("Liner", told),
        *_noted("Its inks shown as", press_notes(liner.art, liner.stock)),
    ]


def _of_template(piece: Piece) -> Die:
    """Returns a side's die with the folds its template draws: that of a folded card is our own."""
    return piece.die if piece.fold is None else replace(piece.die, folds=piece.die.folds[1:])


def _folds(piece: Piece, units: Unit) -> list[Note]:
    """Returns what a folded card's flat sheet is folded to, and which half of it is the front."""
    if piece.fold is None:
        return []
    closed = closed_size(piece.die.width_in, piece.die.height_in, piece.fold)
    own = size_name(piece.card.name)
    size = size_told(*closed, units) + (f", {own}" if own else "")
    half = "right" if piece.fold == "left" else "lower"
    where = f"The {half} half is the front" if piece.side == "outside" else (
        f"The {half} half lies under the front")  # fmt: skip
    return [Note("Folded", (f"At the {piece.fold}, to {size}", where))]


def _card_size(piece: Piece, units: Unit) -> tuple[str, ...]:
    if piece.fold is not None:
        flat = (piece.die.width_in, piece.die.height_in)
        return f"{size_told(*flat, units)} flat", size_told_otherwise(*flat, units)
    return _size(piece.die.width_in, piece.die.height_in, piece.card.name, units)


def _size(width_in: float, height_in: float, name: str, units: Unit) -> tuple[str, ...]:
    own = size_name(name)
    first = size_told(width_in, height_in, units) + (f", {own}" if own else "")
    return first, size_told_otherwise(width_in, height_in, units)


def _quantity(quantity: int | None) -> list[Note]:
    return [] if quantity is None else [Note("Quantity", (f"{quantity:,}",))]


def _goes_in(telling: Telling, piece: Piece) -> list[Note]:
    envelopes = envelopes_of(telling.suite, piece)
    return [Note("Goes in", (envelopes,))] if envelopes else []


def _noted(label: str, told: Sequence[str]) -> list[Note]:
    return [Note(label, tuple(told))] if told else []


def _told(text: str) -> tuple[str, ...]:
    return (text,) if text else ()
