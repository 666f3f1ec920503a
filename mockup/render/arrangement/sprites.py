"""Items made ready for counting: each turn of each item as regions of grid cells."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from mockup.geometry.point import Box, Point
from mockup.render.arrangement.bits import Points, grown, rasterised, shrunk
from mockup.render.arrangement.model import Item, Ring, ring_of

GAP_IN = 0.25  # pieces that do not overlap keep at least this distance
DEPTH_IN = 0.3  # pieces that overlap do so by at least this
AIR_IN = 0.04  # around what must stay in sight, beside the grid's own coarseness
FILL = 0.62  # share of the picture that pieces cover, common practice, no source
BANDS = (0.09, 0.15)  # distances from a piece, in frame sizes, past which a place is empty
HEAD = 0.35  # of the height, from the top
CELLS = 20_000  # in a frame


@dataclass(frozen=True)
class Sprite:
    """One item at one angle. Regions have the item's centre at cell corner `anchor`."""

    body: int
    core: int
    """Points deeper than half the least overlap: two cores that meet overlap in earnest."""
    halo: int
    """Points nearer than the least gap: a body off the halo lies clear."""
    clear: int
    show: int
    head: int
    """The upper part of a main card or an envelope, where a die or a flap has its character."""
    near: tuple[int, ...]
    """The body grown by each of the empty-space distances."""
    anchor: tuple[int, int]
    first: int
    """The lowest bit of the body: counts start there, the bits below are all nought."""
    cells: int
    """The number of cells of the body; likewise of what it shows and of its head."""
    show_cells: int
    head_cells: int
    extent: tuple[float, float, float, float]
    """Left, top, right, bottom of the outline from the item's centre, inches."""
    heavy: tuple[float, float]
    """Centre of area from the item's centre, inches."""

    def at(self, columns: int, rows: int, stride: int) -> Standing:
        """Returns the sprite with its anchor at a cell of the table."""
        return Standing(self, (rows - self.anchor[1]) * stride + columns - self.anchor[0])


class Standing:
    """A sprite at its place on the table; each region is moved there when it is first asked for.

    Most layouts are given up after a look at a few regions. Attributes are a sprite's.
    """

    def __init__(self, sprite: Sprite, shift: int) -> None:
        self.cells, self.show_cells = sprite.cells, sprite.show_cells
        self.head_cells, self.extent, self.heavy = sprite.head_cells, sprite.extent, sprite.heavy
        self.first = max(0, sprite.first + shift)
        self.body = _shifted(sprite.body, shift)
        self._sprite, self._shift = sprite, shift

    @cached_property
    def core(self) -> int:
        """The depths, at its place."""
        return _shifted(self._sprite.core, self._shift)

    @cached_property
    def halo(self) -> int:
        """The surroundings, at its place."""
        return _shifted(self._sprite.halo, self._shift)

    @cached_property
    def clear(self) -> int:
        """The marks to be kept in sight, at its place."""
        return _shifted(self._sprite.clear, self._shift)

    @cached_property
    def show(self) -> int:
        """The parts worth seeing, at its place."""
        return _shifted(self._sprite.show, self._shift)

    @cached_property
    def head(self) -> int:
        """The upper part, at its place."""
        return _shifted(self._sprite.head, self._shift)

    @cached_property
    def near(self) -> tuple[int, ...]:
        """The body grown by each of the empty-space distances, at its place."""
        return tuple(_shifted(region, self._shift) for region in self._sprite.near)


def _shifted(region: int, shift: int) -> int:
    return region << shift if shift >= 0 else region >> -shift


@dataclass(frozen=True)
class Table:
    """The room to try layouts in, larger than any frame; inches from its own top left."""

    items: tuple[Item, ...]
    aspect: float
    cell: float
    size: float
    """Square root of the area the frame is expected to have, inches: the unit of distances."""
    width: float
    height: float
    pad: float
    """How far grown regions reach past a piece, inches."""
    stride: int
    areas: tuple[float, ...]
    kept_clear: tuple[tuple[Points, ...], ...]
    """Each item's regions to be kept clear with air around them, about the item's centre."""
    cache: dict[tuple[int, float], Sprite] = field(default_factory=dict, compare=False)

    def sprite(self, index: int, angle_deg: float) -> Sprite:
        """Returns an item's regions at an angle, made once."""
        key = (index, angle_deg)
        if key not in self.cache:
            self.cache[key] = _sprite(self, index, angle_deg)
        return self.cache[key]

    def placed(self, index: int, angle_deg: float, x: float, y: float) -> Standing:
        """Returns an item's regions with its centre at a point of the table."""
        column, row = math.floor(x / self.cell + 0.5), math.floor(y / self.cell + 0.5)
        return self.sprite(index, angle_deg).at(column, row, self.stride)


