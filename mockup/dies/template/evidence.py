"""What speaks for each outline of a template being its cut, and what against it, in points.

The points are judgements, set by how sure a printer would be: a name or the card's size settle it,
a place between two outlines nearly does, dashes and colours only lean.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from shapely.geometry import Point as Place

from mockup.dies.template.legend import Label, means
from mockup.dies.template.naming import NEUTRAL, Called, called
from mockup.dies.template.nests import BLEED_MAX_IN, Nested, even_gap, nested
from mockup.dies.template.page import SIZE_WITHIN_IN, Page, same_size
from mockup.dies.template.rings import Ring
from mockup.geometry.point import Box
from mockup.trade.sizes import recognise_card
from mockup.trade.vocabulary import Meaning
from mockup.units import format_length

_IN_LINE_IN = 0.01  # judgement: crop marks stand in line with the trim but for rounding
_SHEET_IN = (8.0, 10.0)  # judgement: pages this large are sheets a die is drawn on
WHOLE_SHARE = 0.9  # judgement: what takes up more of a shape is its other edge
_ALIKE_MANY = 6  # judgement: this many outlines of one size are a grid
_SMALL_SHARE = 0.2  # judgement: what takes up less of the largest outline is drawn on it
UNLISTED = ("small", "one of many alike", "an edge of another")
"""Why an outline is not even told among the candidates."""
_CUTS: tuple[Meaning, ...] = ("cut", "trim")


@dataclass(frozen=True)
class Reason:
    """One thing that speaks for an outline (points above 0) or against it, in words or silently."""

    points: float
    words: str = ""


@dataclass(frozen=True, eq=False)
class Candidate:
    """An outline that might be the cut: its number in lists, its name, reasons, what bars it."""

    number: int
    ring: Ring
    called: Called | None
    role: Meaning | None
    """What names, labels and sizes say that it is."""
    reasons: tuple[Reason, ...]
    barred: str = ""

    @property
    def points(self) -> float:
        """What speaks for it less what speaks against it."""
        return sum(reason.points for reason in self.reasons)

    @property
    def is_named_cut(self) -> bool:
        """Whether the file itself calls it the cut, by a name or a label."""
        return self.role in _CUTS


def weighed(page: Page) -> list[Candidate]:
    """Returns every outline of a page with what speaks for it, numbered from the largest."""
    roles = {id(ring): _role(page, ring) for ring in page.outlines}
    nests = {
        (id(outer), id(inner)): found
        for outer in page.outlines
        for inner in page.outlines
        if outer is not inner and (found := nested(outer, inner)) is not None
    }
    many = Counter(_rounded(ring) for ring in page.outlines)
    largest = max((_area(r) for r in page.outlines if not _is_sheet(page, r)), default=0.0)
    return [
        Candidate(
            number,
            ring,
            called(ring),
            roles[id(ring)].role,
            (
                *roles[id(ring)].reasons,
                *_size_reasons(page, ring),
                *_nest_reasons(page, ring, roles, nests),
                *_place_reasons(page, ring),
                *_look_reasons(page, ring, nests),
            ),
            _barred(page, ring, roles[id(ring)], many, largest),
        )
        for number, ring in enumerate(page.outlines, 1)
    ]


@dataclass(frozen=True)
class _Role:
    role: Meaning | None
    sure: bool
    reasons: tuple[Reason, ...]


def _role(page: Page, ring: Ring) -> _Role:
    """Returns what a ring is by its name, else by the labels, else by the sizes stated."""
    name, reasons = called(ring), list[Reason]()
    if name is not None and name.what == "hole" and page.is_holed(ring):
        name = None  # a card and its hole made one shape, which kept the name of the hole
    if name is not None and name.what not in NEUTRAL:
        points = {"cut": 6.0, "trim": 4.0}.get(name.what, -8.0)
        reasons.append(Reason(points + 2.0 * (name.kind == "step")))
    label, said = _label(page, ring)
    if said is not None and label is not None:
        points = {"cut": 5.0, "trim": 4.0}.get(said, -6.0)
        reasons.append(Reason(points, _label_words(label, ring) if points > 0 else ""))
    stated = _stated(page, ring)
    if stated is not None:
        what, points, words = stated
        reasons.append(Reason(points, words))
        said = said or what
    named = name.what if name is not None and name.what not in NEUTRAL else None
    return _Role(named or said, named is not None or label is not None, tuple(reasons))


def _label(page: Page, ring: Ring) -> tuple[Label | None, Meaning | None]:
    """Returns the surest label that speaks of a ring; none where labels contradict each other."""
    told = [label for label in page.labels if means(label, ring, page.outlines)]
    for hows in (("sample", "leader"), ("word",), ("type",)):
        found = [label for label in told if label.how in hows]
        if len({_kind(label.what) for label in found}) == 1:
            return found[0], found[0].what
        if found:
            return None, None
    return None, None


def _kind(what: Meaning) -> Meaning:
    return "cut" if what in _CUTS else what


def _label_words(label: Label, ring: Ring) -> str:
    if label.how == "sample":
        look = ring.look.words.removeprefix("solid ")
        article = "an" if look[0] in "aeiou" else "a"
        return f'the legend beside {article} {look} line says "{label.words}"'
    if label.how == "leader":
        return f'the label that leads to it says "{label.words}"'
    if label.how == "type":
        return f'the label in its colour says "{label.words}"'
    return f'the legend says "{label.words}"'


def _stated(page: Page, ring: Ring) -> tuple[Meaning | None, float, str] | None:
    for said in page.sizes:
        first, second = said.size_in
        if not any(same_size(ring.size_in, each) for each in ((first, second), (second, first))):
            continue
        if said.what is None or said.what in NEUTRAL or said.what in _CUTS:
            points = 4.0 if said.what in _CUTS else 1.5
            what = said.what if said.what in _CUTS else None
            return what, points, f'the template states its size, "{said.words}"'
        return said.what, -5.0, ""
    measured = [any(abs(s - each) < SIZE_WITHIN_IN for each in page.lengths) for s in ring.size_in]
    if all(measured):
        return None, 1.5, "the template is measured so"
    return None


def _size_reasons(page: Page, ring: Ring) -> list[Reason]:
    if page.card_in is not None:
        return [Reason(10.0, "it has the card's size")] if page.has_card_size(ring) else []
    card = recognise_card(*ring.size_in, 0.01)
    return [Reason(2.0, f"it has the size of a card, {card.name}")] if card else []


def _nest_reasons(
    page: Page,
    ring: Ring,
    roles: dict[int, _Role],
    nests: dict[tuple[int, int], Nested],
) -> list[Reason]:
    """Returns what the outlines round a ring and in it say: the middle one is the cut."""
    own = {id(other): other for other in page.outlines}
    around = [(own[o], n) for (o, i), n in nests.items() if i == id(ring)]
    within = [(own[i], n) for (o, i), n in nests.items() if o == id(ring)]
    out = min((p for p in around if p[1].distance_in <= BLEED_MAX_IN), key=_nearness, default=None)
    inn = min(within, key=_nearness, default=None)
    reasons: list[Reason] = []
    words: list[str] = []
    middle = out is not None and inn is not None
    if out is not None:
        role = _other_role(ring, out[0], roles)
        points = {"bleed": 3.0, "cut": -3.0, "trim": -3.0}.get(role or "", 1.5)
        line = "the bleed line" if role == "bleed" or middle else f"the {out[0].look.words} outline"
        words.append(f"{format_length(out[1].distance_in, page.unit)} inside {line}")
        reasons.append(Reason(points if out[1].true else points * 0.7))
    if inn is not None:
        role = _other_role(ring, inn[0], roles)
        points = {"safe": 3.0, "cut": -3.0, "trim": -3.0}.get(role or "", 1.5)
        if out is None and role is None:
            points = 0.5  # the outer of two: a bleed, as likely as a cut
        line = "the safe line" if role == "safe" or middle else f"the {inn[0].look.words} outline"
        words.append(f"{format_length(inn[1].distance_in, page.unit)} outside {line}")
        reasons.append(Reason(points if inn[1].true else points * 0.7))
    if not reasons or min(each.points for each in reasons) < 0:
        return reasons
    told = f"it lies {' and '.join(words)}"
    return [Reason(sum(each.points for each in reasons) + 3.0 * middle, told)]


def _other_role(ring: Ring, other: Ring, roles: dict[int, _Role]) -> Meaning | None:
    """Returns what another outline is; None where it is only so called as this one is: of a group
    that holds the whole template."""
    own, its = called(ring), called(other)
    return None if own is not None and own == its else roles[id(other)].role


def _nearness(pair: tuple[Ring, Nested]) -> float:
    return pair[1].distance_in


def _place_reasons(page: Page, ring: Ring) -> list[Reason]:
    reasons: list[Reason] = []
    trim = page.template.trim
    if trim is not None and _same_box(trim, ring.box) and not page.is_page(ring):
        reasons.append(Reason(3.0, "it is the page's TrimBox"))
    if page.is_holed(ring):
        reasons.append(Reason(2.5, "its hole is drawn with it"))
    if _ends_of_lines(page, ring):
        reasons.append(Reason(2.0, "the line across it ends at it"))
    marked = _corners_marked(page, ring.box)
    if marked >= 3:
        reasons.append(Reason(3.0, "the crop marks stand in line with it"))
    if page.is_page(ring):
        reasons.append(Reason(-3.0 if ring.look.stroked is False else -0.5))
    elif _is_sheet_frame(page, ring):
        reasons.append(Reason(-3.0))
    contents = [
        other
        for other in page.outlines
        if _holds(other, ring) and not _is_sheet(page, other) and not _same_box(other.box, ring.box)
    ]
    if contents and even_gap(min(contents, key=_area).box, ring.box) is None:
        reasons.append(Reason(-2.0))  # it lies somewhere in another: what that one holds
    boxed = [
        other for other in page.outlines if other is not ring and _same_box(other.box, ring.box)
    ]
    if boxed:
        fills = [_area(other) > _area(ring) for other in boxed]
        reasons.append(
            Reason(2.5, "it touches the rectangle round it") if all(fills) else Reason(-1.0)
        )
    return reasons


def _look_reasons(page: Page, ring: Ring, nests: dict[tuple[int, int], Nested]) -> list[Reason]:
    kin = [o for o in page.outlines if (id(o), id(ring)) in nests or (id(ring), id(o)) in nests]
    look = ring.look
    if not look.stroked:
        return [Reason(-2.5)] if any(other.look.stroked for other in page.outlines) else []
    if not kin:
        return []
    if look.dashed:
        return [] if all(other.look.dashed for other in kin) else [Reason(-0.5)]
    if all(other.look.dashed for other in kin):
        return [Reason(2.0, "it is drawn solid, the outlines beside it dashed")]
    return []


def _barred(
    page: Page, ring: Ring, role: _Role, many: Counter[tuple[int, int]], largest: float
) -> str:
    """Returns why an outline cannot be the cut; nothing where it can."""
    if role.role is not None and role.role not in _CUTS and role.sure:
        return role.role
    if any(_is_inner_edge(ring, other) for other in page.outlines):
        return "an edge of another"
    if many[_rounded(ring)] >= _ALIKE_MANY:
        return "one of many alike"
    named = role.role in _CUTS
    if not named and not page.has_card_size(ring) and _area(ring) < _SMALL_SHARE * largest:
        return "small"
    return ""


def _is_inner_edge(ring: Ring, other: Ring) -> bool:
    """Returns whether an outline is the inner edge of a stroke turned to shapes."""
    if other is ring or not ring.painted & other.painted or _area(ring) >= _area(other):
        return False
    return _area(ring) > WHOLE_SHARE * _area(other)


def _ends_of_lines(page: Page, ring: Ring) -> bool:
    """Returns whether a line crosses an outline from edge to edge, as a fold crosses a card."""
    edge, least = ring.ground.boundary, min(ring.size_in) / 2
    own = {id(path) for path in ring.paths}
    for path, box in page.lines:
        if id(path) in own or max(box.width, box.height) < least:
            continue
        ends = (path.segments[0].start, path.segments[-1].end)
        if all(edge.distance(Place(end)) <= _IN_LINE_IN for end in ends):
            return True
    return False


def _corners_marked(page: Page, box: Box) -> int:
    """Returns how many corners of a box have a mark in line with a side of it, outside it."""
    corners: set[tuple[float, float]] = set()
    for line in page.crop_lines:
        centre = line.centre
        if box.left < centre.x < box.right and box.top < centre.y < box.bottom:
            continue
        level = line.width > line.height
        for x in (box.left, box.right):
            for y in (box.top, box.bottom):
                off = abs(centre.y - y) if level else abs(centre.x - x)
                away = abs(centre.x - x) if level else abs(centre.y - y)
                if off <= _IN_LINE_IN and away <= 1.2:
                    corners.add((x, y))
    return len(corners)


def _is_sheet(page: Page, ring: Ring) -> bool:
    return page.is_page(ring) or _is_sheet_frame(page, ring)


def _is_sheet_frame(page: Page, ring: Ring) -> bool:
    """Returns whether an outline is a frame round a sheet that a die is drawn on."""
    sides = sorted((page.template.width_in, page.template.height_in))
    if sides[0] < _SHEET_IN[0] or sides[1] < _SHEET_IN[1]:
        return False
    whole = Box(0.0, 0.0, page.template.width_in, page.template.height_in)
    return even_gap(whole, ring.box) is not None and len(ring.outline.segments) <= 8


def _holds(outer: Ring, inner: Ring) -> bool:
    return _area(outer) > _area(inner) and outer.ground.buffer(0.001).contains(inner.ground)


def _same_box(one: Box, other: Box) -> bool:
    return all(abs(a - b) <= 0.012 for a, b in zip(one, other, strict=True))


def _area(ring: Ring) -> float:
    return float(ring.ground.area)


def _rounded(ring: Ring) -> tuple[int, int]:
    return round(ring.box.width / 0.01), round(ring.box.height / 0.01)
