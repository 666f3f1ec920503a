"""What a template draws, apart from any program: lines, filled shapes and type on a sheet."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from mockup.geometry.affine import Affine, translation
from mockup.geometry.outline import Cubic, Line, Outline, Segment, Shape, polygon_outline
from mockup.geometry.path_data import drawable
from mockup.geometry.point import Point

Rgb = tuple[float, float, float]
INK: dict[str, Rgb] = {
    "red": (0.9, 0.05, 0.1),
    "magenta": (1.0, 0.0, 1.0),
    "blue": (0.0, 0.25, 0.95),
    "cyan": (0.0, 0.68, 0.93),
    "green": (0.0, 0.65, 0.2),
    "orange": (1.0, 0.5, 0.0),
    "black": (0.0, 0.0, 0.0),
    "grey": (0.55, 0.55, 0.55),
    "white": (1.0, 1.0, 1.0),
    "paper": (0.93, 0.9, 0.82),
    "purple": (0.5, 0.0, 0.75),
}


@dataclass(frozen=True)
class Drawn:
    """Courses painted at once, inches on the sheet; lines and cubics alone."""

    courses: tuple[tuple[Line | Cubic, ...], ...]
    closed: bool = True
    stroke: str | None = None
    fill: str | None = None
    width_pt: float = 0.75
    dashes_pt: tuple[float, ...] = ()
    layer: str | None = None
    spot: str | None = None
    hidden: bool = False


@dataclass(frozen=True)
class Words:
    """Type, its base line beginning at a place, inches on the sheet."""

    at: Point
    text: str
    size_pt: float = 9
    colour: str = "black"
    layer: str | None = None


@dataclass(frozen=True)
class Sheet:
    """A page of a template. `trim` is a TrimBox, for programs that write one."""

    width_in: float
    height_in: float
    things: tuple[Drawn | Words, ...] = field(default=())
    trim: tuple[float, float, float, float] | None = None
    unit: str = "in"

    def moved_layers_off(self) -> Sheet:
        """Returns the sheet without the names of its layers."""
        return replace(self, things=tuple(replace(each, layer=None) for each in self.things))

    @property
    def layers(self) -> list[str]:
        """The names of its layers, in the order they are drawn."""
        named = (each.layer for each in self.things)
        return list(dict.fromkeys(name for name in named if name))


def placed(shape: Shape, left: float, top: float) -> Shape:
    """Returns a shape moved to a place on the sheet."""
    return shape.mapped(translation(left, top))


def courses(*outlines: Outline) -> tuple[tuple[Line | Cubic, ...], ...]:
    """Returns outlines as courses of lines and cubics."""
    return tuple(tuple(drawable(outline)) for outline in outlines)


def rectangle(left: float, top: float, width: float, height: float) -> Outline:
    """Returns a rectangle."""
    return polygon_outline(
        (left, top), (left + width, top), (left + width, top + height), (left, top + height)
    )


def line(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[Line, ...], ...]:
    """Returns one straight line, as courses."""
    return ((Line(Point(x0, y0), Point(x1, y1)),),)


def mapped(course: tuple[Segment, ...], affine: Affine) -> list[Line | Cubic]:
    """Returns a course under an affine map, its parts lines and cubics still."""
    moved = [part.mapped(affine) for part in course]
    return [part for part in moved if isinstance(part, Line | Cubic)]
