"""What of a painted picture is no longer true when some sheets' art has changed."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light import prepare
from mockup.render.light.lattice import TILE
from mockup.render.light.scene import LitScene
from mockup.render.light.surface import Block
from mockup.render.memory import key_of


@dataclass(frozen=True)
class Painted:
    """A picture's pixels, (h, w, 3) uint8, and keys of what is on its sheets and of their backs."""

    pixels: NDArray[np.uint8]
    arts: tuple[Hashable, ...]
    backs: tuple[Hashable, ...]

    @classmethod
    def blank(cls, scene: LitScene, ppi: float) -> Painted:
        """Returns a scene's picture before anything is painted: its pixels are anything."""
        view = prepare.view_of(scene, ppi)
        pixels = np.empty((view.height_px, view.width_px, 3), np.uint8)
        arts = tuple(key_of((each.art, each.presses, each.coats)) for each in scene.sheets)
        backs = tuple(key_of(prepare.back_colour(sheet)) for sheet in scene.sheets)
        return cls(pixels, arts, backs)


def unlike(
    old: Painted, new: Painted, ready: prepare.Prepared, blocks: Sequence[Block]
) -> list[Block]:
    """Returns the blocks that may differ between pictures of the same sheets with other art.

    Those a changed sheet lies in, and those lit by way of its back where that is another colour.
    """
    height, width = new.pixels.shape[:2]
    stale = np.zeros((height, width), bool)
    for number, layer in enumerate(ready.layers[1:]):
        if old.arts[number] != new.arts[number]:
            top, left = layer.top_px, layer.left_px
            below, right = top + layer.covered.shape[0], left + layer.covered.shape[1]
            stale[top:below, left:right] |= layer.covered > 0
    changed = {k for k, (a, b) in enumerate(zip(old.backs, new.backs, strict=True)) if a != b}
    for number, (layer, seen) in enumerate(zip(ready.layers, ready.seen, strict=True)):
        lattice = layer.receiver.lattice
        for shade in seen.shades:
            if shade.caster + number not in changed:
                continue
            for row, column in zip(shade.row, shade.column, strict=True):
                # A node shows in the pixels up to the next one on either side.
                y = (lattice.top + row * TILE - 1) * lattice.factor
                x = (lattice.left + column * TILE - 1) * lattice.factor
                reach = (TILE + 1) * lattice.factor
                stale[max(y, 0) : max(y + reach, 0), max(x, 0) : max(x + reach, 0)] = True
    return [b for b in blocks if stale[b[0][0] : b[0][1], b[1][0] : b[1][1]].any()]
