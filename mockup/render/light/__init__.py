"""Light on paper: a physical flat-lay in seconds, without a GPU."""

from __future__ import annotations

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numpy.typing import NDArray

from mockup.progress import Forward, Progress, part
from mockup.render.light import prepare, shade, srgb
from mockup.render.light.plain import plain
from mockup.render.light.repaint import Painted, unlike
from mockup.render.light.scene import LitScene
from mockup.render.light.settle import settle
from mockup.render.light.surface import Block
from mockup.render.memory import MEMORY, key_of, remembered

__all__ = ["light", "lit_while", "plain", "settle"]


def light(scene: LitScene, ppi: float, progress: Progress | None = None) -> NDArray[np.uint8]:
    """Returns the scene as a camera straight above sees it, (h, w, 3) uint8 sRGB; not to be
    written on: copy it first.

    h, w are the table's inches times `ppi`, rounded. `progress` is told the share done, 0 to 1.
    Raises SuiteError for a grain or a surface that does not exist. The same scene gives the same
    bytes on any number of threads, and whether one like it was drawn before or not.
    """
    return lit_while(scene, ppi, lambda _: scene, progress)


def lit_while(
    bare: LitScene,
    ppi: float,
    draw: Callable[[Progress | None], LitScene],
    progress: Progress | None = None,
) -> NDArray[np.uint8]:
    """Returns what `light` does of the scene that `draw` returns: `bare` with its sheets printed.

    What sheets see of the light has nothing to do with what is on them: it is found by other
    threads while `draw` is at work in this one, told a progress of its own. Raises what `draw`
    raises, and what `light` does.
    """
    told = Forward(progress)
    like = key_of(prepare.blank(bare)), ppi
    with ThreadPoolExecutor(1) as aside, ThreadPoolExecutor(_workers()) as pool:
        waiting = aside.submit(
            remembered,
            ("layers", like),
            lambda: prepare.prepared(bare, ppi, pool, told),
        )
        scene = draw(part(told, 0.0, 0.4))
        ready = waiting.result()
        layers = ready.dressed(scene.sheets, pool)
        blocks = prepare.blocks(prepare.view_of(scene, ppi))
        old = MEMORY.recalled(("picture", like))
        new = Painted.blank(scene, ppi)
        if isinstance(old, Painted):
            new.pixels[:] = old.pixels
            blocks = unlike(old, new, ready, blocks)

        def paint(block: Block) -> None:
            (y0, y1), (x0, x1) = block
            lit = srgb.photographed(shade.lit_block(layers, ready.lamps, block, ppi))
            new.pixels[y0:y1, x0:x1] = lit.transpose(1, 2, 0)

        for done, _ in enumerate(pool.map(paint, blocks), 1):
            told(0.5 + 0.5 * done / len(blocks))
    new.pixels.flags.writeable = False
    MEMORY.keep(("picture", like), new)
    return new.pixels


def _workers() -> int:
    return min(8, os.cpu_count() or 1)
