"""Finishes of a piece in a suite file: which plate is which, metals, painted edges, torn sides."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from typing import Protocol

from mockup.artwork.art import Art, FinishSaid
from mockup.colour.press import Press
from mockup.colour.srgb import parse_hex
from mockup.dies import Die
from mockup.dies.sides import STRAIGHT_LEAST_IN, straight_sides
from mockup.errors import SuiteError
from mockup.suite.schema import BackTable, EdgeTable, FinishTable, PieceTable
from mockup.suite.suite import TORN_SIDES, Edge, TornSide
from mockup.trade.finishes import FINISHES, Finish
from mockup.trade.metals import FLAT_HEX, TRUE_METALS, Metal
from mockup.trade.papers import paper_colour
from mockup.units import Unit, format_length

Written = Sequence[Finish | FinishTable]


class Noting(Protocol):
    """What reads a suite file: it finds pages beside it, and notes mistakes under their keys;
    `pieces` are the names of all pieces in it."""

    pieces: Collection[str]

    def note(self, key: str, sentence: str, value: object) -> None:
        """Notes a mistake under a key path."""
        ...

    def page_of(self, key: str, text: str, page: int, press: Press) -> Art | None:
        """Returns a page of a file, or None after noting why not."""
        ...

    def tried(self, key: str, value: object, reading: Callable[[], Edge]) -> Edge | None:
        """Returns what `reading` gives, or None after noting its mistakes."""
        ...


def finishes_of(table: PieceTable) -> tuple[Finish, ...]:
    """Returns what a piece has beside ink, on either side; a word of white ink says it has that."""
    written: list[Finish | FinishTable] = [*table.finish]
    written += _own_of_back(table)[1] or ()
    said = {_finish(each) for each in written} | ({"white"} if table.white is not None else set())
    return tuple(each for each in FINISHES if each in said)


def finished(reader: Noting, key: str, table: PieceTable, art: Art | None) -> Art | None:
    """Returns the front's art with what its piece says of finishes, mistakes noted."""
    return art and replace(art, finishing=_said(reader, f"{key}.finish", table.finish, art))


def back_finished(
    reader: Noting, key: str, table: PieceTable, front: Art | None, back: Art | None
) -> Art | None:
    """Returns the art of a back, or of a folded card's inside, with what is said of its finishes:
    its own, else of the front's what has no page of its own."""
    if back is None or front is None:
        return None
    what, own = _own_of_back(table)
    if own is not None:
        return replace(back, finishing=_said(reader, f"{key}.{what}.finish", own, back))
    return replace(back, finishing=tuple(each for each in front.finishing if each.art is None))


def read_edge(reader: Noting, key: str, given: str | EdgeTable | None) -> Edge | None:
    """Returns what the edges of a card are finished with; None where nothing is said, and after
    noting what is wrong."""
    if given is None:
        return None
    if isinstance(given, str):
        return reader.tried(key, given, lambda: _edge(given))
    if (given.colour is None) == (given.metal is None):
        reader.note(key, "an edge has a colour or a metal; write one of them", "")
        return None
    if given.metal is not None:
        return _gilded(given.metal)
    colour = given.colour or ""
    return reader.tried(f"{key}.colour", colour, lambda: _painted(colour))


def read_torn(
    reader: Noting, key: str, table: PieceTable, die: Die | None, units: Unit
) -> tuple[TornSide, ...]:
    """Returns the sides that are torn, mistakes noted: paper is torn along what is straight of
    them; `true` is of all that are."""
    given = table.torn
    straight = TORN_SIDES if die is None else straight_sides(die.shape)
    sides = (straight if given else ()) if isinstance(given, bool) else given
    if sides and table.fold is not None:
        reader.note(key, "a folded card has no torn sides here; leave one of the two out", given)
    if given and die is not None:
        off: list[TornSide] = [side for side in sides if side not in straight]
        if off or not straight:
            reader.note(key, _not_straight(die, off, straight, units), given)
    return tuple(each for each in TORN_SIDES if each in sides)


def _not_straight(
    die: Die, off: Sequence[TornSide], straight: Sequence[TornSide], units: Unit
) -> str:
    least = format_length(STRAIGHT_LEAST_IN, units)
    what = f"the {' and the '.join(off)} of die {die.name}" if off else f"die {die.name}"
    has = f"tear its {', '.join(straight)}" if straight else "leave `torn` out"
    return (
        f"{what} is nowhere straight for {least} along the card's edge, and paper is torn against "
        f"a rule; {has}, or take a die that is straight there"
    )


def _own_of_back(table: PieceTable) -> tuple[str, Written | None]:
    """Returns the key of a piece's other side, and what is written of its finishes."""
    what, said = ("back", table.back) if table.inside is None else ("inside", table.inside)
    return what, said.finish if isinstance(said, BackTable) else None


def _finish(written: Finish | FinishTable) -> Finish:
    return written.finish if isinstance(written, FinishTable) else written


def _said(reader: Noting, key: str, written: Written, art: Art) -> tuple[FinishSaid, ...]:
    """Returns what has to be known of a page's finishes beside their names; letterpress of no plate
    is of all the inks, and the other bare words say no more than that they are there."""
    found: list[FinishSaid] = []
    plates: set[str] = set()
    for number, each in enumerate(written, 1):
        own = f"{key}.{number}"
        if not isinstance(each, FinishTable):
            found += [FinishSaid("letterpress")] if each == "letterpress" else []
            continue
        plate = (each.plate or "").casefold()
        if plate and plate in plates:
            reader.note(f"{own}.plate", "is named twice; a plate has one finish", each.plate)
        plates.add(plate)
        said = _of_table(reader, own, each, art)
        found += [] if said is None else [said]
    return tuple(dict.fromkeys(found))


def _of_table(reader: Noting, key: str, table: FinishTable, art: Art) -> FinishSaid | None:
    if table.metal is not None and table.finish != "foil":
        reader.note(f"{key}.metal", f"{table.finish} has no metal; foil has", table.metal)
    alone = table.art is not None or table.page is not None
    if alone and table.plate is not None:
        said = "a finish has a plate in the art, or a page of its own; write one of them"
        reader.note(f"{key}.plate", said, table.plate)
    if alone and table.finish == "white":
        said = "white ink has its plate in the art, with the inks on it"
        reader.note(f"{key}.as", said, table.finish)
    if not alone:
        return FinishSaid(table.finish, table.plate or "", table.metal)
    if table.art is not None:
        page = reader.page_of(f"{key}.art", table.art, table.page or 1, art.press)
    else:
        if table.page == art.page:
            reader.note(f"{key}.page", "is the art's own page; write another", table.page)
        page = replace(art, page=table.page or 1, finishing=())
    name = f"{key.split('.')[1]}-{table.finish}"
    if name in reader.pieces:
        reader.note(key, f'a piece is called "{name}", as its files would be; rename it', name)
    return page and FinishSaid(table.finish, "", table.metal, page)


def _edge(text: str) -> Edge:
    name = "-".join(text.casefold().split())
    metal: Metal | None = next((each for each in TRUE_METALS if each == name), None)
    if metal is not None:
        return _gilded(metal)
    try:
        return _painted(text)
    except SuiteError as error:
        metals = ", ".join(sorted(TRUE_METALS))
        said = f"{error.mistakes[0].sentence}; or a metal: {metals}"
        raise SuiteError(said) from error


def _gilded(metal: Metal) -> Edge:
    return Edge(parse_hex(FLAT_HEX[metal]), metal)


def _painted(text: str) -> Edge:
    return Edge(parse_hex(paper_colour(text).colour_hex))
