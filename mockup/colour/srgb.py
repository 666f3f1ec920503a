"""sRGB (IEC 61966-2-1): between encoded bytes and linear light, and colours written as text."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from mockup.errors import SuiteError, quoted
from mockup.pixels import Bytes, Light

Rgb = tuple[int, int, int]
"""A colour as three sRGB-encoded bytes."""

LUMINANCE = np.array([0.2126, 0.7152, 0.0722], np.float32)  # Y of linear sRGB, as WCAG 2.2 rounds

_HEX = re.compile(r"^#?([0-9a-f]{6})$", re.I)


def to_light(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns linear light, 0 to 1, of sRGB-encoded values 0 to 1."""
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def from_light(light: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns sRGB-encoded values, 0 to 1, of linear light 0 to 1."""
    return np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)


LINEAR = to_light(np.arange(256) / 255).astype(np.float32)
"""(256,) float32: the linear light of each sRGB byte."""

_ENCODED = np.rint(255 * from_light(np.arange(65536) / 65535)).astype(np.uint8)


def decode(encoded: Bytes) -> Light:
    """Returns linear light, float32 0 to 1, of sRGB-encoded bytes of any shape."""
    return LINEAR[encoded]


def encode(light: NDArray[np.floating]) -> Bytes:
    """Returns sRGB-encoded bytes of linear light; what lies outside 0 to 1 is clipped."""
    steps = np.clip(light, 0.0, 1.0) * np.float32(65535.0) + np.float32(0.5)
    return _ENCODED[steps.astype(np.uint16)]


def parse_hex(text: str) -> Rgb:
    """Returns the colour written `#2b3a55`. Raises SuiteError for anything else."""
    match = _HEX.match(text.strip())
    if match is None:
        raise SuiteError(
            f'{quoted(text)} is not a colour; write six hex digits, for example "#2b3a55"'
        )
    digits = match.group(1)
    return int(digits[0:2], 16), int(digits[2:4], 16), int(digits[4:6], 16)


def to_hex(colour: Rgb) -> str:
    """Returns a colour as `#rrggbb`."""
    return "#{:02x}{:02x}{:02x}".format(*colour)


def linear(colour: Rgb) -> NDArray[np.float32]:
    """Returns a colour's linear light, (3,) float32."""
    return decode(np.array(colour, np.uint8))
