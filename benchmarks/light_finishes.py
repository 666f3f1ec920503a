"""Foil and pressed paper against a path tracer that is given the shapes, not our slopes.

    python -m benchmarks.light_finishes pressed --width 250 --samples 256

The reference is a mesh of the pressed face, a few walls of triangles wide, made from the exact
distance to each shape; foil is a rough conductor, cut by the same distance; the room is a picture
all round. Nothing of the engine's walls, shade, mirror tables or normals is in it. Prints mean
CIEDE2000 of each zone with the fitted exposure and without, and of the reference's own two halves.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import mitsuba as mi
import numpy as np
from colour.difference import delta_E_CIE2000
from numpy.typing import NDArray
from skimage.color import rgb2lab

from benchmarks import light_reference
from benchmarks.light_reference import Image, body, mesh, texture, window
from mockup.colour.srgb import from_light
from mockup.pixels import View
from mockup.render.light import metal, prepare
from mockup.render.light.finish import Coat, Press, Skin
from mockup.render.light.mirror import room_light
from mockup.render.light.scene import Flat, LitScene, Material, Plane, Sheet, Sky, Window
from mockup.render.light.shade import Layer
from mockup.render.light.tone import Lamps

Array = NDArray[np.float64]
Distance = Callable[[Array, Array], Array]
_MESH_IN = 0.0022
_FOLD = 10  # how much finer the mesh is on walls: the narrowest is fourteen triangles wide
_FINE_PPI = 900.0  # at which foil is cut in the reference
SIZE_IN = (2.5, 1.875)
CARD = (0.2, 0.2, 2.3, 1.675)  # left, top, right, bottom, inches
IVORY, NAVY = (246, 238, 222), (38, 56, 98)


@dataclass(frozen=True)
class Shape:
    """A shape by its signed distance (inches, above nought inside), and how it is worked."""

    distance: Distance
    depth_in: float
    flank_in: float
    skin: Skin | None = None


def disc(x: float, y: float, r: float) -> Distance:
    return lambda px, py: r - np.hypot(px - x, py - y)


def ring(x: float, y: float, r: float, width: float) -> Distance:
    return lambda px, py: width / 2 - np.abs(np.hypot(px - x, py - y) - r)


def bar(x: float, y: float, length: float, width: float, angle_deg: float) -> Distance:
    turn = np.radians(angle_deg)

    def distance(px: Array, py: Array) -> Array:
        u = (px - x) * np.cos(turn) + (py - y) * np.sin(turn)
        v = (py - y) * np.cos(turn) - (px - x) * np.sin(turn)
        a, b = length / 2 - np.abs(u), width / 2 - np.abs(v)
        return np.where((a < 0) & (b < 0), -np.hypot(a, b), np.minimum(a, b))

    return distance


def stems(x: float, y: float, count: int, width: float, pitch: float) -> list[Distance]:
    """Upright strokes as of type, each a little more turned than the last."""
    return [bar(x + k * pitch, y, 0.26, width, 90 + 9 * k) for k in range(count)]


def joined(*parts: Distance) -> Distance:
    return lambda px, py: np.max([part(px, py) for part in parts], axis=0)


SCENES: dict[str, tuple[Shape, ...]] = {
    # letterpress depth and wall, fine strokes and a wide field; an embossed disc
    "pressed": (
        Shape(
            joined(*stems(0.4, 0.5, 6, 0.012, 0.07), *stems(0.4, 0.9, 6, 0.03, 0.11)), 0.007, 0.004
        ),
        Shape(joined(disc(1.3, 0.6, 0.2), ring(1.3, 0.6, 0.27, 0.02)), 0.007, 0.004),
        Shape(joined(disc(1.9, 1.25, 0.22), bar(1.2, 1.35, 0.7, 0.1, -12)), -0.010, 0.008),
        Shape(bar(1.95, 0.6, 0.4, 0.3, 20), 0.004, 0.006),
    ),
    "foil": (
        Shape(
            joined(*stems(0.4, 0.5, 6, 0.014, 0.07), disc(1.3, 0.6, 0.25)),
            0.002,
            0.003,
            metal.foil("gold"),
        ),
        Shape(
            joined(ring(1.95, 0.6, 0.2, 0.07), bar(0.75, 1.25, 0.9, 0.16, -12)),
            0.002,
            0.003,
            metal.foil("silver"),
        ),
        Shape(disc(1.75, 1.25, 0.25), -0.010, 0.010, metal.foil("copper")),
    ),
}


def plate(shape: Shape, view: View) -> NDArray[np.uint8]:
    """A shape's exact coverage, near enough: the mean of 12 x 12 samples a pixel."""
    fold = 12
    at = [(np.arange(n * fold) + 0.5) / (fold * view.ppi) for n in (view.width_px, view.height_px)]
    x, y = np.meshgrid(*at)
    inside = (shape.distance(x, y) > 0).astype(np.float32)
    small = inside.reshape(view.height_px, fold, view.width_px, fold).mean(axis=(1, 3))
    return np.rint(small * 255).astype(np.uint8)


