"""Type too small to print: positive, reversed out of a ground, or built of several inks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mockup.artwork.inspection import Ink, Painted
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Box, Point
from mockup.trade.tolerances import TYPE_POSITIVE, TYPE_REVERSED, Limit
from mockup.units import PT_PER_INCH

CHECK = "small-type"
SIZE_PER_X_HEIGHT = 1 / 0.45  # type size over x-height, usual faces; common practice
ROUNDING_PT = 0.05
RICH_UNDER_PT = 9.0
RICH = Limit(RICH_UNDER_PT, "pt", "Ghent Workgroup GWG2015 4.16, small type of several inks")
RICH_BLACK_LEAST = 0.6
OTHER_INKS = 0.15


@dataclass(frozen=True)
class _Setting:
    """A run of type: its size in points, where, in what ink, what it says."""

    size_pt: float
    box: Box
    ink: Ink | None
    text: str
    outlined: bool


def check_small_type(context: PageContext) -> list[Finding]:
    """Returns the smallest type of each kind that is under its limit."""
    settings = [*_live(context), *_outlined(context)]
    reversed_ = [s for s in settings if _is_reversed(s, context)]
    positive = [s for s in settings if s not in reversed_]
    rich = [s for s in settings if _is_rich_black(s.ink)]
    kinds = (
        ("type", positive, TYPE_POSITIVE),
        ("reversed type", reversed_, TYPE_REVERSED),
        ("type in rich black", rich, RICH),
    )
    return [f for kind in kinds if (f := _finding(context, *kind)) is not None]


def _finding(
    context: PageContext, kind: str, settings: list[_Setting], limit: Limit
) -> Finding | None:
    small = [s for s in settings if s.size_pt < limit.value - ROUNDING_PT]
    if not small:
        return None
    least = min(small, key=lambda s: s.size_pt)
    about = "about " if least.outlined else ""
    text = f' "{least.text[:30]}"' if least.text else ""
    fix = f"set it in {limit.value:g} pt or more"
    if limit is RICH:
        fix = "set it in black ink alone"
    at = Point(least.box.left, least.box.top)
    message = f"{kind}{text} is {about}{least.size_pt:.1f} pt"
    return found(CHECK, Severity.WARN, context.piece.name, message, fix, limit, least.size_pt, at)


def _live(context: PageContext) -> list[_Setting]:
    return [
        _Setting(p.lettering.size_pt, p.box, p.ink, p.lettering.text, False)
        for p in context.inspection.painted
        if p.lettering is not None and p.lettering.text.strip() and _on_card(p, context)
    ]


def _outlined(context: PageContext) -> list[_Setting]:
    """Returns outlined words, their size judged by the letters' usual height as an x-height."""
    parts = context.parts.all
    settings: list[_Setting] = []
    for row in context.letter_rows:
        boxes = np.array([parts[k].box for k in row.members])
        box = Box(*map(float, (*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0))))
        size_pt = row.height_in * PT_PER_INCH * SIZE_PER_X_HEIGHT
        settings.append(_Setting(size_pt, box, parts[row.members[0]].painted.ink, "", True))
    return settings


def _on_card(painted: Painted, context: PageContext) -> bool:
    card = context.zones.shape.box
    return painted.box.right > card.left and painted.box.left < card.right


def _is_reversed(setting: _Setting, context: PageContext) -> bool:
    """Returns whether type is lighter than its ground: the darkest of its box is round it."""
    box = setting.box
    xs = np.linspace(box.left, box.right, 60)
    rows = [np.full(60, y) for y in np.linspace(box.top, box.bottom, 9)]
    within = np.concatenate([np.stack([xs, row], axis=1) for row in rows])
    above = np.stack([xs, np.full(60, box.top - 0.03)], axis=1)
    ground = float(np.median(context.colours_at(above).mean(axis=1)))
    inside = context.colours_at(within).mean(axis=1)
    lighter, darker = inside.max() - ground, ground - inside.min()
    return bool(lighter > darker and lighter > 40)


def _is_rich_black(ink: Ink | None) -> bool:
    if ink is None or ink.space != "cmyk":
        return False
    *others, black = ink.values
    return black >= RICH_BLACK_LEAST and sum(others) > OTHER_INKS
