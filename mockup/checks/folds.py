"""Folds: type that runs across one or stands too near it, and how heavy paper is folded at all."""

from __future__ import annotations

import shapely
from shapely.geometry import LineString

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.type_lines import LetterLine
from mockup.trade.tolerances import FOLD_CLEAR, SCORED_ABOVE

CHECK = "fold"
_CROSSES_IN = 1 / 128  # judgement: a letter that only touches the fold does not cross it


def check_folds(context: PageContext) -> list[Finding]:
    """Returns what of a folded card's side stands too near its fold; of the outside, how it is to
    be folded. Nothing for a piece that is flat."""
    piece = context.page.piece
    if piece.fold is None:
        return []
    (crease,), *_ = piece.die.folds
    line = LineString([crease.start, crease.end])
    findings = [f for each in context.page.letter_lines if (f := _near(context, each, line))]
    return [*findings, *([] if piece.is_second else _scored(context))]


def _near(context: PageContext, type_line: LetterLine, fold: LineString) -> Finding | None:
    """Returns a warning for a line of type across a fold, or too near it."""
    parts = context.page.parts.all
    letters = shapely.union_all([shapely.box(*parts[k].box) for k in type_line.members])
    box = shapely.box(*letters.bounds)
    away = letters.distance(fold)
    across = _crosses(box.bounds, fold)
    if not across and away >= FOLD_CLEAR.value:
        return None
    length, name = context.settings.length, context.page.piece.name
    said = f': "{type_line.text}"' if type_line.text else ""
    told = "runs across the fold" if across else f"stands {length(away)} from the fold"
    x, y = shapely.get_coordinates(shapely.shortest_line(letters, fold))[0]
    fix = f"keep it {length(FOLD_CLEAR.value)} clear of the fold, or let it be bent"
    at, value = Point(float(x), float(y)), 0.0 if across else away
    return found(CHECK, Severity.WARN, name, f"type {told}{said}", fix, FOLD_CLEAR, value, at)


def _crosses(box: tuple[float, ...], fold: LineString) -> bool:
    """Returns whether a box lies on both sides of a fold that runs upright or level."""
    (x0, y0), (x1, y1) = fold.coords
    left, top, right, bottom = box
    if x0 == x1:
        return left < x0 - _CROSSES_IN and right > x0 + _CROSSES_IN
    return top < y0 - _CROSSES_IN and bottom > y0 + _CROSSES_IN and y0 == y1


def _scored(context: PageContext) -> list[Finding]:
    """Returns a note of how paper of this weight is folded, above what folds without a score."""
    piece = context.page.piece
    if piece.stock.gsm <= SCORED_ABOVE.value:
        return []
    along = "height" if piece.fold == "left" else "width"
    message = (
        f"folded at the {piece.fold}, on {piece.stock.gsm:.0f} g/m\u00b2: heavy paper cracks at a "
        "fold that is not scored"
    )
    fix = f"ask for a score, and for the grain along the fold (the card's {along})"
    limit = SCORED_ABOVE
    return [found(CHECK, Severity.NOTE, piece.name, message, fix, limit, piece.stock.gsm)]
