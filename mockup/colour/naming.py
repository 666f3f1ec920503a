"""What a colour is called in plain words: `dark blue`, `grey-green`, `cream`."""

from __future__ import annotations

import math

from mockup.colour.beside import Lab

# All of these are judgements: what an eye calls so on paper. CIELAB's angle of hue up to which a
# name is used, degrees.
_HUES = (
    (16.0, "pink"), (48.0, "red"), (72.0, "orange"), (106.0, "yellow"), (168.0, "green"),
    (222.0, "teal"), (300.0, "blue"), (328.0, "violet"), (352.0, "purple"), (360.1, "pink"),
)  # fmt: skip
_TONES = ((30.0, "dark "), (42.0, "deep "), (76.0, ""), (88.0, "light "), (101.0, "pale "))
_GREYS = (
    (20.0, "black"), (45.0, "dark grey"), (72.0, "grey"), (92.0, "light grey"), (101.0, "white"),
)  # fmt: skip
_COLOURLESS, _MUTED, _MUTED_DARK = 4.0, 18.0, 12.0  # C*
_EARTH_L, _RUST_C = 56.0, (38.0, 62.0)
_CREAM_L, _CREAM_C = 80.0, 28.0


def colour_words(lab: Lab) -> str:
    """Returns the words an eye has for a colour of print."""
    lightness, a, b = lab
    chroma, hue = math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360
    if chroma < _COLOURLESS:
        return _first(_GREYS, lightness)
    if special := _special(lightness, chroma, hue):
        return special
    name = _first(_HUES, hue)
    least = _MUTED_DARK if lightness < 30 else _MUTED
    muted = "grey-" if chroma < least and lightness < 88 else ""
    return f"{_first(_TONES, lightness)}{muted}{name}"


def _special(lightness: float, chroma: float, hue: float) -> str:
    """Returns the names that say hue and tone at once: `rust`, `brown`, `olive`, `cream`."""
    if 25 < hue < 62 and _RUST_C[0] < chroma < _RUST_C[1] and 30 <= lightness < _EARTH_L:
        return "rust"
    if 30 < hue < 84 and lightness < _EARTH_L and chroma < _RUST_C[1]:
        return f"{'dark ' if lightness < 30 else ''}brown"
    if 84 <= hue < 124 and lightness < _EARTH_L + 8:
        return f"{'dark ' if lightness < 34 else ''}olive"
    if 60 < hue < 112 and lightness > _CREAM_L and chroma < _CREAM_C:
        return "cream" if lightness > 86 else "buff"
    if 60 < hue < 100 and chroma < _CREAM_C:
        return "sand"
    return ""


def _first(rows: tuple[tuple[float, str], ...], value: float) -> str:
    return next(name for limit, name in rows if value < limit)
