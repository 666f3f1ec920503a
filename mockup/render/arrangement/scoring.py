"""How a layout is judged: faults counted on the grid, one function a fault."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from mockup.geometry.point import Box
from mockup.render.arrangement.bits import block, moved
from mockup.render.arrangement.model import Arrangement, Frame, Item, Score
from mockup.render.arrangement.sprites import Sprite, Table, table_for

MARGIN = 0.06  # of the frame's shorter side, common practice, no source
FILL_RANGE = (0.58, 0.68)
OPTICAL_CENTRE = 0.48  # from the top, in parts of the height: a little above the middle
HEAP_FROM = 0.2  # share of all paper that may lie under other paper
LINER_FROM = 0.1
COVERED_FROM = {"main": 0.06, "card": 0.18, "envelope": 0.45}
IN_LINE_IN = 0.02


@dataclass(frozen=True)
class Spot:
    """An item's centre on the table, inches, and its turn."""

    x: float
    y: float
    angle_deg: float


@dataclass(frozen=True)
class Layout:
    """Spots by item index, items bottom to top, and each item's regions at its spot."""

    spots: tuple[Spot, ...]
    order: tuple[int, ...]
    sprites: tuple[Sprite, ...]

    def extents(self) -> Box:
        """Returns the box around all pieces, inches on the table."""
        spots, sprites = self.spots, self.sprites
        return Box(
            min(p.x + s.extent[0] for p, s in zip(spots, sprites, strict=True)),
            min(p.y + s.extent[1] for p, s in zip(spots, sprites, strict=True)),
            max(p.x + s.extent[2] for p, s in zip(spots, sprites, strict=True)),
            max(p.y + s.extent[3] for p, s in zip(spots, sprites, strict=True)),
        )


@dataclass(frozen=True)
class Stack:
    """What one look from above tells, in cells."""

    union: int
    twice: int
    hidden: int
    visible: tuple[int, ...]
    show_hidden: tuple[int, ...]
    heads_hidden: float


def layout_of(table: Table, spots: Sequence[Spot], order: Sequence[int]) -> Layout:
    """Returns a layout with every item's regions put in place."""
    sprites = tuple(
        table.placed(index, spot.angle_deg, spot.x, spot.y) for index, spot in enumerate(spots)
    )
    return Layout(tuple(spots), tuple(order), sprites)


def frame_around(table: Table, layout: Layout) -> tuple[Box, float]:
    """Returns the smallest frame that gives the pieces their margin and air, and the margin."""
    box, aspect = layout.extents(), table.aspect
    wide, tall = max(aspect, 1.0), max(1 / aspect, 1.0)  # sides in units of the shorter one
    short = max(box.width / (wide - 2 * MARGIN), box.height / (tall - 2 * MARGIN))
    union = 0
    for sprite in layout.sprites:
        union |= sprite.body
    covered = union.bit_count() * table.cell**2
    short = max(short, math.sqrt(covered / FILL_RANGE[1] / (wide * tall)))
    width, height = short * wide, short * tall
    (cx, cy) = box.centre
    frame = Box(cx - width / 2, cy - height / 2, cx + width / 2, cy + height / 2)
    return frame, MARGIN * short


def judged(table: Table, layout: Layout, frame: Box, margin: float) -> Score:
    """Returns the score of a layout in a frame."""
    stack = _stack(layout)
    joined, touching = _pairs(layout)
    cell_area = table.cell**2
    covered = stack.union.bit_count() * cell_area
    fill = covered / (frame.width * frame.height)
    return Score(
        hidden=stack.hidden * cell_area,
        outside=_outside(layout.extents(), frame.grown(-margin)),
        touching=touching,
        fill=max(0.0, FILL_RANGE[0] - fill) + max(0.0, fill - FILL_RANGE[1] - 0.02),
        balance=_balance(table, layout, frame),
        empty=_empty(table, layout, frame),
        apart=_apart(table.items, joined),
        heap=_heap(table, stack),
        liner=_liner(layout, stack),
        visible=_covered(table.items, layout, stack),
        main=_main(table.items, layout, frame),
        heads=stack.heads_hidden,
        angles=_angles(table, layout, joined),
        alignment=_alignment(layout),
    )


