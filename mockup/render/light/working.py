"""From a sheet's presses and coats to what is looked up when its pixels are shaded."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

import numpy as np

from mockup.render.light.finish import Coat, Press, Skin
from mockup.render.light.gilt import Gilt, gilt
from mockup.render.light.grain import Tile
from mockup.render.light.interface import Interface, interface
from mockup.render.light.lamps import solid_angle, window_points
from mockup.render.light.lattice import Field
from mockup.render.light.mirror import Mirror, mirror, mirrored
from mockup.render.light.pressed import by_facing, press_light
from mockup.render.light.rim import rim
from mockup.render.light.scene import Grain, LitScene, Sheet
from mockup.render.light.worked import CoatLight, Worked

_CLEAR_IOR = 1.5  # of varnish and of the lacquer on foil; common practice, no source


def worked(
    sheet: Sheet, scene: LitScene, surface: Interface, grain: Grain, tile: Tile, ppi: float
) -> Worked | None:
    """Returns a sheet's finishes ready to be shaded, or None where it has none.

    `surface`, `grain` and `tile` are those of its paper.
    """
    metal = sheet.material.edge_skin
    if not sheet.presses and not sheet.coats and metal is None:
        return None
    presses = tuple(press_light(press, scene, surface, ppi) for press in sheet.presses)
    lost = _lost_slopes(grain, tile)
    coats = tuple(_coat(coat, sheet.presses, (scene, surface), lost, ppi) for coat in sheet.coats)
    rim = None if metal is None else _gilt(_unpapered(scene), metal)
    return Worked(presses, coats, rim)


def _coat(
    coat: Coat,
    presses: tuple[Press, ...],
    place: tuple[LitScene, Interface],
    lost: float,
    ppi: float,
) -> CoatLight:
    """Returns a coat's light; slopes finer than a pixel make it rougher, as GGX's own do."""
    skin, (scene, surface) = coat.skin, place
    alpha = round(float(np.hypot(skin.roughness, (1 - skin.irons) * lost)), 3)
    table = _mirror(_unpapered(scene), alpha)
    on_walls = tuple(_on_walls(press, table) for press in presses)
    edged = tuple(press.plate is coat.plate for press in presses)
    lacquer = interface(_CLEAR_IOR, max(alpha, 0.05))
    throws = _thrown_back(surface), _thrown_back(lacquer)
    through = _white_body(scene, lacquer) / _white_body(scene, surface)
    rims = tuple(
        rim(press, ppi, _mirrored_by(table)) if own else None
        for press, own in zip(presses, edged, strict=True)
    )
    return CoatLight(coat, table, on_walls, edged, rims, through, throws)


def _unpapered(scene: LitScene) -> LitScene:
    return LitScene(scene.width_in, scene.height_in, (), window=scene.window, room=scene.room)


@lru_cache(maxsize=16)
def _gilt(scene: LitScene, metal: Skin) -> Gilt:
    return gilt(scene, metal)


@lru_cache(maxsize=16)
def _mirror(scene: LitScene, alpha: float) -> Mirror:
    return mirror(scene, alpha)


def _on_walls(press: Press, table: Mirror) -> Field:
    """Returns what a press's walls mirror at the middle of the picture, by the way they face."""
    return by_facing(press, _mirrored_by(table))


def _mirrored_by(table: Mirror) -> Callable[[Field, Field], Field]:
    """Returns what faces mirror at the middle of the picture, by their normals."""

    def light_of(nx: Field, ny: Field) -> Field:
        x, y = (np.full(len(nx), value, np.float32) for value in table.middle)
        return np.stack(mirrored(table, nx.astype(np.float32), ny.astype(np.float32), x, y))

    return light_of


def _lost_slopes(grain: Grain, tile: Tile) -> float:
    """Returns the rms of a grain's slopes that a pixel averages away."""
    bands = sum(band.rms**2 for band in grain.relief) + sum(line.rms**2 for line in grain.lines)
    kept = tile.values[:2, : tile.side, : tile.side]
    shown = float(np.mean(kept[0] ** 2) + np.mean(kept[1] ** 2))
    return float(np.sqrt(max(0.0, bands - shown)))


def _white_body(scene: LitScene, surface: Interface) -> float:
    """Returns the light of a perfect body under a surface in the middle of the picture."""
    points, area = window_points(scene, 4, 6, 1.0)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])
    ray, angle = solid_angle(points, area, scene, middle)
    return surface.body * float(np.sum(angle * ray[:, 2] * surface.let_in(ray[:, 2])))


def _thrown_back(surface: Interface) -> float:
    """Returns the share of light from the body that a surface throws back down."""
    return 1 - float(surface.transmit[-1]) / (surface.ior**2 * surface.body)
