"""What finishes do to edges and to the other side: torn sides, painted edges, relief."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Box, Point
from mockup.reading.through import under_other_side
from mockup.suite.suite import TORN_SIDES, TornSide
from mockup.trade.finish_limits import EDGE_CALIPER, TORN_REACH
from mockup.trade.finishes import Finish
from mockup.trade.tolerances import COMMON
from mockup.units import format_caliper, format_length

CHECK = "finish"
_SEEN = 12  # judgement: of 255, off the white of the page; less nobody misses
_LONG = 0.02  # judgement: the share of a side along which art has to lie
_OTHER = {"front": "back", "back": "front", "outside": "inside", "inside": "outside"}
_RELIEF: tuple[tuple[Finish, str], ...] = (("emboss", "embossing"), ("deboss", "debossing"))


def check_finish_edges(context: PageContext) -> list[Finding]:
    """Returns art on a torn edge, edges that cannot be painted, relief under the other side's
    art."""
    return [*_torn(context), *_painted(context), *_shows(context)]


def _torn(context: PageContext) -> Iterator[Finding]:
    piece = context.page.piece
    for side in piece.torn:
        at = _art_along(context, side)
        if at is not None:
            told = format_length(TORN_REACH.value, piece.units)
            message = f"art runs to the torn {side} edge: part of it is torn off, unevenly"
            fix = f"end it {told} or more from that edge, or have the side cut"
            yield found(CHECK, Severity.WARN, piece.name, message, fix, TORN_REACH, None, at)


def _art_along(context: PageContext, side: TornSide) -> Point | None:
    """Returns where art lies within reach of a side, None where it does not."""
    sight, card = context.page.sight, context.page.zones.card
    reach = TORN_REACH.value
    strip = {
        "left": Box(card.left, card.top, card.left + reach, card.bottom),
        "top": Box(card.left, card.top, card.right, card.top + reach),
        "right": Box(card.right - reach, card.top, card.right, card.bottom),
        "bottom": Box(card.left, card.bottom - reach, card.right, card.bottom),
    }[side]
    view = sight.view.within(strip)
    left, top = view.offset_in(sight.view)
    look = sight.picture[top : top + view.height_px, left : left + view.width_px]
    seen = look.min(axis=2) < 255 - _SEEN
    along = seen.any(axis=0 if side in ("top", "bottom") else 1)
    if along.mean() <= _LONG:
        return None
    row, column = (int(each[0]) for each in np.nonzero(seen))
    return Point(view.left_in + column / view.ppi, view.top_in + row / view.ppi)


def _painted(context: PageContext) -> Iterator[Finding]:
    piece = context.page.piece
    if piece.edge is None or piece.is_second:
        return
    verb = "gilded" if piece.edge.metal else "painted"
    caliper = piece.stock.caliper_mil
    if caliper < EDGE_CALIPER.value:
        told = format_caliper(caliper, piece.units)
        message = f"edges are {verb}, and {piece.stock.name} is {told} thick: little of it is seen"
        fix = "take a thicker paper, or have two of it glued into one"
        yield found(CHECK, Severity.NOTE, piece.name, message, fix, EDGE_CALIPER, caliper)
    if piece.torn:
        which = "every side" if len(piece.torn) == len(TORN_SIDES) else f"the {piece.torn[0]} side"
        message = f"edges are {verb}, and {which} is torn: a torn edge takes no even coat"
        fix = "have the sides cut that are coated, or leave the coat out"
        yield Finding(CHECK, Severity.WARN, piece.name, message, fix, source=COMMON)


def _shows(context: PageContext) -> Iterator[Finding]:
    piece = context.page.piece
    there = {what for _, what in context.page.finishes}
    there |= {said.finish for said in piece.art.finishing}
    for finish, words in _RELIEF:
        at = under_other_side(piece, finish) if finish in there else None
        if at is not None:
            other = _OTHER.get(piece.side, "other side")
            message = f"{words} lies over art on the {other}: it shows there in relief"
            fix = f"move one of them, or leave the {other} bare there"
            yield Finding(CHECK, Severity.WARN, piece.name, message, fix, at, source=COMMON)
