"""Pages with one fault at the cut: size, bleed, safe zone, borders, wander, the die."""

from __future__ import annotations

import numpy as np
import shapely

from mockup.checks.finding import Severity
from tests.checks.bench.case import Case, Fault, brute_clearance, die_polygon
from tests.checks.bench.sheet import BLACK, CREAM, INK, WHITE, Sheet, outlines


def _title(sheet: Sheet, colour=INK) -> None:
    """Harmless type in the middle of the card."""
    sheet.outlined(sheet.width / 2 - 0.8, sheet.height / 2, "Samphire Hard", 22, colour)


# Size.


def size_fault(value, severity=Severity.STOP):
    def draw(sheet: Sheet) -> Fault:
        _title(sheet)
        return Fault("size", (0.0, 0.0), value, least=severity)

    return draw


SIZE = [
    Case("size-too-small", size_fault(-0.1), sheet={"width": 4.9}),
    Case("size-too-large", size_fault(0.125), sheet={"height": 7.125}),
    Case("size-swapped", size_fault(2.0), sheet={"width": 7.0, "height": 5.0}),
    Case("size-swapped-page", size_fault(2.0), sheet={"width": 7, "height": 5, "trim_box": False}),
    Case("size-metric-card", size_fault(5.8268 - 5), sheet={"width": 5.8268, "height": 8.2677 - 1}),
    Case("size-page-3-mm-short", size_fault(-0.1181), sheet={"width": 4.8819, "trim_box": False}),
    Case("off-centre-across", size_fault(0.05, Severity.WARN), sheet={"shift": (0.05, 0.0)}),
    Case("off-centre-down", size_fault(0.08, Severity.WARN), sheet={"shift": (0.0, 0.08)}),
    Case(
        "page-bleed-3-mm",
        size_fault(0.1181, Severity.NOTE),
        sheet={"bleed": 0.1181},
    ),
    Case("page-no-bleed", size_fault(0.0, Severity.NOTE), sheet={"bleed": 0.0}),
]


# Bleed.


def short(left=0.125, top=0.125, right=0.125, bottom=0.125, colour=CREAM):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(colour, left, top, right, bottom)
        _title(sheet, BLACK)
        w, h = sheet.width, sheet.height
        edges = {"x0": (left, (0.0, None)), "y0": (top, (None, 0.0)),
                 "x1": (right, (w, None)), "y1": (bottom, (None, h))}  # fmt: skip
        value, (x, y) = min(edges.values(), key=lambda pair: pair[0])
        if len({left, top, right, bottom}) == 1:
            card = shapely.box(0, 0, w, h).exterior
            return Fault("bleed", card, value)  # all round alike: any place of the cut will do
        place = (x if x is not None else 0.0, y if y is not None else 0.0)
        return Fault("bleed", place, value, anywhere_x=x is None, anywhere_y=y is None)

    return draw


def _at_trim_on_curve(sheet: Sheet) -> Fault:
    sheet.flood(INK, 0, 0, 0, 0)
    _title(sheet, WHITE)
    return Fault("bleed", shapely.box(0, 0, sheet.width, sheet.height).exterior, 0.0)


def _clipped_to_die(case_die, parameters):
    def draw(sheet: Sheet) -> Fault:
        case = Case("", draw, (sheet.width, sheet.height), case_die, parameters)
        edge = die_polygon(case).exterior
        sheet.polygon(np.asarray(edge.coords)[:-1], INK)
        _title(sheet, WHITE)
        return Fault("bleed", edge, 0.0)

    return draw


def photo(shape=(400, 300), seed=3) -> np.ndarray:
    """A picture like a landscape: soft bands of colour with grain, never white."""
    random = np.random.default_rng(seed)
    y = np.linspace(0, 1, shape[0], dtype=np.float32)[:, None, None]
    x = np.linspace(0, 1, shape[1], dtype=np.float32)[None, :, None]
    bands = 110 + 60 * np.sin(3 * y + np.arange(3, dtype=np.float32))
    picture = 12 * random.standard_normal((*shape, 3), dtype=np.float32)
    picture += bands + 30 * np.sin(5 * x + 4 * y)
    return np.clip(picture, 5, 235).astype(np.uint8)


def _photo_short(sheet: Sheet) -> Fault:
    sheet.image(photo((2175, 1590)), -0.125, -0.125, 5.19, 7.25)  # ends 0.065 beyond the right
    return Fault("bleed", (5.0, 0), 0.065, anywhere_y=True)


