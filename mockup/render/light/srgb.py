"""sRGB bytes to linear light and back, by table (IEC 61966-2-1)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

_STEPS = 1 << 14


def decode(value: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns linear light, 0 to 1, of sRGB values 0 to 1."""
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


def encode(value: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns sRGB values, 0 to 1, of linear light 0 to 1."""
    return np.where(value <= 0.0031308, value * 12.92, 1.055 * value ** (1 / 2.4) - 0.055)


LINEAR = decode(np.arange(256) / 255).astype(np.float32)
"""(256,) float32: the linear light of each sRGB byte."""

_BYTES = np.rint(encode((np.arange(_STEPS + 1) / _STEPS) ** 2) * 255).astype(np.uint8)


def to_bytes(light: NDArray[np.floating]) -> NDArray[np.uint8]:
    """Returns sRGB bytes of linear light (any shape, float32); above 1 is cut. Spoils `light`.

    The table is stepped in the square root of light, so that dark tones get as many steps.
    """
    np.clip(light, 0, 1, out=light)
    np.sqrt(light, out=light)
    light *= np.float32(_STEPS)
    light += np.float32(0.5)
    return _BYTES.take(light.astype(np.int32))
