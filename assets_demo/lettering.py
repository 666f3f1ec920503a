"""The suite's faces and the ways a line is put on a page."""

from __future__ import annotations

from palette import Ink
from pdf import Page
from typeset import Face, Style, outlined, set_line

# One family at its two optical sizes: 12 for display, 8 for small type.
DISPLAY_ITALIC = Face("EBGaramond12-Italic.ttf")
TEXT = Face("EBGaramond08-Regular.ttf")
TEXT_ITALIC = Face("EBGaramond08-Italic.ttf")

SMALL_CAPS = Style(TEXT, 9.0, 130, ("smcp", "c2sc", "onum"))
ITALIC = Style(TEXT_ITALIC, 11)


def centred(page: Page, text: str, style: Style, x: float, y: float, ink: Ink) -> None:
    """Draws text as outlines, centred on x, baseline at y, inches."""
    line = set_line(text, style)
    page.fill(outlined(line, x - line.width / 2, y), ink)


def from_left(page: Page, text: str, style: Style, x: float, y: float, ink: Ink) -> float:
    """Draws text as outlines from x; returns where it ends, inches."""
    line = set_line(text, style)
    page.fill(outlined(line, x, y), ink)
    return x + line.width


def live_from_left(page: Page, text: str, style: Style, x: float, y: float, ink: Ink) -> float:
    """Writes live type from x; returns where it ends, inches."""
    line = set_line(text, style)
    page.live(line, x, y, ink)
    return x + line.width


def live_centred(page: Page, text: str, style: Style, x: float, y: float, ink: Ink) -> None:
    """Writes live type centred on x, inches."""
    line = set_line(text, style)
    page.live(line, x - line.width / 2, y, ink)


def live_to_right(page: Page, text: str, style: Style, x: float, y: float, ink: Ink) -> None:
    """Writes live type that ends at x, inches."""
    line = set_line(text, style)
    page.live(line, x - line.width, y, ink)
