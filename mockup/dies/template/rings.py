"""The closed outlines of a template, drawn closed, closed by their paint, or line by line."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from mockup.dies.joining import bridged, clockwise, encloses
from mockup.dies.template.looks import Look, look_of
from mockup.dies.template.mesh import joined_outlines
from mockup.geometry.flatten import ring as flattened
from mockup.geometry.outline import Outline, Segment
from mockup.geometry.point import Box, box_of
from mockup.trade.vocabulary import meaning
from mockup.vector.template import TemplatePath

SPECK_IN = 0.04  # judgement: smaller than any hole a die drills; letters turned to outlines
SMALLEST_IN = 0.5  # judgement: no card or tag is smaller
SAME_WITHIN_IN = 0.002  # a line drawn twice, or filled and stroked
RINGS_MAX = 4000  # judgement: of a page with type turned to outlines the larger ones will do

OUTLINES_MAX = 120  # judgement: more outlines as large as a card no template has


@dataclass(frozen=True, eq=False)
class Ring:
    """A closed outline, inches on the template's page, clockwise as seen, and what it is made of.

    Of an outline that is drawn twice the paths of both.
    """

    outline: Outline
    paths: tuple[TemplatePath, ...]

    @cached_property
    def box(self) -> Box:
        """The smallest box round it."""
        return self.outline.box

    @cached_property
    def flat(self) -> Polygon:
        """The outline as a polygon, sound or not."""
        return Polygon(flattened(self.outline))

    @cached_property
    def ground(self) -> BaseGeometry:
        """What it encloses; of an outline that crosses itself, its hull: it is no cut."""
        return self.flat if self.flat.is_valid else self.flat.convex_hull

    @property
    def size_in(self) -> tuple[float, float]:
        """Width and height, inches."""
        return self.box.width, self.box.height

    @property
    def look(self) -> Look:
        """How it looks: as its uppermost line does, where one of its paths is stroked."""
        return look_of(self.seen_path)

    @property
    def seen_path(self) -> TemplatePath:
        """The path that is painted last: a line is often drawn over a wider, white one."""
        stroked = [path for path in self.paths if path.stroke is not None]
        return max(stroked or self.paths, key=lambda path: path.painted)

    @property
    def painted(self) -> frozenset[int]:
        """The numbers of the paint operators that draw it."""
        return frozenset(path.painted for path in self.paths)


def rings_of(paths: Sequence[TemplatePath]) -> list[Ring]:
    """Returns the closed outlines paths make, the largest first; specks are left out."""
    found: list[Ring] = []
    loose: dict[Hashable, list[TemplatePath]] = defaultdict(list)
    for path in paths:
        if not (path.closed or path.filled):
            loose[_kin(path)].append(path)
            continue
        box = _box(path.segments)
        if max(box.width, box.height) < SPECK_IN:
            continue
        outline = Outline(bridged(path.segments))
        if encloses(outline):
            found.append(Ring(clockwise(outline), (path,)))
    for together in loose.values():
        found += [Ring(outline, used) for outline, used in joined_outlines(together)]
    found.sort(key=lambda ring: (-ring.box.width * ring.box.height, ring.box))
    return found[:RINGS_MAX]


def outlines_of_size(rings: Iterable[Ring]) -> list[Ring]:
    """Returns the rings large enough for a card, each once however often it is drawn."""
    kept: list[Ring] = []
    for ring in rings:
        if min(ring.size_in) < SMALLEST_IN:
            continue
        if len(kept) == OUTLINES_MAX:
            break
        same = next((k for k, other in enumerate(kept) if _is_same(ring, other)), None)
        if same is None:
            kept.append(ring)
        else:
            other = kept[same]
            kept[same] = replace(other, paths=(*other.paths, *ring.paths))
    return kept


def lines_of(paths: Iterable[TemplatePath]) -> list[TemplatePath]:
    """Returns the open lines among paths."""
    return [path for path in paths if not path.closed and not path.filled]


def path_box(path: TemplatePath) -> Box:
    """Returns the smallest box round a path."""
    return _box(path.segments)


def _is_same(one: Ring, other: Ring) -> bool:
    if any(abs(a - b) > SAME_WITHIN_IN for a, b in zip(one.box, other.box, strict=True)):
        return False
    return one.flat.hausdorff_distance(other.flat) <= SAME_WITHIN_IN


def _box(segments: Sequence[Segment]) -> Box:
    return box_of(point for segment in segments for point in segment.extremes())


def _kin(path: TemplatePath) -> Hashable:
    """Returns what lines of one outline share: their look, and what their names mean.

    Not the names themselves: programs give every line an id of its own.
    """
    said = meaning(path.layers)
    return (
        path.stroke,
        bool(path.dashes_in),
        round(path.width_in, 3),
        path.hidden,
        path.inks,
        path.steps,
        said[0] if said else None,
    )
