"""Pages with one fault of ink: white that vanishes, too much of all, codes that are not read."""

from __future__ import annotations

import numpy as np
import shapely
from pikepdf import Dictionary, Name

from mockup.checks.finding import Severity
from tests.checks.bench.case import Case, Fault
from tests.checks.bench.codes import bars, modules
from tests.checks.bench.sheet import BLACK, CREAM, INK, WHITE, Sheet, outlines

PALE = (0.0, 0.0, 0.0, 0.12)


def _title(sheet: Sheet, colour=INK) -> None:
    sheet.outlined(1.7, 3.6, "Samphire Hard", 22, colour)


def _states(sheet: Sheet) -> None:
    """Graphics states of ISO 32000-1 8.4.5: /Over paints over, /Mul multiplies."""
    over = Dictionary(OP=True, op=True, OPM=1)
    sheet.resources.ExtGState = Dictionary(Over=over, Mul=Dictionary(BM=Name.Multiply))


def white_over(outlined: bool, colour=WHITE):
    def draw(sheet: Sheet) -> Fault:
        _states(sheet)
        sheet.flood(INK)
        sheet.ops.append("/Over gs")
        if outlined:
            left, top, *_ = sheet.outlined(1.7, 3.6, "Samphire Hard", 22, colour)
        else:
            left, top = 1.7, 3.0
            sheet.rect(left, top, 1.5, 0.5, colour)
        at = shapely.box(left, top, left + 0.3, top + 0.4)
        return Fault("overprint", at, least=Severity.STOP)

    return draw


def white_ink(name):
    def draw(sheet: Sheet) -> Fault:
        sheet.flood(INK)
        sheet.rect(1.5, 2.5, 2.0, 1.0, name)
        return Fault("white-ink", (1.5, 2.5))

    return draw


def _registration(sheet: Sheet) -> Fault:
    sheet.rect(1.5, 5.0, 2.0, 0.05, "All")
    _title(sheet)
    return Fault("registration", (1.5, 5.0), least=Severity.STOP)


def on_bare_paper(live: bool):
    def draw(sheet: Sheet) -> Fault:
        put = sheet.live_type if live else sheet.outlined
        box = put(1.2, 3.0, "draft of spring", 12, WHITE)
        sheet.outlined(1.7, 5.6, "Samphire Hard", 22, INK)
        return Fault("bare-white", (box[0], box[1]))

    return draw


def heavy(state: str):
    """Two colours of 200 % and 190 %, one over the other, by overprint or in a blend."""

    def draw(sheet: Sheet) -> Fault:
        _states(sheet)
        sheet.rect(1.0, 2.0, 2.0, 1.0, (1.0, 1.0, 0.0, 0.0))
        sheet.ops.append(f"/{state} gs")
        sheet.rect(2.0, 2.0, 2.0, 1.0, (0.0, 0.0, 1.0, 0.9))
        return Fault("ink", shapely.box(2.0, 2.0, 3.0, 3.0), 390.0, 2.0)

    return draw


