"""A scene's file: the table, the window and the air around a suite, in TOML a designer can edit.

It is read here, beside the suite file that names it, so that the mistakes of both are told at once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Annotated, Literal, get_args

from pydantic import Field, Strict, StringConstraints

from mockup.colour.srgb import parse_hex
from mockup.errors import Mistake, MockupError, SuiteError, nearest, quoted
from mockup.shipped import shipped
from mockup.sources import is_there
from mockup.suite.schema import SEED_MAX, FileName, Table, Text
from mockup.tables.reading import read_toml
from mockup.tables.wording import form_mistakes, sound_part
from mockup.trade.limits import THINGS_MAX

SCENE_FILE = "scene.toml"
_ASPECT = re.compile(r"([0-9]+(?:\.[0-9]+)?):([0-9]+(?:\.[0-9]+)?)")

Seed = Annotated[int, Field(ge=0, le=SEED_MAX)]
Angle = Annotated[float, Field(ge=-360, le=360)]
Inches = Annotated[float, Field(ge=-200, le=200)]  # a press sheet is far smaller
SHARE_MAX = 5.0  # of the picture's side: how far beyond it a shadow may fall
About = Annotated[str, StringConstraints(max_length=2000)]


class SurfaceTable(Table):
    """`[surface]`: what the suite lies on."""

    kind: Literal["plaster", "linen", "oak", "slate"] = "plaster"
    colour: Text | None = None
    photograph: FileName | None = None
    ppi: Annotated[float, Field(gt=1, le=2400)] = 100.0
    seed: Seed = 1


class WindowTable(Table):
    """`[window]`: the light that casts shadows."""

    width_in: Annotated[float, Field(gt=0.1, le=1000)] = 40.0
    height_in: Annotated[float, Field(gt=0.1, le=1000)] = 60.0
    distance_in: Annotated[float, Field(ge=10, le=1000)] = 60.0
    azimuth_deg: Angle = 315.0
    elevation_deg: Annotated[float, Field(ge=10, le=90)] = 45.0
    colour: Text = "#faffff"
    strength: Annotated[float, Field(ge=0.001, le=1000)] = 1.9


class SkyTable(Table):
    """`[sky]`: the room's own light, from everywhere."""

    colour: Text = "#fffaf0"
    strength: Annotated[float, Field(ge=0, le=10)] = 0.13


class LiftTable(Table):
    """`[lift]`: how far pieces are raised off what they rest on."""

    main_in: Annotated[float, Field(ge=0, le=1)] = 0.10
    card_in: Annotated[float, Field(ge=0, le=1)] = 0.05
    envelope_in: Annotated[float, Field(ge=0, le=1)] = 0.0


class Place(Table):
    """Where a scene fixes a piece: its box's centre in inches from the top left, its turn."""

    at: Annotated[tuple[Inches, Inches], Strict(False)]
    angle_deg: Annotated[float, Field(ge=-180, le=180)] = 0.0
    layer: Annotated[int, Field(ge=-100, le=100)] = 0


PlaceWord = Literal[
    "middle",
    "top",
    "right",
    "bottom",
    "left",
    "top-left",
    "top-right",
    "bottom-right",
    "bottom-left",
    "top-edge",
    "right-edge",
    "bottom-edge",
    "left-edge",
]
"""Where on a piece a thing lies; at an edge it holds that edge to what lies under it."""

PLACE_WORDS: tuple[PlaceWord, ...] = get_args(PlaceWord)


class Wish(Table):
    """`[[things]]`: a thing a scene wants beside the paper, and where.

    `where`: "empty" table, tucked "under" the paper, on a closed envelope's "flap", in
    the postage corner of an "envelope"'s address side, "on" the piece that `on` names, or "outside"
    the picture with its shadow falling at `at` (shares of the picture's width and height). On a
    piece it lies at the `place` a word says, or with its middle `at` so many inches from the left
    top of what is seen of the piece; by neither, where no type is. `run_out` is the share that may
    lie beyond the picture's edge.
    """

    svg: FileName
    where: Literal["empty", "under", "flap", "envelope", "on", "outside"] = "empty"
    on: Text | None = None
    place: PlaceWord | None = None
    angle_deg: Angle = 0.0
    turn_deg: Annotated[float, Field(ge=0, le=180)] = 180.0
    run_out: Annotated[float, Field(ge=0, le=0.9)] = 0.0
    at: Annotated[tuple[Inches, Inches], Strict(False)] | None = None


class SceneFileTable(Table):
    """The whole file."""

    about: About = ""
    aspect: Text = "4:3"
    surface: SurfaceTable = SurfaceTable()
    window: WindowTable = WindowTable()
    sky: SkyTable = SkyTable()
    lift: LiftTable = LiftTable()
    width_in: Annotated[float, Field(gt=1, le=100)] | None = None
    places: dict[str, Place] = Field(default_factory=dict[str, Place], max_length=64)
    things: Annotated[tuple[Wish, ...], Strict(False), Field(max_length=THINGS_MAX)] = ()


