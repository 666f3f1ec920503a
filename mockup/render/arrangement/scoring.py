"""How a layout is judged: faults counted on the grid, one function a fault."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from mockup.geometry.point import Box
from mockup.render.arrangement.bits import block, moved
from mockup.render.arrangement.model import WEIGHTS, Arrangement, Item, Score
from mockup.render.arrangement.sprites import Standing, Table, table_for

MARGINS = (0.1, 0.075, 0.06)  # of the frame's shorter side: of one piece, two, more
FILL_RANGE = (0.58, 0.68)
OPTICAL_CENTRE = 0.48  # from the top, in parts of the height: a little above the middle
HEAP_FROM = 0.2  # share of all paper that may lie under other paper
LINER_FROM = 0.1
ON_ENVELOPE = 0.12  # share of the main card that lies on an envelope
LOW = 0.08  # centre of mass below the middle, in frame sizes
COVERED_FROM = {"main": 0.06, "card": 0.18, "envelope": 0.45}
IN_LINE_IN = 0.02
FLUSH_IN = 0.3
LEAST_CORE_IN2 = 0.12  # less shared depth than this reads as a corner or a tip just touching
SLIGHT = 0.6  # such an overlap, in parts of a pair that merely touches
_WEIGHT = WEIGHTS._asdict()
_ROUNDING = 1e-6  # far more than sums in another order differ by


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
    sprites: tuple[Standing, ...]

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
    """What one look from above tells."""

    union: int
    """Cells under any piece."""
    hidden: int
    """Cells to be kept clear that are not."""
    covered: tuple[float, ...]
    """Share of each piece that lies under others; likewise of what it shows, of its head."""
    show_covered: tuple[float, ...]
    head_covered: tuple[float, ...]


def layout_of(table: Table, spots: Sequence[Spot], order: Sequence[int]) -> Layout:
    """Returns a layout with every item's regions put in place."""
    sprites = tuple(
        table.placed(index, spot.angle_deg, spot.x, spot.y) for index, spot in enumerate(spots)
    )
    return Layout(tuple(spots), tuple(order), sprites)


def looked_at(layout: Layout) -> Stack:
    """Returns what is seen and what is hidden from above."""
    above, hidden, count = 0, 0, len(layout.order)
    covered, show, head = [0.0] * count, [0.0] * count, [0.0] * count
    for index in reversed(layout.order):
        sprite = layout.sprites[index]
        over = (sprite.body & above) >> sprite.first
        if over:
            over = above >> sprite.first
            covered[index] = _cells(sprite.body, over, sprite) / sprite.cells
            if sprite.show:
                show[index] = _cells(sprite.show, over, sprite) / sprite.show_cells
            if sprite.head:
                head[index] = _cells(sprite.head, over, sprite) / sprite.head_cells
        hidden += _cells(sprite.clear, above >> sprite.first, sprite) if sprite.clear else 0
        above |= sprite.body
    return Stack(above.bit_count(), hidden, tuple(covered), tuple(show), tuple(head))


def frame_around(table: Table, pieces: Box, stack: Stack) -> tuple[Box, float]:
    """Returns the smallest frame that gives the pieces their margin and air, and the margin."""
    aspect = table.aspect
    wide, tall = max(aspect, 1.0), max(1 / aspect, 1.0)  # sides in units of the shorter one
    margin = MARGINS[min(len(table.items), len(MARGINS)) - 1]
    short = max(pieces.width / (wide - 2 * margin), pieces.height / (tall - 2 * margin))
    covered = stack.union * table.cell**2
    short = max(short, math.sqrt(covered / FILL_RANGE[1] / (wide * tall)))
    width, height = short * wide, short * tall
    cx, cy = pieces.centre
    frame = Box(cx - width / 2, cy - height / 2, cx + width / 2, cy + height / 2)
    return frame, margin * short


def judged(
    table: Table, layout: Layout, stack: Stack, pieces: Box, frame: Box, margin: float
) -> Score:
    """Returns the score of a layout in a frame; `pieces` is the box around all of them."""
    found: dict[str, float] = {}
    for faults in _faults(table, layout, stack, pieces, frame, margin):
        found |= faults
    return Score(**found)


def judged_below(
    limit: float, table: Table, layout: Layout, stack: Stack, pieces: Box, frame: Box, margin: float
) -> Score | None:
    """Returns the score of a layout, or None once its faults so far weigh `limit` or more."""
    found: dict[str, float] = {}
    weight = 0.0
    for faults in _faults(table, layout, stack, pieces, frame, margin):
        weight += sum(_WEIGHT[name] * fault for name, fault in faults.items())
        if weight >= limit + _ROUNDING:
            return None  # other faults can only add to it
        found |= faults
    return Score(**found)


