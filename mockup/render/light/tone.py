"""From the colour a sheet shows to the reflectance of its body, and from radiance to exposure.

A printed colour is measured with the paper's own shine in it (45/0 geometry, ISO 13655), and a
window at 45 degrees is much the same geometry. So the shine is taken off before the body is lit:
in the open, colours then come out as they were proofed, relative to white paper. Colours near or
below the shine, which no such paper can show, keep their hue and come out a little lighter.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import LINEAR
from mockup.render.light.irradiance import OpenLight
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene

REFLECTANCE = 0.93  # of the body of white paper; good uncoated stock, common practice, no source
WHITE = 0.94  # linear light of white paper at the brightest place a sheet lies: just below white
_KNEE = 0.15  # how soon the darkest tones leave the straight line
_MOST = 0.98  # nothing throws back all light


@dataclass(frozen=True)
class Lamps:
    """Radiances of the window and the sky as the camera takes them, (3,) float32."""

    window: NDArray[np.float32]
    sky: NDArray[np.float32]


def camera_lamps(scene: LitScene, paper: OpenLight) -> Lamps:
    """Returns the lamps after exposure and white balance, one factor a channel.

    White paper at the brightest place a sheet lies (the middle of an empty table) comes out as
    WHITE in all three channels, as after a photographer's grey card.
    """
    window, sky = (np.array(lamp.radiance, float) for lamp in (scene.window, scene.sky))
    body, shine = _parts(scene, paper)
    white = (REFLECTANCE * body + shine)[_reach(scene, paper.values.shape[1:])]
    gain = WHITE / white.reshape(-1, 3).max(axis=0)
    return Lamps((window * gain).astype(np.float32), (sky * gain).astype(np.float32))


def reflectance(scene: LitScene, light: OpenLight, paper: OpenLight) -> Field:
    """Returns the body's linear reflectance for each sRGB byte, (256,) float32.

    `light` is the sheet's own interface, `paper` that of plain white paper, which sets white.
    """
    white_body, white_shine = (part[_middle(part)] for part in _parts(scene, paper))
    body, shine = (part[_middle(part)] for part in _parts(scene, light))
    white = REFLECTANCE * white_body + white_shine
    shown = LINEAR * white[1]
    # A hyperbola: shown - shine for all but the darkest tones, and from there gently to nothing.
    rest = shown - shine[1]
    bent = (rest + np.sqrt(rest**2 + 4 * _KNEE * shine[1] * shown)) / 2
    table = bent * (rest[-1] / bent[-1]) / body[1]  # white stays white
    return np.minimum(table, _MOST).astype(np.float32)


def _parts(scene: LitScene, light: OpenLight) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Returns the radiance of a perfect body and of the shine over the open table, (..., 3)."""
    e, _, _, shine, _, _, fill = light.values.astype(np.float64)[..., None]
    window, sky = (np.array(lamp.radiance, float) for lamp in (scene.window, scene.sky))
    s = light.surface
    body = s.body * (window * e / math.pi + s.transmit_sky * sky * (1 - fill))
    return body, window * shine + s.shine_sky * sky * (1 - fill)


def _middle(part: NDArray[np.float64]) -> tuple[int, int]:
    return part.shape[0] // 2, part.shape[1] // 2


def _reach(scene: LitScene, shape: tuple[int, ...]) -> NDArray[np.bool_]:
    """Tells which places of the coarse table (rows, columns) have a sheet on them."""
    rows, columns = shape
    x = (np.arange(columns) + 0.5) / columns * scene.width_in
    y = np.linspace(0, scene.height_in, rows)
    found = np.zeros((rows, columns), bool)
    for sheet in scene.sheets:
        (left, top), (right, bottom) = sheet.rings[0].min(axis=0), sheet.rings[0].max(axis=0)
        step = scene.height_in / (rows - 1)
        found |= ((y > top - step) & (y < bottom + step))[:, None] & ((x > left) & (x < right))
    if not found.any():
        found[rows // 2, columns // 2] = True
    return found
