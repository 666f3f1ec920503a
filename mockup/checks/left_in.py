"""What was left in by mistake: cut, safe and bleed lines, guide layers, die-like spot colours."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.artwork.inspection import Ink, Inspection, Painted
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.parts import densified
from mockup.geometry.point import Box, Point
from mockup.trade.tolerances import BLEED_METRIC, COMMON, SAFE, SAFE_BORDER, Limit

CHECK = "left-in"
_WORDS = (
    "die|dies|dieline|die line|cut|cuts|cutline|cutter|cutting|crease|creasing|score|"
    "scoring|perf|perforation|fold|trim|bleed|safe|safety|safe zone|guide|guides|template|knife|"
    "kiss cut|keyline|do not print|non printing|dimensions|stanze|stanzkontur"
)
_NAMED = re.compile(rf"\b(?:{_WORDS})\b", re.I)
FOLLOWS_WITHIN_IN = 0.012
FOLLOWS_SHARE = 0.8
THIN_PT = 2.0
HAIR_PT = 0.8
CUT_WITHIN_IN = 0.015
MARGIN_WITHIN_IN = 0.006
MARGINS_IN = (SAFE.value, SAFE_BORDER.value, BLEED_METRIC.value, 5 / 25.4, 3 / 16)
MARK_LENGTHS_IN = (0.04, 0.6)
MARK_WITHIN_IN = 0.012


def check_left_in(context: PageContext) -> list[Finding]:
    """Returns the lines, layers and colours that must not be in a print file."""
    inspection = context.inspection
    findings = [*_layers(context), *_spots(context)]
    told = {id(p) for p in _named_painted(inspection)}
    lines = [p for p in inspection.painted if id(p) not in told and _is_thin_line(p)]
    findings += [f for p in lines if (f := _following(context, p)) is not None]
    findings += _printers_marks(context, lines)
    return findings


def left_in_objects(context: PageContext) -> list[Painted]:
    """Returns the objects a client's proof has to leave out."""
    inspection = context.inspection
    lines = [p for p in inspection.painted if _is_thin_line(p)]
    following = [p for p in lines if _following(context, p) is not None]
    marks = [p for p in lines if _is_printers_mark(p, context)]
    return [*_named_painted(inspection), *following, *marks]


def is_die_name(name: str) -> bool:
    """Returns whether a layer's or a spot colour's name is one that lines of a die go by."""
    words = re.sub(r"(?<=[a-z])(?=[A-Z])|[_\-./]+", " ", name)
    return _NAMED.search(words) is not None


def _layers(context: PageContext) -> list[Finding]:
    findings: list[Finding] = []
    inspection, name = context.inspection, context.piece.name
    for layer in inspection.layers:
        own = [p for p in (*inspection.painted, *inspection.hidden) if p.layer == layer.name]
        if not own:
            continue
        unseen = not (layer.shown and layer.printed)
        at = _corner(own)
        state = " (hidden)" if not layer.shown else " (not printed)" if not layer.printed else ""
        if layer.processing_step is not None:
            message = f'layer "{layer.name}"{state} holds the step {layer.processing_step}'
            fix = "ask your printer whether they read ISO 19593-1 steps; else delete the layer"
            findings.append(_named(Severity.NOTE, name, message, fix, at))
        elif is_die_name(layer.name):
            message = f'layer "{layer.name}"{state} is a template\'s: {_counted(own)} on it'
            fix = "delete the layer from the print file"
            findings.append(_named(Severity.STOP, name, message, fix, at))
        elif unseen:
            message = f'layer "{layer.name}"{state} holds {_counted(own)} that may come out'
            fix = "delete the layer, or show it if it belongs to the art"
            findings.append(_named(Severity.WARN, name, message, fix, at))
    return findings


def _spots(context: PageContext) -> list[Finding]:
    by_name: dict[str, list[Painted]] = {}
    steps = {s.name for s in context.inspection.layers if s.processing_step is not None}
    for painted in context.inspection.painted:
        for spot in painted.ink.names if painted.ink else ():
            if is_die_name(spot) and painted.layer not in steps:
                by_name.setdefault(spot, []).append(painted)
    return [
        _named(
            Severity.STOP,
            context.piece.name,
            f'spot colour "{spot}" is a die\'s: {_counted(own)} in it would print',
            "delete that from the print file, and send the die's line as a file of its own",
            _corner(own),
        )
        for spot, own in by_name.items()
    ]


def _named(severity: Severity, piece: str, message: str, fix: str, at: Point) -> Finding:
    return Finding(CHECK, severity, piece, message, fix, at, source=COMMON)


def _named_painted(inspection: Inspection) -> list[Painted]:
    guides = {
        layer.name
        for layer in inspection.layers
        if is_die_name(layer.name) or layer.processing_step is not None
    }
    return [
        painted
        for painted in inspection.painted
        if painted.layer in guides
        or (painted.ink is not None and any(is_die_name(n) for n in painted.ink.names))
    ]


def _counted(objects: Sequence[Painted]) -> str:
    return "1 object" if len(objects) == 1 else f"{len(objects)} objects"


def _corner(objects: Sequence[Painted]) -> Point:
    return Point(min(p.box.left for p in objects), min(p.box.top for p in objects))


def _is_thin_line(painted: Painted) -> bool:
    pen = painted.pen
    return painted.kind == "path" and pen is not None and pen.width_in * 72 <= THIN_PT