def _faults(
    table: Table, layout: Layout, stack: Stack, pieces: Box, frame: Box, margin: float
) -> Iterator[dict[str, float]]:
    """Yields the faults of a layout by name, those quickly found and often grave first."""
    fill = stack.union * table.cell**2 / (frame.width * frame.height)
    yield {
        "hidden": stack.hidden * table.cell**2,
        "outside": _outside(pieces, frame.grown(-margin)),
        "fill": max(0.0, FILL_RANGE[0] - fill) + max(0.0, fill - FILL_RANGE[1] - 0.02),
        "heap": _heap(table, stack),
        "liner": sum(max(0.0, share - LINER_FROM) for share in stack.show_covered),
        "visible": _covered(table.items, stack),
        "heads": sum(stack.head_covered),
    }
    yield {
        "balance": _balance(table, layout, frame),
        "main": _main(table.items, layout, frame),
        "alignment": _alignment(layout),
    }
    joined, touching = _pairs(table, layout)
    yield {
        "touching": touching,
        "apart": _apart(table, layout, joined),
        "angles": _angles(table, layout, joined),
    }
    yield {"empty": _empty(table, layout, frame)}


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
    layout = layout_of(table, spots, order)
    return judged(table, layout, looked_at(layout), layout.extents(), box, frame.margin_in)


def _cells(region: int, over: int, sprite: Standing) -> int:
    """Returns how many cells of a region lie under `over`, which starts at the body's first bit."""
    return ((region >> sprite.first) & over).bit_count()


def _pairs(table: Table, layout: Layout) -> tuple[list[tuple[int, int]], float]:
    """Returns the pairs that overlap in earnest, and the number of those that merely touch."""
    joined: list[tuple[int, int]] = []
    touching = 0.0
    least = LEAST_CORE_IN2 / table.cell**2
    sprites = layout.sprites
    for i, one in enumerate(sprites):
        for j in range(i):
            other = sprites[j]
            if not one.halo & other.body:
                continue
            shared = one.core & other.core
            if not shared:
                touching += 1
                continue
            joined.append((j, i))
            if (shared >> one.first).bit_count() < least or _flush(layout, i, j):
                touching += SLIGHT
    return joined, touching


def _flush(layout: Layout, i: int, j: int) -> bool:
    """Returns whether two upright pieces share both edges, so that they read as one strip."""
    one, other = layout.spots[i], layout.spots[j]
    if one.angle_deg or other.angle_deg:
        return False
    a, b = layout.sprites[i].extent, layout.sprites[j].extent
    here, there = (one.x, one.y), (other.x, other.y)
    off = [here[k % 2] + a[k] - there[k % 2] - b[k] for k in range(4)]
    return any(abs(off[k]) < FLUSH_IN and abs(off[k + 2]) < FLUSH_IN for k in (0, 1))


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
    # A little weight low down sits well; above the middle it looks about to fall.
    low = y - frame.centre.y
    low = max(0.0, low - LOW * table.size) if low > 0 else low
    return math.hypot(x - frame.centre.x, low) / table.size


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


def _apart(table: Table, layout: Layout, joined: list[tuple[int, int]]) -> float:
    if len(table.items) == 1:
        return 0.0
    group = list(range(len(table.items)))
    for i, j in joined:
        old, new = group[j], group[i]
        group = [new if g == old else g for g in group]
    apart = (len(set(group)) - 1) / (len(table.items) - 1)
    mains = [s for s, item in zip(layout.sprites, table.items, strict=True) if item.role == "main"]
    under = [
        s.body
        for s, item in zip(layout.sprites, table.items, strict=True)
        if item.role == "envelope"
    ]
    if not mains or not under:
        return apart
    share = max((m.body & body).bit_count() / m.cells for m in mains for body in under)
    return apart + 0.5 * max(0.0, 1 - share / ON_ENVELOPE)


def _heap(table: Table, stack: Stack) -> float:
    paper = sum(table.areas) / table.cell**2
    return max(0.0, 1 - stack.union / paper - HEAP_FROM)


def _covered(items: Sequence[Item], stack: Stack) -> float:
    shares = zip(items, stack.covered, strict=True)
    return sum(max(0.0, share - COVERED_FROM[item.role]) for item, share in shares)


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
    if len(angles) == 1 or not any(angles):
        return abs(angles[0]) / 8
    parallel = sum(abs(angles[i] - angles[j]) < 2 for i, j in joined) / len(angles)
    leaning = sum(a * angle for a, angle in zip(table.areas, angles, strict=True))
    tilt = sum(a * abs(angle) for a, angle in zip(table.areas, angles, strict=True))
    one_way = max(0.0, abs(leaning) / tilt - 0.5) if len(angles) > 2 else 0.0
    wide = sum(max(0.0, abs(angle) - 6) for angle in angles) / 8 / len(angles)
    return parallel + one_way + wide


def _alignment(layout: Layout) -> float:
    if len(layout.spots) == 1 or any(spot.angle_deg for spot in layout.spots):
        return 0.0
    columns: list[tuple[float, int]] = []
    rows: list[tuple[float, int]] = []
    for index, (spot, sprite) in enumerate(zip(layout.spots, layout.sprites, strict=True)):
        left, top, right, bottom = sprite.extent
        columns += [(spot.x + x, index) for x in (left, (left + right) / 2, right)]
        rows += [(spot.y + y, index) for y in (top, (top + bottom) / 2, bottom)]
    one, other = _in_line(columns), _in_line(rows)
    return 1 - (0.7 * len(one | other) + 0.3 * len(one & other)) / len(layout.spots)


def _in_line(lines: list[tuple[float, int]]) -> set[int]:
    """Returns the pieces that have an edge or axis in line with another piece's."""
    lines.sort()
    met: set[int] = set()
    for (a, one), (b, other) in pairwise(lines):
        if b - a < IN_LINE_IN and one != other:
            met |= {one, other}
    return met
