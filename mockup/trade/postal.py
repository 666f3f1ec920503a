"""What a piece is to the post: its class, weight step, whether by machine, and address zones.

Judged by the published tables of `postal_tables`, which are dated copies: a finding here is a
reason to ask the post office, never a promise that a letter goes through.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from mockup.errors import SuiteError, nearest
from mockup.geometry.point import Box
from mockup.trade.postal_tables import MachineRules, PostalOperator, SizeClass

ADVICE = "Ask your post office: rules and prices change."
SHAPE = "corner radius"  # the rule of shapes
ASPECT_CLOSE = 0.02  # a ratio this near its limit may be lost to the envelope's own tolerance
_EXACT = 1e-9  # inches: lengths given in one unit and limits in another meet within rounding
POSTAGE = "postage corner"
POSTAGE_IN = (1.75, 1.5)  # judgement: two stamps side by side, or one and the postmark's edge
_POSTAGE_SOURCE = "USPS DMM 102.1.1, clear space for postage, IMM 153, upper right; size: judgement"

Effect = Literal["not accepted", "next class", "by hand", "borderline"]


class Reason(NamedTuple):
    """One rule a piece meets badly: what it measures, what the rule asks, what follows."""

    rule: str
    effect: Effect
    value: float
    limit: float
    unit: str
    source: str


class Zone(NamedTuple):
    """A place on the address side to be kept for the post; box in inches, y down."""

    name: str
    box: Box
    source: str


@dataclass(frozen=True)
class PostalClass:
    """The verdict of a table on one piece."""

    operator: str
    name: str | None
    """The class; None where the piece is not accepted at all."""
    by_hand: bool
    """Whether it is dearer than its class's plain price because a machine cannot sort it."""
    weight_step_g: float | None
    """The upper end of the weight step it falls in; None where the class has no steps."""
    reasons: tuple[Reason, ...]
    source: str
    as_of: str


def classify(
    operator: PostalOperator,
    width_in: float,
    height_in: float,
    thickness_in: float,
    weight_g: float,
    features: Sequence[str] = (),
) -> PostalClass:
    """Returns the class of a closed envelope; `width_in` is the side along the address lines.

    The class is set by the longer and shorter side; then the address's direction decides the
    aspect ratio (USPS DMM 601.1.1.3). `features` are names of the operator's hand-sorting features;
    raises SuiteError for one it does not know.
    """
    piece = _Piece(width_in, height_in, thickness_in, weight_g)
    return _classify(operator, operator.classes, piece, _features(operator, features))


def classify_card(
    operator: PostalOperator,
    width_in: float,
    height_in: float,
    thickness_in: float,
    weight_g: float,
) -> PostalClass:
    """Returns the class of a rectangular card posted bare: a card if it may be, else a letter."""
    piece = _Piece(width_in, height_in, thickness_in, weight_g)
    return _classify(operator, (*operator.cards, *operator.classes), piece, ())


def bare_shape(
    operator: PostalOperator, is_rectangle: bool, corner_radius_in: float = 0.0
) -> Reason | None:
    """Returns why a card of this shape may not be posted without an envelope, or None.

    None also where the operator's table has no rule on shapes.
    """
    rule = operator.shape
    if rule is None:
        return None
    most = rule.corner_radius_most_in
    radius = corner_radius_in if is_rectangle else math.inf
    if is_rectangle and (most is None or radius <= most + _EXACT):
        return None
    return Reason(SHAPE, "not accepted", radius, most or 0.0, "in", rule.source)


def zones(operator: PostalOperator, width_in: float, height_in: float) -> tuple[Zone, ...]:
    """Returns the places on the address side the post reads or prints on; none without a rule.

    Boxes in inches, origin at the top left of the address side.
    """
    found: list[Zone] = []
    for rule in operator.zones:
        right = width_in - rule.right_in
        if rule.width_from_right_in is not None:
            left = width_in - rule.width_from_right_in
        else:
            left = rule.left_in or 0.0
        top = max(0.0, height_in - rule.top_above_bottom_in)
        box = Box(max(0.0, left), top, right, height_in - rule.bottom_in)
        found.append(Zone(rule.name, box, rule.source))
    return tuple(found)


def postage_corner(width_in: float, height_in: float) -> Zone:
    """Returns where the stamp goes, whoever carries it: the upper right of the address side."""
    wide, high = min(POSTAGE_IN[0], width_in), min(POSTAGE_IN[1], height_in)
    return Zone(POSTAGE, Box(width_in - wide, 0.0, width_in, high), _POSTAGE_SOURCE)


class _Piece(NamedTuple):
    width_in: float
    height_in: float
    thickness_in: float
    weight_g: float

    @property
    def extent(self) -> tuple[float, float, float]:
        short, long = sorted((self.width_in, self.height_in))
        return long, short, self.thickness_in


