"""More kinds of template: swatches, coloured labels, leaders, panels, windows, pages as bleed."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from benchmarks.templates.bases import (
    LANGUAGES,
    SIZES,
    Base,
    Made,
    Told,
    base,
    family_die,
    grown,
    stroked,
    three,
)
from benchmarks.templates.sheet import Drawn, Sheet, Words, courses, line, placed, rectangle
from mockup.dies import make_die
from mockup.geometry.outline import Outline, Shape, circle_arc
from mockup.geometry.point import Point


def fills(chance: Random, told: Told) -> Made:
    """Bleed, cut and safe zone as filled shapes on one another."""
    at, (cut, bleed, safe) = base(chance), chance.sample(("paper", "grey", "white", "cyan"), 3)
    layers = ((at.bleed, bleed), (at.shape.outer, cut), (at.safe, safe))
    return at.made(told, *(Drawn(courses(each), fill=colour) for each, colour in layers))


def swatches(chance: Random, told: Told) -> Made:
    """Three outlines, and a legend of filled swatches beside the die, labels to their left."""
    at, looks = base(chance, roomy=3.2), three(chance)
    words = LANGUAGES[chance.choice(list(LANGUAGES))]
    x, y = at.left + at.die.width_in + 0.4, at.top + 0.3
    things: list[Drawn | Words] = [
        stroked(at.shape, looks[0]),
        stroked(at.bleed, looks[1]),
        stroked(at.safe, looks[2]),
    ]
    for k, (said, look) in enumerate(zip(words, looks, strict=True)):
        row = y + 0.3 * k
        things.append(Drawn(courses(rectangle(x, row, 0.25, 0.15)), fill=look))
        things.append(Words(Point(x + 0.35, row + 0.12), said))
    return at.made(told, *things)


def coloured_labels(chance: Random, told: Told) -> Made:
    """Three outlines, each named by type in its own colour below the die."""
    at, looks = base(chance), chance.sample(("red", "magenta", "blue", "green", "orange"), 3)
    words = LANGUAGES[chance.choice(list(LANGUAGES))]
    y = at.top + at.die.height_in + 0.6
    lines = (stroked(at.shape, looks[0]), stroked(at.bleed, looks[1]), stroked(at.safe, looks[2]))
    labels = [
        Words(Point(at.left, y + 0.25 * k), said, 9, look)
        for k, (said, look) in enumerate(zip(words, looks, strict=True))
    ]
    return at.made(told, *lines, *labels)


def leaders(chance: Random, told: Told) -> Made:
    """Two outlines alike, each with a label and a line that leads to it."""
    at = base(chance, ("rectangle", "rounded-corner", "round-arch"), roomy=3.0)
    words = LANGUAGES["en"]
    right = at.left + at.die.width_in
    x, y = right + 0.8, at.top + at.die.height_in * 0.6
    inner = at.safe.box.right
    return at.made(
        told,
        stroked(at.shape, "black"),
        stroked(at.safe, "black"),
        Drawn(line(x - 0.05, y, right, y), False, "grey", width_pt=0.4),
        Words(Point(x, y + 0.04), words[0]),
        Drawn(line(x - 0.05, y + 0.6, inner, y + 0.6), False, "grey", width_pt=0.4),
        Words(Point(x, y + 0.64), words[2]),
    )


def page_is_bleed(chance: Random, told: Told) -> Made:
    """A page as large as the bleed: cut and safe zone on it, the ground filled."""
    wide, high = chance.choice(SIZES)
    die = family_die(chance.choice(("rectangle", "rounded-corner", "round-arch")), wide, high)
    out = chance.choice((0.125, 3 / 25.4))
    shape = placed(die.shape, out, out)
    things = [
        Drawn(courses(rectangle(0, 0, wide + 2 * out, high + 2 * out)), fill="paper"),
        stroked(shape, "magenta"),
        stroked(grown(shape, -0.125), "cyan", (3, 2)),
    ]
    sheet = Sheet(wide + 2 * out, high + 2 * out, tuple(things))
    return Made(sheet, shape, (wide, high) if told.card else None)


def panels(chance: Random, told: Told) -> Made:
    """A card that is folded once: cut, fold, and a safe zone on either panel."""
    at = base(chance, ("rectangle", "rounded-corner"))
    box = at.shape.box
    middle = (box.left + box.right) / 2
    half = box.width / 2 - 0.25
    zones = [
        stroked(rectangle(left, box.top + 0.125, half, box.height - 0.25), "green", (2, 2))
        for left in (box.left + 0.125, middle + 0.125)
    ]
    fold = Drawn(line(middle, box.top, middle, box.bottom), False, "blue", dashes_pt=(6, 3))
    return at.made(told, stroked(at.bleed, "red"), stroked(at.shape, "black"), *zones, fold)


def two_up(chance: Random, told: Told) -> Made:
    """Two dies of different sizes, each with its own bleed and safe zone."""
    at, looks = base(chance, roomy=1.0), three(chance)
    other = family_die("rounded-corner", 3.5, 4.25)
    shape = placed(other.shape, at.left + at.die.width_in + 0.8, at.top)
    things = [
        stroked(outline, look)
        for each, bleed, safe in (
            (at.shape, at.bleed, at.safe),
            (shape, grown(shape, 0.125), grown(shape, -0.125)),
        )
        for outline, look in ((each, looks[0]), (bleed, looks[1]), (safe, looks[2]))
    ]
    made = replace(at, wide=at.wide + 4.6).made(told, *things)
    return made if told.card else replace(made, truth=None)


def windowed(chance: Random, told: Told) -> Made:
    """A card with a slot cut in it, on the layer of the cut; a frame for type on another."""
    at = base(chance, ("rounded-corner", "ticket-corner", "rectangle"))
    box = at.shape.box
    slot = rectangle(box.left + 1.0, box.top + 0.8, box.width - 2.0, 0.25)
    frame = rectangle(box.left + 0.6, box.top + 2.0, box.width - 1.2, box.height - 2.9)
    made = at.made(
        told,
        stroked(at.shape, "magenta", layer="CutContour"),
        stroked(slot, "magenta", layer="CutContour"),
        stroked(frame, "grey", layer="Text"),
    )
    return replace(made, truth=Shape(at.shape.outer, (slot,)))


def perforated(chance: Random, told: Told) -> Made:
    """A card with a strip to tear off, told by a legend."""
    at = base(chance, ("rectangle", "rounded-corner"))
    box = at.shape.box
    across = line(box.left, box.bottom - 1.5, box.right, box.bottom - 1.5)
    y = box.bottom + 0.5
    return at.made(
        told,
        stroked(at.shape, "red"),
        Drawn(across, False, "red", dashes_pt=(3, 3)),
        Drawn(line(box.left, y, box.left + 0.4, y), False, "red"),
        Words(Point(box.left + 0.5, y + 0.04), "Die cut"),
        Drawn(line(box.left, y + 0.3, box.left + 0.4, y + 0.3), False, "red", dashes_pt=(3, 3)),
        Words(Point(box.left + 0.5, y + 0.34), "Perforation"),
    )


def cased(chance: Random, told: Told) -> Made:
    """A cut drawn twice, white below its colour, on a tinted panel; an ornament in a circle."""
    at = base(chance)
    middle = at.shape.box.centre
    ring = Outline(
        (circle_arc(middle, 0.2, 0, 180), circle_arc(middle, 0.2, 180, 180)),
    )
    return at.made(
        told,
        Drawn(courses(rectangle(0.1, 0.1, at.wide - 0.2, at.high - 0.2)), fill="grey"),
        stroked(at.shape, "white", width_pt=3.0),
        stroked(at.shape, "magenta"),
        stroked(ring, "black", width_pt=1.5),
    )


def square_trim(chance: Random, told: Told) -> Made:
    """A shaped cut within the rectangle of its trimmed size, and a rectangle of bleed."""
    at = base(chance, ("round-arch", "ogee-arch", "ticket-corner", "ellipse"))
    box = at.shape.box
    outer = box.grown(0.125)
    return at.made(
        told,
        stroked(rectangle(outer.left, outer.top, outer.width, outer.height), "cyan"),
        stroked(rectangle(box.left, box.top, box.width, box.height), "grey", (2, 2)),
        stroked(at.shape, "red"),
    )


def round_card(chance: Random, told: Told) -> Made:
    """A round die in the three lines of its template."""
    wide = chance.choice((4.0, 5.0, 6.0, 120 / 25.4))
    die = make_die("circle", wide, wide)
    shape = placed(die.shape, 1.0, 1.0)
    at = Base(
        die, shape, grown(shape, 0.125), grown(shape, -0.125), 1, 1, wide + 2.5, wide + 2.5, "in"
    )
    cut, bleed, safe = three(chance)
    return at.made(told, stroked(at.safe, safe), stroked(at.shape, cut), stroked(at.bleed, bleed))
