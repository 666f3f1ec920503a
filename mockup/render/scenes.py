"""Scene files: the table, the window and the air around a suite, in TOML a designer can edit."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal

import numpy as np
from PIL import Image
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from mockup.colour.srgb import Rgb, linear, parse_hex
from mockup.errors import InputError, MockupError, SuiteError, nearest
from mockup.render.light.scene import Photograph, Sky, Surface, Window
from mockup.shipped import shipped

SCENE_FILE = "scene.toml"
_ASPECT = re.compile(r"^(\d+(?:\.\d+)?):(\d+(?:\.\d+)?)$")


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class _Surface(_Table):
    kind: str = "plaster"
    colour: str | None = None
    photograph: str | None = None
    ppi: Annotated[float, Field(gt=1, le=2400)] = 100.0
    seed: Annotated[int, Field(ge=0)] = 1


class _Window(_Table):
    width_in: Annotated[float, Field(gt=0.1, le=1000)] = 40.0
    height_in: Annotated[float, Field(gt=0.1, le=1000)] = 60.0
    distance_in: Annotated[float, Field(ge=10, le=1000)] = 60.0
    azimuth_deg: Annotated[float, Field(ge=-360, le=360)] = 315.0
    elevation_deg: Annotated[float, Field(ge=10, le=90)] = 45.0
    colour: str = "#faffff"
    strength: Annotated[float, Field(gt=0, le=1000)] = 1.9


class _Sky(_Table):
    colour: str = "#fffaf0"
    strength: Annotated[float, Field(ge=0, le=10)] = 0.13


class _Lift(_Table):
    main_in: Annotated[float, Field(ge=0, le=1)] = 0.10
    card_in: Annotated[float, Field(ge=0, le=1)] = 0.05
    envelope_in: Annotated[float, Field(ge=0, le=1)] = 0.0


class Place(_Table):
    """Where a scene fixes a piece: its box's centre in inches from the top left, its turn."""

    at: tuple[float, float]
    angle_deg: Annotated[float, Field(ge=-180, le=180)] = 0.0
    layer: int = 0


class Wish(_Table):
    """`[[things]]`: a thing a scene wants beside the paper, and where.

    `where`: "empty" table, tucked "under" the paper, on a closed envelope's "flap", over an
    "envelope"'s edge, or "outside" the picture with its shadow falling at `at` (shares of the
    picture's width and height). `run_out` is the share that may lie beyond the picture's edge.
    """

    svg: str
    where: Literal["empty", "under", "flap", "envelope", "outside"] = "empty"
    angle_deg: Annotated[float, Field(ge=-360, le=360)] = 0.0
    turn_deg: Annotated[float, Field(ge=0, le=180)] = 180.0
    run_out: Annotated[float, Field(ge=0, le=0.9)] = 0.0
    at: tuple[float, float] = (0.5, 0.5)


class _SceneTable(_Table):
    about: str = ""
    aspect: str = "4:3"
    surface: _Surface = _Surface()
    window: _Window = _Window()
    sky: _Sky = _Sky()
    lift: _Lift = _Lift()
    width_in: Annotated[float, Field(gt=1, le=100)] | None = None
    places: dict[str, Place] = {}
    things: tuple[Wish, ...] = ()


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


def scene_names() -> list[str]:
    """Returns the names of the scenes that come with the program."""
    return sorted(path.parent.name for path in shipped("scenes").glob(f"*/{SCENE_FILE}"))


def read_scene(name: str, beside: Path) -> Scene:
    """Returns a scene by its name, or by the path of a scene folder relative to `beside`.

    Raises SuiteError for an unknown name or a mistake in the scene file.
    """
    folder = _scene_folder(name, beside)
    path = folder / SCENE_FILE
    try:
        table = _SceneTable.model_validate(tomllib.loads(path.read_text(encoding="utf-8")))
        return _scene(name, folder, table)
    except tomllib.TOMLDecodeError as error:
        raise SuiteError(f"{path}: is not well-formed TOML: {error}") from error
    except ValidationError as error:
        raise SuiteError(*_told(path, error)) from error
    except MockupError as error:
        raise type(error)(f"{path}: {error}") from error


def _scene_folder(name: str, beside: Path) -> Path:
    own = beside / name
    if (own / SCENE_FILE).is_file():
        return own
    allowed = scene_names()
    if name not in allowed:
        hint = nearest(name, allowed) or f"; there are {', '.join(allowed)}."
        raise SuiteError(f'no scene called "{name}"{hint} Or name a folder with a {SCENE_FILE}')
    return shipped("scenes") / name


def parse_aspect(text: str) -> float:
    """Returns width over height of `4:5`. Raises SuiteError, also beyond 1:4 and 4:1."""
    match = _ASPECT.match(text.strip())
    if match is None or not 0.25 <= float(match[1]) / max(float(match[2]), 1e-9) <= 4:
        raise SuiteError(f'"{text}" is not an aspect; write width:height, from 1:4 to 4:1')
    return float(match[1]) / float(match[2])


def _scene(name: str, folder: Path, table: _SceneTable) -> Scene:
    if table.places and table.width_in is None:
        raise SuiteError("places are fixed but width_in, the table's width in inches, is missing")
    surface = _surface(folder, table.surface)
    return Scene(
        name,
        parse_aspect(table.aspect),
        surface,
        surface.rgb or (200, 195, 188),
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


def _surface(folder: Path, table: _Surface) -> Surface:
    colour = parse_hex(table.colour) if table.colour else None
    if table.photograph is None:
        return Surface(table.kind, table.seed, colour)
    path = folder / table.photograph
    try:
        with Image.open(path) as picture:
            pixels = np.asarray(picture.convert("RGB"))
    except (OSError, Image.DecompressionBombError) as error:
        raise InputError(f"surface.photograph: {path} cannot be read ({error})") from error
    return Surface(Photograph(pixels, table.ppi), table.seed, colour)


def _radiance(colour: str, strength: float) -> tuple[float, float, float]:
    red, green, blue = (float(value) * strength for value in linear(parse_hex(colour)))
    return red, green, blue


def _told(path: Path, error: ValidationError) -> list[str]:
    lines: list[str] = []
    for mistake in error.errors():
        key = ".".join(str(part) for part in mistake["loc"])
        if mistake["type"] == "extra_forbidden":
            lines.append(f"{path}: {key}: there is no such key")
        else:
            lines.append(f"{path}: {key}: {str(mistake['input'])[:40]}: {mistake['msg'].lower()}")
    return lines
