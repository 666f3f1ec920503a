"""The details card, 4.25 x 5.5 in: a painted creek and the evening set to the tide; live type."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from curves import Outline, circle, ribbon
from estuary import painted
from lettering import (
    DISPLAY_ITALIC,
    TEXT,
    TEXT_ITALIC,
    live_centred,
    live_from_left,
    live_to_right,
)
from palette import INK, OAT, RUST
from pdf import BLEED, Page
from typeset import Style

WIDTH, HEIGHT = 4.25, 5.5
PAINTING = 1.92
COLUMN = 1.66
CAPS = Style(TEXT, 8.2, 110, ("smcp", "c2sc", "onum"))
NOTE = Style(TEXT_ITALIC, 9.2)
HOUR = Style(TEXT, 9.2, 20, ("onum", "pnum"))

# Minutes after noon, the hour as printed, what happens, and a word about it.
EVENING = (
    (330, "5.30", "come in on the flood", "Skiffs from the hard; cider on the quay"),
    (420, "7.00", "high water", "The gates are shut; we sit down to supper"),
    (525, "8.45", "the wheel turns", "On the ebb. Bread from this year’s corn"),
    (630, "10.30", "lanterns", "Fiddles in the grain loft, pears and honey"),
    (792, "1.12", "low water", "Carriages by the causeway, dry-shod"),
)
HIGH, LOW = 420, 792
TOP, BOTTOM = 2.43, 4.43


def draw(path: Path) -> None:
    """Writes the details card's PDF."""
    page = Page(WIDTH, HEIGHT)
    page.flood(OAT)
    sheet = WIDTH + 2 * BLEED
    page.place(painted(sheet, PAINTING, 300, seed=12), -BLEED, -BLEED, sheet, PAINTING)
    title = Style(DISPLAY_ITALIC, 23, 0, ("swsh",))
    live_centred(page, "The evening, by the tide", title, WIDTH / 2, 2.03, INK)
    _tide(page)
    _programme(page)
    _notes(page)
    page.save(path, "Tide Mill Supper: details")


def _at(minute: float) -> float:
    return TOP + (minute - EVENING[0][0]) / (LOW - EVENING[0][0]) * (BOTTOM - TOP)


def _reach(minute: float) -> float:
    """Where the tide's edge stands: the height of the water drawn as a cosine."""
    return 0.36 + 0.60 * 0.5 * (1 + float(np.cos(np.pi * (minute - HIGH) / (LOW - HIGH))))


def _tide(page: Page) -> None:
    """The tide's own graph, lying on its side: level lines that run in from the left edge."""
    rng = np.random.default_rng(4)
    rows: list[Outline] = []
    for y in np.arange(TOP - 0.15, HEIGHT + BLEED + 0.03, 0.0387):
        minute = EVENING[0][0] + (y - TOP) / (BOTTOM - TOP) * (LOW - EVENING[0][0])
        end = _reach(minute)
        x = np.linspace(-BLEED - 0.05, end, 26)
        wave = 0.0035 * np.sin(9 * x + rng.uniform(0, 6))
        swell = 0.0085 + 0.0045 * np.sin(4.2 * x + rng.uniform(0, 6))
        taper = np.clip((end - x) / 0.16, 0, 1) ** 0.6
        rows.append(ribbon(np.stack([x, y + wave], axis=1), swell * taper))
    page.fill(rows, INK)


def _programme(page: Page) -> None:
    for minute, hour, what, note in EVENING:
        y = _at(minute)
        x = _reach(minute)
        page.fill([circle(x + 0.06, y, 0.027)], RUST)
        page.stroke([[("m", (x + 0.125, y)), ("l", (1.14, y))]], INK, 0.3)
        live_to_right(page, hour, HOUR, COLUMN - 0.12, y + 0.042, RUST)
        live_from_left(page, what, CAPS, COLUMN, y + 0.038, INK)
        live_from_left(page, note, NOTE, COLUMN, y + 0.195, INK)


def _notes(page: Page) -> None:
    rows = (
        (4.94, "wear", "Wool, and stout shoes: the loft is cool"),
        (5.11, "stay", "Beds at the granary; ask the millers"),
    )
    for y, label, note in rows:
        live_to_right(page, label, CAPS, COLUMN - 0.12, y, RUST)
        live_from_left(page, note, NOTE, COLUMN, y, INK)
