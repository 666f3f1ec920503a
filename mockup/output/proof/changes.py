"""What changed since the proof before: before and now side by side, each changed place ringed, the
small ones larger beside each other, and all of it in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from PIL import Image
from PIL.Image import Resampling

from mockup.colour.plates import Plates
from mockup.comparing.comparison import Comparison
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.change_words import change_lines, place_words
from mockup.output.proof.grid import (
    BODY,
    GUTTER_IN,
    LABEL,
    LEFT_IN,
    PAPERS_IN,
    TAIL_IN,
    TEXT,
    draw_title,
    title_end,
)
from mockup.output.proof.lens import Lens, draw_lens, plan_lens
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.rings import draw_rings
from mockup.output.typography import HAIR, Style, wrapped
from mockup.pixels import Bytes

_HEADING = Style("light", 17, 20)
_SHOWN_PPI = 220.0  # of the page; what is small is shown larger beside it
_LARGEST = 1.0  # never larger than true size
_SMALLER = (1.0, 0.92, 0.84, 0.76, 0.68, 0.6)  # tried, so that a piece and its lenses share a page
_AFTER_WORDS_IN = 0.12
_CAPTION_IN = 0.22
_AFTER_ITEM_IN = 0.3
_ROOM_RIGHT_IN = 0.2  # what a number may stand beyond a picture
_LEAST_PICTURE_IN = 1.0
_APART_MOST_IN = 0.45  # between pieces, where a page has room to spare


@dataclass(frozen=True)
class Seen:
    """How one proof shows a piece: (h, w, 4) uint8 sRGB, straight alpha, clear outside the cut."""

    picture: Bytes
    ppi: float


@dataclass(frozen=True)
class ChangedItem:
    """A piece or an envelope that changed: the facts in words, how both proofs show it where they
    do, and how the pictures differ where there are both; both are then at one resolution."""

    title: str
    facts: tuple[str, ...]
    before: Seen | None = None
    now: Seen | None = None
    how: Comparison | None = None


@dataclass(frozen=True)
class _Block:
    """What stays together on a page: its height, and how it is drawn from its top left."""

    high_in: float
    draw: Callable[[Pdf, Point], None]


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
    """Returns the blocks of every page: as few pages as there can be, pictures then as large."""
    tried = [
        _grouped([b for item in items for b in _blocks(telling, item, since, room, share)], room)
        for share in _SMALLER
    ]
    return min(tried, key=len)  # of several, the first: the largest


def _grouped(blocks: Sequence[_Block], room: float) -> list[list[_Block]]:
    groups: list[list[_Block]] = [[]]
    taken = 0.0
    for block in blocks:
        if groups[-1] and taken + block.high_in > room + 1e-6:
            groups.append([])
            taken = 0.0
        groups[-1].append(block)
        taken += block.high_in
    return groups


def _page(title: str, size_in: tuple[float, float], blocks: Sequence[_Block], room: float) -> Page:
    spare = room - sum(block.high_in for block in blocks)
    apart = min(_APART_MOST_IN, spare / len(blocks))

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, title)
        y = title_end(title, size_in[0] - 2 * LEFT_IN)
        for block in blocks:
            block.draw(pdf, Point(LEFT_IN, y))
            y += block.high_in + apart

    return Page(title, *size_in, draw)


def _blocks(
    telling: Telling, item: ChangedItem, since: str, room: float, most: float
) -> list[_Block]:
    """Returns an item's blocks, its pictures as large as leave it on one page where they can, and
    no larger than a share of what they could be."""
    tried: list[_Block] = []
    for share in (each for each in _SMALLER if each <= most):
        blocks = _sized(telling, item, since, room, share)
        if sum(block.high_in for block in blocks) <= room:
            return blocks
        tried = tried or blocks
    return tried


def _sized(
    telling: Telling, item: ChangedItem, since: str, room: float, share: float
) -> list[_Block]:
    measure = PAPERS_IN[telling.suite.paper][0] - 2 * LEFT_IN
    suite = telling.suite
    lines = change_lines(telling.audience, item.facts, item.how, suite.units)
    words = sum(len(wrapped(line, TEXT, measure)) for line in lines) * TEXT.leading_in
    top = _HEADING.leading_in + words + _AFTER_WORDS_IN
    scale = _scale(item, (measure - GUTTER_IN) / 2 - _ROOM_RIGHT_IN, (room - top) * 0.8) * share
    pictures = _pictures_high(item, scale)
    high = top + pictures + _AFTER_ITEM_IN
    first = _Block(high, partial(_draw_item, item=item, lines=lines, since=since, scale=scale))
    return [first, *_lens_blocks(telling, item, measure, scale)]


def _scale(item: ChangedItem, wide_in: float, high_in: float) -> float:
    """Returns how large the pictures are drawn: one scale for both."""
    sizes = [_size_in(seen) for seen in (item.before, item.now) if seen is not None]
    if not sizes:
        return 1.0
    widest, highest = (max(size[k] for size in sizes) for k in (0, 1))
    return min(_LARGEST, wide_in / widest, max(high_in, _LEAST_PICTURE_IN) / highest)


def _size_in(seen: Seen) -> tuple[float, float]:
    high, wide = seen.picture.shape[:2]
    return wide / seen.ppi, high / seen.ppi


def _pictures_high(item: ChangedItem, scale: float) -> float:
    highs = [_size_in(seen)[1] for seen in (item.before, item.now) if seen is not None]
    return max(highs) * scale + _CAPTION_IN if highs else 0.0


def _draw_item(
    pdf: Pdf,
    at: Point,
    item: ChangedItem,
    lines: Sequence[str],
    since: str,
    scale: float,
) -> None:
    measure = pdf.width_in - 2 * LEFT_IN
    with pdf.element("H2"):
        pdf.text(Point(at.x, at.y + 0.2), item.title, _HEADING)
    y = at.y + _HEADING.leading_in + 0.17
    for line in lines:
        with pdf.element("P"):
            y = pdf.paragraph(Point(at.x, y), line, TEXT, measure).y
    top = y - 0.17 + _AFTER_WORDS_IN
    across = (measure + GUTTER_IN) / 2
    for turn, seen in enumerate((item.before, item.now)):
        left = at.x + turn * across
        if seen is not None:
            when = (f"Before, revision {since}", "Now")[turn]
            _draw_seen(pdf, item, seen, when, Point(left, top), scale)


def _draw_seen(pdf: Pdf, item: ChangedItem, seen: Seen, when: str, at: Point, scale: float) -> None:
    """Draws one picture of a piece under its caption, what changed ringed."""
    with pdf.element("Caption"):
        pdf.text(Point(at.x, at.y + 0.1), when, LABEL)
    wide, high = (side * scale for side in _size_in(seen))
    top = at.y + _CAPTION_IN
    box = Box(at.x, top, at.x + wide, top + high)
    size = tuple(round(side * _SHOWN_PPI) for side in (wide, high))
    small = Image.fromarray(edged(seen.picture)).resize((size[0], size[1]), Resampling.BOX)
    with pdf.element("Figure", f"{item.title}, {when.lower()}."):
        pdf.photograph(np.asarray(small), box)
    places = item.how.places if item.how is not None else ()
    rings = [
        Box(
            *(
                at.x + side * scale if k % 2 == 0 else top + side * scale
                for k, side in enumerate(p.box)
            )
        )
        for p in places
    ]
    with pdf.artifact():
        draw_rings(pdf, rings, box.grown(_ROOM_RIGHT_IN))


def on_white(picture: Bytes) -> Bytes:
    """Returns a picture of straight alpha laid on white, (h, w, 3)."""
    share = picture[:, :, 3:].astype(np.uint16)
    laid = picture[:, :, :3] * share + 255 * (255 - share) + 127
    return (laid // 255).astype(np.uint8)


def edged(picture: Bytes) -> Bytes:
    """Returns a picture on white with a fine grey line where it is cut, so that white is seen."""
    inside = picture[:, :, 3] > 127
    near = np.pad(inside, 2)
    core = near[:-4, 2:-2] & near[4:, 2:-2] & near[2:-2, :-4] & near[2:-2, 4:]
    laid = on_white(picture)
    laid[inside & ~core] = HAIR
    return laid


def _lens_blocks(telling: Telling, item: ChangedItem, measure: float, scale: float) -> list[_Block]:
    """Returns the rows of lenses, and of the places that need none their words."""
    if item.how is None or item.before is None or item.now is None or not item.how.places:
        return []
    pictures = (on_white(item.before.picture), on_white(item.now.picture))
    cell = (measure - GUTTER_IN) / 2
    lenses: list[Lens] = []
    plain: list[str] = []
    for number, place in enumerate(item.how.places, start=1):
        words = place_words(telling.audience, place, telling.suite.units)
        lens = plan_lens(number, words, place.box, cell, measure, scale)
        if lens is None:
            plain.append(f"{number}\u00a0\u00a0{words}")
        else:
            lenses.append(lens)
    blocks = [
        _Block(
            max(lens.whole_in for lens in row),
            partial(
                _draw_row, row=row, across=cell + GUTTER_IN, pictures=pictures, ppi=item.now.ppi
            ),
        )
        for row in _rows(lenses)
    ]
    if plain:
        told = "   ".join(plain)
        high = len(wrapped(told, BODY, measure)) * BODY.leading_in + 0.1
        blocks.append(_Block(high, partial(_draw_plain, told=told, measure=measure)))
    return blocks


def _rows(lenses: Sequence[Lens]) -> list[list[Lens]]:
    rows: list[list[Lens]] = []
    for lens in lenses:
        if rows and not lens.wide and len(rows[-1]) == 1 and not rows[-1][0].wide:
            rows[-1].append(lens)
        else:
            rows.append([lens])
    return rows


def _draw_row(
    pdf: Pdf,
    at: Point,
    row: Sequence[Lens],
    across: float,
    pictures: tuple[Bytes, Bytes],
    ppi: float,
) -> None:
    for turn, lens in enumerate(row):
        draw_lens(pdf, lens, Point(at.x + turn * across, at.y), pictures, ppi)


def _draw_plain(pdf: Pdf, at: Point, told: str, measure: float) -> None:
    with pdf.element("P"):
        pdf.paragraph(Point(at.x, at.y + 0.16), told, BODY, measure)
