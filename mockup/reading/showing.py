"""A suite as a client is shown it: without a template's lines and marks left in the art."""

from __future__ import annotations

from dataclasses import replace

from mockup.checks.left_in import left_in_objects
from mockup.checks.page_reading import read_context
from mockup.checks.settings import Settings
from mockup.suite.suite import Piece, Suite
from mockup.workshop import crew
from mockup.workshop.job import Job

_LEFT_IN = "mockup.checks.showing:left_in_numbers"


def for_client(suite: Suite) -> Suite:
    """Returns the suite with every cut, safe or bleed line, guide and printer's mark left out.

    `check` reports the same marks as stops, for they would be printed. Raises InputError and
    LimitError for art that cannot be read.
    """
    jobs = [Job((piece,), piece.art.where, piece.art.sha256, piece) for piece in suite.pieces]
    numbers: list[frozenset[int]] = crew.done(_LEFT_IN, jobs)
    pairs = zip(suite.pieces, numbers, strict=True)
    return replace(suite, pieces=tuple(_without(*pair) for pair in pairs))


def _without(piece: Piece, numbers: frozenset[int]) -> Piece:
    return replace(piece, art=replace(piece.art, left_out=numbers))


def left_out(suite: Suite) -> list[str]:
    """Returns a line for every piece of which marks are left out, for the designer."""
    return [_told(piece) for piece in suite.pieces if piece.art.left_out]


def _told(piece: Piece) -> str:
    count = len(piece.art.left_out)
    one = count == 1
    return (
        f"{piece.name}: {count} mark{'' if one else 's'} left in the art {'is' if one else 'are'} "
        f"not shown; `mockup check` says where: {'it' if one else 'they'} would be printed"
    )


def left_in_numbers(piece: Piece) -> frozenset[int]:
    """Returns which marks of a piece's art are a template's, worked out in this process."""
    return frozenset(mark.number for mark in left_in_objects(read_context(piece, Settings())))
