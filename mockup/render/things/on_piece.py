"""A thing laid on a piece: a seal on a belly band, a sticker on a card. It hides no type.

All is worked out in the inches of what is seen of the piece, from its left top; the thing turns
with the piece. It lies within the cut, or holds an edge to what of the same stack lies under it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from mockup.artwork.objects import GROUND_SHARE, marks_on, objects_of
from mockup.dies.folding import to_front
from mockup.geometry.affine import IDENTITY, Affine, rotation, translation
from mockup.geometry.flatten import polygon
from mockup.geometry.point import Box, Point
from mockup.reading.type_places import type_of
from mockup.render.composition import Composition, LaidPiece, cords_on, outline_points
from mockup.render.scenes import Wish
from mockup.render.things.reading import PlacedThing, Thing
from mockup.render.things.sheets import mapped
from mockup.suite.suite import Piece
from mockup.units import format_length, format_place, format_size

INSIDE_IN = 1 / 16
"""How far inside the cut a thing stays; judgement: nearer it looks as if it had slipped."""
TYPE_AIR_IN = 1 / 8
"""How far from type a place is looked for, where none is said; judgement."""

_STEP_IN = 1 / 16  # how closely places are tried
_STEPS_MOST = 80  # across a piece, so that a poster takes no longer than a card
_WAYS = {"top": (0, -1), "right": (1, 0), "bottom": (0, 1), "left": (-1, 0)}
_EDGE = "edge"
_HAIR_IN = 1e-6  # what touches the margin is within it

_MOVE = "move it, or leave its place out: it then goes to the nearest place free of type"


class MisplacedError(Exception):
    """A thing that cannot lie where it was to: the key that says so, and the sentence."""

    def __init__(self, key: str, sentence: str) -> None:
        super().__init__(sentence)
        self.key = key
        self.sentence = sentence


def lie_on(
    wish: Wish, thing: Thing, composition: Composition, taken: BaseGeometry
) -> PlacedThing | None:
    """Returns a thing as it lies on the piece it names; None where other paper, or what is `taken`
    on the table, lies there in this arrangement, or the picture ends.

    Raises MisplacedError where it would hide type or reach past the cut, in whatever arrangement;
    InputError and LimitError as reading type does.
    """
    ground = _ground(str(wish.on), composition, taken)
    lying = _Lying(thing, rotation(wish.angle_deg))
    is_said = wish.place is not None or wish.at is not None
    at = _said(wish, lying, ground) if is_said else _free(lying, ground)
    if at is None or not ground.open.contains(lying.at(at)):
        return None
    return PlacedThing(thing, ground.to_table @ lying.way(at))


@dataclass(frozen=True)
class _Lying:
    """A thing turned as it is to lie."""

    thing: Thing
    turn: Affine

    @cached_property
    def area(self) -> BaseGeometry:
        """What it covers, about its middle."""
        return mapped(self.thing.area, self.turn)

    @property
    def size(self) -> str:
        """Its size as it is told, turned as it lies."""
        left, top, right, bottom = self.area.bounds
        return format_size(right - left, bottom - top)

    def way(self, at: Point) -> Affine:
        """Returns the map from its inches to the piece's, its middle at a point."""
        return translation(*at) @ self.turn

    def at(self, at: Point) -> BaseGeometry:
        """Returns what it covers with its middle at a point."""
        return mapped(self.area, translation(*at))


@dataclass(frozen=True)
class _Line:
    """A line of type as it is seen: how it is told, of which piece, and its letters."""

    told: str
    piece: str
    letters: BaseGeometry


@dataclass(frozen=True)
class _Ground:
    """What is seen of a piece, and what lies on and about it: inches from its own left top."""

    name: str
    to_table: Affine
    paper: BaseGeometry
    stack: BaseGeometry
    """All paper that lies together with it."""
    over: tuple[BaseGeometry, ...]
    """The sheets and bands that lie on it: a thing may lie on one, not half on it by chance."""
    open: BaseGeometry
    """The picture, less what else lies on the piece."""
    lines: tuple[_Line, ...]
    drawings: BaseGeometry
    """What is drawn on it and better not hidden: no grounds, no borders."""

    def inside(self, lying: _Lying) -> BaseGeometry:
        """Returns where a thing may lie: within the cut; one that is larger than a band holds both
        its edges, within what lies under it."""
        own = self.paper.buffer(_HAIR_IN - INSIDE_IN)
        left, top, right, bottom = lying.area.bounds
        room = own.bounds if not own.is_empty else (0.0, 0.0, 0.0, 0.0)
        if right - left <= room[2] - room[0] and bottom - top <= room[3] - room[1]:
            return own
        return self.stack.buffer(_HAIR_IN - INSIDE_IN)

    @property
    def middle(self) -> Point:
        """The middle of its box."""
        left, top, right, bottom = self.paper.bounds
        return Point((left + right) / 2, (top + bottom) / 2)

    @property
    def size(self) -> str:
        """Its size as it is told."""
        return format_size(self.paper.bounds[2], self.paper.bounds[3])


