"""The die of a folded card: its flat sheet, both panels side by side along the fold."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from mockup.dies.family import Die
from mockup.errors import DieError
from mockup.geometry.affine import Affine, translation
from mockup.geometry.outline import Line, Outline, Segment, Shape
from mockup.geometry.point import Point
from mockup.units import Unit, format_length

Fold = Literal["left", "top"]
"""Along which side of the closed card it is folded."""

FOLDS: tuple[Fold, ...] = ("left", "top")

STRAIGHT_LEAST = 0.5
"""Share of a card's side that must be straight to be a fold; judgement: on a shorter one the
panels twist."""

_ON_EDGE_IN = 1e-6


def flat_size(width_in: float, height_in: float, fold: Fold) -> tuple[float, float]:
    """Returns the size of the flat sheet of a card of a closed size, inches."""
    return (2 * width_in, height_in) if fold == "left" else (width_in, 2 * height_in)


def closed_size(width_in: float, height_in: float, fold: Fold) -> tuple[float, float]:
    """Returns the closed size of a card whose flat sheet has a size, inches."""
    return (width_in / 2, height_in) if fold == "left" else (width_in, height_in / 2)


def to_front(width_in: float, height_in: float, fold: Fold) -> Affine:
    """Returns the map from the front panel's inches to those of the flat sheet seen from outside.

    The front lies right of its fold, or below it; from inside, what lies under it does.
    """
    return translation(width_in, 0.0) if fold == "left" else translation(0.0, height_in)


def unfolded(die: Die, fold: Fold, units: Unit = "in") -> Die:
    """Returns the die of the flat sheet of a folded card, whose closed shape is `die`'s.

    Both panels are cut alike, so that the sheet has the same outline from outside and inside; it
    is folded along one more line. A template's bleed and safe lines are of one panel, and left
    behind. Raises DieError for a shape without a straight side to fold along.
    """
    width, height = die.width_in, die.height_in
    crease = _crease(die, fold, units)
    over = Affine(-1, 0, 0, 1, 0, 0) if fold == "left" else Affine(1, 0, 0, -1, 0, 0)
    place = to_front(width, height, fold)
    rest = _without(die.shape.outer, crease)
    behind = [part.mapped(over).reversed() for part in reversed(rest)]
    outer = Outline((*rest, *behind)).mapped(place)
    holes = [hole.mapped(place) for hole in die.shape.holes]
    holes += [hole.mapped(over).reversed().mapped(place) for hole in die.shape.holes]
    wide, high = flat_size(width, height, fold)
    folds = tuple(tuple(part.mapped(place) for part in each) for each in die.folds)
    return replace(
        die,
        width_in=wide,
        height_in=high,
        shape=Shape(outer, tuple(holes)),
        bleed=None,
        bleed_in=None,
        safe=None,
        folds=((crease.mapped(place),), *folds),
    )


def _crease(die: Die, fold: Fold, units: Unit) -> Line:
    """Returns the straight part of the closed outline along the fold, as it is drawn."""
    side_in = die.height_in if fold == "left" else die.width_in
    straight = [part for part in die.shape.outer.segments if _on_edge(part, fold)]
    lines = [part for part in straight if isinstance(part, Line)]
    length_in = sum(_length(line) for line in lines)
    if len(lines) == 1 and length_in >= STRAIGHT_LEAST * side_in:
        return lines[0]
    along = "left side" if fold == "left" else "top"
    found = (
        "has nothing straight"
        if not lines
        else f"is straight for {format_length(length_in, units)} of {format_length(side_in, units)}"
        if len(lines) == 1
        else f"is straight in {len(lines)} pieces"
    )
    raise DieError(
        f"the {along} of die {die.name} {found}, and a card folds along one straight line of half "
        "its side at least; take a rectangle, or a die that is straight there"
    )


def _on_edge(part: Segment, fold: Fold) -> bool:
    if not isinstance(part, Line):
        return False
    start, end = (_across(point, fold) for point in (part.start, part.end))
    return abs(start) < _ON_EDGE_IN and abs(end) < _ON_EDGE_IN and _length(part) > _ON_EDGE_IN


def _across(point: Point, fold: Fold) -> float:
    return point.x if fold == "left" else point.y


def _length(line: Line) -> float:
    return abs(line.end.x - line.start.x) + abs(line.end.y - line.start.y)


def _without(outline: Outline, crease: Line) -> list[Segment]:
    """Returns an outline's segments from the crease's end round to its start."""
    at = outline.segments.index(crease)
    return [*outline.segments[at + 1 :], *outline.segments[:at]]
