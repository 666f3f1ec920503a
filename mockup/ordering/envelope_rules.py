"""What a printer's catalogue says against an envelope: its size, flap, colour, number and liner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from mockup.colour.srgb import parse_hex
from mockup.envelopes.spec import envelope_spec
from mockup.ordering.clashes import Clash, Way, too_few
from mockup.printers.catalogue import Printer
from mockup.printers.choosing import SAME_WITHIN_IN
from mockup.printers.rules import EnvelopeOffer
from mockup.suite.suite import Envelope, Piece
from mockup.trade.papers import paper_colour
from mockup.trade.sizes import (
    LOOSE_THIN_IN,
    TIGHT_CLEARANCE_IN,
    EnvelopeSize,
    plain_name,
    play,
)


def envelope_clashes(
    envelope: Envelope, held: Sequence[Piece], printer: Printer
) -> Iterator[Clash[Envelope]]:
    """Yields what does not go at a printer; `held` are the cards that have to go in."""
    rows = printer.rules.envelopes
    if not rows:
        return
    row = envelope_row(envelope, printer)
    if row is None:
        yield _not_offered(envelope, held, rows)
    else:
        yield from too_few("envelope", row.terms, envelope, "these are sold")
    own = [each for each in rows if _same(each.size, envelope.size)] if row is None else [row]
    if own and envelope.liner is not None and all(each.liner is None for each in own):
        lined = [each for each in rows if each.liner is not None]
        ways = (
            Way(f"they line {_named(each.item, each.item.size)}", each.item)
            for each in _as_offered(envelope, held, lined)
        )
        yield Clash("liner", "no liner is put into this envelope", (ways,), "line it elsewhere")


def envelope_row(envelope: Envelope, printer: Printer) -> EnvelopeOffer | None:
    """Returns the row of a catalogue that an envelope is of, None where it has none."""
    fitting = (each for each in printer.rules.envelopes if not _unlike(envelope, each))
    return next(fitting, None)


def _not_offered(
    envelope: Envelope, held: Sequence[Piece], rows: Sequence[EnvelopeOffer]
) -> Clash[Envelope]:
    """Returns what an envelope without a row is told: in what it differs from the nearest, or the
    sizes that there are."""
    sized = [each for each in rows if _same(each.size, envelope.size)]
    if sized:
        ways = (
            Way(f"take it {_changed(envelope, each.item)}", each.item)
            for each in _as_offered(envelope, held, sized)
        )
        said = f"not offered in {_unlike(envelope, sized[0])}"
        return Clash("envelope", said, (ways,), "take one of those")
    names = ", ".join(dict.fromkeys(_named(envelope, each.size) for each in rows))
    ways = (
        Way(f"take {_named(each.item, each.item.size)}", each.item)
        for each in _as_offered(envelope, held, rows)
    )
    said = f"no envelope of size {envelope.size.name}; there are {names}"
    return Clash("envelope", said, (ways,), "none of them takes these cards; buy it elsewhere")


def _as_offered(
    envelope: Envelope, held: Sequence[Piece], rows: Sequence[EnvelopeOffer]
) -> list[Way[Envelope]]:
    """Returns an envelope as each row has it, those that its cards do not go into left out, the
    nearest in size first."""

    def apart(row: EnvelopeOffer) -> float:
        own, other = envelope.size, row.size
        return abs(own.width_in - other.width_in) + abs(own.height_in - other.height_in)

    fitting = [each for each in rows if _takes(each.size, held)]
    return [Way("", _of_row(envelope, each)) for each in sorted(fitting, key=apart)]


def _takes(size: EnvelopeSize, held: Sequence[Piece]) -> bool:
    """Returns whether all cards go in, and the largest does not travel."""
    plays = [play(size, each.die.width_in, each.die.height_in) for each in held]
    tight = any(min(each) < TIGHT_CLEARANCE_IN - 1e-9 for each in plays)
    return not tight and min((max(each) for each in plays), default=0.0) <= LOOSE_THIN_IN


def _of_row(envelope: Envelope, row: EnvelopeOffer) -> Envelope:
    flap = envelope.spec.flap
    if not _same(row.size, envelope.size) or (row.flaps and flap not in row.flaps):
        flap = flap if not row.flaps or flap in row.flaps else row.flaps[0]
        spec = envelope_spec(row.size.width_in, row.size.height_in, flap)
        size = replace(row.size, name=_named(envelope, row.size))
        envelope = replace(envelope, size=size, spec=spec)
    if _has_colour(envelope, row):
        return envelope
    colour = paper_colour(row.colours[0])
    return replace(envelope, colour=parse_hex(colour.colour_hex), colour_name=row.colours[0])


def _changed(envelope: Envelope, other: Envelope) -> str:
    """Returns how another envelope of one size is unlike: `with a straight flap, in white`."""
    flap, colour = other.spec.flap, other.colour_name
    told = [f"with a {flap} flap"] if flap != envelope.spec.flap else []
    told += [f"in {colour}"] if colour != envelope.colour_name else []
    return " and ".join(told)


def _unlike(envelope: Envelope, row: EnvelopeOffer) -> str:
    """Returns in what an envelope is not as a row offers it, empty where it is."""
    if not _same(row.size, envelope.size):
        return f"size {envelope.size.name}"
    if row.flaps and envelope.spec.flap not in row.flaps:
        return f"{envelope.spec.flap} flap (there: {', '.join(row.flaps)})"
    if not _has_colour(envelope, row):
        return f"colour {envelope.colour_name} (there: {', '.join(row.colours)})"
    return ""


def _has_colour(envelope: Envelope, row: EnvelopeOffer) -> bool:
    red, green, blue = envelope.colour
    colours = {envelope.colour_name.casefold(), f"#{red:02x}{green:02x}{blue:02x}"}
    return not row.colours or bool({each.casefold() for each in row.colours} & colours)


def _same(one: EnvelopeSize, other: EnvelopeSize) -> bool:
    """Returns whether two sizes are one, whatever they are called where millimetres are used."""
    apart = abs(one.width_in - other.width_in), abs(one.height_in - other.height_in)
    return max(apart) <= SAME_WITHIN_IN


def _named(envelope: Envelope, size: EnvelopeSize) -> str:
    """Returns a size's name as the suite's reader understands it."""
    return plain_name(size.name, envelope.units)