def _photo_with_white_edge(sheet: Sheet) -> Fault:
    pixels = photo((2175, 1575))
    pixels[:, :60] = 255  # 0.2 in of the page's left: 0.075 inside the cut is white as well
    pixels[:, 30:60] = photo((2175, 30))
    sheet.image(pixels, -0.125, -0.125, 5.25, 7.25)
    return Fault("bleed", (0.0, 0), 0.025, anywhere_y=True)


def _band_short(sheet: Sheet) -> Fault:
    sheet.flood(CREAM)
    sheet.rect(-0.04, 4.0, 5.165, 1.5, INK)
    return Fault("bleed", (0.0, 4.75), 0.04, anywhere_y=True)


def _rule_short(sheet: Sheet) -> Fault:
    sheet.flood(CREAM)
    sheet.line([(-0.125, 3.5), (5.05, 3.5)], 1.5, INK)
    return Fault("bleed", (5.0, 3.5), 0.05)


def _ribbon_short(sheet: Sheet) -> Fault:
    sheet.rect(2.0, -0.125, 0.15, 7.125 + 0.07, INK)
    return Fault("bleed", (2.075, 7.0), 0.07, anywhere_x=True)


def _strip_with_gap(sheet: Sheet) -> Fault:
    sheet.flood(INK, 0.125, 0.125, 0.0, 0.125)
    sheet.rect(5.01, -0.125, 0.115, 7.25, INK)
    _title(sheet, WHITE)
    return Fault("bleed", (5.0, 0), 0.0, anywhere_y=True)


BLEED = [
    Case("bleed-none", short(0, 0, 0, 0)),
    Case("bleed-short-left", short(left=0.05)),
    Case("bleed-short-top", short(top=0.0625)),
    Case("bleed-short-right", short(right=0.1)),
    Case("bleed-short-bottom-dark", short(bottom=0.03, colour=INK)),
    Case("bleed-3-mm", short(0.1181, 0.1181, 0.1181, 0.1181)),
    Case("bleed-hairline", short(right=-0.008, colour=INK)),
    Case("bleed-hairline-pale", short(bottom=-0.005)),
    Case("bleed-ellipse-at-trim", _at_trim_on_curve, die="ellipse"),
    Case("bleed-lancet-at-trim", _at_trim_on_curve, die="lancet-arch"),
    Case("bleed-scallop-to-die", _clipped_to_die("scalloped-edge", {}), die="scalloped-edge"),
    Case("bleed-ellipse-to-die", _clipped_to_die("ellipse", {}), die="ellipse"),
    Case("bleed-photo-short", _photo_short),
    Case("bleed-photo-white-edge", _photo_with_white_edge),
    Case("bleed-band-over-flood", _band_short),
    Case("bleed-rule", _rule_short),
    Case("bleed-ribbon", _ribbon_short),
    Case("bleed-gap-at-trim", _strip_with_gap),
]


# Safe zone.


def near_type(edge, gap, live=False, size=11, flood=None, colour=BLACK, text="Skiffs at noon"):
    def draw(sheet: Sheet) -> Fault:
        if flood is not None:
            sheet.flood(flood)
        _, box = outlines(0, 0, text, size)
        left, top, right, bottom = box
        x, y = {
            "left": (gap - left, 3.0),
            "right": (sheet.width - gap - right, 3.0),
            "top": (1.5, gap - top),
            "bottom": (1.5, sheet.height - gap - bottom),
        }[edge]
        put = sheet.live_type if live else sheet.outlined
        put(x, y, text, size, colour)
        at = {"left": (gap, 0), "right": (sheet.width - gap, 0), "top": (0, gap),
              "bottom": (0, sheet.height - gap)}[edge]  # fmt: skip
        across = edge in ("top", "bottom")
        return Fault("safe", at, gap, anywhere_x=across, anywhere_y=not across)

    return draw


def near_die(die, parameters, centre, size=(5.0, 7.0), radius=0.04, colour=INK, flood=None):
    """A dot close to a shaped cut: its clearance is worked out by brute force."""

    def draw(sheet: Sheet) -> Fault:
        if flood is not None:
            sheet.flood(flood)
        sheet.circle(*centre, radius, colour)
        angle = np.linspace(0, 2 * np.pi, 2000)
        points = np.stack([np.cos(angle), np.sin(angle)], axis=1) * radius + centre
        value, at = brute_clearance(points, die_polygon(Case("", draw, size, die, parameters)))
        return Fault("safe", at, value)

    return draw