def _ground(name: str, composition: Composition, taken: BaseGeometry) -> _Ground:
    pieces = {k: p for k, p in enumerate(composition.laid) if isinstance(p, LaidPiece)}
    number = next((k for k, each in pieces.items() if each.pose.of.name == name), None)
    if number is None:
        said = f'"{name}" is not in this picture: the scene fixes no place for it'
        raise MisplacedError("on", f"{said}; fix one, or name a piece that is shown")
    stack = _stack_of(number, pieces)
    box = pieces[number].piece.die.shape.outer.box
    to_table = pieces[number].placed.to_table @ translation(box.left, box.top)
    back = to_table.inverse()
    papers = {
        k: polygon(each.piece.die.shape.mapped(back @ each.placed.to_table))
        for k, each in stack.items()
    }
    seen = _seen(stack, papers)
    return _Ground(
        name,
        to_table,
        papers[number],
        unary_union(list(papers.values())),
        tuple(paper for k, paper in papers.items() if k > number),
        mapped(_open(number, stack, composition).difference(taken), back),
        tuple(_lines_of(stack, seen, back)),
        _drawings_on(stack, seen, back),
    )


def _stack_of(number: int, pieces: Mapping[int, LaidPiece]) -> dict[int, LaidPiece]:
    """Returns all that lies in one stack with a piece, from the lowest, each by its number."""
    rests = {p.pose.of.name: p.card.pose.of.name for p in pieces.values() if p.card is not None}

    def lowest(piece: LaidPiece) -> str:
        name = piece.pose.of.name
        while name in rests:
            name = rests[name]
        return name

    own = lowest(pieces[number])
    return {k: each for k, each in pieces.items() if lowest(each) == own}


def _open(number: int, stack: Mapping[int, LaidPiece], composition: Composition) -> BaseGeometry:
    """Returns what of the picture has nothing on a piece but its own stack, table inches."""
    above = [each for k, each in enumerate(composition.laid) if k > number and k not in stack]
    closed = [Polygon(outline_points(each)) for each in above]
    closed += [mapped(each.thing.area, each.to_table) for each in cords_on(composition)]
    frame = shapely.box(0, 0, composition.frame.width_in, composition.frame.height_in)
    return frame.difference(unary_union(closed))


def _seen(
    stack: Mapping[int, LaidPiece], papers: Mapping[int, BaseGeometry]
) -> dict[int, BaseGeometry]:
    """Returns what is seen of each piece of a stack: what no band or card lies over; a sheet is
    seen through."""
    seen = {
        k: papers[k].difference(
            unary_union([papers[n] for n, each in stack.items() if n > k and each.role != "over"])
        )
        for k in stack
    }
    return {k: area for k, area in seen.items() if area.area > _HAIR_IN}


def _lines_of(
    stack: Mapping[int, LaidPiece], seen: Mapping[int, BaseGeometry], back: Affine
) -> Iterator[_Line]:
    """Yields the type that is seen of a stack."""
    sides = {k: _side_of(stack[k]) for k in seen}
    read = type_of([side for side, _ in sides.values()])
    for k, places in zip(seen, read, strict=True):
        way = back @ stack[k].placed.to_table @ sides[k][1]
        for each in places:
            letters = _boxed(each.boxes, way).intersection(seen[k])
            if not letters.is_empty:
                yield _Line(each.told, stack[k].pose.of.name, letters)


def _drawings_on(
    stack: Mapping[int, LaidPiece], seen: Mapping[int, BaseGeometry], back: Affine
) -> BaseGeometry:
    """Returns the boxes of all marks that are seen of a stack and are smaller than half a card."""
    found: list[BaseGeometry] = []
    marks = objects_of([(stack[k].page, stack[k].placement) for k in seen])
    for (k, area), objects in zip(seen.items(), marks, strict=True):
        die = stack[k].pose.source.die
        most = GROUND_SHARE * die.width_in * die.height_in
        boxes = marks_on(objects, die.width_in, die.height_in)
        way = back @ stack[k].placed.to_table @ stack[k].pose.to_seen
        small = [each for each in boxes if each.width * each.height < most]
        found.append(_boxed(small, way).intersection(area))
    return unary_union(found)


def _boxed(boxes: Iterable[Box], way: Affine) -> BaseGeometry:
    return unary_union([mapped(shapely.box(*each), way) for each in boxes])


def _side_of(piece: LaidPiece) -> tuple[Piece, Affine]:
    """Returns the side that is seen of a piece, and the map from its page's inches."""
    source = piece.pose.source
    if source.fold is None or source.side:
        return source.sides[0], IDENTITY
    die = source.die
    return source.sides[0], to_front(die.width_in, die.height_in, source.fold).inverse()


