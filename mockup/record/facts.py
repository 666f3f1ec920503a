"""All that makes a piece or an envelope what it is, as plain facts: a name, a value, its words.

A fact that is not said (no quantity, no liner) is not there at all, so that a fact the program
learns to read one day leaves the fingerprints of suites that do not use it as they were.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, fields

from mockup.artwork.art import Art
from mockup.colour.srgb import to_hex
from mockup.colour.white_ink import BY_PLATE, WhiteInk
from mockup.dies import Die
from mockup.dies.wording import parameters_told
from mockup.envelopes.spec import EnvelopeSpec
from mockup.geometry.outline import Arc, Cubic, Line, Segment, Shape
from mockup.record.finish_facts import edge_said, finishes_said
from mockup.suite.outside import Lettering
from mockup.suite.suite import Envelope, Liner, Piece
from mockup.trade.papers import Stock
from mockup.trade.swatch import Swatch
from mockup.units import Unit, format_caliper, format_length, format_size

OUTLINE_STEP_IN = 1e-5  # judgement: a hundredth of what a die maker holds
_OFF_STEP = 0.382  # so that no fraction people write lies where two steps meet


@dataclass(frozen=True)
class Fact:
    """One fact: its name in plain words, its value to the last digit that counts, and how a reader
    is told it."""

    name: str
    value: str
    told: str


def piece_facts(piece: Piece) -> tuple[Fact, ...]:
    """Returns the facts of a piece, in the order they are told."""
    return tuple(fact for facts in PIECE_FACTS for fact in facts(piece))


def envelope_facts(envelope: Envelope, bleed_in: float) -> tuple[Fact, ...]:
    """Returns the facts of an envelope and its liner; `bleed_in` is what liner art should have."""
    told = [fact for facts in ENVELOPE_FACTS for fact in facts(envelope)]
    if envelope.liner is not None:
        told += _length("liner bleed", bleed_in, envelope.units)
    return tuple(told)


def _said(name: str, value: str | int | float | None, told: str = "") -> list[Fact]:
    """Returns a fact, or none where there is nothing to say: no value, an empty text, false."""
    if value is None or value == "" or value is False:
        return []
    text = "yes" if value is True else _figure(value) if isinstance(value, float) else str(value)
    return [Fact(name, text, told or text)]


def _figure(value: float) -> str:
    """Returns a number to a millionth: of an inch, finer than light is long."""
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _length(name: str, length_in: float, units: Unit) -> list[Fact]:
    return _said(name, _figure(length_in), format_length(length_in, units))


def _size(width_in: float, height_in: float, units: Unit) -> list[Fact]:
    value = f"{_figure(width_in)} x {_figure(height_in)}"
    return _said("size", value, format_size(width_in, height_in, units))


def _art(name: str, art: Art) -> Iterator[Fact]:
    """Yields the file's bytes, its page, the marks not shown, the press of the user's own."""
    yield Fact(name, art.sha256, art.path.name)
    yield Fact(f"{name} page", str(art.page), str(art.page))
    marks = ", ".join(map(str, sorted(art.left_out)))
    yield from _said(f"{name} marks left out", marks, str(len(art.left_out)))
    yield from _said(f"{name} white ink", _white(art.white))
    yield from _said(f"{name} press", art.press.sha256, art.press.profile.name)
    for number, (value, told) in enumerate(finishes_said(art.finishing), 1):
        yield Fact(f"{name} finish {number}", value, told)


def _white(white: WhiteInk) -> str:
    """Returns where white ink goes; nothing where it is left to the art's own white plate."""
    if white == BY_PLATE:
        return ""
    hits = f", {white.hits} hits" if white.hits > 1 else ""
    return f"{white.rule.replace('-', ' ')}{hits}"