def _classify(
    operator: PostalOperator,
    classes: Iterable[SizeClass],
    piece: _Piece,
    by_feature: tuple[Reason, ...],
) -> PostalClass:
    reasons: list[Reason] = []
    for size_class in classes:
        faults = list(_faults(size_class, piece, operator))
        if faults:
            reasons += [] if reasons else faults  # why it is not of the cheapest class
            continue
        if operator.machine and piece.width_in < size_class.least_in[0] - _EXACT:
            # Long enough, but addressed along its short side.
            return _refused(operator, [_short_length(operator.machine, piece, size_class)])
        reasons += _borderline(size_class, piece)
        by_hand = [*_by_hand(operator.machine, piece), *by_feature]
        if not size_class.sorted_by_machine:
            by_hand = []  # a class already dearer; the rules are for letters
        step = next((s for s in size_class.weight_steps_g if piece.weight_g <= s + _EXACT), None)
        return PostalClass(
            operator=operator.key,
            name=size_class.name,
            by_hand=any(reason.effect == "by hand" for reason in by_hand),
            weight_step_g=step,
            reasons=(*reasons, *by_hand),
            source=size_class.source,
            as_of=operator.as_of,
        )
    return _refused(operator, [reason._replace(effect="not accepted") for reason in reasons])


def _refused(operator: PostalOperator, reasons: list[Reason]) -> PostalClass:
    source = reasons[0].source
    return PostalClass(operator.key, None, False, None, tuple(reasons), source, operator.as_of)


def _faults(size_class: SizeClass, piece: _Piece, operator: PostalOperator) -> Iterator[Reason]:
    """Yields what keeps a piece out of a class; the tolerances are for the two sides only."""
    for rule, value, least, most in _sides(size_class, piece):
        under, over = operator.least_tolerance_in, operator.most_tolerance_in
        if rule == "thickness":
            under = over = 0.0
        if value < least - under - _EXACT:
            yield Reason(f"least {rule}", "next class", value, least, "in", size_class.source)
        if value > most + over + _EXACT:
            yield Reason(f"most {rule}", "next class", value, most, "in", size_class.source)
    long, short, thickness = piece.extent
    if size_class.aspect_least is not None and long / short < size_class.aspect_least:
        limit = size_class.aspect_least
        yield Reason("aspect ratio", "next class", long / short, limit, "", size_class.source)
    if size_class.aspect_most is not None and long / short > size_class.aspect_most:
        limit = size_class.aspect_most
        yield Reason("aspect ratio", "next class", long / short, limit, "", size_class.source)
    total = long + short + thickness
    if size_class.sum_most_in is not None and total > size_class.sum_most_in + _EXACT:
        limit = size_class.sum_most_in
        yield Reason("three sides together", "next class", total, limit, "in", size_class.source)
    if size_class.weight_steps_g and piece.weight_g > size_class.weight_steps_g[-1] + _EXACT:
        limit = size_class.weight_steps_g[-1]
        yield Reason("weight", "next class", piece.weight_g, limit, "g", size_class.weight_source)


def _sides(size_class: SizeClass, piece: _Piece) -> Iterator[tuple[str, float, float, float]]:
    """Yields what is measured, its value, the least and the most the class asks; inches."""
    names = ("length", "height", "thickness")
    yield from zip(names, piece.extent, size_class.least_in, size_class.most_in, strict=True)


def _borderline(size_class: SizeClass, piece: _Piece) -> Iterator[Reason]:
    """Yields the sides that are in a class only by its tolerance."""
    for rule, value, least, most in _sides(size_class, piece):
        if value < least - _EXACT:
            yield Reason(f"least {rule}", "borderline", value, least, "in", size_class.source)
        if value > most + _EXACT:
            yield Reason(f"most {rule}", "borderline", value, most, "in", size_class.source)


def _by_hand(rules: MachineRules | None, piece: _Piece) -> Iterator[Reason]:
    """Yields what a sorting machine cannot take, or nearly not."""
    if rules is None:
        return
    aspect = piece.width_in / piece.height_in
    least, most = rules.aspect_least, rules.aspect_most
    limit = least if aspect - least < most - aspect else most
    room = min(aspect - least, most - aspect)
    if room < ASPECT_CLOSE:
        effect: Effect = "borderline" if room >= -_EXACT else "by hand"
        yield Reason("aspect ratio", effect, aspect, limit, "", rules.aspect_source)
    if piece.width_in < piece.height_in - _EXACT:
        yield Reason(
            "address along the shorter side",
            "by hand",
            piece.width_in,
            piece.height_in,
            "in",
            rules.orientation_source,
        )
    long_over, high_over = rules.thin_over_in
    large = piece.width_in > long_over + _EXACT or piece.height_in > high_over + _EXACT
    if large and piece.thickness_in < rules.thin_under_in - _EXACT:
        yield Reason(
            "thin for its size",
            "by hand",
            piece.thickness_in,
            rules.thin_under_in,
            "in",
            rules.thin_source,
        )


def _short_length(rules: MachineRules, piece: _Piece, size_class: SizeClass) -> Reason:
    return Reason(
        "length along the address",
        "not accepted",
        piece.width_in,
        size_class.least_in[0],
        "in",
        rules.short_length_source,
    )


def _features(operator: PostalOperator, names: Sequence[str]) -> tuple[Reason, ...]:
    known = operator.features
    for name in names:
        if known and name not in known:
            hint = nearest(name, known)
            raise SuiteError(f'no postal feature "{name}"{hint}; allowed: {", ".join(known)}')
    return tuple(Reason(name, "by hand", 1, 0, "", known[name]) for name in names if known)
