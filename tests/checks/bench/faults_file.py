"""Pages with one fault in the file: things left in by mistake, and things that print badly."""

from __future__ import annotations

import numpy as np
import shapely

from mockup.checks.finding import Severity
from tests.checks.bench.case import Case, Fault, die_polygon
from tests.checks.bench.faults_cut import photo
from tests.checks.bench.sheet import BLACK, CREAM, INK, WHITE, Sheet

MAGENTA = (0.0, 1.0, 0.0, 0.0)
CYAN = (1.0, 0.0, 0.0, 0.0)


def _title(sheet: Sheet, colour=INK) -> None:
    sheet.outlined(1.7, 3.6, "Samphire Hard", 22, colour)


def _rim(sheet: Sheet, out: float) -> list[tuple[float, float]]:
    """The trim's rectangle, moved outward."""
    w, h = sheet.width + out, sheet.height + out
    return [(-out, -out), (w, -out), (w, h), (-out, h)]


def _along_die(case: Case, out: float) -> np.ndarray:
    return np.asarray(die_polygon(case).buffer(out, quad_segs=64).exterior.coords)[:-1]


# Left in.


def line_left(out, colour, width_pt=0.5, dash="", least=Severity.STOP):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(CREAM)
        _title(sheet)
        sheet.line(_rim(sheet, out), width_pt, colour, dash, closed=True)
        line = shapely.LinearRing(_rim(sheet, out))
        return Fault("left-in", line, -out, least=least)

    return draw


def die_line_left(die, out, colour, dash=""):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(CREAM)
        _title(sheet)
        points = _along_die(Case("", draw, (sheet.width, sheet.height), die), out)
        sheet.line(points, 0.5, colour, dash, closed=True)
        return Fault("left-in", shapely.LinearRing(points), -out, least=Severity.STOP)

    return draw


def spot_left(name):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(CREAM)
        _title(sheet)
        sheet.line(_rim(sheet, 0.0), 0.5, name, closed=True)
        return Fault("left-in", (0, 0), least=Severity.STOP)

    return draw


def layer_left(name, state, least=Severity.STOP):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(CREAM)
        _title(sheet)
        sheet.begin_layer(name, state)
        sheet.line([(1.0, 1.0), (4.0, 1.0)], 0.5, CYAN)
        sheet.line([(1.0, 6.0), (4.0, 6.0)], 0.5, CYAN)
        sheet.end_layer()
        return Fault("left-in", (1.0, 1.0), least=least)

    return draw


def _corner_marks(sheet: Sheet) -> Fault:
    sheet.flood(WHITE)
    _title(sheet)
    w, h, near, far = sheet.width, sheet.height, 0.04, 0.12
    for x in (0.0, w):
        for y0, y1 in ((-far, -near), (h + near, h + far)):
            sheet.line([(x, y0), (x, y1)], 0.25, BLACK)
    for y in (0.0, h):
        for x0, x1 in ((-far, -near), (w + near, w + far)):
            sheet.line([(x0, y), (x1, y)], 0.25, BLACK)
    return Fault("left-in", [(0, -near), (w, -near), (0, h + near), (w, h + near), (-near, 0),
                             (w + near, 0), (-near, h), (w + near, h)], near)  # fmt: skip


LEFT_IN = [
    Case("left-cut-line", line_left(0.0, MAGENTA)),
    Case("left-cut-line-black", line_left(0.0, BLACK, 0.25)),
    Case("left-cut-line-lancet", die_line_left("lancet-arch", 0.0, MAGENTA), die="lancet-arch"),
    Case("left-cut-line-scallop", die_line_left("scalloped-edge", 0.0, BLACK),
         die="scalloped-edge"),
    Case("left-trim-of-ellipse", line_left(0.0, CYAN), die="ellipse"),
    # By their look alone: a border may look so, and nothing else speaks against these.
    Case("left-safe-line", line_left(-0.125, CYAN, 0.5, "3 2", Severity.WARN)),
    Case("left-safe-line-hair", line_left(-0.125, MAGENTA, 0.25, least=Severity.WARN)),
    Case("left-safe-line-ellipse", die_line_left("ellipse", -0.125, CYAN, "3 2"), die="ellipse"),
    Case("left-bleed-line", line_left(0.11, (1.0, 0.0, 0.0))),
    Case("left-spot-die", spot_left("Die line")),
    Case("left-spot-cut", spot_left("CutLine")),
    Case("left-layer-template", layer_left("Template", "on")),
    Case("left-layer-hidden-guides", layer_left("guides", "hidden")),
    Case("left-layer-unprinted", layer_left("Bleed and trim", "unprinted")),
    Case("left-layer-hidden-other", layer_left("Old version", "hidden", Severity.WARN)),
    Case("left-corner-marks", _corner_marks),
]  # fmt: skip


