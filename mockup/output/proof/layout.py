"""Where things at true size go on a page with their notes; the page grows where it must.

Pictures stand one under another; their notes beside them where a column has room, else below. A
page is the paper upright, else on its side, else folded out: as large as it must be and no larger.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from mockup.errors import LimitError
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import GUTTER_IN, LARGER_IN, LEFT_IN, PAPERS_IN, title_end
from mockup.output.proof.notes import Note, column_height, levelled
from mockup.trade.limits import PAGE_SIDE_MAX_PT
from mockup.units import pt_to_in

CAPTION_IN = 0.26  # from a picture's foot, with its measures, to the foot of its caption
_BETWEEN_IN = 0.32  # from one picture to the next
_COLUMN_LEAST_IN = 1.45  # judgement: some twenty letters
_COLUMN_MOST_IN = 2.6
_COLUMN_USUAL_IN = 2.0  # notes below stand in columns of this or more
_ABOVE_NOTES_IN = 0.14


@dataclass(frozen=True)
class Picture:
    """Something drawn at true size from its top left; `right_in` and `below_in` are kept free for
    its measures, `caption` stands under it."""

    width_in: float
    height_in: float
    draw: Callable[[Pdf, Point], None]
    right_in: float = 0.0
    below_in: float = 0.0
    caption: str = ""

    @property
    def whole_in(self) -> float:
        """Its height with its measures and caption."""
        return self.height_in + self.below_in + (CAPTION_IN if self.caption else 0.0)


@dataclass(frozen=True)
class Layout:
    """A page's size; the top left of every picture; the columns of the notes; and what is left of
    the page below both, inches."""

    width_in: float
    height_in: float
    places: tuple[Point, ...]
    columns: tuple[Box, ...]
    spare: Box

    def lowered(self, by_in: float) -> Layout:
        """Returns the same with pictures and notes lower by a length."""
        return Layout(
            self.width_in,
            self.height_in,
            tuple(Point(place.x, place.y + by_in) for place in self.places),
            tuple(
                Box(box.left, box.top + by_in, box.right, box.bottom + by_in)
                for box in self.columns
            ),
            Box(self.spare.left, self.spare.top + by_in, self.spare.right, self.spare.bottom),
        )


def laid_out(
    paper: str, title: str, pictures: Sequence[Picture], notes: Sequence[Note], tail_in: float
) -> Layout:
    """Returns where pictures and notes go under a title; `tail_in` is kept free below.

    Raises LimitError for pictures that no page of a PDF has room for.
    """
    short, long = PAPERS_IN[paper]
    for width, height in ((short, long), (long, short)):
        for arranged in _arranged(width, title, pictures, notes):
            if arranged.spare.top + tail_in <= height + 1e-6:
                return _of_height(arranged, height, tail_in)
    widest = max(picture.width_in + picture.right_in for picture in pictures)
    room = 2 * LEFT_IN + widest
    widths = (max(short, room), max(short, room + GUTTER_IN + _COLUMN_USUAL_IN))
    folded = [each for width in widths for each in _arranged(width, title, pictures, notes)]
    best = min(folded, key=lambda each: each.width_in * (each.spare.top + tail_in))
    height = max(short, best.spare.top + tail_in)
    if max(best.width_in, height) > pt_to_in(PAGE_SIDE_MAX_PT):
        raise LimitError(f'"{title}" is too large for a page of a proof')
    return _of_height(best, height, tail_in)


def is_folded(paper: str, layout: Layout) -> bool:
    """Returns whether a page is larger than the paper."""
    return sorted((layout.width_in, layout.height_in)) != sorted(PAPERS_IN[paper])


def larger_paper(paper: str, width_in: float, height_in: float) -> str | None:
    """Returns the name of the smallest usual paper a page fits on, or None."""
    short, long = sorted((width_in, height_in))
    fits = (name for name, *sides in LARGER_IN[paper] if short <= sides[0] and long <= sides[1])
    return next(fits, None)


def _arranged(
    width_in: float, title: str, pictures: Sequence[Picture], notes: Sequence[Note]
) -> Iterator[Layout]:
    """Yields the arrangements that a page of a width has room for; `spare` begins below them."""
    left, right = LEFT_IN, width_in - LEFT_IN
    top = title_end(title, right - left)
    widest = max(picture.width_in + picture.right_in for picture in pictures)
    beside = right - left - widest - GUTTER_IN
    if beside >= _COLUMN_LEAST_IN - 1e-6:
        column = min(beside, _COLUMN_MOST_IN)
        places, end = _stacked(pictures, right - widest, top)
        low = top + column_height(notes, column)
        box = Box(left, top, left + column, max(low, end))
        yield Layout(width_in, 0.0, places, (box,), Box(left, max(low, end), right, 0.0))
    if widest <= right - left + 1e-6:
        places, end = _stacked(pictures, left, top)
        room = Box(left, end + _ABOVE_NOTES_IN, right, end)
        count = max(1, int((room.width + GUTTER_IN) / (_COLUMN_USUAL_IN + GUTTER_IN)))
        columns = levelled(notes, room, min(count, max(1, len(notes))))
        low = columns[0].bottom
        yield Layout(width_in, 0.0, places, columns, Box(left, low, right, 0.0))


def _stacked(
    pictures: Sequence[Picture], left: float, top: float
) -> tuple[tuple[Point, ...], float]:
    """Returns the top left of every picture, and where the last ends."""
    places: list[Point] = []
    y = top
    for picture in pictures:
        places.append(Point(left, y))
        y += picture.whole_in + _BETWEEN_IN
    return tuple(places), y - _BETWEEN_IN


def _of_height(layout: Layout, height_in: float, tail_in: float) -> Layout:
    box = layout.spare
    spare = Box(box.left, box.top, box.right, height_in - tail_in)
    return Layout(layout.width_in, height_in, layout.places, layout.columns, spare)
