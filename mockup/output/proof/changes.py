"""What changed since the proof before: before and now, each changed place ringed, the small ones
larger beside each other, and all of it in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import accumulate, pairwise

from mockup.colour.plates import Plates
from mockup.comparing.comparison import Comparison
from mockup.comparing.wording import Reworded
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.change_words import change_lines, place_words
from mockup.output.proof.grid import (
    GUTTER_IN,
    LEFT_IN,
    PAPERS_IN,
    TAIL_IN,
    TEXT,
    draw_title,
    title_end,
)
from mockup.output.proof.lens import (
    Lens,
    draw_lens,
    draw_told,
    plan_lens,
    plan_upright_lens,
    told_high_in,
    told_lines,
)
from mockup.output.proof.pair import Pair, Seen, Size, beside, draw_seen, larger_pair, stacked
from mockup.output.proof.plan import Page, Telling
from mockup.output.typography import Style, wrapped

_HEADING = Style("light", 17, 20)
_SHARES = tuple(1 - k / 20 for k in range(17))  # of a page's height, tried for a thing's pictures
_LEAST = 0.6  # judgement: of what pictures side by side could be; smaller, they are hard to read
_AFTER_WORDS_IN = 0.12
_AFTER_ITEM_IN = 0.3
_APART_MOST_IN = 0.45  # between pieces, where a page has room to spare
_COLUMN_LEAST_IN = 1.8  # judgement: of lenses beside pictures
_FEWER_LENSES = 0.75  # judgement: pictures a third larger are worth as much as their wide lenses
_SLACK_IN = 1e-6

_Told = tuple[int, str, Box]
"""A place's number, what is said of it, and where it is, inches of the thing."""


@dataclass(frozen=True)
class ChangedItem:
    """A piece or an envelope that changed: the facts in words, how both proofs show it where they
    do, and how the pictures differ where there are both; both are then at one resolution."""

    title: str
    facts: tuple[str, ...]
    before: Seen | None = None
    now: Seen | None = None
    how: Comparison | None = None
    said: tuple[tuple[Reworded, ...], ...] = ()
    """Of each place that differs, what words that could be read became; or nothing at all."""

    @property
    def sizes_in(self) -> list[Size]:
        """The sizes of the pictures there are."""
        return [seen.size_in for seen in (self.before, self.now) if seen is not None]


@dataclass(frozen=True)
class _Block:
    """What stays together on a page: its height, and how it is drawn from its top left."""

    high_in: float
    draw: Callable[[Pdf, Point], None]
    begins: bool = False
    """Whether a piece or an envelope begins with it."""


@dataclass(frozen=True)
class _Laid:
    """A piece or an envelope as it is shown: its blocks, and what its pictures are worth."""

    blocks: tuple[_Block, ...]
    worth: float

    @property
    def high_in(self) -> float:
        return sum(block.high_in for block in self.blocks)


@dataclass(frozen=True)
class _Way:
    """How a thing's pictures stand, which lenses stand beside them and which below, which places
    have none; and what it is worth: how large the pictures are, less where lenses lack."""

    pair: Pair
    beside: Sequence[Lens]
    below: Sequence[Lens]
    plain: Sequence[_Told]
    worth: float


def change_pages(telling: Telling, since: str, items: Sequence[ChangedItem]) -> list[Page]:
    """Returns the pages of what changed since a revision, `since` as it was printed; none where
    nothing did."""
    if not items:
        return []
    width, height = PAPERS_IN[telling.suite.paper]
    title = f"What changed since revision {since}"
    room = height - TAIL_IN - title_end(title, width - 2 * LEFT_IN)
    return [
        _page(title if k == 0 else "What changed, continued", (width, height), group, room)
        for k, group in enumerate(_fewest(telling, items, since, room))
    ]


def _fewest(
    telling: Telling, items: Sequence[ChangedItem], since: str, room: float
) -> list[list[_Block]]:
    """Returns the blocks of every page: as few pages as there can be, as few things going on
    overleaf, pictures then as large."""
    sized = [[_sized(telling, item, since, room, share) for share in _SHARES] for item in items]
    return _best(sized, room)


