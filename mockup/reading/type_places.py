"""Where type and codes stand on a piece, for what must not hide them: letter by letter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.geometry.point import Box
from mockup.reading.page import read_facts
from mockup.suite.suite import Piece
from mockup.workshop import crew
from mockup.workshop.job import Job

_READ = "mockup.reading.type_places:read_type"


@dataclass(frozen=True)
class TypePlace:
    """A line of type or a code: how it is told, and the boxes of its letters, inches of its page
    from the trim's top left."""

    told: str
    boxes: tuple[Box, ...]


def type_of(sides: Sequence[Piece]) -> list[tuple[TypePlace, ...]]:
    """Returns the lines of type, live or outlined, and the codes of every side, in order; read in
    workers and remembered. What is written in a photograph is not seen.

    Raises InputError and LimitError as reading pages does.
    """
    jobs = [Job((each,), each.art.where, each.art.sha256, each) for each in sides]
    return crew.done(_READ, jobs)


def read_type(side: Piece) -> tuple[TypePlace, ...]:
    """Returns the type and the codes of one side; read here, in this process."""
    page = read_facts(side)
    lines = [
        TypePlace(
            f'type "{line.text}"' if line.text else "type",
            tuple(Box(*page.parts.all[k].box) for k in line.members),
        )
        for line in page.letter_lines
    ]
    return (*lines, *(TypePlace("a code", (code.box,)) for code in page.codes))