def line_art(ppi, least):
    def draw(sheet: Sheet) -> Fault:
        side = int(1.6 * ppi) // 8 * 8
        bits = np.random.default_rng(1).integers(0, 256, (side, side // 8)).astype(np.uint8)
        sheet.bitmap(bits, side, 1.5, 2.0, side / ppi, side / ppi)
        return Fault("resolution", (1.5, 2.0), float(ppi), 1.0, least)

    return draw


def matrix(left, top, side, colour=BLACK, ground=None, as_image=False):
    """Draws a matrix code of 25 modules."""

    def draw(sheet: Sheet) -> None:
        if ground is not None:
            sheet.flood(ground)
        dark = modules(25)
        if as_image:
            pixels = np.where(dark, 30, 255).astype(np.uint8).repeat(12, 0).repeat(12, 1)
            sheet.image(pixels[:, :, None], left, top, side, side)
            return
        step = side / 25
        for row, column in np.argwhere(dark):
            sheet.rect(left + step * column, top + step * row, step, step, colour)

    return draw


def code_fault(check, value, within, *drawn, at=None, **how):
    def draw(sheet: Sheet) -> Fault:
        matrix(*drawn, **how)(sheet)
        left, top, _side = drawn[:3]
        return Fault(check, at or (left, top), value, within)

    return draw


def _bars_too_fine(sheet: Sheet) -> Fault:
    step = 0.2 / 25.4
    for at, width in bars(30):
        sheet.rect(1.5 + step * at, 5.0, step * width, 0.4, BLACK)
    return Fault("code", (1.5, 5.0), step, 0.002)


def _emblem_cut(sheet: Sheet) -> Fault:
    """A ring with initials in it, over the right edge by 0.05 in."""
    sheet.flood(CREAM)
    sheet.circle(4.65, 5.0, 0.4, INK)
    sheet.circle(4.65, 5.0, 0.36, CREAM)
    sheet.outlined(4.45, 5.08, "TMS", 18, INK)
    return Fault("safe", (5.05, 5.0), -0.05, least=Severity.STOP)


def _frame_cut(sheet: Sheet) -> Fault:
    """A thin frame set 0.02 in too far right: half of its side lies off the card."""
    x0, y0, x1, y1 = 0.3, 0.25, 5.02, 6.75
    sheet.line([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], 1.0, INK, closed=True)
    _title(sheet)
    side = shapely.LineString([(5.02 + 0.5 / 72, 0.2), (5.02 + 0.5 / 72, 6.8)])
    return Fault("safe", side, -0.02 - 0.5 / 72, least=Severity.STOP)


def _line_both_sides(sheet: Sheet) -> Fault:
    """One line of type too near both sides: the nearer one is told, as one finding."""
    text = "Come in on the flood at half past five"
    *_, box = outlines(0, 0, text, 20)
    size = 20 * 4.85 / (box[2] - box[0])
    *_, box = outlines(0, 0, text, size)
    sheet.live_type(0.05 - box[0], 3.0, text, size, INK)
    return Fault("safe", (0.05, 3.0), 0.05, anywhere_y=True)


FAULTS = [
    Case("white-overprinting-type", white_over(True)),
    Case("white-overprinting-panel", white_over(False)),
    Case("white-overprinting-tint", white_over(False, (0.0, 0.0, 0.0, 0.0))),
    Case("white-ink", white_ink("White")),
    Case("white-ink-opaque", white_ink("Opaque White")),
    Case("white-ink-weiss", white_ink("Deckweiss")),
    Case("registration-as-art", _registration),
    Case("white-on-bare-paper", on_bare_paper(False)),
    Case("white-live-on-bare-paper", on_bare_paper(True)),
    Case("ink-by-overprint", heavy("Over")),
    Case("ink-by-multiplying", heavy("Mul")),
    Case("line-art-300", line_art(300, Severity.STOP)),
    Case("line-art-600", line_art(600, Severity.WARN)),
    Case("code-too-small", code_fault("code", 0.35, 0.01, 2.0, 5.0, 0.35)),
    Case("code-too-small-image", code_fault("code", 0.4, 0.01, 2.0, 5.0, 0.4, as_image=True)),
    Case("code-too-pale", code_fault("code", 0.25, 0.16, 2.0, 5.0, 0.9, PALE)),
    Case("code-pale-on-tint", code_fault("code", 0.3, 0.1, 2.0, 5.0, 0.9, (0.1, 0.1, 0.1, 0.4), (0.1, 0.1, 0.1, 0.1))),
    Case("code-cut", code_fault("safe", -0.04, 0.005, 4.04, 5.0, 1.0, at=shapely.box(5.03, 4.9, 5.05, 6.1))),
    Case("code-near-cut", code_fault("safe", 0.06, 0.006, 3.94, 5.0, 1.0, at=shapely.box(4.93, 4.9, 4.95, 6.1))),
    Case("bars-too-fine", _bars_too_fine),
    Case("emblem-cut", _emblem_cut),
    Case("frame-cut", _frame_cut),
    Case("line-near-both-sides", _line_both_sides),
]  # fmt: skip
