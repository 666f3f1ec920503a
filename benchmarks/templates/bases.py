"""What kinds of template have in common: a die on a sheet, its bleed and safe zone, a legend."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from random import Random

from benchmarks.templates.sheet import Drawn, Sheet, Words, courses, line, placed, rectangle
from mockup.dies import Die, make_die
from mockup.geometry.offset import offset
from mockup.geometry.outline import Outline, Shape, polygon_outline
from mockup.geometry.point import Point


@dataclass(frozen=True)
class Told:
    """What the reader is told: whether the card's size is known."""

    card: bool


@dataclass(frozen=True)
class Made:
    """A sheet, its true cut (None where it cannot be told), the card's size where it is known."""

    sheet: Sheet
    truth: Shape | None
    card_in: tuple[float, float] | None


@dataclass(frozen=True)
class Base:
    """A die placed on a sheet, with the lines of its bleed and its safe zone."""

    die: Die
    shape: Shape
    bleed: Outline
    safe: Outline
    left: float
    top: float
    wide: float
    high: float
    unit: str

    def sheet(self, *things: Drawn | Words) -> Sheet:
        """Returns the sheet with things on it."""
        wide, high = (math.ceil(side * 72) / 72 for side in (self.wide, self.high))
        return Sheet(wide, high, things, None, self.unit)  # whole points: some programs round up

    def made(self, told: Told, *things: Drawn | Words) -> Made:
        """Returns the sheet with this die as its truth."""
        card = (self.die.width_in, self.die.height_in) if told.card else None
        return Made(self.sheet(*things), self.shape, card)


SIZES = (
    (5.0, 7.0), (4.25, 5.5), (3.5, 4.875), (4.5, 6.25), (5.25, 5.25), (5.5, 8.5),
    (105 / 25.4, 148 / 25.4), (148 / 25.4, 210 / 25.4), (120 / 25.4, 170 / 25.4), (7.0, 5.0),
)  # fmt: skip
FAMILIES = (
    "rectangle", "rounded-corner", "round-arch", "scalloped-edge", "ticket-corner", "ellipse",
    "ogee-arch", "superellipse", "wavy-edge",
)  # fmt: skip
_DISTANCES = {"in": (1 / 8, 1 / 16, 3 / 16), "mm": (3 / 25.4, 2 / 25.4, 5 / 25.4)}
LANGUAGES = {
    "en": ("Cut line", "Bleed", "Safe area"),
    "de": ("Stanzlinie", "Beschnittzugabe", "Sicherheitsabstand"),
    "fr": ("Ligne de coupe", "Fond perdu", "Zone de sécurité"),
    "it": ("Linea di taglio", "Abbondanza", "Area di sicurezza"),
    "es": ("Línea de corte", "Sangrado", "Zona segura"),
    "pt": ("Linha de corte", "Sangria", "Área de segurança"),
    "nl": ("Snijlijn", "Afloop", "Veiligheidsmarge"),
    "pl": ("Linia cięcia", "Spad", "Margines bezpieczeństwa"),
    "sv": ("Skärlinje", "Utfall", "Säkerhetsmarginal"),
    "cs": ("Linie výseku", "Spadávka", "Bezpečná zóna"),
}
COLOURS = ("red", "magenta", "blue", "cyan", "green", "orange", "black", "purple")


def base(chance: Random, families: tuple[str, ...] = FAMILIES, roomy: float = 1.6) -> Base:
    """Returns a die of a family and a size by chance, on a sheet with room round it."""
    wide, high = chance.choice(SIZES)
    die = family_die(chance.choice(families), wide, high)
    unit = "mm" if abs(wide * 25.4 - round(wide * 25.4)) < 1e-6 else "in"
    left, top = chance.choice((0.5, 0.75, 1.1, 1.3)), chance.choice((0.6, 0.9, 1.25))
    shape = placed(die.shape, left, top)
    out, inn = chance.choice(_DISTANCES[unit]), chance.choice(_DISTANCES[unit])
    bleed = grown(shape, out)
    if chance.random() < 0.3 and die.name != "ellipse":
        bleed = rectangle(left - out, top - out, wide + 2 * out, high + 2 * out)
    sheet = (wide + left + roomy, high + top + roomy)
    return Base(die, shape, bleed, grown(shape, -inn), left, top, *sheet, unit)


def family_die(family: str, wide: float, high: float) -> Die:
    """Returns a die of a family."""
    if family == "rectangle":
        return make_die("rectangle", wide, high)
    return make_die(family, wide, high)


def grown(shape: Shape, distance_in: float) -> Outline:
    """Returns the outline at a distance outside a shape, or inside where it is negative."""
    if len(shape.outer.segments) == 4 and distance_in > 0:
        box = shape.box.grown(distance_in)
        return rectangle(box.left, box.top, box.width, box.height)
    bare = Shape(shape.outer)
    flat = max(offset(bare, distance_in), key=lambda each: each.area).simplify(0.0003)
    return polygon_outline(*[(float(x), float(y)) for x, y in list(flat.exterior.coords)[:-1]])


def stroked(
    outline: Outline | Shape, colour: str, dashes: tuple[float, ...] = (), **more: object
) -> Drawn:
    """Returns an outline, or a shape with its holes, as a line."""
    outlines = outline.outlines if isinstance(outline, Shape) else (outline,)
    return replace(Drawn(courses(*outlines), stroke=colour, dashes_pt=dashes), **more)  # type: ignore[arg-type]


def three(chance: Random) -> tuple[str, str, str]:
    """Returns three colours by chance."""
    cut, bleed, safe = chance.sample(COLOURS, 3)
    return cut, bleed, safe


def drawn_legend(
    chance: Random, at: Base, looks: tuple[str, str, str], dashes: tuple[float, ...], skip: int = 9
) -> list[Drawn | Words]:
    """Returns a legend below a die, in a language by chance: a sample and a word for each line."""
    words = LANGUAGES[chance.choice(list(LANGUAGES))]
    y = at.top + at.die.height_in + 0.5
    things: list[Drawn | Words] = []
    for k, (said, look) in enumerate(zip(words, looks, strict=True)):
        if k == skip:
            continue
        row = y + 0.22 * k
        how = dashes if k else ()
        things.append(Drawn(line(at.left, row, at.left + 0.5, row), False, look, dashes_pt=how))
        things.append(Words(Point(at.left + 0.62, row + 0.04), said))
    return things