def type_near_die(die, parameters, at, text="Skiffs at noon", size_pt=12, size=(5.0, 7.0)):
    """Outlined type close to a shaped cut, measured by brute force over its outlines' points."""

    def draw(sheet: Sheet) -> Fault:
        sheet.flood(CREAM)
        sheet.outlined(*at, text, size_pt, INK)
        parts, _ = outlines(*at, text, size_pt)
        points = np.concatenate([curve_points(part) for part in parts])
        value, place = brute_clearance(points, die_polygon(Case("", draw, size, die, parameters)))
        return Fault("safe", place, value)

    return draw


def curve_points(part: str) -> np.ndarray:
    """Returns points every fortieth of each curve of a path's operators: 1,200 a inch and more."""
    stack, points, here = [], [], np.zeros(2)
    for word in part.split():
        if word not in "mlch":
            stack.append(float(word))
            continue
        if word == "c":
            p = np.array(stack).reshape(3, 2)
            t = np.linspace(0, 1, 41)[:, None]
            curve = (1 - t) ** 3 * here + 3 * (1 - t) ** 2 * t * p[0]
            points.append(curve + 3 * (1 - t) * t * t * p[1] + t**3 * p[2])
        elif word == "l":
            end = np.array(stack)
            points.append(here + np.linspace(0, 1, 41)[:, None] * (end - here))
        if stack:
            here = np.array(stack[-2:])
        stack = []
    return np.concatenate(points)


def _type_in_scan(sheet: Sheet) -> Fault:
    pixels = np.full((2175, 1575, 3), (236, 232, 220), np.uint8)
    for k in range(6):  # six upright strokes, as letters are, 0.07 in from the right cut
        x = 1575 - 38 - 21 - 8 - 20 * k
        pixels[900:960, x : x + 8] = (30, 30, 60)
    sheet.image(pixels, -0.125, -0.125, 5.25, 7.25)
    # The outermost column ends at pixel 1516 of 300 an inch, from -0.125 in.
    return Fault("safe", (1516 / 300 - 0.125, 0), 5 - (1516 / 300 - 0.125), anywhere_y=True)


def _knocked_out(sheet: Sheet) -> Fault:
    """A flood whose letters are holes of the very same path."""
    parts, box = outlines(0, 0, "Tide Mill", 14)
    left, top, *_ = box
    parts, box = outlines(0.08 - left, 2.0, "Tide Mill", 14)
    sheet.colour(INK)
    sheet.ops.append("-.125 -.125 5.25 7.25 re " + " ".join(parts) + " f*")
    return Fault("safe", (0.08, 2.0 + top), 0.08, anywhere_y=True)


def _thin_line(sheet: Sheet) -> Fault:
    sheet.flood(CREAM)
    sheet.line([(1, 6.93), (4, 6.93)], 1.0, INK)
    return Fault("safe", (1, 6.93 + 0.5 / 72), 0.07 - 0.5 / 72, anywhere_x=True)


def _logo(sheet: Sheet) -> Fault:
    sheet.flood(WHITE, 0, 0, 0, 0)
    sheet.image(photo((300, 300)), 3.95, 5.0, 0.97, 0.97)
    return Fault("safe", (4.92, 5.0), 0.08, anywhere_y=True)


def _type_across(sheet: Sheet) -> Fault:
    _, box = outlines(0, 0, "Carriages", 16)
    sheet.outlined(5.06 - box[2], 4.0, "Carriages", 16, INK)
    return Fault("safe", (5.06, 4.0), -0.06, anywhere_y=True)


def _live_across(sheet: Sheet) -> Fault:
    _, box = outlines(0, 0, "Carriages", 16)
    sheet.live_type(-0.05 - box[0], 4.0, "Carriages", 16)
    return Fault("safe", (-0.05, 4.0), -0.05, anywhere_y=True)


def _on_pattern(sheet: Sheet) -> Fault:
    sheet.flood(CREAM)
    for x in np.arange(-0.2, 5.3, 0.25):
        for y in np.arange(-0.2, 7.3, 0.25):
            sheet.circle(x, y, 0.03, (0.2, 0.1, 0.1, 0.0))
    return near_type("left", 0.07, size=13)(sheet)


def _near_hole(sheet: Sheet) -> Fault:
    """Type 0.06 in below the drilled hole of a tag, whose rim is 0.375 + 3/32 in from the top."""
    rim = 0.375 + 0.1875 / 2
    _, box = outlines(0, 0, "I", 14)
    x, y = 1.0 - (box[0] + box[2]) / 2, rim + 0.06 - box[1]
    sheet.outlined(x - 0.3, y, "HIGH", 14, INK)
    parts, _ = outlines(x - 0.3, y, "HIGH", 14)
    points = np.concatenate([curve_points(part) for part in parts])
    value, place = brute_clearance(points, die_polygon(Case("", _near_hole, (2.0, 3.5), "tag")))
    return Fault("safe", place, value)


