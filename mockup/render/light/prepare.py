"""From a scene to layers ready to be shaded: outlines, light fields, grain tiles, coverage."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from itertools import repeat

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import LINEAR
from mockup.pixels import View
from mockup.progress import Progress
from mockup.render.coverage import coverage
from mockup.render.light import grain
from mockup.render.light.distance import Distance, signed_distance
from mockup.render.light.edge import EdgeLight, edge_light
from mockup.render.light.hiding import Caster
from mockup.render.light.irradiance import OpenLight, open_light
from mockup.render.light.lamps import UPRIGHT, cells
from mockup.render.light.lattice import Field, lattice_over
from mockup.render.light.relief import FacingLight, facing_light
from mockup.render.light.scene import (
    Flat,
    LitScene,
    Material,
    Plane,
    Sheet,
    bounds,
    height,
    raised,
)
from mockup.render.light.shade import Layer, SheetLook
from mockup.render.light.standing import StandingLight, floor_before, standing_light
from mockup.render.light.steep import normal_of
from mockup.render.light.surface import Block, ground
from mockup.render.light.tone import REFLECTANCE, Lamps, camera_lamps, reflectance
from mockup.render.light.visibility import Job, Receiver, Seen, seen
from mockup.render.light.working import worked

_BLANK = Flat((0, 0, 0))
_DARK = np.zeros((3, 0, 0), np.float32)

Box = tuple[float, float, float, float]


def view_of(scene: LitScene, ppi: float) -> View:
    """Returns the picture's pixels: the whole table at `ppi`."""
    return View(0.0, 0.0, round(scene.width_in * ppi), round(scene.height_in * ppi), ppi)


def blocks(view: View) -> list[Block]:
    """Returns a picture cut into blocks of pixels that fit the cache, row by row."""
    rows, columns = grain.BLOCK
    return [
        ((y, min(y + rows, view.height_px)), (x, min(x + columns, view.width_px)))
        for y in range(0, view.height_px, rows)
        for x in range(0, view.width_px, columns)
    ]


@dataclass(frozen=True)
class Prepared:
    """All of a picture that no sheet's art has a part in: layers in blank, what each sees, lamps.

    The first of `layers` and of `seen` is the table; of the sheets, one on, `dressed` holds art.
    """

    scene: LitScene
    ppi: float
    layers: tuple[Layer, ...]
    seen: tuple[Seen, ...]
    lamps: Lamps
    table: Field
    """The table's linear reflectance (3,), the mean of a part of it."""

    def dressed(self, sheets: Sequence[Sheet], pool: ThreadPoolExecutor) -> list[Layer]:
        """Returns the layers with the sheets' art and finishes on them, and in the light between
        them."""
        colours = [self.table, *map(back_colour, sheets)]
        backs = [_sent_down(sheet, own) for sheet, own in zip(sheets, colours[1:], strict=True)]
        looks = pool.map(self._look, self.layers[1:], sheets)

        def glow_of(number: int) -> Field:
            return self.seen[number].glow(colours[number], backs[number:])

        glows = pool.map(glow_of, range(len(self.seen)))
        table, *papers = self.layers
        found = [replace(table, glow=next(glows))]
        found += [
            replace(layer, look=look, glow=glow)
            for layer, look, glow in zip(papers, looks, glows, strict=True)
        ]
        return found

    def _look(self, layer: Layer, sheet: Sheet) -> SheetLook:
        look = layer.look
        assert isinstance(look, SheetLook)
        grained, surface = grain.grain_named(sheet.material.grain), layer.open.surface
        done = worked(sheet, self.scene, surface, grained, look.tile, self.ppi)
        return replace(look, art=sheet.art, worked=done)


def layers(scene: LitScene, ppi: float, pool: ThreadPoolExecutor, told: Progress) -> list[Layer]:
    """Returns the table and the sheets, bottom to top, ready to be shaded.

    `told` hears the share done, 0 to 1. Raises SuiteError for an unknown grain or surface.
    """
    return prepared(scene, ppi, pool, told).dressed(scene.sheets, pool)