def _best(sized: Sequence[Sequence[Sequence[_Laid]]], room: float) -> list[list[_Block]]:
    """Returns the blocks of every page, of each thing's ways from the largest share on."""
    tried = (
        _grouped([_fitting(each[k:], room) for each in sized], room) for k in range(len(_SHARES))
    )
    (_, parted, _), groups = min(tried, key=lambda each: each[0])
    if parted or len(groups) == 1:
        return groups
    ends = list(accumulate(sum(block.begins for block in group) for group in groups))
    # A page with few things on it has room for larger pictures than the fullest one.
    parts = [sized[start:end] for start, end in pairwise([0, *ends])]
    return [group for part in parts for group in _best(part, room)]


def _fitting(sizes: Sequence[Sequence[_Laid]], room: float) -> _Laid:
    """Returns what shows the largest pictures on one page; of what never fits, the first."""
    every = [each for ways in sizes for each in ways]
    fit = [each for each in every if each.high_in <= room + _SLACK_IN]
    return max(fit, key=lambda each: round(each.worth, 6), default=every[0])


def _grouped(
    items: Sequence[_Laid], room: float
) -> tuple[tuple[int, int, float], list[list[_Block]]]:
    """Returns what is to be said against an arrangement: its pages, things that go on overleaf,
    how small they are; and the blocks of every page."""
    groups: list[list[_Block]] = [[]]
    taken, parted = 0.0, 0
    for item in items:
        whole = item.high_in if item.high_in <= room + _SLACK_IN else 0.0
        for block in item.blocks:
            high = max(block.high_in, whole if block.begins else 0.0)
            if groups[-1] and taken + high > room + _SLACK_IN:
                groups.append([])
                taken = 0.0
                parted += not block.begins
            groups[-1].append(block)
            taken += block.high_in
    return (len(groups), parted, -sum(item.worth for item in items)), groups


def _page(title: str, size_in: tuple[float, float], blocks: Sequence[_Block], room: float) -> Page:
    spare = room - sum(block.high_in for block in blocks)
    apart = min(_APART_MOST_IN, spare / len(blocks))

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, title)
        y = title_end(title, size_in[0] - 2 * LEFT_IN)
        for number, block in enumerate(blocks):
            y += apart if block.begins and number else 0.0
            block.draw(pdf, Point(LEFT_IN, y))
            y += block.high_in

    return Page(title, *size_in, draw)


def _sized(
    telling: Telling, item: ChangedItem, since: str, room: float, share: float
) -> list[_Laid]:
    """Returns the ways a thing can be shown with a share of a page's height for its pictures."""
    measure = PAPERS_IN[telling.suite.paper][0] - 2 * LEFT_IN
    lines = change_lines(telling.audience, item.facts, item.how, telling.suite.units)
    words = sum(len(wrapped(line, TEXT, measure)) for line in lines) * TEXT.leading_in
    top = _HEADING.leading_in + words + _AFTER_WORDS_IN
    sizes = item.sizes_in
    draw = partial(_draw_item, item=item, lines=lines, since=since)
    if not sizes:
        return [_Laid((_Block(top + _AFTER_ITEM_IN, draw, True),), 1.0)]
    high = room - top - _AFTER_ITEM_IN
    least = _LEAST * beside(sizes, measure, high).high_in
    told = _told(telling, item)
    laid: list[_Laid] = []
    for way in _ways(sizes, told, measure, max(least, high * share)):
        whole = top + way.pair.high_in + _AFTER_ITEM_IN
        first = _Block(whole, partial(draw, way=way), True)
        laid.append(_Laid((first, *_below(item, way, measure)), way.worth))
    return laid


def _ways(
    sizes: Sequence[Size], told: Sequence[_Told], wide_in: float, high_in: float
) -> Iterator[_Way]:
    """Yields how a thing can be shown in a room: its pictures as they are larger and its lenses in
    rows below; its pictures one above the other, all its lenses in a column beside; or the first
    with small lenses only, which is worth less."""
    pair, cell = larger_pair(sizes, wide_in, high_in), (wide_in - GUTTER_IN) / 2
    rows = _planned(told, lambda each: plan_lens(*each, cell, wide_in, pair.scale))
    yield _Way(pair, (), *rows, pair.scale)
    if not told:
        return
    column = stacked(sizes, wide_in - _COLUMN_LEAST_IN - GUTTER_IN, high_in)
    across = wide_in - column.wide_in - GUTTER_IN
    lenses, plain = _planned(told, lambda each: plan_upright_lens(*each, across, column.scale))
    if not plain and sum(lens.whole_in for lens in lenses) <= column.high_in:
        yield _Way(column, lenses, (), (), column.scale)
    small = _planned(told, lambda each: plan_lens(*each, cell, cell, pair.scale))
    yield _Way(pair, (), *small, pair.scale * _FEWER_LENSES)