def table_for(items: Sequence[Item], aspect: float) -> Table:
    """Returns the table to try layouts of these items on, for pictures of a width to height."""
    areas = tuple(_area(_points(item)) for item in items)
    overlap = 0.0 if len(items) == 1 else 0.14  # paper on paper, a usual share
    size = math.sqrt(sum(areas) * (1 - overlap) / FILL)
    cell = max(1 / 32, round(size / math.sqrt(CELLS) * 64) / 64)
    longest = max(max(item.box.width, item.box.height) for item in items)
    pad = BANDS[-1] * size + 4 * cell
    width = max(1.25 * size * math.sqrt(aspect), 1.3 * longest)
    height = max(1.25 * size / math.sqrt(aspect), 1.3 * longest)
    stride = math.ceil((width + pad) / cell)  # grown regions may run over one side, not into sight
    clear = tuple(_airy(item, AIR_IN + cell) for item in items)
    return Table(tuple(items), aspect, cell, size, width, height, pad, stride, areas, clear)


def _airy(item: Item, air_in: float) -> tuple[Points, ...]:
    """Returns regions to be kept clear, grown so that no cell grid can miss them, and merged."""
    from shapely import unary_union
    from shapely.geometry import Polygon

    from mockup.geometry.offset import polygons_of

    centre = item.box.centre
    parts = [
        Polygon(ring_of(region)).buffer(air_in, join_style="mitre") for region in item.keep_clear
    ]
    return tuple(
        [(x - centre.x, y - centre.y) for x, y in part.exterior.coords[:-1]]
        for part in polygons_of(unary_union(parts))
    )


def _points(item: Item) -> Points:
    """Returns the outline about its box's centre, without points that no cell could tell."""
    points = _about(item.outline, item.box.centre)
    kept = [points[0]]
    for point in points[1:]:
        if math.dist(point, kept[-1]) > 0.04:
            kept.append(point)
    return kept


def _about(ring: Ring, centre: Point) -> Points:
    return [(float(x) - centre.x, float(y) - centre.y) for x, y in ring]


def _area(ring: Points) -> float:
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _centroid(ring: Points) -> tuple[float, float]:
    pairs = list(zip(ring, [*ring[1:], ring[0]], strict=True))
    crosses = [x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs]
    total = 3 * sum(crosses)
    return (
        sum((a[0] + b[0]) * c for (a, b), c in zip(pairs, crosses, strict=True)) / total,
        sum((a[1] + b[1]) * c for (a, b), c in zip(pairs, crosses, strict=True)) / total,
    )


def _turned(ring: Points, angle_deg: float) -> Points:
    cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return [(x * cos - y * sin, x * sin + y * cos) for x, y in ring]


def _head(item: Item) -> Ring:
    left, top, right, bottom = item.box
    return ring_of(Box(left, top, right, top + HEAD * (bottom - top)))


def _sprite(table: Table, index: int, angle_deg: float) -> Sprite:
    item = table.items[index]
    outline = _turned(_points(item), angle_deg)
    centre = item.box.centre
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    pad = math.ceil(table.pad / table.cell)
    anchor = (pad + math.ceil(-min(xs) / table.cell), pad + math.ceil(-min(ys) / table.cell))
    rows = anchor[1] + math.ceil(max(ys) / table.cell) + pad

    def region(ring: Points) -> Points:
        return [(x / table.cell + anchor[0], y / table.cell + anchor[1]) for x, y in ring]

    def regions(rings: Iterable[Points]) -> int:
        turned = [region(_turned(ring, angle_deg)) for ring in rings]
        return rasterised(turned, table.stride, rows)

    body = rasterised([region(outline)], table.stride, rows)
    show = regions(_about(ring_of(part), centre) for part in item.show)
    head = body & regions([_about(_head(item), centre)]) if item.role != "card" else 0
    return Sprite(
        body=body,
        core=shrunk(body, DEPTH_IN / 2 / table.cell + 0.3, table.stride, rows),
        halo=grown(body, GAP_IN / table.cell + 0.7, table.stride),
        clear=regions(table.kept_clear[index]),
        show=show,
        head=head,
        near=tuple(grown(body, band * table.size / table.cell, table.stride) for band in BANDS),
        anchor=anchor,
        first=(body & -body).bit_length() - 1,
        cells=body.bit_count(),
        show_cells=show.bit_count(),
        head_cells=head.bit_count(),
        extent=(min(xs), min(ys), max(xs), max(ys)),
        heavy=_centroid(outline),
    )