# Print sense.


def _not_embedded(sheet: Sheet) -> Fault:
    sheet.live_type(1.0, 3.0, "Ferry", 14, BLACK, None)
    return Fault("font", shapely.box(1.0, 2.83, 1.1, 2.9), least=Severity.STOP)


def image_at(ppi, least):
    def draw(sheet: Sheet) -> Fault:
        side = int(2 * ppi)
        sheet.image(photo((side, side)), 1.5, 2.0, 2.0, 2.0)
        return Fault("resolution", (1.5, 2.0), float(ppi), 1.0, least)

    return draw


def line_of(width_pt, colour, flood, value):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(flood)
        sheet.line([(1.0, 3.0), (4.0, 3.0)], width_pt, colour)
        return Fault("hairline", (1.0, 3.0), value)

    return draw


def _thin_rectangle(sheet: Sheet) -> Fault:
    sheet.rect(1.0, 3.0, 3.0, 0.15 / 72, BLACK)
    return Fault("hairline", (1.0, 3.0), 0.15)


def small_type(size_pt, colour, flood, outlined=False, within=0.05):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(flood)
        put = sheet.outlined if outlined else sheet.live_type
        box = put(1.0, 3.0, "come in on the ebb", size_pt, colour)
        return Fault("small-type", (box[0], box[1]), size_pt, within)

    return draw


def _rgb(sheet: Sheet) -> Fault:
    sheet.flood((0.95, 0.93, 0.85))
    return Fault("rgb", (-0.125, -0.125))


def heavy_ink(as_image):
    def draw(sheet: Sheet) -> Fault:
        colour = (0.9, 0.9, 0.9, 0.8)
        if as_image:
            pixels = np.full((300, 300, 4), [round(v * 255) for v in colour], np.uint8)
            sheet.image(pixels, 1.0, 2.0, 1.0, 1.0)
        else:
            sheet.rect(1.0, 2.0, 1.0, 1.0, colour)
        return Fault("ink", shapely.box(1.0, 2.0, 2.0, 3.0), 350.0, 1.5)

    return draw


def _rich_type(sheet: Sheet) -> Fault:
    box = sheet.live_type(1.0, 3.0, "Wool and stout shoes", 7.0, (0.6, 0.4, 0.4, 1.0))
    return Fault("small-type", (box[0], box[1]), 7.0, 0.05)


def _empty(_sheet: Sheet) -> Fault:
    return Fault("pages", None, least=Severity.STOP)


def _extra_page(sheet: Sheet) -> Fault:
    _title(sheet)
    sheet.pages = 2
    return Fault("pages", None, 2.0, least=Severity.NOTE)


def _live(sheet: Sheet) -> Fault:
    box = sheet.live_type(1.0, 3.0, "Beds at the granary", 12)
    return Fault("live-type", (box[0], box[1]), least=Severity.NOTE)


PRINT = [
    Case("font-not-embedded", _not_embedded),
    Case("type-live", _live),
    Case("image-120-ppi", image_at(120, Severity.STOP)),
    Case("image-200-ppi", image_at(200, Severity.WARN)),
    Case("hairline", line_of(0.1, BLACK, CREAM, 0.1)),
    Case("hairline-reversed", line_of(0.35, WHITE, INK, 0.35)),
    Case("hairline-rectangle", _thin_rectangle),
    Case("type-4-pt", small_type(4.0, BLACK, CREAM)),
    Case("type-7-pt-reversed", small_type(7.0, WHITE, INK)),
    Case("type-4-pt-outlined", small_type(4.0, BLACK, CREAM, True, 1.0)),
    Case("type-3-pt-outlined", small_type(3.0, BLACK, CREAM, True, 0.8)),
    Case("type-rich-black", _rich_type),
    Case("rgb", _rgb),
    Case("ink-350", heavy_ink(False)),
    Case("ink-350-image", heavy_ink(True)),
    Case("page-empty", _empty),
    Case("page-extra", _extra_page),
]

FAULTS = [*LEFT_IN, *PRINT]
