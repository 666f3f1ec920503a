"""A suite as a client is shown it: without a template's lines and marks left in the art."""

from __future__ import annotations

from dataclasses import replace

from mockup.artwork.worker import in_workers
from mockup.checks.left_in import left_in_objects
from mockup.checks.page_reading import read_context
from mockup.checks.settings import Settings
from mockup.suite.suite import Piece, Suite


def for_client(suite: Suite) -> Suite:
    """Returns the suite with every cut, safe or bleed line, guide and printer's mark left out.

    `check` reports the same marks as stops, for they would be printed. Raises InputError and
    LimitError for art that cannot be read.
    """
    jobs = [(piece,) for piece in suite.pieces]
    numbers = in_workers(_left_in, jobs, lambda job: f"{job[0].art}, page {job[0].page}")
    pairs = zip(suite.pieces, numbers, strict=True)
    return replace(suite, pieces=tuple(replace(p, leave_out=found) for p, found in pairs))


def left_out(suite: Suite) -> list[str]:
    """Returns a line for every piece of which marks are left out, for the designer."""
    return [_told(piece) for piece in suite.pieces if piece.leave_out]


def _told(piece: Piece) -> str:
    count = len(piece.leave_out)
    one = count == 1
    return (
        f"{piece.name}: {count} mark{'' if one else 's'} left in the art {'is' if one else 'are'} "
        f"not shown; `mockup check` says where: {'it' if one else 'they'} would be printed"
    )


def _left_in(piece: Piece) -> frozenset[int]:
    return frozenset(mark.number for mark in left_in_objects(read_context(piece, Settings())))
