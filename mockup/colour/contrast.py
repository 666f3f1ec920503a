"""Contrast by the formula of WCAG 2.2, a screen rule used here as advice."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import LUMINANCE, decode
from mockup.pixels import Bytes

LINE_CONTRAST = 3.0  # WCAG 2.2, 1.4.11: graphics need 3:1


def luminance(colours: Bytes) -> NDArray[np.float32]:
    """Returns relative luminance 0 to 1 of sRGB-encoded colours, (..., 3) uint8 to (...)."""
    return decode(colours) @ LUMINANCE


def contrast(first: NDArray[np.floating], second: NDArray[np.floating]) -> NDArray[np.floating]:
    """Returns the contrast ratio, 1 to 21, of relative luminances (WCAG 2.2)."""
    light, dark = np.maximum(first, second), np.minimum(first, second)
    return (light + 0.05) / (dark + 0.05)
