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
from mockup.render.light.irradiance import OpenLight, open_light
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene, Material

REFLECTANCE = 0.93  # of the body of white paper; good uncoated stock, common practice, no source
_KNEE = 0.15  # how soon the darkest tones leave the straight line
_MOST = 0.98  # nothing throws back all light


@dataclass(frozen=True)
class Lamps:
    """Radiances of the window and the sky as the camera takes them, (3,) float32."""

    window: NDArray[np.float32]
    sky: NDArray[np.float32]


def camera_lamps(scene: LitScene) -> Lamps:
    """Returns the lamps after exposure and white balance, one factor a channel.

    Both are read off a white sheet in the middle of the empty table, as by a photographer's meter
    for the light that falls there and a grey card: in the middle every sheet comes out in the
    colour it was proofed in, be it white, kraft or black. The window keeps its distance from the
    middle, so that all pictures taken in a scene share one exposure and one white.
    """
    window, sky = (np.array(lamp.radiance, float) for lamp in (scene.window, scene.sky))
    body, shine = _parts(scene, open_light(scene, Material(), 1, 1))
    white = (REFLECTANCE * body + shine)[_middle(body)]
    return Lamps((window / white).astype(np.float32), (sky / white).astype(np.float32))


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