def scene(name: str, ppi: float, paper: tuple[int, int, int]) -> LitScene:
    view = View(0.0, 0.0, round(SIZE_IN[0] * ppi), round(SIZE_IN[1] * ppi), ppi)
    left, top, right, bottom = CARD
    corners = np.array([[left, top], [right, top], [right, bottom], [left, bottom]])
    plates = [(shape, plate(shape, view)) for shape in SCENES[name]]
    sheet = Sheet(
        (corners,),
        Flat(paper),
        Plane(0.0),
        0.03,
        Material("none", bevel_in=0.004),
        presses=tuple(Press(p, 0, 0, s.depth_in, s.flank_in) for s, p in plates),
        coats=tuple(Coat(p, 0, 0, s.skin) for s, p in plates if s.skin is not None),
    )
    # One colour of light: a mirror's ceiling is then the sky's own.
    return LitScene(*SIZE_IN, (sheet,), sky=Sky(tuple(0.13 / 1.9 * v for v in Window().radiance)))


# The same for the path tracer


def height_of(name: str, x: Array, y: Array) -> Array:
    """The face's height over the sheet's own, inches: a cosine from face to floor."""
    total = np.zeros_like(x)
    for shape in SCENES[name]:
        t = np.clip(shape.distance(x, y) / shape.flank_in + 0.5, 0, 1)
        total -= shape.depth_in * (1 - np.cos(np.pi * t)) / 2
    return total


def face(name: str, made: LitScene) -> Array:
    """Triangles (n, 3, 3) of the worked face: fine on walls, where a mirror shows every slope."""
    sheet = made.sheets[0]
    b = sheet.material.bevel_in
    left, top, right, bottom = CARD
    x = np.linspace(left + b, right - b, round((right - left) / _MESH_IN))
    y = np.linspace(top + b, bottom - b, round((bottom - top) / _MESH_IN))
    px, py = np.meshgrid(x[:-1], y[:-1])
    step = x[1] - x[0], y[1] - y[0]
    walled = np.zeros(px.shape, bool)
    for shape in SCENES[name]:
        away = np.abs(shape.distance(px + step[0] / 2, py + step[1] / 2))
        walled |= away < shape.flank_in / 2 + 2 * _MESH_IN
    parts = []
    for which, fold in ((~walled, 1), (walled, _FOLD)):
        row, column = (a.ravel() / fold for a in np.indices((fold, fold)))
        own = [step[0] / fold, step[1] / fold]
        left_at = (px[which][:, None] + column * step[0]).ravel()
        top_at = (py[which][:, None] + row * step[1]).ravel()
        parts.append(squares(name, left_at, top_at, own, sheet.thickness_in))
    return np.concatenate(parts)


def squares(name: str, x: Array, y: Array, step: list[float], lift: float) -> Array:
    """Triangles (2 n, 3, 3) of squares of the worked face by their upper left corners."""
    a, b, c, d = (
        np.stack([u, -v, height_of(name, u, v) + lift], axis=-1)
        for u, v in (
            (x, y),
            (x + step[0], y),
            (x + step[0], y + step[1]),
            (x, y + step[1]),
        )
    )
    return np.stack([np.stack([a, b, c], -2), np.stack([a, c, d], -2)]).reshape(-1, 3, 3)


def fine_mask(name: str, skin: Skin) -> Image:
    at = [(np.arange(round(n * _FINE_PPI)) + 0.5) / _FINE_PPI for n in SIZE_IN]
    x, y = np.meshgrid(*at)
    shapes = [s.distance(x, y) for s in SCENES[name] if s.skin == skin]
    return (np.max(shapes, axis=0) > 0).astype(np.float32)[..., None]


def skinned(name: str, paper: dict[str, object]) -> dict[str, object]:
    """Paper, and over it each foil as a conductor that loses nothing but its own colour."""
    done = paper
    for skin in dict.fromkeys(s.skin for s in SCENES[name] if s.skin is not None):
        foil = {
            "type": "roughconductor",
            "distribution": "ggx",
            "alpha": skin.roughness,
            "material": "none",
            "specular_reflectance": {"type": "rgb", "value": list(np.minimum(skin.mirrors, 1))},
        }
        weight = texture(fine_mask(name, skin))
        done = {"type": "blendbsdf", "weight": weight, "first": done, "second": foil}
    return {"type": "twosided", "bsdf": done}


