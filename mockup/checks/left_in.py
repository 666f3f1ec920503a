"""What was left in by mistake: cut, safe and bleed lines, guide layers, die-like spot colours."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry import LineString

from mockup.artwork.inspection import Layer, Painted
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.courses import from_trim
from mockup.reading.showing import CHECK
from mockup.reading.template_lines import CUT_WITHIN_IN, FollowingLine
from mockup.reading.template_names import layers_of_art, looks_like_a_template_s
from mockup.trade.tolerances import COMMON, Limit
from mockup.trade.vocabulary import Meaning, is_template, name_meaning
from mockup.units import format_length

# Names nobody gives a drawing: what lies there is no art, whatever it looks like.
_NEVER_ART: frozenset[Meaning] = frozenset(("guide", "registration", "dimensions"))
_UNSURE = {"colour": Severity.NOTE}
_REGISTER_IN = 0.005  # judgement: less beside its place is rounding


def check_left_in(context: PageContext) -> list[Finding]:
    """Returns the lines, layers and colours that must not be in a print file."""
    lines = context.page.template_lines
    told = {id(painted) for painted in lines.named}
    following = [line for line in lines.following if not all(id(p) in told for p in line.painted)]
    marks = [mark for mark in lines.crop_marks if id(mark) not in told]
    return [
        *_layers(context),
        *_spots(context),
        *(_following(context, line) for line in following),
        *_crop_marks(context, marks),
    ]


def _layers(context: PageContext) -> list[Finding]:
    inspection = context.page.inspection
    findings: list[Finding] = []
    for layer in inspection.layers:
        own = [p for p in (*inspection.painted, *inspection.hidden) if p.layer == layer.name]
        if own and (finding := _layer(context, layer, own)) is not None:
            findings.append(finding)
    return findings


def _layer(context: PageContext, layer: Layer, own: Sequence[Painted]) -> Finding | None:
    name, at = context.page.piece.name, _corner(own)
    unseen = not (layer.shown and layer.printed)
    state = " (hidden)" if not layer.shown else " (not printed)" if not layer.printed else ""
    if layer.processing_step is not None:
        message = f'layer "{layer.name}"{state} holds the step {layer.processing_step}'
        fix = "ask your printer whether they read ISO 19593-1 steps; else delete the layer"
        return _named(Severity.NOTE, name, message, fix, at)
    lines = [p for p in own if looks_like_a_template_s(p)]
    is_art = not unseen and layer.name in layers_of_art(context.page.inspection)
    never_art = name_meaning(layer.name) in _NEVER_ART
    if is_template(layer.name) and (never_art or (lines and not is_art)):
        message = f'layer "{layer.name}"{state} is a template\'s: {_counted(lines or own)} on it'
        severity = Severity.STOP if lines else Severity.WARN
        fix = "delete the layer from the print file"
        return _named(severity, name, message, fix, _corner(lines or own))
    if unseen:
        message = f'layer "{layer.name}"{state} holds {_counted(own)} that may come out'
        fix = "delete the layer, or show it if it belongs to the art"
        return _named(Severity.WARN, name, message, fix, at)
    return None


def _spots(context: PageContext) -> list[Finding]:
    by_name: dict[str, list[Painted]] = {}
    inspection = context.page.inspection
    steps = {s.name for s in inspection.layers if s.processing_step is not None}
    for painted in inspection.painted:
        for spot in painted.ink.names if painted.ink else ():
            if is_template(spot) and painted.layer not in steps:
                by_name.setdefault(spot, []).append(painted)
    return [_spot(context, name, own) for name, own in by_name.items()]


def _spot(context: PageContext, name: str, own: Sequence[Painted]) -> Finding:
    piece = context.page.piece.name
    lines = [p for p in own if looks_like_a_template_s(p)]
    if lines:
        message = f'spot colour "{name}" is a die\'s: {_counted(lines)} in it would print'
        fix = "delete that from the print file, and send the die's line as a file of its own"
        return _named(Severity.STOP, piece, message, fix, _corner(lines))
    message = f'spot colour "{name}" has a die\'s name, and {_counted(own)} are drawn in it'
    fix = "call the colour otherwise, or a printer may take what it paints for the die"
    return _named(Severity.WARN, piece, message, fix, _corner(own))


def _named(severity: Severity, piece: str, message: str, fix: str, at: Point) -> Finding:
    return Finding(CHECK, severity, piece, message, fix, at, source=COMMON)


def _counted(objects: Sequence[Painted]) -> str:
    return "1 object" if len(objects) == 1 else f"{len(objects)} objects"


def _corner(objects: Sequence[Painted]) -> Point:
    return Point(min(p.box.left for p in objects), min(p.box.top for p in objects))


def _following(context: PageContext, line: FollowingLine) -> Finding:
    off_in = float(np.hypot(*line.shift_in))
    value = off_in if off_in > _REGISTER_IN else line.usual_in
    if line.line == "fold":
        at = Point(line.painted[0].box.left, line.painted[0].box.top)
    else:
        rings = [ring for each in line.painted for ring in each.rings if len(ring) > 1]
        course = shapely.multilinestrings(list(map(LineString, rings)))
        x, y = shapely.get_coordinates(shapely.shortest_line(course, context.page.zones.edge))[0]
        at = Point(float(x), float(y))
    fix = "delete it from the print file; the die is sent on its own"
    if not line.is_sure:
        fix = "delete it, or accept this if it is a border of the art"
    if line.evidence == "colour":
        fix = "delete it if it is a template's; a border of the art stays"
    limit, name = Limit(0.0, "in", COMMON), context.page.piece.name
    severity = Severity.STOP if line.is_sure else _UNSURE.get(line.evidence, Severity.WARN)
    return found(CHECK, severity, name, _told(context, line, off_in), fix, limit, value, at)


def _told(context: PageContext, line: FollowingLine, off_in: float) -> str:
    units, count = context.settings.units, len(line.painted)
    what = f"a {line.line} line" if line.is_sure else f"a line like a {line.line} line"
    pieces = f", in {count} parts" if count > 1 else ""
    if line.line == "fold":
        return f"{what} is in the art: words beside it say so"
    if off_in > _REGISTER_IN:
        away = format_length(off_in, units)
        return f"{what} is in the art{pieces}, {away} beside the {line.along}'s line"
    if line.line == "hole":
        return f"{what} is in the art: it runs on the hole of the die"
    away_in = abs(line.usual_in)
    if away_in < CUT_WITHIN_IN:
        return f"{what} is in the art{pieces}: it runs on the {line.along}'s line"
    side = "inside" if line.usual_in > 0 else "outside"
    away = format_length(away_in, units)
    return f"{what} is in the art{pieces}: it runs {away} {side} the {line.along}'s line"


def _crop_marks(context: PageContext, marks: Sequence[Painted]) -> list[Finding]:
    if not marks:
        return []
    card, units = context.page.zones.shape.box, context.settings.units
    inward = [from_trim(np.concatenate(m.rings), card).max() for m in marks]
    nearest = int(np.argmax(inward))
    bleed = context.page.piece.bleed_in
    away = format_length(float(-inward[nearest]), units)
    points = np.concatenate(marks[nearest].rings)
    tip = points[int(np.argmax(from_trim(points, card)))]
    return [
        found(
            CHECK,
            Severity.STOP,
            context.page.piece.name,
            f"{len(marks)} printer's marks reach into the bleed, to {away} from the trim",
            f"set the marks' offset to {format_length(bleed, units)} or more, or save without "
            "marks",
            Limit(bleed, "in", COMMON),
            float(-inward[nearest]),
            Point(float(tip[0]), float(tip[1])),
        )
    ]