def _following(context: PageContext, painted: Painted) -> Finding | None:
    """Returns the finding for a line that follows the die, its trim or an offset of either."""
    card = _card(context)
    if not _spans(painted.box, card):
        return None
    points = np.concatenate([densified(ring, 0.03) for ring in painted.rings])
    for name, signed in (
        ("die", context.zones.signed(points)),
        ("trim", _from_trim(points, card)),
    ):
        usual = float(np.median(signed))
        if (np.abs(signed - usual) < FOLLOWS_WITHIN_IN).mean() < FOLLOWS_SHARE:
            continue
        what = _line_kind(usual, painted, context)
        if what is not None:
            return _line_finding(context, painted, what, usual, name)
    return None


def _line_finding(
    context: PageContext, painted: Painted, what: str, usual_in: float, along: str
) -> Finding:
    where = "on" if abs(usual_in) < CUT_WITHIN_IN else f"{abs(usual_in):.3f} in "
    side = "" if where == "on" else "inside" if usual_in > 0 else "outside"
    message = f"a {what} line is in the art: it runs {where}{side} the {along}'s line"
    nearest = shapely.shortest_line(shapely.linestrings(painted.rings[0]), context.zones.edge)
    x, y = shapely.get_coordinates(nearest)[0]
    limit = Limit(0.0, "in", COMMON)
    fix = "delete it from the print file; the die is sent on its own"
    place = Point(float(x), float(y))
    return found(CHECK, Severity.STOP, context.piece.name, message, fix, limit, usual_in, place)


def _line_kind(signed_in: float, painted: Painted, context: PageContext) -> str | None:
    """Returns which line of a template this is, by how far inside the cut it runs; None for art.

    Inside the card a border may run anywhere; only one that is dashed, or a hairline in a pure
    primary, at a usual margin, is a template's.
    """
    assert painted.pen is not None
    if abs(signed_in) < CUT_WITHIN_IN:
        return "cut"
    if signed_in < 0:
        outside = -signed_in - painted.pen.width_in / 2 > 0
        return "bleed" if outside and -signed_in < context.piece.bleed_in + 0.05 else None
    margins = (*MARGINS_IN, context.settings.safe_in)
    at_margin = any(abs(signed_in - margin) < MARGIN_WITHIN_IN for margin in margins)
    hair = painted.pen.width_in * 72 <= HAIR_PT
    drawn_so = bool(painted.pen.dashes) or (hair and _is_primary(painted.ink))
    return "safe" if at_margin and drawn_so else None


def _is_primary(ink: Ink | None) -> bool:
    if ink is None or ink.space not in ("rgb", "cmyk"):
        return False
    values = ink.values[:3]
    pure = all(value < 0.02 or value > 0.98 for value in values)
    coloured = max(values) - min(values) > 0.9
    return pure and coloured and (ink.space == "rgb" or ink.values[3] < 0.02)


def _spans(box: Box, card: Box) -> bool:
    return box.width > 0.7 * card.width and box.height > 0.7 * card.height


def _from_trim(points: NDArray[np.float64], card: Box) -> NDArray[np.float64]:
    """Returns distances from the trim's rectangle, positive inside."""
    x, y = points.T
    return np.min([x - card.left, card.right - x, y - card.top, card.bottom - y], axis=0)


def _printers_marks(context: PageContext, lines: Sequence[Painted]) -> list[Finding]:
    marks = [painted for painted in lines if _is_printers_mark(painted, context)]
    if not marks:
        return []
    inward = [_from_trim(np.concatenate(m.rings), _card(context)).max() for m in marks]
    nearest = int(np.argmax(inward))
    bleed = context.piece.bleed_in
    message = f"{len(marks)} printer's marks reach into the bleed, to {-inward[nearest]:.3f} in"
    points = np.concatenate(marks[nearest].rings)
    tip = points[int(np.argmax(_from_trim(points, _card(context))))]
    return [
        found(
            CHECK,
            Severity.STOP,
            context.piece.name,
            f"{message} from the trim",
            f"set the marks' offset to {bleed:.3f} in or more, or save without marks",
            Limit(bleed, "in", COMMON),
            float(-inward[nearest]),
            Point(float(tip[0]), float(tip[1])),
        )
    ]


def _is_printers_mark(painted: Painted, context: PageContext) -> bool:
    """Returns whether a line is a corner mark: short, upright or level, in line with a trim edge,
    and inside the bleed."""
    if len(painted.rings) != 1 or len(painted.rings[0]) != 2:
        return False
    (x0, y0), (x1, y1) = painted.rings[0]
    card = _card(context)
    level, upright = abs(y1 - y0) < 0.004, abs(x1 - x0) < 0.004
    length = float(np.hypot(x1 - x0, y1 - y0))
    if not (level or upright) or not MARK_LENGTHS_IN[0] <= length <= MARK_LENGTHS_IN[1]:
        return False
    edges = (card.top, card.bottom) if level else (card.left, card.right)
    in_line = min(abs((y0 if level else x0) - edge) for edge in edges) < MARK_WITHIN_IN
    reach = _from_trim(painted.rings[0], card).max()
    return in_line and -context.piece.bleed_in + 0.003 < reach <= 0.003


def _card(context: PageContext) -> Box:
    return Box(0, 0, context.piece.die.width_in, context.piece.die.height_in)
