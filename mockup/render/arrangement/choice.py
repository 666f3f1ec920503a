"""The arrangement of a suite: many layouts tried, the sound ones ranked, the N-th given."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from mockup.geometry.point import Point
from mockup.render.arrangement.board import Board, Pose, Spot
from mockup.render.arrangement.framing import Framed, frame_for, framed, margin_share
from mockup.render.arrangement.meetings import Meetings, canvas_for
from mockup.render.arrangement.model import Arrangement, Frame, Item, Placed, Score, place
from mockup.render.arrangement.posing import claim_of, posed
from mockup.render.arrangement.rules import GAP_IN, faults
from mockup.render.arrangement.search import Chance, drafted, resettled
from mockup.render.arrangement.snapping import snapped
from mockup.render.arrangement.sprites import CELL_IN, about_middle, area_of

STARTS, SETTINGS = 5, 120  # layouts sought in a round: the first many, or so many pieces laid
DENSITIES = (0.76, 0.68, 0.84, 0.62)  # paper, overlaps counted again, in parts of the frame
SPARSE = 0.9  # of these, in every later round: room for what cannot overlap
APART = 0.15  # two layouts are distinct when a piece lies this far elsewhere, in frame sizes
DEG_PER_SIZE = 50.0  # a turn as telling as a shift by one frame size
LEAST_FILL = 0.56  # of the picture under paper; emptier ones are not given while others can be had
ROUNDS = 16  # after this many rounds no further distinct layout is expected
STRICT_ROUNDS = 2  # then layouts less far apart count as distinct, and so on


@dataclass
class _Search:
    """What is asked, and what has been found so far."""

    items: list[Item]
    rough: list[Item]
    aspect: float
    seed: int
    above: frozenset[tuple[int, int]]
    meetings: Meetings
    exact: Meetings
    """Of the items as they are; `meetings` is of rough ones."""
    kept: list[Arrangement] = field(default_factory=list[Arrangement])


def arrange(
    items: Sequence[Item],
    aspect: float,
    seed: int = 0,
    nth: int = 1,
    above: Sequence[tuple[str, str]] = (),
) -> Arrangement:
    """Returns the `nth` best distinct arrangement of items in a picture of a given aspect.

    `aspect` is the picture's width over its height. `above` names items that lie over others, the
    higher first. Inches, table origin at the frame's top left; `placed` runs bottom to top. The
    same arguments give the same answer on every machine. Raises ValueError without items, for
    `nth` below 1, where `above` goes in a circle and when there are fewer arrangements.
    """
    if not items or nth < 1:
        raise ValueError("an arrangement needs at least one item, and nth counts from 1")
    ordered = sorted(items, key=_setting_order)
    rough = [item if item.rough is None else item.rough for item in ordered]
    index = {item.name: at for at, item in enumerate(ordered)}
    over = frozenset((index[low], index[high]) for high, low in above)
    meetings = Meetings(rough, canvas_for([*ordered, *rough]), over)
    search = _Search(ordered, rough, aspect, seed, over, meetings, meetings.with_items(ordered))
    for batch in range(ROUNDS):
        apart = APART * 0.6 ** (batch // STRICT_ROUNDS)
        for one in sorted(_drafts(search, batch), key=lambda one: one.score.total):
            exact = _on_true_outlines(search, one)
            if exact.fill < LEAST_FILL and batch < STRICT_ROUNDS:
                continue
            arrangement = _told(search, exact)
            if _distinct(search, arrangement, apart) and _sound(search, arrangement):
                search.kept.append(arrangement)
                if len(search.kept) >= nth:
                    return search.kept[nth - 1]
        if batch == STRICT_ROUNDS and not search.kept:
            search.kept.append(in_rows(search.items, aspect))
            if nth == 1:
                return search.kept[0]
    raise ValueError(
        f"these pieces have only {len(search.kept)} distinct arrangements here, not {nth}"
    )


def _setting_order(item: Item) -> tuple[int, float, str]:
    box = (item.rough or item).box
    return ("main", "envelope", "card").index(item.role), -box.width * box.height, item.name


def _drafts(search: _Search, batch: int) -> Iterator[Framed]:
    chance = Chance(f"{search.seed}/{batch}")
    paper = sum(area_of(item.outline) for item in search.rough)
    count = len(search.rough)
    claims = [claim_of(item) for item in search.rough]
    for start in range(max(STARTS, SETTINGS // count) if count > 1 else 1):
        pose = posed(search.rough, claims, search.above, chance, start)
        density = DENSITIES[start % len(DENSITIES)] * SPARSE**batch
        board = _board(search, pose, paper / density)
        yield framed(board, drafted(board, chance), search.aspect)


def _on_true_outlines(search: _Search, one: Framed) -> Framed:
    """Returns a layout found for rough outlines with the pieces as they are."""
    if all(item.rough is None for item in search.items):
        return one
    rough, pose = one.board, one.board.pose
    spots: list[Spot] = []
    for index, (row, column) in enumerate(one.draft.spots):
        item, was = search.items[index], search.rough[index]
        middle = np.array([item.box.centre], dtype=np.float64)
        ((x, y),) = about_middle(was, middle, pose.angles[index]) / CELL_IN
        spots.append((row + round(float(y)), column + round(float(x))))
    board = _roomy(search.exact, pose, rough.rows, rough.columns)
    return framed(board, resettled(board, spots), search.aspect)


def _board(search: _Search, pose: Pose, frame_in2: float) -> Board:
    """Returns a board for a frame of about an area, and no smaller than the pieces need."""
    margin = margin_share(len(search.items))
    short = math.sqrt(frame_in2 / max(search.aspect, 1 / search.aspect))
    wide, tall = max(search.aspect, 1.0) - 2 * margin, max(1 / search.aspect, 1.0) - 2 * margin
    rows, columns = (2 * round(short * side / CELL_IN / 2) for side in (tall, wide))
    return _roomy(search.meetings, pose, rows, columns)


def _roomy(meetings: Meetings, pose: Pose, rows: int, columns: int) -> Board:
    """Returns a board of so many rows and columns, or a larger one that all pieces fit into."""
    while not (board := Board(meetings, pose, rows, columns)).has_room():
        rows, columns = (2 * round(each * 0.52) + 2 for each in (rows, columns))
    return board


def _told(search: _Search, one: Framed) -> Arrangement:
    angles = [piece.angle_deg for piece in one.board.pieces]
    layer = {index: at for at, index in enumerate(one.order)}
    middles = [(column * CELL_IN, row * CELL_IN) for row, column in one.draft.spots]
    placed = [
        place(item, angle, Point(x - one.left_in, y - one.top_in), layer[index])
        for index, (item, angle, (x, y)) in enumerate(
            zip(search.items, angles, middles, strict=True)
        )
    ]
    placed.sort(key=lambda each: each.layer)
    rough = Arrangement(tuple(placed), one.frame, one.score)
    fine = snapped(search.items, rough)
    return rough if fine is None or any(True for _ in _faults(search, fine)) else fine


def _faults(search: _Search, arrangement: Arrangement) -> Iterator[str]:
    return faults(search.items, arrangement.placed, arrangement.frame)


def _sound(search: _Search, arrangement: Arrangement) -> bool:
    return next(_faults(search, arrangement), None) is None


def _distinct(search: _Search, one: Arrangement, apart: float) -> bool:
    return all(_distance(one, other) >= apart for other in search.kept)


def _distance(one: Arrangement, other: Arrangement) -> float:
    """Returns how far the piece that differs most lies from its other place, in frame sizes."""
    size = math.sqrt(one.frame.width_in * one.frame.height_in)
    there = {placed.name: placed for placed in other.placed}
    return max(
        max(
            math.dist(_middled(p, one.frame), _middled(there[p.name], other.frame)) / size,
            abs(p.angle_deg - there[p.name].angle_deg) / DEG_PER_SIZE,
        )
        for p in one.placed
    )


def _middled(placed: Placed, frame: Frame) -> tuple[float, float]:
    return placed.centre.x - frame.width_in / 2, placed.centre.y - frame.height_in / 2


def in_rows(items: Sequence[Item], aspect: float) -> Arrangement:
    """Returns all pieces side by side, upright, none over another: what always can be done."""
    choices = [_rows(items, length + 1, aspect) for length in range(len(items))]
    return min(choices, key=lambda one: one.frame.width_in)


def _rows(items: Sequence[Item], length: int, aspect: float) -> Arrangement:
    gap, top, widest = GAP_IN * 1.5, 0.0, 0.0
    spots: list[tuple[float, float]] = []
    for first in range(0, len(items), length):
        boxes = [item.box for item in items[first : first + length]]
        height = max(box.height for box in boxes)
        width = sum(box.width for box in boxes) + gap * (len(boxes) - 1)
        widest, left = max(widest, width), -width / 2
        for box in boxes:
            spots.append((left + box.width / 2, top + height / 2))
            left += box.width + gap
        top += height + gap
    frame = frame_for(widest, top - gap, aspect, len(items), 0.0)
    x, y = frame.width_in / 2, (frame.height_in - top + gap) / 2
    placed = [
        place(item, 0.0, Point(spot[0] + x, spot[1] + y), layer)
        for layer, (item, spot) in enumerate(zip(items, spots, strict=True))
    ]
    return Arrangement(tuple(placed), frame, Score(*[0.0] * len(Score._fields)))