def blank(scene: LitScene) -> LitScene:
    """Returns a scene with nothing printed on its sheets, pressed into them or laid over them."""
    sheets = tuple(replace(sheet, art=_BLANK, presses=(), coats=()) for sheet in scene.sheets)
    return replace(scene, sheets=sheets)


def prepared(scene: LitScene, ppi: float, pool: ThreadPoolExecutor, told: Progress) -> Prepared:
    """Returns all that is needed to shade a scene but its art and finishes.

    `told` hears the share done.

    Raises SuiteError for an unknown grain or surface.
    """
    scene = blank(scene)
    view = view_of(scene, ppi)
    papers = _Papers(scene, view)
    table = pool.submit(ground, scene, ppi, papers.reflectance)
    tiles = [pool.submit(papers.look, number) for number in range(len(scene.sheets))]
    covers = [pool.submit(covered, sheet, view) for sheet in scene.sheets]
    outlines = list(pool.map(signed_distance, (s.rings for s in scene.sheets), repeat(ppi)))
    told(0.1)
    receivers = [_table(scene, view), *map(_receiver(view), scene.sheets, outlines)]
    seen = _fields(scene, receivers, outlines, pool, told)
    built = table.result()
    found = [
        Layer(
            receivers[0],
            seen[0].field,
            _DARK,
            papers.open_light(built.material),
            built.material,
            built,
            np.empty((0, 0), np.uint8),
            0,
            0,
            None,
        )
    ]
    for number, sheet in enumerate(scene.sheets):
        cover, top_px, left_px = covers[number].result()
        opened = papers.open_light(sheet.material)
        standing: StandingLight | None = None
        if sheet.plane.stands:
            size = view.width_px, view.height_px
            floor = floor_before(sheet, built, seen[0].field, receivers[0].lattice, size)
            standing = standing_light(scene, opened.surface, sheet, floor)
        found.append(
            Layer(
                receivers[number + 1],
                seen[number + 1].field,
                _DARK,
                opened,
                sheet.material,
                tiles[number].result(),
                cover,
                top_px,
                left_px,
                None if standing else papers.edge_light(sheet.material),
                standing,
            )
        )
    tone = built.look(blocks(view)[0])[0].mean(axis=(1, 2))
    return Prepared(scene, ppi, tuple(found), tuple(seen), camera_lamps(scene), tone)


def covered(sheet: Sheet, view: View) -> tuple[NDArray[np.uint8], int, int]:
    """Returns a sheet's coverage of its part of the picture and that part's (top, left), px.

    Coverage is (h, w) uint8, 0 to 255; worked out in bands, so that a poster's needs no more
    memory than its bytes.
    """
    part = view.within(bounds(sheet.rings))
    left, top = part.offset_in(view)
    out = np.empty((part.height_px, part.width_px), np.uint8)
    for rows, band in part.bands():
        share = coverage(sheet.rings, band)
        share *= 255
        share += 0.5
        out[rows] = share
    return out, top, left


def _table(scene: LitScene, view: View) -> Receiver:
    box = (0.0, 0.0, scene.width_in, scene.height_in)
    return Receiver(lattice_over(box, view.ppi, 2 / view.ppi), Plane(), None, None)


def _receiver(view: View) -> Callable[[Sheet, Distance], Receiver]:
    def make(sheet: Sheet, outline: Distance) -> Receiver:
        left, top, right, bottom = bounds(sheet.rings)
        box = (
            min(max(left, 0), view.width_in),
            min(max(top, 0), view.height_in),
            max(min(right, view.width_in), 0),
            max(min(bottom, view.height_in), 0),
        )
        lattice = lattice_over(box, view.ppi, 2 * outline.lattice.spacing_in)
        return Receiver(lattice, raised(sheet), sheet.bow, outline)

    return make


def _fields(
    scene: LitScene,
    receivers: list[Receiver],
    outlines: list[Distance],
    pool: ThreadPoolExecutor,
    told: Progress,
) -> list[Seen]:
    """Returns what each receiver sees of the window and the sky past everything above it."""
    casters = [
        Caster(
            outline,
            raised(sheet),
            sheet.bow,
            _stopped(sheet.material),
            sheet.thickness_in,
            sheet.material.bevel_in,
        )
        for sheet, outline in zip(scene.sheets, outlines, strict=True)
    ]

    def start(number: int) -> tuple[Seen, list[Job]]:
        receiver = receivers[number]
        facing = normal_of(receiver.top) if receiver.top.stands else UPRIGHT
        return seen(receiver, casters[number:], cells(scene, _middle_height(receiver), facing))

    started = list(pool.map(start, range(len(receivers))))
    jobs = [job for _, more in started for job in more]
    for done, _ in enumerate(pool.map(_run, jobs), 1):
        told(0.1 + 0.4 * done / len(jobs))
    return [found for found, _ in started]


