"""Colours as SVG and CSS write them (CSS Color 4): names, hex, rgb(), hsl(), read or told."""

from __future__ import annotations

import re
from typing import Any

from tinycss2 import color4

from mockup.vector.template import Colour

COLOUR_KEYS = frozenset(
    {"fill", "stroke", "color", "stop-color", "flood-color", "lighting-color"}
)  # fmt: skip
_KEPT = frozenset({"none", "inherit", "transparent"})
_URL = re.compile(r"^url\(\s*['\"]?[^)]*\)\s*", re.I)
_ICC = re.compile(r"\s+(?:icc-color|device-cmyk)\([^)]*\)\s*$", re.I)  # SVG 1.1 11.2: sRGB first


def rgba(text: str) -> tuple[float, float, float, float] | None:
    """Returns a colour's sRGB shares and opacity, 0 to 1; None for what cannot be read."""
    try:
        found: Any = color4.parse_color(_ICC.sub("", text))
        if found is None or isinstance(found, str):
            return None
        red, green, blue = (min(1.0, max(0.0, each)) for each in found.to("srgb").coordinates)
    except (NotImplementedError, TypeError, ValueError):  # the library's, for spaces it has not
        return None
    return red, green, blue, min(1.0, max(0.0, float(found.alpha)))


def plain(text: str) -> str:
    """Returns a paint in the oldest way to write it; what cannot be read stays as it is."""
    text = text.strip()
    if text.lower() == "currentcolor":
        return "currentColor"
    if text.lower() in _KEPT:
        return text.lower()
    url = _URL.match(text)
    if url:
        rest = text[url.end() :].strip()
        return f"{url[0].strip()} {plain(rest)}" if rest else text
    found = rgba(text)
    if found is None:
        return text
    red, green, blue = (round(255 * share) for share in found[:3])
    if found[3] == 1:
        return f"#{red:02x}{green:02x}{blue:02x}"
    return f"rgba({red},{green},{blue},{found[3]:g})"


def is_known(text: str) -> bool:
    """Returns whether a paint, made plain, is one that can be drawn as it says."""
    rest = _URL.sub("", text.strip())
    return not rest or rest in _KEPT or rest == "currentColor" or rgba(rest) is not None


def colour_of(paint: str, current: str) -> Colour | None:
    """Returns the colour of a paint, None for none. `current` is the colour of the text."""
    paint = current if paint == "currentColor" else paint
    if paint == "none":
        return None
    if _URL.match(paint):
        return Colour("pattern", (), (paint,))
    found = rgba(paint)
    if found is None:
        return Colour("other", (), (paint,))
    return None if found[3] == 0 else Colour("rgb", found[:3])
