"""A hole drilled in a card, and the cord through it, as a suite file gives them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Protocol, TypeVar

from shapely.geometry import Point as ShapelyPoint

from mockup.colour.srgb import parse_hex
from mockup.dies import Die
from mockup.errors import Mistake, MockupError, SuiteError
from mockup.geometry.flatten import polygon
from mockup.geometry.outline import Outline, Shape, circle_arc
from mockup.geometry.point import Point
from mockup.suite.schema import CordTable, HoleSide, HoleTable, Length, PieceTable
from mockup.suite.suite import Cord
from mockup.trade.papers import paper_colour
from mockup.units import Unit, format_length, parse_length

Found = TypeVar("Found")

WEB_IN = 1 / 16  # what must be left standing between a hole and the edge; common practice
_INSET_IN = 3 / 8  # of the middle from the edge, usually; common practice, no source
LEAST_IN, MOST_IN = 1 / 16, 1.0  # drills there are; common practice, no source
_CORD_IN = 1 / 16
_THREADED = 0.7  # judgement: two strands of a cord lie in a hole, pressed together
CORD_LEAST_IN, CORD_MOST_IN = 0.02, 0.25  # judgement: thread, and rope


def drilled(die: Die, table: PieceTable, units: Unit) -> Die:
    """Returns a die with the hole that a piece's table asks for.

    Raises SuiteError; where one key of the table is the cause, the mistake's key is that key.
    """
    if table.hole is None:
        return die
    given = table.hole if isinstance(table.hole, HoleTable) else HoleTable(diameter=table.hole)
    if table.fold is not None:
        raise SuiteError("a folded card has no drilled hole here; leave one of the two out")
    across_in = _length("diameter", given.diameter, (LEAST_IN, MOST_IN), units)
    inset_in = max(_INSET_IN, across_in / 2 + WEB_IN)
    if given.inset is not None:
        inset_in = _length("inset", given.inset, (0.0, max(die.width_in, die.height_in)), units)
    middle = _middle(die, given.side, inset_in)
    try:
        _refuse_off_card(die, middle, across_in, units)
    except SuiteError as error:
        if given.inset is None:
            raise
        told = error.mistakes[0].sentence
        raise SuiteError(Mistake(told, key="inset", value=str(given.inset))) from error
    hole = Outline((circle_arc(middle, across_in / 2, 0, 360),))
    return replace(die, shape=Shape(die.shape.outer, (*die.shape.holes, hole)))


def read_cord(given: str | CordTable | None, die: Die, units: Unit) -> Cord | None:
    """Returns the cord through a die's hole, if one is asked for.

    Raises SuiteError; where one key of the table is the cause, the mistake's key is that key.
    """
    if given is None:
        return None
    table = CordTable(colour=given) if isinstance(given, str) else given
    if not die.shape.holes:
        raise SuiteError('there is no hole to thread it through; write hole = "1/4 in"')
    thick_in = _CORD_IN
    if table.thickness is not None:
        thick_in = _length("thickness", table.thickness, (CORD_LEAST_IN, CORD_MOST_IN), units)
    box = die.shape.holes[0].box
    most_in = min(box.width, box.height) * _THREADED
    if thick_in > most_in:
        told = format_length(most_in, units)
        said = f"is too thick for the hole; a cord of {told} at most goes through it twice"
        key = "thickness" if table.thickness is not None else ""
        raise SuiteError(Mistake(said, key=key, value=format_length(thick_in, units)))
    try:
        colour = parse_hex(paper_colour(table.colour).colour_hex)
    except MockupError as error:
        told = error.mistakes[0].sentence
        raise SuiteError(Mistake(told, key="colour", value=table.colour)) from error
    return Cord(colour, thick_in)


def _middle(die: Die, side: HoleSide, inset_in: float) -> Point:
    """Returns the middle of a hole, on the card's middle line, so far from a side's edge: where
    that line meets the die's own outline."""
    box = die.shape.box
    middle = box.centre
    return {
        "top": Point(middle.x, box.top + inset_in),
        "bottom": Point(middle.x, box.bottom - inset_in),
        "left": Point(box.left + inset_in, middle.y),
        "right": Point(box.right - inset_in, middle.y),
    }[side]


def _refuse_off_card(die: Die, middle: Point, across_in: float, units: Unit) -> None:
    """Refuses a hole with less than WEB_IN between it and an edge, another hole's too."""
    card = polygon(die.shape)
    web_in = card.boundary.distance(ShapelyPoint(*middle)) - across_in / 2
    if card.contains(ShapelyPoint(*middle)) and web_in >= WEB_IN - 1e-4:
        return
    told = format_length(max(web_in, 0.0), units)
    least = format_length(across_in / 2 + WEB_IN, units)
    raise SuiteError(
        f"leaves {told} of paper between the hole and an edge, and {format_length(WEB_IN, units)} "
        f"must stand: put its middle at least {least} in, by inset, or drill a smaller one"
    )


def _length(key: str, given: Length, between: tuple[float, float], units: Unit) -> float:
    try:
        length_in = parse_length(given, units)
    except MockupError as error:
        raise SuiteError(Mistake(error.mistakes[0].sentence, key=key, value=str(given))) from error
    low, high = between
    if not (math.isfinite(length_in) and low <= length_in <= high):
        said = f"write {format_length(low, units)} to {format_length(high, units)}"
        raise SuiteError(Mistake(said, key=key, value=str(given)))
    return length_in


class Trying(Protocol):
    """What reads a suite file and notes mistakes under their keys."""

    def tried(self, key: str, value: object, reading: Callable[[], Found]) -> Found | None:
        """Returns what `reading` gives, or None after noting its mistakes."""
        ...


def threaded(
    reader: Trying, key: str, table: PieceTable, die: Die | None, units: Unit
) -> tuple[Die | None, Cord | None]:
    """Returns the die of the piece at a key with its hole, and the cord through it; None for what
    cannot be read, mistakes noted."""
    if die is None:
        return None, None
    bored = reader.tried(f"{key}.hole", table.hole, lambda: drilled(die, table, units))
    if bored is None:
        return None, None
    return bored, reader.tried(
        f"{key}.cord", table.cord, lambda: read_cord(table.cord, bored, units)
    )