def _wraps(piece: Piece) -> Iterator[Fact]:
    """Yields what a band goes round and where; how a picture shows it is no part of it."""
    if piece.wraps is not None:
        yield from _said("goes round", ", ".join(piece.wraps.cards))
        if piece.wraps.at_in is not None:
            yield from _length("goes round at", piece.wraps.at_in, piece.units)
        yield from _said("goes round along", piece.wraps.along)
        if piece.wraps.overlap_in is not None:
            yield from _length("overlap", piece.wraps.overlap_in, piece.units)


def _cord(piece: Piece) -> Iterator[Fact]:
    """Yields a cord's colour and thickness; the hole it goes through is in the die's outline."""
    if piece.cord is not None:
        yield from _said("cord", to_hex(piece.cord.colour))
        yield from _length("cord thickness", piece.cord.thickness_in, piece.units)


def _stock(name: str, stock: Stock, units: Unit) -> Iterator[Fact]:
    low, high = stock.caliper_range_mil
    spread = f"{format_caliper(low, units)} to {format_caliper(high, units)}"
    yield Fact(name, stock.name, stock.name.replace("-", " "))
    yield from _said(f"{name} weight", stock.gsm, f"{stock.gsm:.4g} g/m\u00b2")
    thickness = format_caliper(stock.caliper_mil, units)
    yield from _said(f"{name} thickness", stock.caliper_mil, thickness)
    yield from _said(f"{name} thickness range", f"{_figure(low)} to {_figure(high)}", spread)
    yield from _said(f"{name} colour", stock.colour_hex)
    yield from _said(f"{name} surface", stock.grain)
    yield from _said(f"{name} coated", stock.coated)
    yield from _said(f"{name} translucency", stock.translucency or None)
    yield from _said(f"{name} measured", _measured(stock.swatch))


def _measured(swatch: Swatch | None) -> str:
    """Returns what was measured of a paper and of ink on it: CIELAB of paper, C, M, Y and K."""
    colours = () if swatch is None else (swatch.paper, *swatch.solids)
    return "; ".join(" ".join(map(_figure, lab)) for lab in colours)


def _die(die: Die, units: Unit) -> Iterator[Fact]:
    """Yields a family and its parameters, or a template's bytes; and the outline that is cut."""
    if die.template is None:
        yield Fact("die", die.name, die.name.replace("-", " "))
    else:
        yield Fact("die", "template", f"template {die.template.name}")
        yield Fact("die template", die.template_sha256, die.template.name)
    for key, value in die.parameters:
        words = key.replace("_", " ")
        told = next(iter(parameters_told(die.name, [(key, value)], units)), str(value))
        number = float(value) if isinstance(value, int) else value
        yield from _said(f"die {words}", number, told.removeprefix(f"{words} "))
    mark = _outline_mark(die.shape)
    yield Fact("die outline", mark, mark)


def _outline_mark(shape: Shape) -> str:
    """Returns a mark of the outline itself, to OUTLINE_STEP_IN: of a template another path may be
    picked, and a family may one day be drawn by another formula."""
    said = ";".join(
        " ".join(_segment_mark(part) for part in outline.segments) for outline in shape.outlines
    )
    return hashlib.sha256(said.encode()).hexdigest()[:16]


def _segment_mark(part: Segment) -> str:
    """Returns a segment's kind and numbers, in whole steps."""
    if isinstance(part, Line):
        numbers: tuple[float, ...] = (*part.start, *part.end)
    elif isinstance(part, Arc):
        numbers = (*part.centre, *part.u, *part.v, part.start_deg, part.sweep_deg)
    else:
        numbers = (*part.start, *part.control1, *part.control2, *part.end)
    steps = (math.floor(number / OUTLINE_STEP_IN + _OFF_STEP) for number in numbers)
    letter = {Line: "L", Arc: "A", Cubic: "C"}[type(part)]
    return letter + ",".join(map(str, steps))


