"""The outside of an envelope read from the suite file: its art, its addresses, how it is shown."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import Protocol, TypeVar

from mockup.artwork.art import Art
from mockup.colour.srgb import parse_hex
from mockup.envelopes.lettering import block_size_in, refuse_unset
from mockup.envelopes.spec import EnvelopeSpec
from mockup.errors import Mistake, SuiteError
from mockup.geometry.point import Point
from mockup.suite.outside import EnvelopeSide, Ink, Lettering, Outside
from mockup.suite.schema import (
    EnvelopeTable,
    FaceTable,
    Length,
    LetteringTable,
    LinerTable,
)
from mockup.trade.papers import Stock
from mockup.units import PT_PER_INCH, Unit, format_length, format_size

Found = TypeVar("Found")
SIZE_LEAST_PT, SIZE_MOST_PT = 5.0, 72.0  # judgement: beyond them nobody addresses an envelope


class Reader(Protocol):
    """What the reader of a suite file does for every table of it."""

    pieces: Collection[str]

    def art(self, key: str, table: LinerTable, paper: Stock | None) -> Art | None:
        """Returns the art of a table, or None after noting why not."""
        ...

    def length(self, key: str, value: Length, most_in: float = ...) -> float | None:
        """Returns a length in inches, or None after noting why not."""
        ...

    def tried(self, key: str, value: object, reading: Callable[[], Found]) -> Found | None:
        """Returns what is read, or None after noting why not."""
        ...


@dataclass(frozen=True)
class Ground:
    """The envelope whose outside is read: its key in the file, its paper, how it is cut, the units
    its lengths are told in."""

    key: str
    paper: Stock
    spec: EnvelopeSpec
    units: Unit


def read_outside(reader: Reader, ground: Ground, table: EnvelopeTable) -> Outside:
    """Returns what a table says of an envelope's outside; what cannot be read is noted by the
    reader, and left out."""
    return Outside(
        _art(reader, ground, "face", "face", table.face, table),
        _art(reader, ground, "flap_art", "flap", table.flap_art, table),
        _lettering(reader, ground, "address", table.address, "face"),
        _lettering(reader, ground, "return_address", table.return_address, "flap"),
        table.shown,
    )


def _art(
    reader: Reader,
    ground: Ground,
    name: str,
    side: EnvelopeSide,
    given: str | FaceTable | None,
    table: EnvelopeTable,
) -> Art | None:
    """Returns the art of a side, on the envelope's own paper."""
    if given is None:
        return None
    key = f"{ground.key}.{name}"
    own = f"{ground.key.split('.')[1]}-{side}"
    if own in reader.pieces:
        said = f'a piece is called "{own}", as its files would be; rename it'
        reader.tried(key, own, lambda: _refuse(said))
    if isinstance(given, str):
        art = LinerTable(art=given, stock=table.stock)
        return reader.art(key, art, ground.paper)
    art = LinerTable(art=given.art, page=given.page, stock=table.stock, white=given.white)
    return reader.art(f"{key}.art", art, ground.paper)


def _lettering(
    reader: Reader,
    ground: Ground,
    name: str,
    given: tuple[str, ...] | LetteringTable | None,
    side: EnvelopeSide,
) -> Lettering | None:
    """Returns lines to be set on a side; an address is on the face, the sender's usually on the
    flap."""
    if given is None:
        return None
    key = f"{ground.key}.{name}"
    if not isinstance(given, LetteringTable):
        given = LetteringTable(lines=given)
    table = given
    lines_key = key if table == LetteringTable(lines=table.lines) else f"{key}.lines"

    def read_lines() -> tuple[str, ...]:
        refuse_unset(table.lines, table.face)
        return table.lines

    lines = reader.tried(lines_key, ", ".join(table.lines), read_lines)
    ink = _ink_read(reader, f"{key}.ink", table.ink)
    size_pt = None if table.size is None else _size_pt(reader, f"{key}.size", table.size)
    at = _at(reader, f"{key}.at", table.at)
    if lines is None:
        return None
    own = "face" if name == "address" else table.side or side
    align = table.align or ("left" if own == "face" else "centre")
    read = Lettering(lines, table.face, size_pt, align, at, ink, table.hits, own)
    if name == "address" and table.side == "flap":
        said = "an address stands on the face, where the stamp is; take `side` out"
        reader.tried(f"{key}.side", table.side, lambda: _refuse(said))
    return reader.tried(lines_key, ", ".join(lines), lambda: _fitting(read, ground))


def _refuse(said: str) -> None:
    raise SuiteError(said)


def _ink_read(reader: Reader, key: str, text: str | None) -> Ink | None:
    def read() -> Ink | None:
        return None if text is None else _ink(text)

    return reader.tried(key, text, read)


def _ink(text: str) -> Ink:
    word = text.strip().lower()
    if word == "black":
        return "black"
    if word in ("white", "white ink", "white-ink"):
        return "white"
    try:
        return parse_hex(text)
    except SuiteError as error:
        said = 'an ink is "black", "white" (white ink), or a colour as #rrggbb'
        raise SuiteError(Mistake(said, value=text)) from error


def _size_pt(reader: Reader, key: str, value: Length) -> float | None:
    given = f"{value} pt" if isinstance(value, int | float) else value
    size_in = reader.length(key, given)
    if size_in is None:
        return None
    size_pt = size_in * PT_PER_INCH

    def read() -> float:
        if not SIZE_LEAST_PT - 1e-6 <= size_pt <= SIZE_MOST_PT + 1e-6:
            said = f"type of {size_pt:g} pt; write {SIZE_LEAST_PT:g} to {SIZE_MOST_PT:g} pt"
            raise SuiteError(said)
        return size_pt

    return reader.tried(key, value, read)


def _at(reader: Reader, key: str, given: tuple[Length, Length] | None) -> Point | None:
    if given is None:
        return None
    x, y = (reader.length(f"{key}.{number}", each) for number, each in enumerate(given, 1))
    return None if x is None or y is None else Point(x, y)


def _fitting(lettering: Lettering, ground: Ground) -> Lettering:
    """Returns lines that lie on their side. Raises SuiteError for those that run off it."""
    spec, units = ground.spec, ground.units
    if lettering.side == "face":
        high, what = spec.height_in, "the face"
    else:
        high, what = spec.flap_depth_in, "the flap"
    size_pt = lettering.size_pt or SIZE_LEAST_PT
    wide_in, high_in = block_size_in(lettering.lines, lettering.face, size_pt)
    left, top = lettering.at or Point(0.0, 0.0)
    if left + wide_in > spec.width_in or top + high_in > high:
        placed = f"from {format_length(left, units)}, {format_length(top, units)} they"
        said = (
            f"at {size_pt:g} pt the lines take {format_size(wide_in, high_in, units)}; "
            f"{placed if lettering.at else 'they'} run off {what}, "
            f"{format_size(spec.width_in, high, units)}; write fewer, smaller, or move them"
        )
        raise SuiteError(said)
    return lettering
