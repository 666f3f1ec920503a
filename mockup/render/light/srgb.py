"""Linear light to sRGB bytes, fast: a whole picture in one table.

A photograph's highlights bend gently below white, as film's and cameras' do: nearer the window
than the meter a white sheet is brighter than white, and would lose its grain and its edge.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import from_light

SHOULDER = 0.85  # linear light up to which a photograph is straight: L* 94; judgement, by eye
_MOST = 4.0  # of light tabled: far above any sheet's
_STEPS = 1 << 14


def bent(light: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns the light a photograph shows, below 1, of the light that falls into the camera."""
    room = 1 - SHOULDER
    over = np.maximum(light - SHOULDER, 0)
    return np.minimum(light, SHOULDER) + room * (1 - np.exp(-over / room))


def _table(light: NDArray[np.float64]) -> NDArray[np.uint8]:
    return np.rint(from_light(light) * 255).astype(np.uint8)


# Stepped in the square root of light, so that dark tones get as many steps.
_BYTES = _table((np.arange(_STEPS + 1) / _STEPS) ** 2)
_TAKEN = _table(bent(_MOST * (np.arange(2 * _STEPS + 1) / (2 * _STEPS)) ** 2))


def to_bytes(light: NDArray[np.floating]) -> NDArray[np.uint8]:
    """Returns sRGB bytes of linear light (any shape, float32); above 1 is cut. Spoils `light`."""
    return _looked_up(light, 1.0, _BYTES)


def photographed(light: NDArray[np.floating]) -> NDArray[np.uint8]:
    """Returns sRGB bytes of light as a camera takes it, highlights bent. Spoils `light`."""
    return _looked_up(light, _MOST, _TAKEN)


def _looked_up(
    light: NDArray[np.floating], most: float, table: NDArray[np.uint8]
) -> NDArray[np.uint8]:
    np.clip(light, 0, most, out=light)
    np.sqrt(light, out=light)
    light *= np.float32((len(table) - 1) / most**0.5)
    light += np.float32(0.5)
    return table.take(light.astype(np.int32))