SAFE = [
    Case("safe-live-left", near_type("left", 0.06, live=True)),
    Case("safe-live-right", near_type("right", 0.1, live=True)),
    Case("safe-live-top", near_type("top", 0.09, live=True)),
    Case("safe-live-bottom", near_type("bottom", 0.03, live=True)),
    Case("safe-outlined-left", near_type("left", 0.11)),
    Case("safe-outlined-top", near_type("top", 0.08, flood=CREAM)),
    Case("safe-outlined-bottom-dark", near_type("bottom", 0.1, flood=INK, colour=WHITE)),
    Case("safe-outlined-right-dark", near_type("right", 0.05, flood=INK, colour=CREAM)),
    Case("safe-live-dark", near_type("left", 0.08, live=True, flood=INK, colour=WHITE)),
    Case("safe-ellipse-dot", near_die("ellipse", {}, (4.25, 1.22)), die="ellipse"),
    Case("safe-lancet-dot", near_die("lancet-arch", {}, (1.0, 1.6)), die="lancet-arch"),
    Case(
        "safe-ticket-dot",
        near_die("ticket-corner", {"radius": 0.5}, (0.45, 0.42), flood=CREAM),
        die="ticket-corner",
        parameters={"radius": 0.5},
    ),
    Case("safe-scallop-dot", near_die("scalloped-edge", {}, (0.19, 3.5)), die="scalloped-edge"),
    Case(
        "safe-ellipse-type", type_near_die("ellipse", {}, (3.35, 1.2)), die="ellipse"
    ),
    Case("safe-lancet-type", type_near_die("lancet-arch", {}, (2.3, 0.5), "Tide Mill", 13),
         die="lancet-arch"),
    Case("safe-scallop-type", type_near_die("scalloped-edge", {}, (0.29, 3.0)),
         die="scalloped-edge"),
    Case(
        "safe-ticket-type",
        type_near_die("ticket-corner", {"radius": 0.5}, (0.38, 0.5)),
        die="ticket-corner",
        parameters={"radius": 0.5},
    ),
    Case("safe-type-in-scan", _type_in_scan),
    Case("safe-knocked-out", _knocked_out),
    Case("safe-thin-line", _thin_line),
    Case("safe-logo", _logo),
    Case("safe-type-across", _type_across),
    Case("safe-live-across", _live_across),
    Case("safe-type-on-pattern", _on_pattern),
    Case("safe-type-near-hole", _near_hole, size=(2.0, 3.5), die="tag"),
]  # fmt: skip


# Borders and the die.


def _border_cut(sheet: Sheet) -> Fault:
    inset = 0.05
    w, h = sheet.width - 2 * inset, sheet.height - 2 * inset
    points = [(inset, inset), (inset + w, inset), (inset + w, inset + h), (inset, inset + h)]
    sheet.line(points, 1.0, INK, closed=True)
    _title(sheet)
    return Fault("border", (0, 0), 0.05 - 0.5 / 72, anywhere_x=True, anywhere_y=True)


def _wander(sheet: Sheet) -> Fault:
    _, box = outlines(0, 0, "Lanterns", 12)
    sheet.live_type(0.05 - box[0], 3.0, "Lanterns", 12)
    return Fault("shift", (0.05, 3.0), 0.05 - 0.0625, within=0.02, anywhere_y=True)


def _die_fault(value, hole):
    """A drilled hole, centre and radius, that is too near another cut or too small."""

    def draw(sheet: Sheet) -> Fault:
        _title(sheet)
        x, y, radius = hole
        return Fault("die", shapely.Point(x, y).buffer(radius, 64), value)

    return draw


DIE = [
    Case("border-too-near", _border_cut),
    Case("wander-cuts-type", _wander),
    Case("die-hole-near-edge", _die_fault(0.05, (2.5, 0.175, 0.125)), hole=(2.5, 0.175, 0.125)),
    Case("die-hole-too-small", _die_fault(0.06, (2.5, 1.0, 0.03)), hole=(2.5, 1.0, 0.03)),
    Case(
        "die-hole-in-thick-stock",
        _die_fault(0.1, (2.5, 1.0, 0.05)),
        hole=(2.5, 1.0, 0.05),
        stock="cotton-220-white",
    ),
]

FAULTS = [*SIZE, *BLEED, *SAFE, *DIE]