def sky(made: LitScene, lamps: Lamps) -> dict[str, object]:
    """The room all round, as seen from the middle of the table."""
    v, u = (np.arange(512) + 0.5) / 512 * np.pi, (np.arange(1024) + 0.5) / 1024 * 2 * np.pi
    down, turn = np.meshgrid(v, u, indexing="ij")
    x, up, z = np.sin(down) * np.sin(turn), np.cos(down), -np.sin(down) * np.cos(turn)
    way = np.stack([x, -up, z], axis=-1)  # the tracer's y points up, ours down
    light = room_light(made, way, np.zeros(2))
    picture = (light[..., None] * lamps.sky).astype(np.float32)
    return {"type": "envmap", "bitmap": mi.Bitmap(picture)}


def traced(name: str, made: LitScene, ppi: float, layers: list[Layer], lamps: Lamps, samples: int):
    """The path tracer's picture, (h, w, 3) linear, from two halves of its samples."""
    view = prepare.view_of(made, ppi)
    world = light_reference.looked_at(view, samples) | {
        "sky": sky(made, lamps),
        "window": window(made, lamps),
    }
    table, card = layers
    albedo, normal = light_reference.looks(made, ppi, table)
    world["table"] = light_reference.table_mesh(view, body(table, albedo, normal))
    albedo, _ = light_reference.looks(made, ppi, card)
    paper = body(card, albedo, None)
    _, rest = light_reference.slab(made.sheets[0])
    world["rest"] = mesh("rest", rest, view, paper)
    inner = paper["bsdf"]
    assert isinstance(inner, dict)
    world["face"] = mesh("face", face(name, made), view, skinned(name, inner))
    return light_reference.rendered(world, view, samples)


# The comparison


def zones(name: str, made: LitScene) -> dict[str, NDArray[np.bool_]]:
    """Where each kind of work shows: a pixel or two round pressed shapes, and in foil."""
    found: dict[str, NDArray[np.bool_]] = {}
    for shape, press in zip(SCENES[name], made.sheets[0].presses, strict=True):
        kind = "foil" if shape.skin else "embossed" if shape.depth_in < 0 else "pressed"
        touched = press.plate > 0
        wide = touched.copy()
        for dy in (-2, -1, 0, 1, 2):
            for dx in (-2, -1, 0, 1, 2):
                wide |= np.roll(touched, (dy, dx), (0, 1))
        found[kind] = found.get(kind, np.zeros_like(wide)) | (touched if shape.skin else wide)
        partly = (press.plate > 0) & (press.plate < 255)
        found["walls"] = found.get("walls", np.zeros_like(wide)) | partly
    return found


def error(made: Image, true: Image, factor: float) -> Image:
    a, b = (from_light(np.clip(p, 0, 1).astype(np.float64)) for p in (made * factor, true))
    return delta_E_CIE2000(rgb2lab(a), rgb2lab(b))


def figures(made: Image, true: Image, where: dict[str, NDArray[np.bool_]], factor: float):
    found = error(made, true, factor)
    return {"all": float(found.mean()), **{k: float(found[z].mean()) for k, z in where.items()}}


def fitted(made: Image, true: Image, where: dict[str, NDArray[np.bool_]]) -> float:
    """The exposure factor that fits best on paper and table; glints would outweigh them."""
    plain = ~np.any(list(where.values()), axis=0)
    return float((true * made)[plain].sum() / (made * made)[plain].sum())


def measured(name: str, width: int, samples: int, paper: tuple[int, int, int] = IVORY):
    """Figures of a scene: fitted, unfitted, and the reference's halves; and the pictures."""
    ppi = width / SIZE_IN[0]
    made = scene(name, ppi, paper)
    layers, lamps = light_reference.layers_of(made, ppi)
    halves = traced(name, made, ppi, layers, lamps, samples)
    true = (halves[0] + halves[1]) / 2
    own = light_reference.ours(made, ppi, layers, lamps)
    where = zones(name, made)
    factor = fitted(own, true, where)
    return {
        "exposure": {"factor": factor},
        "fitted": figures(own, true, where, factor),
        "unfitted": figures(own, true, where, 1.0),
        "halves": figures(*halves, where, 1.0),
    }, (own, true)


def main(arguments: Sequence[str] | None = None) -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("scene", choices=SCENES)
    parser.add_argument("--width", type=int, default=250)
    parser.add_argument("--samples", type=int, default=256)
    parser.add_argument("--navy", action="store_true", help="on dark paper")
    parser.add_argument("--save", help="writes both pictures' linear pixels as .npy")
    given = parser.parse_args(arguments)
    print(light_reference.start(), given.scene, given.width, "px,", given.samples, "samples")
    begun = time.perf_counter()
    paper = NAVY if given.navy else IVORY
    found, pictures = measured(given.scene, given.width, given.samples, paper)
    print(f"in {time.perf_counter() - begun:.0f} s")
    for name, row in found.items():
        print(f"{name:10}" + "  ".join(f"{k} {v:.3f}" for k, v in row.items()))
    if given.save:
        np.save(given.save, np.stack(pictures))


if __name__ == "__main__":
    main()
