"""The reply card, 4.875 x 3.5 in, composed for ticket corners; outlined."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from curves import circle
from lettering import DISPLAY_ITALIC, TEXT, TEXT_ITALIC, centred, from_left
from motifs import phase
from palette import EMBER, OAT, RUST
from pdf import BLEED, Page
from typeset import Style, set_line
from water import levels, line_screen, moonlit

WIDTH, HEIGHT = 4.875, 3.5
MIDDLE = WIDTH / 2
CAPS = Style(TEXT, 9.2, 120, ("smcp", "c2sc"))
CHOICE = Style(TEXT_ITALIC, 11)


def draw(path: Path) -> None:
    """Writes the reply card's PDF."""
    page = Page(WIDTH, HEIGHT)
    page.flood(RUST)
    _water(page)
    for i, share in enumerate((0.5, 0.22, 0.0, 0.22, 0.5)):
        phase(
            page,
            MIDDLE + (i - 2) * 0.31,
            0.44,
            (0.066, 0.075, 0.095)[2 - abs(i - 2)],
            share,
            1 if i > 2 else -1,
            OAT,
        )
    title = Style(DISPLAY_ITALIC, 27, 0, ("swsh",))
    centred(page, "Kindly reply", title, MIDDLE, 0.955, OAT)
    centred(page, "by the new moon, the eleventh of september", CAPS, MIDDLE, 1.245, OAT)
    _answers(page)
    page.save(path, "Tide Mill Supper: reply")


def _water(page: Page) -> None:
    top, bottom = 2.74, HEIGHT + BLEED
    x = np.arange(-BLEED - 0.02, WIDTH + BLEED + 0.05, 0.04)
    light = moonlit(MIDDLE, top, bottom, (0.30, 0.80), 0.5, seed=11)
    lines = levels(top, bottom + 0.05, 0.026, 0.056)
    page.fill(line_screen(lines, x, light, 0.16, seed=3), EMBER)


def _answers(page: Page) -> None:
    left, right = 0.74, WIDTH - 0.74
    end = from_left(page, "M", Style(DISPLAY_ITALIC, 17), left, 1.74, OAT)
    page.stroke([[("m", (end + 0.06, 1.75)), ("l", (right, 1.75))]], OAT, 0.6)
    ashore = right - 0.21 - set_line("must stay ashore", CHOICE).width
    for x, text in ((left, "will come in on the flood"), (ashore, "must stay ashore")):
        page.stroke([circle(x + 0.065, 2.045, 0.062)], OAT, 0.7)
        from_left(page, text, CHOICE, x + 0.21, 2.09, OAT)
    before, after = set_line("We shall be", CHOICE).width, set_line("at table", CHOICE).width
    gap, rule = 0.09, 0.62
    x = MIDDLE - (before + after + rule + 2 * gap) / 2
    x = from_left(page, "We shall be", CHOICE, x, 2.47, OAT) + gap
    page.stroke([[("m", (x, 2.48)), ("l", (x + rule, 2.48))]], OAT, 0.6)
    from_left(page, "at table", CHOICE, x + rule + gap, 2.47, OAT)
