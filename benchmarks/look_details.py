"""Single things and papers in a scene's light, for looking at."""

from __future__ import annotations

import numpy as np

from mockup.geometry.affine import translation
from mockup.pixels import Bytes, View
from mockup.render.light import light
from mockup.render.light.scene import Flat, LitScene, Material, Plane, Sheet
from mockup.render.scenes import Scene
from mockup.render.things.reading import PlacedThing, read_thing
from mockup.render.things.sheets import sheets_of

_THING_PPI = 200.0
_PAPER_PPI = 300.0
_WHITE, _BLUE = (250, 248, 243), (58, 76, 118)


def thing_picture(name: str, scene: Scene) -> Bytes:
    """Returns a thing alone on a scene's table, with an inch of table round it."""
    thing = read_thing(name, scene.folder)
    width_px, height_px = (round((s + 1) * _THING_PPI) for s in (thing.width_in, thing.height_in))
    view = View(0.0, 0.0, width_px, height_px, _THING_PPI)
    middle = translation(view.width_in / 2, view.height_in / 2)
    return light(_lit(scene, view, sheets_of(PlacedThing(thing, middle), view, Plane())), view.ppi)


def grain_picture(name: str, scene: Scene) -> Bytes:
    """Returns two cards of a paper, white and blue, corner over corner, 3 in wide."""
    view = View(0.0, 0.0, round(3 * _PAPER_PPI), round(2 * _PAPER_PPI), _PAPER_PPI)
    material = Material(grain=name)
    sheets = [
        Sheet((_square(-0.3, 0.25, 1.9, 2.4),), Flat(_WHITE), Plane(), 0.022, material),
        Sheet((_square(1.5, 0.6, 3.3, 1.7),), Flat(_BLUE), Plane(0.05), 0.022, material),
    ]
    return light(_lit(scene, view, sheets), view.ppi)


def _lit(scene: Scene, view: View, sheets: list[Sheet]) -> LitScene:
    return LitScene(
        view.width_in, view.height_in, tuple(sheets), scene.surface, scene.window, scene.sky
    )


def _square(left: float, top: float, right: float, bottom: float) -> np.ndarray:
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]])