def score(items: Sequence[Item], arrangement: Arrangement) -> Score:
    """Returns the score of any arrangement of `items`, in the arrangement's own frame.

    Raises KeyError when an item has no place in the arrangement.
    """
    frame = arrangement.frame
    table = table_for(items, frame.width_in / frame.height_in)
    places = {placed.name: placed for placed in arrangement.placed}
    left = (table.width - frame.width_in) / 2
    top = (table.height - frame.height_in) / 2
    spots = [
        Spot(left + p.centre.x, top + p.centre.y, p.angle_deg)
        for p in (places[item.name] for item in items)
    ]
    order = sorted(range(len(items)), key=lambda index: places[items[index].name].layer)
    box = Box(left, top, left + frame.width_in, top + frame.height_in)
    return judged(table, layout_of(table, spots, order), box, frame.margin_in)


def framed(frame: Box, margin: float) -> Frame:
    """Returns a frame as the arrangement tells it."""
    return Frame(frame.width, frame.height, margin)


def _stack(layout: Layout) -> Stack:
    above, twice, hidden, heads = 0, 0, 0, 0.0
    visible, show_hidden = [0] * len(layout.order), [0] * len(layout.order)
    for index in reversed(layout.order):
        sprite = layout.sprites[index]
        under = sprite.body & above
        twice |= under
        visible[index] = sprite.body.bit_count() - under.bit_count()
        if sprite.clear:
            hidden += (sprite.clear & above).bit_count()
        if sprite.show:
            show_hidden[index] = (sprite.show & above).bit_count()
        if sprite.head:
            heads += (sprite.head & above).bit_count() / sprite.head.bit_count()
        above |= sprite.body
    return Stack(above, twice, hidden, tuple(visible), tuple(show_hidden), heads)


def _pairs(layout: Layout) -> tuple[list[tuple[int, int]], float]:
    """Returns the pairs that overlap in earnest, and the number of those that merely touch."""
    joined: list[tuple[int, int]] = []
    touching = 0.0
    sprites = layout.sprites
    for i, one in enumerate(sprites):
        for j in range(i):
            other = sprites[j]
            if not one.halo & other.body:
                continue
            if one.core & other.core:
                joined.append((j, i))
            else:
                touching += 1
    return joined, touching


def _outside(pieces: Box, room: Box) -> float:
    over = (room.left - pieces.left, room.top - pieces.top)
    under = (pieces.right - room.right, pieces.bottom - room.bottom)
    return sum(max(0.0, length) for length in (*over, *under) if length > 1e-6)


def _balance(table: Table, layout: Layout, frame: Box) -> float:
    masses = [a * item.weight for a, item in zip(table.areas, table.items, strict=True)]
    total = sum(masses)
    triples = list(zip(masses, layout.spots, layout.sprites, strict=True))
    x = sum(m * (p.x + s.heavy[0]) for m, p, s in triples) / total
    y = sum(m * (p.y + s.heavy[1]) for m, p, s in triples) / total
    return math.dist((x, y), frame.centre) / table.size


def _empty(table: Table, layout: Layout, frame: Box) -> float:
    cell = table.cell
    columns, rows = math.floor(frame.width / cell), math.floor(frame.height / cell)
    left, top = math.floor(frame.left / cell + 0.5), math.floor(frame.top / cell + 0.5)
    # A frame may reach past the table; what lies there is empty as well.
    shown_rows = rows + min(top, 0)
    shown_columns = min(columns + min(left, 0), table.stride)
    seen = block(shown_columns, shown_rows, table.stride)
    seen = moved(seen, max(left, 0), max(top, 0), table.stride)
    lost = columns * rows - shown_columns * shown_rows
    far = 0
    for band in range(len(layout.sprites[0].near)):
        near = 0
        for sprite in layout.sprites:
            near |= sprite.near[band]
        far += (seen & ~near).bit_count() + lost
    return far / (columns * rows)


