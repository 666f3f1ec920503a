"""Lines drawn one by one, as drawing programs for machines save them, joined into outlines.

Lines are the edges of a plane graph, their ends its corners. What leads nowhere is taken away, and
of what is left the outer boundary of each part is walked.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from mockup.dies.joining import JOIN_WITHIN_IN, bridged, clockwise, encloses
from mockup.geometry.measure import signed_area
from mockup.geometry.outline import Outline, Segment
from mockup.geometry.point import Point
from mockup.vector.template import TemplatePath

_AHEAD = 0.02  # judgement: where along its first segment a line's direction is taken
_SAME_WITHIN_IN = 0.001  # a line drawn twice

Course = tuple[Segment, ...]


@dataclass(frozen=True)
class Edge:
    """One line between two corners of the graph, and the path it came from."""

    course: Course
    start: int
    end: int
    path: TemplatePath

    def reversed(self) -> Edge:
        """Returns the edge drawn the other way."""
        course = tuple(segment.reversed() for segment in reversed(self.course))
        return Edge(course, self.end, self.start, self.path)


def joined_outlines(
    paths: Sequence[TemplatePath],
) -> list[tuple[Outline, tuple[TemplatePath, ...]]]:
    """Returns the outlines that open paths make together, each with the paths it is made of."""
    edges = _without_dead_ends(_edges(paths))
    found: list[tuple[Outline, tuple[TemplatePath, ...]]] = []
    for part in _parts(edges):
        walked = _outer_walk(part)
        if walked is None:
            continue
        outline = Outline(bridged([segment for edge in walked for segment in edge.course]))
        if encloses(outline):
            used = {id(edge.path): edge.path for edge in walked}
            found.append((clockwise(outline), tuple(used.values())))
    return found


def _edges(paths: Sequence[TemplatePath]) -> list[Edge]:
    corners = _Corners()
    edges: list[Edge] = []
    seen: dict[tuple[int, int], list[Point]] = defaultdict(list)
    for path in paths:
        start = corners.at(path.segments[0].start)
        end = corners.at(path.segments[-1].end)
        middle = path.segments[len(path.segments) // 2].at(0.5)
        if (
            start == end
            and len(path.segments) == 1
            and math.dist(middle, path.segments[0].start) <= JOIN_WITHIN_IN
        ):
            continue  # a speck
        pair = (min(start, end), max(start, end))
        if any(math.dist(middle, other) < _SAME_WITHIN_IN for other in seen[pair]):
            continue
        seen[pair].append(middle)
        edges.append(Edge(path.segments, start, end, path))
    return edges


class _Corners:
    """Ends that meet, by number; those within the tolerance of one another are one corner."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[tuple[Point, int]]] = defaultdict(list)
        self._count = 0

    def at(self, place: Point) -> int:
        """Returns the number of the corner at a place."""
        column, row = (math.floor(value / JOIN_WITHIN_IN) for value in place)
        near = (
            (math.dist(place, other), number)
            for dx in (-1, 0, 1)
            for dy in (-1, 0, 1)
            for other, number in self._cells[column + dx, row + dy]
        )
        distance, number = min(near, default=(math.inf, -1))
        if distance <= JOIN_WITHIN_IN:
            return number
        self._cells[column, row].append((place, self._count))
        self._count += 1
        return self._count - 1


def _without_dead_ends(edges: list[Edge]) -> list[Edge]:
    at: dict[int, set[int]] = defaultdict(set)
    for number, edge in enumerate(edges):
        if edge.start != edge.end:
            at[edge.start].add(number)
            at[edge.end].add(number)
    loops = {edge.start for edge in edges if edge.start == edge.end}
    gone: set[int] = set()
    waiting = [corner for corner, numbers in at.items() if len(numbers) == 1]
    while waiting:
        corner = waiting.pop()
        if len(at[corner]) != 1 or corner in loops:
            continue
        (number,) = at[corner]
        gone.add(number)
        for end in (edges[number].start, edges[number].end):
            at[end].discard(number)
            waiting.append(end)
    return [edge for number, edge in enumerate(edges) if number not in gone]


def _parts(edges: Sequence[Edge]) -> list[list[Edge]]:
    """Returns the edges of each connected part."""
    at: dict[int, list[Edge]] = defaultdict(list)
    for edge in edges:
        at[edge.start].append(edge)
        at[edge.end].append(edge)
    parts: list[list[Edge]] = []
    done: set[int] = set()
    for first in edges:
        if id(first) in done:
            continue
        part: list[Edge] = []
        waiting = [first]
        while waiting:
            edge = waiting.pop()
            if id(edge) in done:
                continue
            done.add(id(edge))
            part.append(edge)
            waiting += [*at[edge.start], *at[edge.end]]
        parts.append(part)
    return parts


def _outer_walk(part: Sequence[Edge]) -> list[Edge] | None:
    """Returns the walk round a part: of all its faces the one that encloses most."""
    leaving: dict[int, list[Edge]] = defaultdict(list)
    for edge in part:
        leaving[edge.start].append(edge)
        leaving[edge.end].append(edge.reversed())
    for number, edges in leaving.items():
        leaving[number] = sorted(edges, key=_direction)
    ahead = [edge for edges in leaving.values() for edge in edges]
    best: tuple[float, list[Edge]] | None = None
    done: set[int] = set()
    for first in ahead:
        if id(first) in done:
            continue
        face = _face(first, leaving)
        if face is None:
            continue
        done |= {id(edge) for edge in face}
        outline = Outline(bridged([segment for edge in face for segment in edge.course]))
        size = abs(signed_area(outline))
        if best is None or size > best[0]:
            best = (size, face)
    return None if best is None else best[1]


def _face(first: Edge, leaving: dict[int, list[Edge]]) -> list[Edge] | None:
    """Returns the edges of the face that lies to one side of an edge."""
    most = sum(map(len, leaving.values()))
    face = [first]
    while len(face) <= most:
        last = face[-1]
        choices = leaving[last.end]
        back = next(k for k, edge in enumerate(choices) if _turns_back(edge, last))
        following = choices[(back + 1) % len(choices)]
        if following is first:
            return face
        face.append(following)
    return None


def _turns_back(edge: Edge, last: Edge) -> bool:
    return (
        edge.path is last.path
        and edge.start == last.end
        and edge.end == last.start
        and (edge.course[0].start == last.course[-1].end)
    )


def _direction(edge: Edge) -> float:
    first = edge.course[0]
    start, ahead = first.start, first.at(_AHEAD)
    return math.atan2(ahead.y - start.y, ahead.x - start.x)
