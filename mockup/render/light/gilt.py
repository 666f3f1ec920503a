"""Gilded edges: the quarter round of a sheet's rim as metal, which glints where it meets light."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from mockup.render.light.edge import EdgeLight, edge_light, edge_pixels
from mockup.render.light.finish import Skin
from mockup.render.light.interface import interface
from mockup.render.light.lattice import Field
from mockup.render.light.mirror import ceiling
from mockup.render.light.scene import LitScene
from mockup.render.light.tone import Lamps

_ROUGHNESS = 0.2  # GGX alpha of leaf burnished on the cut ends of fibres; judgement
_WHOLE = 1e4  # an index at which everything is mirrored

Falling = tuple[Field | float, Lamps]
"""The share of the window that is seen, and the lamps."""


@dataclass(frozen=True)
class Gilt:
    """A metal on the rim, and the light it mirrors by the way the rim faces."""

    skin: Skin
    light: EdgeLight


def gilt(scene: LitScene, skin: Skin) -> Gilt:
    """Returns a metal rim in a scene's light."""
    mirror = replace(interface(1.5, _ROUGHNESS), ior=_WHOLE)
    return Gilt(skin, edge_light(scene, mirror))


def gilded(
    lit: Field, rim: Gilt, distance: Field, rim_in: tuple[float, float], falling: Falling
) -> None:
    """Lays metal over a sheet's light (3, h, w) along its rim, in place.

    `distance` is the signed distance to the outline, (h, w) inches; `rim_in` the radius of the rim
    and the side of a pixel.
    """
    found = edge_pixels(distance, *rim_in, rim.light)
    if found is None:
        return
    window, lamps = falling
    overhead = ceiling(lamps)
    seen = window.ravel()[found.index] if isinstance(window, np.ndarray) else window
    for c, channel in enumerate(lit.reshape(3, -1)):
        shown = found.shine * seen * lamps.window[c] + overhead[c]
        own = shown * np.float32(rim.skin.mirrors[c])
        channel[found.index] += found.share * (own - channel[found.index])