def _apart(items: Sequence[Item], joined: list[tuple[int, int]]) -> float:
    if len(items) == 1:
        return 0.0
    group = list(range(len(items)))
    for i, j in joined:
        old, new = group[j], group[i]
        group = [new if g == old else g for g in group]
    apart = (len(set(group)) - 1) / (len(items) - 1)
    roles = [item.role for item in items]
    on_envelope = any({roles[i], roles[j]} == {"main", "envelope"} for i, j in joined)
    unmet = {"main", "envelope"} <= set(roles) and not on_envelope
    return apart + (0.5 if unmet else 0.0)


def _heap(table: Table, stack: Stack) -> float:
    paper = sum(table.areas) / table.cell**2
    under = 1 - stack.union.bit_count() / paper
    return max(0.0, under - HEAP_FROM)


def _liner(layout: Layout, stack: Stack) -> float:
    shares = [
        hidden / sprite.show.bit_count() - LINER_FROM
        for sprite, hidden in zip(layout.sprites, stack.show_hidden, strict=True)
        if sprite.show
    ]
    return sum(max(0.0, share) for share in shares)


def _covered(items: Sequence[Item], layout: Layout, stack: Stack) -> float:
    fault = 0.0
    for item, sprite, seen in zip(items, layout.sprites, stack.visible, strict=True):
        share = 1 - seen / sprite.body.bit_count()
        fault += max(0.0, share - COVERED_FROM[item.role])
    return fault


def _main(items: Sequence[Item], layout: Layout, frame: Box) -> float:
    fault = 0.0
    for item, spot in zip(items, layout.spots, strict=True):
        if item.role == "main":
            dx = abs(spot.x - frame.centre.x) / frame.width
            dy = abs(spot.y - frame.top - OPTICAL_CENTRE * frame.height) / frame.height
            fault += max(0.0, dx - 0.14) + max(0.0, dy - 0.08)
    return fault


def _angles(table: Table, layout: Layout, joined: list[tuple[int, int]]) -> float:
    angles = [spot.angle_deg for spot in layout.spots]
    if not any(angles):
        return 0.0
    parallel = sum(abs(angles[i] - angles[j]) < 2 for i, j in joined) / len(angles)
    leaning = sum(a * angle for a, angle in zip(table.areas, angles, strict=True))
    tilt = sum(a * abs(angle) for a, angle in zip(table.areas, angles, strict=True))
    one_way = max(0.0, abs(leaning) / tilt - 0.5) if len(angles) > 2 else 0.0
    wide = sum(max(0.0, abs(angle) - 6) for angle in angles) / 8 / len(angles)
    return parallel + one_way + wide


def _alignment(layout: Layout) -> float:
    if len(layout.spots) == 1 or any(spot.angle_deg for spot in layout.spots):
        return 0.0
    lines = [_lines(p, s) for p, s in zip(layout.spots, layout.sprites, strict=True)]
    loose = 0
    for index, (columns, rows) in enumerate(lines):
        others = lines[:index] + lines[index + 1 :]
        in_column = any(_meet(columns, other[0]) for other in others)
        in_row = any(_meet(rows, other[1]) for other in others)
        loose += 2 - in_column - in_row
    return loose / 2 / len(lines)


def _lines(spot: Spot, sprite: Sprite) -> tuple[tuple[float, ...], tuple[float, ...]]:
    left, top, right, bottom = sprite.extent
    return (
        (spot.x + left, spot.x + (left + right) / 2, spot.x + right),
        (spot.y + top, spot.y + (top + bottom) / 2, spot.y + bottom),
    )


def _meet(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return any(abs(a - b) < IN_LINE_IN for a in one for b in other)