def _planned(
    told: Sequence[_Told], plan: Callable[[_Told], Lens | None]
) -> tuple[list[Lens], list[_Told]]:
    """Returns the lenses of places, and the places that have none."""
    lenses = [plan(each) for each in told]
    plain = [each for each, lens in zip(told, lenses, strict=True) if lens is None]
    return [lens for lens in lenses if lens is not None], plain


def _told(telling: Telling, item: ChangedItem) -> list[_Told]:
    """Returns every place of a thing: its number, its words and where it is."""
    if item.how is None or item.before is None or item.now is None:
        return []
    places = item.how.places
    said = item.said or ((),) * len(places)
    return [
        (number, place_words(telling.audience, place, telling.suite.units, words), place.box)
        for number, (place, words) in enumerate(zip(places, said, strict=True), start=1)
    ]


def _draw_item(
    pdf: Pdf,
    at: Point,
    item: ChangedItem,
    lines: Sequence[str],
    since: str,
    way: _Way | None = None,
) -> None:
    measure = pdf.width_in - 2 * LEFT_IN
    with pdf.element("H2"):
        pdf.text(Point(at.x, at.y + 0.2), item.title, _HEADING)
    y = at.y + _HEADING.leading_in + 0.17
    for line in lines:
        with pdf.element("P"):
            y = pdf.paragraph(Point(at.x, y), line, TEXT, measure).y
    if way is not None:
        _draw_pictures(pdf, Point(at.x, y - 0.17 + _AFTER_WORDS_IN), item, since, way)


def _draw_pictures(pdf: Pdf, at: Point, item: ChangedItem, since: str, way: _Way) -> None:
    rings = [place.box for place in item.how.places] if item.how is not None else []
    pair, shown = way.pair, [seen for seen in (item.before, item.now) if seen is not None]
    for turn, seen in enumerate(shown):
        when = f"Before, revision {since}" if seen is item.before else "Now"
        place = Point(at.x + turn * pair.second.x, at.y + turn * pair.second.y)
        draw_seen(pdf, seen, (item.title, when), place, pair.scale, rings)
    y = at.y
    for lens in way.beside:
        draw_lens(pdf, lens, Point(at.x + pair.wide_in + GUTTER_IN, y), _both(item))
        y += lens.whole_in


def _both(item: ChangedItem) -> tuple[Seen, Seen]:
    assert item.before is not None and item.now is not None  # there are places to compare
    return item.before, item.now


def _below(item: ChangedItem, way: _Way, measure: float) -> list[_Block]:
    """Returns the rows of lenses, and of the places that have none their words."""
    cell = (measure - GUTTER_IN) / 2
    blocks = [
        _Block(max(lens.whole_in for lens in row), partial(_draw_row, row=row, item=item))
        for row in _rows(way.below, cell)
    ]
    told = [(number, told_lines(words, cell)) for number, words, _ in way.plain]
    for row in (told[k : k + 2] for k in range(0, len(told), 2)):
        high = told_high_in(max(len(lines) for _, lines in row))
        blocks.append(_Block(high, partial(_draw_told_row, row=row, across=cell + GUTTER_IN)))
    return blocks


def _rows(lenses: Sequence[Lens], cell_in: float) -> list[list[Lens]]:
    """Returns lenses in rows: two where both are no wider than a cell."""
    rows: list[list[Lens]] = []
    for lens in lenses:
        both = [*rows[-1], lens] if rows else []
        if len(both) == 2 and all(each.across_in <= cell_in + _SLACK_IN for each in both):
            rows[-1] = both
        else:
            rows.append([lens])
    return rows


def _draw_row(pdf: Pdf, at: Point, row: Sequence[Lens], item: ChangedItem) -> None:
    left = at.x
    for lens in row:
        draw_lens(pdf, lens, Point(left, at.y), _both(item))
        left += lens.across_in + GUTTER_IN


def _draw_told_row(
    pdf: Pdf, at: Point, row: Sequence[tuple[int, tuple[str, ...]]], across: float
) -> None:
    for turn, (number, lines) in enumerate(row):
        draw_told(pdf, Point(at.x + turn * across, at.y), number, lines)
