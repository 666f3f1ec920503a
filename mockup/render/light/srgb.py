"""Linear light to sRGB bytes, fast: a whole picture in one table."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import from_light

_STEPS = 1 << 14
_BYTES = np.rint(from_light((np.arange(_STEPS + 1) / _STEPS) ** 2) * 255).astype(np.uint8)


def to_bytes(light: NDArray[np.floating]) -> NDArray[np.uint8]:
    """Returns sRGB bytes of linear light (any shape, float32); above 1 is cut. Spoils `light`.

    The table is stepped in the square root of light, so that dark tones get as many steps.
    """
    np.clip(light, 0, 1, out=light)
    np.sqrt(light, out=light)
    light *= np.float32(_STEPS)
    light += np.float32(0.5)
    return _BYTES.take(light.astype(np.int32))
