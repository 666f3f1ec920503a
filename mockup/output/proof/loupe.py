"""A closer look: what room a page has left shows its card again, larger, where type is smallest."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine, scaling, translation
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.proof.words import unbroken
from mockup.pixels import View, view_around
from mockup.reading.page import read_facts
from mockup.reading.page_facts import PageFacts
from mockup.suite.suite import Piece

_ABOVE_IN = 0.3  # from what stands above to the label's baseline
_UNDER_LABEL_IN = 0.12
_LEAST_IN = 1.25  # of the picture's height: judgement, some four lines of small type
_WHOLE_LEAST = 1.5  # judgement: less is no closer look
_ACROSS_LEAST = 1.35  # judgement: lines of type read whole are worth more than a larger part
_MOST = 3.0
_PART = 2.0
_SHRUNK = 0.7  # a part is made lower by so much at most, to end between lines of type
_STEPS = 24
_SMALLEST = ", where the type is smallest"
_READ_MOST = 600  # letters of a card's words told to one who does not see it; judgement


@dataclass(frozen=True)
class Loupe:
    """A part of the card, or all of it, and where it is shown: `shown` on the card, `box` on the
    page, inches; `view` is what its art is drawn in."""

    shown: Box
    box: Box
    scale: float
    view: View
    label: str

    @property
    def to_page(self) -> Affine:
        """From card to page."""
        return (
            translation(self.box.left, self.box.top)
            @ scaling(self.scale)
            @ translation(-self.shown.left, -self.shown.top)
        )

    @property
    def frame(self) -> Shape:
        """What the picture is cut to, on the page."""
        corners = [(corner.x, corner.y) for corner in self.box.corners()]
        return Shape(polygon_outline(*corners))


def facts_of(piece: Piece) -> PageFacts | None:
    """Returns what is known of a piece's page, or None where there is too much on it to be read."""
    try:
        return read_facts(piece)
    except (InputError, LimitError):
        return None


def plan_loupe(piece: Piece, facts: PageFacts | None, spare: Box, ppi: float) -> Loupe | None:
    """Returns the closer look a page has room for, or None; its art is drawn at `ppi` of the page.

    All of the card where that is larger by a half at least, else all its width, else a part.
    """
    top = spare.top + _ABOVE_IN + _UNDER_LABEL_IN
    room = Box(spare.left, top, spare.right, spare.bottom)
    if room.height < _LEAST_IN:
        return None
    card = piece.die.shape.box
    across = min(room.width / card.width, _MOST)
    whole = min(across, room.height / card.height)
    if whole >= _WHOLE_LEAST:
        scale, shown = whole, card
    else:
        scale = across if across >= _ACROSS_LEAST else _PART
        shown = _part(card, facts, Point(room.width / scale, room.height / scale))
    box = Box(room.left, top, room.left + shown.width * scale, top + shown.height * scale)
    where = "" if shown == card or facts is None or not facts.letter_lines else _SMALLEST
    label = f"Larger: {unbroken(f'{scale * 100:.0f} %')} of true size{where}"
    return Loupe(shown, box, scale, view_around(shown, ppi * scale), label)


def words_of(facts: PageFacts | None) -> str:
    """Returns what a card's live type says, read aloud; nothing where it is drawn."""
    if facts is None:
        return ""
    said = "; ".join(line.text for line in facts.letter_lines if line.text.strip())
    return said if len(said) <= _READ_MOST else f"{said[:_READ_MOST]}\u2026"


def label_baseline(loupe: Loupe) -> Point:
    """Returns where the label over a closer look is set."""
    return Point(loupe.box.left, loupe.box.top - _UNDER_LABEL_IN)


def _part(card: Box, facts: PageFacts | None, most: Point) -> Box:
    """Returns the part of a card about its smallest type, as large as `most`; the card at most.

    Its upper and lower edge cut as few lines of type as can be.
    """
    lines = _lines(facts)
    middle = lines[0].centre if lines else card.centre
    wide, high = min(card.width, most.x), min(card.height, most.y)
    left = min(max(middle.x - wide / 2, card.left), card.right - wide)

    def cut(top: float, bottom: float) -> int:
        return sum(any(line.top < edge < line.bottom for edge in (top, bottom)) for line in lines)

    tried = [
        (top, top + high * (1 - (1 - _SHRUNK) * shrunk / _STEPS))
        for top in (card.top + (card.height - high) * k / _STEPS for k in range(_STEPS + 1))
        for shrunk in range(_STEPS + 1)
    ]
    shows = [each for each in tried if each[0] <= middle.y <= each[1]] or tried
    top, bottom = min(
        shows,
        key=lambda each: (
            cut(*each), round(each[0] - each[1], 6), abs(sum(each) / 2 - middle.y),
        ),
    )  # fmt: skip
    return Box(left, top, left + wide, bottom)


def _lines(facts: PageFacts | None) -> list[Box]:
    """Returns the boxes of a card's lines of type, the smallest type first."""
    if facts is None:
        return []
    boxes: list[Box] = []
    for line in sorted(facts.letter_lines, key=lambda each: each.em_in):
        members = [facts.parts.all[k].box for k in line.members]
        low = Point(min(box.left for box in members), min(box.top for box in members))
        high = Point(max(box.right for box in members), max(box.bottom for box in members))
        boxes.append(Box(*low, *high))
    return boxes