def _free(lying: _Lying, ground: _Ground) -> Point | None:
    """Returns the place nearest the piece's middle that is free of type and of the edges of what
    lies on the piece, of drawings too if there is one; None where other paper lies on all of them.
    Raises MisplacedError where there is none."""
    letters = [line.letters.buffer(TYPE_AIR_IN) for line in ground.lines]
    seams = [each.boundary.buffer(INSIDE_IN / 2) for each in ground.over]
    closed, inside = unary_union([*letters, *seams]), ground.inside(lying)
    shapely.prepare(closed)
    shapely.prepare(inside)
    within = [at for at in _spots(ground) if inside.contains(lying.at(at))]
    if not within:
        raise MisplacedError("on", f"{_reaches(lying, ground)} anywhere; draw it smaller")
    clear = [at for at in within if not closed.intersects(lying.at(at))]
    if not clear:
        said = f"no place on {ground.name} that is {format_length(TYPE_AIR_IN)} clear of type"
        raise MisplacedError("on", f"{said} is large enough for it; draw it smaller")
    lying_open = [at for at in clear if ground.open.contains(lying.at(at))]
    bare = (at for at in lying_open if not ground.drawings.intersects(lying.at(at)))
    return next(bare, lying_open[0] if lying_open else None)


def _spots(ground: _Ground) -> list[Point]:
    """Returns the places that are tried on a piece, the nearest to its middle first."""
    middle, (left, top, right, bottom) = ground.middle, ground.paper.bounds
    step = max(_STEP_IN, max(right - left, bottom - top) / _STEPS_MOST)
    across, down = int((right - left) / 2 / step), int((bottom - top) / 2 / step)
    spots = [
        Point(middle.x + step * i, middle.y + step * j)
        for i in range(-across, across + 1)
        for j in range(-down, down + 1)
    ]
    return sorted(spots, key=lambda at: math.dist(at, middle))


def _said(wish: Wish, lying: _Lying, ground: _Ground) -> Point:
    """Returns the place the file says. Raises MisplacedError where the thing cannot lie there."""
    key = "place" if wish.at is None else "at"
    if wish.at is not None:
        at = Point(*wish.at)
        if not ground.inside(lying).contains(lying.at(at)):
            raise MisplacedError(
                key, f"{_reaches(lying, ground)} there; move it, or draw it smaller"
            )
    else:
        at = _by_word(str(wish.place), lying, ground)
    covered = lying.at(at)
    hidden = [line for line in ground.lines if line.letters.intersects(covered)]
    if hidden:
        worst = max(hidden, key=lambda line: line.letters.intersection(covered).area)
        raise MisplacedError(key, f"it would hide {_told(worst, ground)}; {_MOVE}")
    return at


def _told(line: _Line, ground: _Ground) -> str:
    """Returns a line of type and where it stands, for a reader."""
    left, top, right, bottom = line.letters.bounds
    of = "" if line.piece == ground.name else f" of {line.piece}"
    place = f"from {format_place((left, top))} to {format_place((right, bottom))}"
    return f"{line.told}{of}, which stands {place} from the left top of {ground.name}"


def _reaches(lying: _Lying, ground: _Ground) -> str:
    inside = format_length(INSIDE_IN)
    return f"it is {lying.size}, and does not lie {inside} within {ground.name}, {ground.size},"


def _by_word(word: str, lying: _Lying, ground: _Ground) -> Point:
    """Returns the place a word says: at a side or a corner as far out as the cut lets it lie."""
    first, _, last = word.partition("-")
    if last == _EDGE:
        return _on_edge(word, _WAYS[first], lying, ground)
    ways = [_WAYS[each] for each in (first, last) if each in _WAYS]
    across, down = (sum(way[k] for way in ways) for k in (0, 1))
    margins = (INSIDE_IN, INSIDE_IN, -INSIDE_IN, -INSIDE_IN)
    left, top, right, bottom = (
        side + margin - own
        for side, margin, own in zip(ground.paper.bounds, margins, lying.area.bounds, strict=True)
    )
    middle = ground.middle
    x = {-1: left, 0: middle.x, 1: right}[across]
    y = {-1: top, 0: middle.y, 1: bottom}[down]
    inside = ground.inside(lying)
    steps = max(1, round(max(abs(x - middle.x), abs(y - middle.y)) / _STEP_IN))
    for share in np.linspace(0, 1, steps + 1) if ways else [1.0]:
        at = Point(x + share * (middle.x - x), y + share * (middle.y - y))
        if inside.contains(lying.at(at)):
            return at
    raise MisplacedError(
        "place", f"{_reaches(lying, ground)} there; draw it smaller, or name another"
    )


def _on_edge(word: str, way: tuple[int, int], lying: _Lying, ground: _Ground) -> Point:
    """Returns the middle of an edge, which a thing holds to what lies under it."""
    middle = ground.middle
    far = sum(ground.paper.bounds[2:])
    ray = LineString([middle, (middle.x + way[0] * far, middle.y + way[1] * far)])
    left, top, right, bottom = ray.intersection(ground.paper).bounds
    at = Point(left if way[0] < 0 else right, top if way[1] < 0 else bottom)
    if not ground.stack.buffer(-INSIDE_IN).contains(lying.at(at)):
        raise MisplacedError(
            "place",
            f"what lies under {ground.name} does not reach far enough past its "
            f"{word.replace('-', ' ')} for a thing of {lying.size} to hold to, as a card does "
            "under a band; draw it smaller, or name another place",
        )
    return at