def _cut(spec: EnvelopeSpec, units: Unit) -> Iterator[Fact]:
    """Yields how an envelope is cut and folded, every measure of it."""
    for field in fields(spec):
        value: str | float = getattr(spec, field.name)
        name = field.name.removesuffix("_in").replace("_", " ")
        if isinstance(value, str):
            yield Fact(name, value, value.replace("-", " "))
        elif name not in ("width", "height"):
            yield from _length(name, value, units)


def _liner(liner: Liner | None, units: Unit) -> Iterator[Fact]:
    if liner is not None:
        yield from _art("liner", liner.art)
        yield from _stock("liner stock", liner.stock, units)


def _outside(envelope: Envelope) -> Iterator[Fact]:
    """Yields what is printed and written on an envelope; which side is shown is no part of it."""
    outside, units = envelope.outside, envelope.units
    for side, art in outside.arts:
        yield from _art(f"{side} art", art)
    for name, lettering in (
        ("address", outside.address),
        ("return address", outside.return_address),
    ):
        if lettering is not None:
            yield from _lettering(name, lettering, units)


def _lettering(name: str, lettering: Lettering, units: Unit) -> Iterator[Fact]:
    yield Fact(name, "\n".join(lettering.lines), ", ".join(lettering.lines))
    yield from _said(f"{name} type", f"{lettering.face}, {lettering.align}")
    yield from _said(f"{name} size", lettering.size_pt, f"{lettering.size_pt or 0:g} pt")
    yield from _said(f"{name} side", lettering.side)
    if lettering.at is not None:
        x, y = lettering.at
        place = f"{format_length(x, units)}, {format_length(y, units)}"
        yield from _said(f"{name} place", f"{_figure(x)}, {_figure(y)}", place)
    if lettering.ink is not None:
        word = lettering.ink if isinstance(lettering.ink, str) else to_hex(lettering.ink)
        yield from _said(f"{name} ink", word)
    yield from _said(f"{name} hits", lettering.hits if lettering.hits > 1 else None)


def _colour(envelope: Envelope) -> list[Fact]:
    red, green, blue = envelope.colour
    return _said(
        "colour", f"#{red:02x}{green:02x}{blue:02x}", envelope.colour_name.replace("-", " ")
    )


def _holds(envelope: Envelope) -> list[Fact]:
    names = sorted(envelope.holds)
    return _said("holds", ", ".join(names))


PIECE_FACTS: tuple[Callable[[Piece], Iterable[Fact]], ...] = (
    lambda piece: _art("art", piece.art),
    lambda piece: _size(piece.card.width_in, piece.card.height_in, piece.units),
    lambda piece: _length("bleed", piece.bleed_in, piece.units),
    lambda piece: _die(piece.die, piece.units),
    lambda piece: _stock("stock", piece.stock, piece.units),
    lambda piece: _said("finishes", ", ".join(sorted(piece.finishes))),
    lambda piece: _said("quantity", piece.quantity),
    lambda piece: _said("fold", piece.fold, f"at the {piece.fold}"),
    lambda piece: (
        () if piece.back is None else _art("inside" if piece.fold else "back", piece.back)
    ),
    lambda piece: _said("edge", edge_said(piece.edge)),
    lambda piece: _said("torn", ", ".join(sorted(piece.torn))),
    lambda piece: _said("laid over", piece.over),
    lambda piece: _wraps(piece),
    lambda piece: _cord(piece),
)
"""The facts of a piece; a new one is a line here."""

ENVELOPE_FACTS: tuple[Callable[[Envelope], Iterable[Fact]], ...] = (
    lambda envelope: _size(envelope.spec.width_in, envelope.spec.height_in, envelope.units),
    lambda envelope: _cut(envelope.spec, envelope.units),
    _colour,
    lambda envelope: _stock("stock", envelope.stock, envelope.units),
    lambda envelope: _liner(envelope.liner, envelope.units),
    _outside,
    _holds,
    lambda envelope: _said("quantity", envelope.quantity),
)
"""The facts of an envelope; a new one is a line here."""