def back_colour(sheet: Sheet) -> Field:
    """Returns the linear reflectance of a sheet's underside, (3,): the mean of its face's."""
    if isinstance(sheet.art, Flat):
        return LINEAR[list(sheet.art.rgb)] * np.float32(REFLECTANCE)
    few = sheet.art.pixels[::16, ::16].reshape(-1, 3)
    return np.array([LINEAR[few[:, c]].mean() * REFLECTANCE for c in range(3)], np.float32)


def _sent_down(sheet: Sheet, back: Field) -> Field:
    """Returns the colour in which a sheet sends light back to what lies under it; of a film that is
    reckoned where it is looked through."""
    return back if sheet.material.film is None else np.zeros(3, np.float32)


def _stopped(material: Material) -> float:
    """Returns the share of light that a sheet keeps from what lies under it."""
    return 1.0 if material.film is None else 1 - float(material.film.passed.mean())


def _run(job: Job) -> None:
    job()


def _middle_height(receiver: Receiver) -> float:
    x, y = receiver.lattice.x_in(), receiver.lattice.y_in()
    middle = height(receiver.top, receiver.bow, x[len(x) // 2 :][:1], y[len(y) // 2 :][:1])
    return float(middle[0])


class _Papers:
    """Grain tiles and light tables, each made once per kind of paper."""

    def __init__(self, scene: LitScene, view: View) -> None:
        self._scene, self._view = scene, view
        self._open: dict[tuple[float, float], OpenLight] = {}
        self._edge: dict[tuple[float, float], EdgeLight] = {}
        self._facing: dict[tuple[float, float], FacingLight] = {}
        self._tiles: dict[tuple[grain.Grain, float], grain.Tile] = {}

    def open_light(self, material: Material) -> OpenLight:
        """Returns the window's light over the picture for a material's interface."""
        key = (material.ior, material.roughness)
        if key not in self._open:
            size = self._view.width_px, self._view.height_px
            self._open[key] = open_light(self._scene, material, *size)
        return self._open[key]

    def edge_light(self, material: Material) -> EdgeLight:
        """Returns the light on a rounded edge of a material."""
        key = (material.ior, material.roughness)
        if key not in self._edge:
            self._edge[key] = edge_light(self._scene, self.open_light(material).surface)
        return self._edge[key]

    def facing_light(self, material: Material) -> FacingLight:
        """Returns the light on the steep faces of a material."""
        key = (material.ior, material.roughness)
        if key not in self._facing:
            self._facing[key] = facing_light(self._scene, self.open_light(material).surface)
        return self._facing[key]

    def reflectance(self, material: Material) -> Field:
        """Returns the body's reflectance per sRGB byte, (256,) float32."""
        return reflectance(self._scene, self.open_light(material), self.open_light(Material()))

    def look(self, number: int) -> SheetLook:
        """Returns a sheet's art and grain; each sheet lies elsewhere on its paper's tile."""
        sheet = self._scene.sheets[number]
        kind = grain.grain_named(sheet.material.grain)
        angle = 0.0 if grain.is_even(kind) else round(sheet.angle_deg, 1)
        key = (kind, angle)
        if key not in self._tiles:
            self._tiles[key] = grain.tile(kind, self._view.ppi, angle, self._scene.seed)
        tile = self._tiles[key]
        rng = np.random.default_rng((self._scene.seed, number))
        offset = tuple(int(v) for v in rng.integers(0, tile.side, 2))
        table = self.reflectance(sheet.material)
        facing = self.facing_light(sheet.material) if sheet.relief is not None else None
        place = (offset[0], offset[1])
        return SheetLook(sheet.art, table, tile, place, sheet.creases, sheet.relief, facing)