def scene_names() -> list[str]:
    """Returns the names of the scenes that come with the program."""
    return sorted(file.parent.name for file in _shipped_files(f"*/{SCENE_FILE}"))


def read_scene_file(name: str, beside: Path) -> tuple[Path, SceneFileTable]:
    """Returns a scene's folder and file, by its name or by its folder's path from `beside`.

    Raises SuiteError for an unknown name, and for all that is wrong in the file.
    """
    folder = _folder(name, beside)
    path = folder / SCENE_FILE
    raw = read_toml(path)
    told = form_mistakes(str(path), raw, SceneFileTable)
    table = sound_part(raw, SceneFileTable)
    if table is not None:
        told += _mistakes(path, raw, table)
    if told or table is None:
        raise SuiteError(*told)
    return folder, table


def thing_names() -> list[str]:
    """Returns the names of the things that come with the program."""
    return sorted(file.stem for file in _shipped_files("things/*.svg"))


def thing_file(name: str, beside: Path) -> Path:
    """Returns a thing's drawing, by its name or by its path from `beside`. Raises SuiteError."""
    own = beside / name
    if is_there(own):
        return own
    allowed = thing_names()
    if name not in allowed:
        hint = nearest(name, allowed) or f"; there are {', '.join(allowed)}."
        raise SuiteError(f"no thing called {quoted(name)}{hint} Or name an SVG beside the scene")
    return shipped("scenes") / "things" / f"{name}.svg"


def parse_aspect(text: str) -> float:
    """Returns width over height of `4:5`. Raises SuiteError, also beyond 1:4 and 4:1."""
    match = _ASPECT.fullmatch(text.strip())
    if match is None or not 0.25 <= float(match[1]) / max(float(match[2]), 1e-9) <= 4:
        raise SuiteError(f"{quoted(text)} is not an aspect; write width:height, from 1:4 to 4:1")
    return float(match[1]) / float(match[2])


@cache
def _shipped_files(pattern: str) -> tuple[Path, ...]:
    """Returns what comes with the program, which stays while it runs: a suite asks many times."""
    return tuple(shipped("scenes").glob(pattern))


def _folder(name: str, beside: Path) -> Path:
    own = beside / name
    if is_there(own / SCENE_FILE):  # also one that cannot be read: that is told, not passed over
        return own
    allowed = scene_names()
    if name not in allowed:
        hint = nearest(name, allowed) or f"; there are {', '.join(allowed)}."
        raise SuiteError(
            f"no scene called {quoted(name)}{hint} Or name a folder with a {SCENE_FILE}"
        )
    return shipped("scenes") / name


def _mistakes(path: Path, raw: dict[str, object], table: SceneFileTable) -> list[Mistake]:
    """Returns what is wrong with the meaning of a file whose form is sound."""
    found: list[Mistake] = []

    def tried(key: str, value: str | None, reading: Callable[[str], object]) -> None:
        try:
            if value is not None:
                reading(value)
        except MockupError as error:
            found.extend(Mistake(e.sentence, str(path), key, value or "") for e in error.mistakes)

    tried("aspect", table.aspect, parse_aspect)
    tried("surface.colour", table.surface.colour, parse_hex)
    tried("window.colour", table.window.colour, parse_hex)
    tried("sky.colour", table.sky.colour, parse_hex)
    photograph = table.surface.photograph
    if photograph is not None and not is_there(path.parent / photograph):
        said = f"there is no file {quoted(photograph)} beside the scene file"
        found.append(Mistake(said, str(path), "surface.photograph", photograph))
    for number, wish in enumerate(table.things, 1):
        key = f"things.{number}"
        tried(f"{key}.svg", wish.svg, lambda name: thing_file(name, path.parent))
        found += [Mistake(said, str(path), f"{key}.{own}") for own, said in _misplaced(wish)]
    if table.places and "width_in" not in raw:
        said = "places are fixed but width_in, the table's width in inches, is missing"
        found.append(Mistake(said, str(path), "width_in"))
    return found


def _misplaced(wish: Wish) -> Iterator[tuple[str, str]]:
    """Yields the keys of a thing that do not go with where it lies, and why."""
    if wish.where == "on":
        if wish.on is None:
            yield "on", 'where = "on" needs the piece it lies on: on = "details"'
        if wish.place is not None and wish.at is not None:
            yield "place", "`at` says the place as well; leave one of the two out"
        return
    for key, given in (("on", wish.on), ("place", wish.place)):
        if given is not None:
            yield key, f'is read where = "on" alone, and it says where = "{wish.where}"'
    if wish.at is not None and max(map(abs, wish.at)) > SHARE_MAX:
        yield "at", f"is a share of the picture's sides, between -{SHARE_MAX:g} and {SHARE_MAX:g}"
