"""Reading a proof that came back: whose it is, and what its fields or its ticks say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from mockup.artwork.art import Art
from mockup.errors import InputError, Mistake
from mockup.geometry.affine import IDENTITY, Affine
from mockup.geometry.point import Box, Point
from mockup.record.paper import Code, Look, Places, Returned
from mockup.record.paper_mark import PaperMark, paper_mark
from mockup.workshop import crew
from mockup.workshop.job import Job

_READ = "mockup.foreign.returned:read"
_LOOK = "mockup.foreign.returned:look"
_AGREES_IN = 0.02  # judgement: a tenth of a box that is ticked


@dataclass(frozen=True)
class MarkedPage:
    """A page of answers found in a file: its number there, its mark, the code's corners, the page's
    width and height in inches."""

    page: int
    mark: PaperMark
    corners: tuple[Point, ...]
    size: Point

    def onto(self, code: Box, width_in: float, height_in: float) -> Affine:
        """Returns the map from the inches of a plan of a size, where the code fills a box, to this
        page's.

        Where the page was laid as programs lay one on a paper, as it is or made to fit, by that:
        the code alone tells less well where things far from it are.
        """
        scale = min(self.size.x / width_in, self.size.y / height_in)
        maps = (
            IDENTITY,
            _centred(1.0, width_in, height_in, self.size),
            _centred(scale, width_in, height_in, self.size),
        )
        return next((each for each in maps if self._agrees(each, code)), self._by_code(code))

    def _agrees(self, onto: Affine, code: Box) -> bool:
        """Returns whether a map puts the code's corners where they were found."""
        mapped = [onto.point(corner) for corner in code.corners()]
        return all(
            hypot(one.x - other.x, one.y - other.y) < _AGREES_IN
            for one, other in zip(mapped, self.corners, strict=True)
        )

    def _by_code(self, code: Box) -> Affine:
        first, across, _, down = self.corners
        width, height = code.width, code.height
        a, b = (across.x - first.x) / width, (across.y - first.y) / width
        c, d = (down.x - first.x) / height, (down.y - first.y) / height
        e = first.x - a * code.left - c * code.top
        return Affine(a, b, c, d, e, first.y - b * code.left - d * code.top)


def _centred(scale: float, width_in: float, height_in: float, size: Point) -> Affine:
    """Returns the map of a page laid in the middle of another at a scale."""
    left, top = (size.x - scale * width_in) / 2, (size.y - scale * height_in) / 2
    return Affine(scale, 0, 0, scale, left, top)


def read_returned(art: Art) -> Returned:
    """Returns what a file that came back says. Raises InputError and LimitError."""
    return crew.done(_READ, [Job((art,), str(art.path), art.sha256)])[0]


def look_at(art: Art, places: Sequence[Places]) -> list[tuple[Look, ...]]:
    """Returns what is seen in boxes of the file's pages. Raises InputError and LimitError."""
    jobs = [
        Job((Art(art.path, each.page, art.sha256), each), art.where, art.sha256) for each in places
    ]
    return crew.done(_LOOK, jobs)


def marked_pages(art: Art, codes: Sequence[Code]) -> tuple[MarkedPage, ...]:
    """Returns the pages of answers among those of a file, in their order.

    Raises InputError where there is none, or where they belong to several proofs.
    """
    read = [(code, paper_mark(code.text)) for code in codes]
    found = [
        MarkedPage(code.page, mark, code.corners, code.size)
        for code, mark in read
        if mark is not None
    ]
    found.sort(key=lambda each: each.mark.page)
    if not found:
        raise _refused(
            art,
            "has no page of answers with the code that says which proof it answers; ask for the "
            "whole document, or for that page as a scan",
        )
    for one, other in pairwise(found):
        if (one.mark.revision, one.mark.mark) != (other.mark.revision, other.mark.mark):
            raise _refused(
                art,
                f"answers two proofs: page {one.page} is of revision {one.mark.revision} "
                f"({one.mark.mark}), page {other.page} of revision {other.mark.revision} "
                f"({other.mark.mark}); read each by itself",
            )
    return tuple({each.mark.page: each for each in reversed(found)}.values())[::-1]


def _refused(art: Art, sentence: str) -> InputError:
    return InputError(Mistake(sentence, str(art.path)))
