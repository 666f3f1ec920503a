"""What was left in by mistake: cut, safe and bleed lines, guide layers, die-like spot colours."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from mockup.artwork.inspection import Painted
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.template_lines import CUT_WITHIN_IN, FollowingLine, from_trim
from mockup.trade.tolerances import COMMON, Limit
from mockup.trade.vocabulary import is_template

CHECK = "left-in"


def check_left_in(context: PageContext) -> list[Finding]:
    """Returns the lines, layers and colours that must not be in a print file."""
    lines = context.page.template_lines
    told = {id(painted) for painted in lines.named}
    following = [line for line in lines.following if id(line.painted) not in told]
    marks = [mark for mark in lines.crop_marks if id(mark) not in told]
    return [
        *_layers(context),
        *_spots(context),
        *(_following(context, line) for line in following),
        *_crop_marks(context, marks),
    ]


def _layers(context: PageContext) -> list[Finding]:
    findings: list[Finding] = []
    inspection, name = context.page.inspection, context.page.piece.name
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
        elif is_template(layer.name):
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
    steps = {s.name for s in context.page.inspection.layers if s.processing_step is not None}
    for painted in context.page.inspection.painted:
        for spot in painted.ink.names if painted.ink else ():
            if is_template(spot) and painted.layer not in steps:
                by_name.setdefault(spot, []).append(painted)
    return [
        _named(
            Severity.STOP,
            context.page.piece.name,
            f'spot colour "{spot}" is a die\'s: {_counted(own)} in it would print',
            "delete that from the print file, and send the die's line as a file of its own",
            _corner(own),
        )
        for spot, own in by_name.items()
    ]


def _named(severity: Severity, piece: str, message: str, fix: str, at: Point) -> Finding:
    return Finding(CHECK, severity, piece, message, fix, at, source=COMMON)


def _counted(objects: Sequence[Painted]) -> str:
    return "1 object" if len(objects) == 1 else f"{len(objects)} objects"


def _corner(objects: Sequence[Painted]) -> Point:
    return Point(min(p.box.left for p in objects), min(p.box.top for p in objects))


def _following(context: PageContext, line: FollowingLine) -> Finding:
    away_in = abs(line.usual_in)
    where = "on" if away_in < CUT_WITHIN_IN else f"{away_in:.3f} in "
    side = "" if where == "on" else "inside" if line.usual_in > 0 else "outside"
    message = f"a {line.line} line is in the art: it runs {where}{side} the {line.along}'s line"
    course = shapely.linestrings(line.painted.rings[0])
    x, y = shapely.get_coordinates(shapely.shortest_line(course, context.page.zones.edge))[0]
    limit = Limit(0.0, "in", COMMON)
    fix = "delete it from the print file; the die is sent on its own"
    at, name = Point(float(x), float(y)), context.page.piece.name
    return found(CHECK, Severity.STOP, name, message, fix, limit, line.usual_in, at)


def _crop_marks(context: PageContext, marks: Sequence[Painted]) -> list[Finding]:
    if not marks:
        return []
    card = context.page.zones.shape.box
    inward = [from_trim(np.concatenate(m.rings), card).max() for m in marks]
    nearest = int(np.argmax(inward))
    bleed = context.page.piece.bleed_in
    message = f"{len(marks)} printer's marks reach into the bleed, to {-inward[nearest]:.3f} in"
    points = np.concatenate(marks[nearest].rings)
    tip = points[int(np.argmax(from_trim(points, card)))]
    return [
        found(
            CHECK,
            Severity.STOP,
            context.page.piece.name,
            f"{message} from the trim",
            f"set the marks' offset to {bleed:.3f} in or more, or save without marks",
            Limit(bleed, "in", COMMON),
            float(-inward[nearest]),
            Point(float(tip[0]), float(tip[1])),
        )
    ]
