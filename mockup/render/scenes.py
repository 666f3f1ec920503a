"""Scene files: the table, the window and the air around a suite, in TOML a designer can edit."""

from __future__ import annotations

import contextlib
import io
import struct
import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms, ImageOps

from mockup.colour.srgb import LINEAR, Rgb, encode, linear, parse_hex
from mockup.errors import InputError, LimitError, Mistake, MockupError
from mockup.render.light.scene import Photograph, Sky, Surface, Window
from mockup.render.light.surface import COLOURS
from mockup.sources import read_whole
from mockup.suite.scene_file import (
    SCENE_FILE,
    Place,
    SceneFileTable,
    SurfaceTable,
    Wish,
    parse_aspect,
    read_scene_file,
    scene_names,
)
from mockup.trade.limits import PHOTOGRAPH_MAX_BYTES, PICTURE_MAX_PX

__all__ = ["Place", "Scene", "Wish", "parse_aspect", "read_scene", "scene_names"]

_PHOTOGRAPHS = ("JPEG", "PNG", "TIFF", "WEBP")


@dataclass(frozen=True)
class Scene:
    """A scene as the renderer takes it; `aspect` is the picture's width over its height.

    `lift_in` is how far main pieces, other cards and envelopes are raised off what they rest on,
    as a stylist does with pads. Where `places` fixes pieces, `width_in` is the table's width.
    `things` may lie beside the paper; their own drawings are looked for in `folder`.
    """

    name: str
    aspect: float
    surface: Surface
    surface_colour: Rgb
    window: Window
    sky: Sky
    lift_in: dict[str, float]
    width_in: float | None
    places: dict[str, Place]
    things: tuple[Wish, ...] = ()
    folder: Path = Path()
    about: str = ""
    photograph: Path | None = None

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files the scene is read from: its own, its photograph, the things it draws itself."""
        own = (self.folder / SCENE_FILE, *(self.folder / wish.svg for wish in self.things))
        return own if self.photograph is None else (*own, self.photograph)


def read_scene(name: str, beside: Path) -> Scene:
    """Returns a scene by its name, or by the path of a scene folder relative to `beside`.

    Raises SuiteError for an unknown name or a mistake in the scene file, InputError and LimitError
    for a photograph that cannot be read.
    """
    folder, table = read_scene_file(name, beside)
    return _scene(name, folder, table)


def _scene(name: str, folder: Path, table: SceneFileTable) -> Scene:
    surface = _surface(folder, table.surface)
    return Scene(
        name,
        parse_aspect(table.aspect),
        surface,
        surface.rgb or _own_colour(surface),
        Window(
            table.window.width_in,
            table.window.height_in,
            table.window.distance_in,
            table.window.azimuth_deg,
            table.window.elevation_deg,
            _radiance(table.window.colour, table.window.strength),
        ),
        Sky(_radiance(table.sky.colour, table.sky.strength)),
        {
            "main": table.lift.main_in,
            "card": table.lift.card_in,
            "envelope": table.lift.envelope_in,
        },
        table.width_in,
        dict(table.places),
        table.things,
        folder,
        table.about,
        folder / table.surface.photograph if table.surface.photograph else None,
    )


def _own_colour(surface: Surface) -> Rgb:
    """Returns the colour of a surface that is not dyed, or the mean of its photograph."""
    if isinstance(surface.kind, str):
        return COLOURS[surface.kind]
    pixels = surface.kind.pixels
    step = max(1, max(pixels.shape[:2]) // 256)
    mean = LINEAR[pixels[::step, ::step]].mean(axis=(0, 1), keepdims=True)
    red, green, blue = (int(value) for value in encode(mean)[0, 0])
    return red, green, blue


def _surface(folder: Path, table: SurfaceTable) -> Surface:
    colour = parse_hex(table.colour) if table.colour else None
    if table.photograph is None:
        return Surface(table.kind, table.seed, colour)
    pixels = _photograph(folder / table.photograph, str(folder / SCENE_FILE))
    return Surface(Photograph(pixels, table.ppi), table.seed, colour)


def _photograph(path: Path, file: str) -> NDArray[np.uint8]:
    """Returns a photograph's pixels, (h, w, 3) sRGB, turned as its camera was held."""
    key = "surface.photograph"
    try:
        content = read_whole(path, PHOTOGRAPH_MAX_BYTES)
    except MockupError as error:
        told = (Mistake(str(each), file, key, path.name) for each in error.mistakes)
        raise type(error)(*told) from error
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # our limit is lower
            picture = Image.open(io.BytesIO(content), formats=_PHOTOGRAPHS)
        if picture.width * picture.height > PICTURE_MAX_PX:
            said = f"{path} has {picture.width} x {picture.height} px; the limit is 150 megapixels"
            raise LimitError(Mistake(said, file, key, path.name))
        return np.asarray(_in_srgb(_upright(picture)))
    except Image.DecompressionBombError as error:  # told of by its size, before ours is looked at
        said = f"{path} has over 150 megapixels, the limit; save it smaller"
        raise LimitError(Mistake(said, file, key, path.name)) from error
    except _UNREADABLE as error:
        said = f"{path} cannot be read as a JPEG, PNG, TIFF or WebP; save it again as one of them"
        raise InputError(Mistake(said, file, key, path.name)) from error


def _upright(picture: Image.Image) -> Image.Image:
    """Returns a photograph turned as its camera noted it was held (Exif 2.32, Orientation)."""
    try:
        return ImageOps.exif_transpose(picture)
    except (SyntaxError, ValueError, TypeError, KeyError, struct.error):  # a broken note
        return picture


def _in_srgb(picture: Image.Image) -> Image.Image:
    """Returns a photograph in sRGB, by the profile it holds; taken for sRGB where it holds none, or
    one that cannot be used. Telephones take theirs in a wider space."""
    profile = picture.info.get("icc_profile")
    if profile and picture.mode in ("RGB", "CMYK", "L"):
        with contextlib.suppress(ImageCms.PyCMSError, OSError):
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            found = ImageCms.profileToProfile(
                picture, own, ImageCms.createProfile("sRGB"), outputMode="RGB"
            )
            if found is not None:
                return found
    return picture.convert("RGB")


# What Pillow raises for broken files: of its own it has only the first, an OSError.
_UNREADABLE = (OSError, SyntaxError, ValueError, EOFError, struct.error)


def _radiance(colour: str, strength: float) -> tuple[float, float, float]:
    red, green, blue = (float(value) * strength for value in linear(parse_hex(colour)))
    return red, green, blue
