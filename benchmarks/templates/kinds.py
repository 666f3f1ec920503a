"""Kinds of template as printers draw them, each a function of chance: a sheet, and its true cut."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from benchmarks.templates.bases import (
    FAMILIES,
    LANGUAGES,
    SIZES,
    Base,
    Made,
    Told,
    base,
    drawn_legend,
    family_die,
    grown,
    stroked,
    three,
)
from benchmarks.templates.sheet import Drawn, Sheet, Words, courses, line, placed, rectangle
from mockup.dies import make_die
from mockup.geometry.outline import Outline, circle_arc, polygon_outline
from mockup.geometry.point import Point


def nested_colours(chance: Random, told: Told) -> Made:
    """Three outlines, told apart by colour alone."""
    at, (cut, bleed, safe) = base(chance), three(chance)
    things = [stroked(at.bleed, bleed), stroked(at.shape, cut), stroked(at.safe, safe)]
    chance.shuffle(things)
    return at.made(told, *things)


def nested_dashes(chance: Random, told: Told) -> Made:
    """Three outlines in black, bleed and safe zone dashed."""
    at = base(chance)
    return at.made(
        told,
        stroked(at.bleed, "black", (6, 3)),
        stroked(at.shape, "black", width_pt=1.0),
        stroked(at.safe, "black", (2, 2)),
    )


def nested_all_black(chance: Random, told: Told) -> Made:
    """Three outlines that look alike."""
    at = base(chance)
    return at.made(told, *(stroked(each, "black") for each in (at.bleed, at.shape, at.safe)))


def legend(chance: Random, told: Told) -> Made:
    """Three outlines, and a legend below in a language by chance."""
    at, looks = base(chance), three(chance)
    dashes = chance.choice(((), (4.0, 3.0)))
    lines = (
        stroked(at.shape, looks[0]),
        stroked(at.bleed, looks[1], dashes),
        stroked(at.safe, looks[2], dashes),
    )
    return at.made(told, *lines, *drawn_legend(chance, at, looks, dashes))


def legend_two(chance: Random, told: Told) -> Made:
    """Cut and safe zone only, told by a legend."""
    at, looks = base(chance), three(chance)
    lines = (stroked(at.shape, looks[0]), stroked(at.safe, looks[2]))
    return at.made(told, *lines, *drawn_legend(chance, at, looks, (), skip=1))


def legend_words(chance: Random, told: Told) -> Made:
    """Three outlines, and a sentence that names their colours."""
    at = base(chance)
    cut, bleed, safe = chance.sample(("red", "blue", "green", "magenta"), 3)
    y = at.top + at.die.height_in + 0.6
    said = (
        f"{cut.title()}: cut line",
        f"{bleed.title()}: bleed line",
        f"{safe.title()}: safe zone",
    )
    words = [Words(Point(at.left, y + 0.2 * k), each) for k, each in enumerate(said)]
    return at.made(
        told, stroked(at.bleed, bleed), stroked(at.shape, cut), stroked(at.safe, safe), *words
    )


def named_layers(chance: Random, told: Told) -> Made:
    """Three outlines on layers named in a language by chance."""
    at, (cut, bleed, safe) = base(chance), three(chance)
    names = LANGUAGES[chance.choice(list(LANGUAGES))]
    return at.made(
        told,
        stroked(at.bleed, bleed, layer=names[1]),
        stroked(at.shape, cut, layer=names[0]),
        stroked(at.safe, safe, layer=names[2]),
    )


def spots(chance: Random, told: Told) -> Made:
    """Cut and bleed in spot inks."""
    at = base(chance)
    ink = chance.choice(("CutContour", "Dieline", "Stanze", "Fustella", "Troquel"))
    return at.made(
        told,
        stroked(at.bleed, "cyan", spot="Bleed"),
        stroked(at.shape, "magenta", spot=ink),
        stroked(rectangle(at.left + 0.5, at.top + 0.6, 1.5, 1.0), "black"),
    )


def crop_marks(chance: Random, told: Told) -> Made:
    """Cut, bleed and crop marks, in one colour."""
    at = base(chance, ("rectangle", "rounded-corner", "round-arch"))
    box, things = at.shape.box, [stroked(at.shape, "black"), stroked(at.bleed, "black")]
    for x in (box.left, box.right):
        for y in (box.top, box.bottom):
            out_x, out_y = (-1 if x == box.left else 1), (-1 if y == box.top else 1)
            level = line(x + out_x * 0.25, y, x + out_x * 0.5, y)
            upright = line(x, y + out_y * 0.25, x, y + out_y * 0.5)
            things += [Drawn(mark, False, "black", width_pt=0.5) for mark in (level, upright)]
    return at.made(told, *things)


def page_boxes(chance: Random, told: Told) -> Made:
    """Three outlines alike, and a TrimBox."""
    at = base(chance)
    box = at.shape.box
    made = at.made(told, *(stroked(each, "black") for each in (at.bleed, at.shape, at.safe)))
    return replace(made, sheet=replace(made.sheet, trim=tuple(box)))


def filled(chance: Random, told: Told) -> Made:
    """The die as a filled shape without a line, on a ground of its own or none."""
    at = base(chance)
    things = [Drawn(courses(*at.shape.outlines), fill=chance.choice(("paper", "white", "grey")))]
    if chance.random() < 0.5:
        things.insert(0, Drawn(courses(rectangle(0, 0, at.wide, at.high)), fill="cyan"))
    return at.made(told, *things)


def page_filling(chance: Random, told: Told) -> Made:
    """A rectangle as large as the page, and nothing beside it."""
    wide, high = chance.choice(SIZES)
    die = make_die("rectangle", wide, high)
    how = chance.choice(
        ({"stroke": "red"}, {"fill": "paper"}, {"stroke": "black", "fill": "white"})
    )
    sheet = Sheet(wide, high, (Drawn(courses(die.shape.outer), **how),))
    return Made(sheet, die.shape, (wide, high) if told.card else None)


def drafted(chance: Random, told: Told) -> Made:
    """Every segment a line of its own, ends rounded, beside a frame."""
    at = base(chance, ("ticket-corner", "rounded-corner", "rectangle", "round-arch"))
    things: list[Drawn | Words] = []
    for course in courses(at.shape.outer):
        things += [Drawn(((part,),), False, "black", width_pt=0.35) for part in course]
    chance.shuffle(things)
    if chance.random() < 0.5:
        things.append(stroked(at.bleed, "cyan"))
    return at.made(told, *things)


def two_sizes(chance: Random, told: Told) -> Made:
    """Two dies on a page; the card's size says which, or nothing does."""
    at = base(chance, roomy=1.0)
    other = placed(
        family_die(chance.choice(FAMILIES), 3.5, 4.25).shape,
        at.left + at.die.width_in + 0.6,
        at.top,
    )
    sheet = replace(at, wide=at.wide + 4.5).sheet(stroked(at.shape, "red"), stroked(other, "red"))
    if not told.card:
        return Made(sheet, None, None)
    return Made(sheet, at.shape, (at.die.width_in, at.die.height_in))


def twins(chance: Random, told: Told) -> Made:
    """Two dies of one size on a page: nothing says which."""
    at = base(chance, roomy=1.0)
    other = placed(at.shape, at.die.width_in + 0.5, 0)
    sheet = replace(at, wide=at.wide + at.die.width_in + 0.5).sheet(
        stroked(at.shape, "black"), stroked(other, "black")
    )
    return Made(sheet, None, (at.die.width_in, at.die.height_in) if told.card else None)


def folded(chance: Random, told: Told) -> Made:
    """A card with a fold across it, dashed in another colour or named."""
    at = base(chance, ("rectangle", "rounded-corner", "ticket-corner"))
    middle = at.top + at.die.height_in / 2
    beyond = chance.choice((0.0, 0.2))
    fold = line(at.left - beyond, middle, at.left + at.die.width_in + beyond, middle)
    name = chance.choice((None, "Fold", "Falz"))
    drawn = Drawn(fold, False, "green", dashes_pt=(4, 2), layer=name)
    return at.made(
        told, stroked(at.bleed, "cyan"), stroked(at.shape, "red"), stroked(at.safe, "blue"), drawn
    )


def measured(chance: Random, told: Told) -> Made:
    """A cut and a safe zone, with dimension lines, arrows, and a title."""
    at = base(chance)
    box = at.shape.box
    arrow = polygon_outline(
        (box.left, box.bottom + 0.3),
        (box.left + 0.1, box.bottom + 0.27),
        (box.left + 0.1, box.bottom + 0.33),
    )
    scale, unit = (25.4, "mm") if at.unit == "mm" else (1.0, "in")
    figures = f"{at.die.width_in * scale:g} x {at.die.height_in * scale:g} {unit}"
    return at.made(
        told,
        stroked(at.shape, "magenta"),
        stroked(at.safe, "green", (3, 2)),
        Drawn(
            line(box.left, box.bottom + 0.3, box.right, box.bottom + 0.3),
            False,
            "grey",
            width_pt=0.35,
        ),
        Drawn(courses(arrow), fill="grey"),
        Words(Point(box.left + 1, box.bottom + 0.25), f"{at.die.width_in * scale:g} {unit}", 7),
        Words(Point(box.left, box.top - 0.3), f"Finished size {figures}", 10),
    )


def hidden_layers(chance: Random, told: Told) -> Made:
    """A cut that is seen, and an older one on a layer that is switched off."""
    at = base(chance)
    old = rectangle(at.left - 0.2, at.top - 0.2, 4.0, 5.0)
    return at.made(
        told,
        stroked(old, "red", layer="Die cut old", hidden=True),
        stroked(at.shape, "red", layer="Layer 2"),
    )


def labelled(chance: Random, told: Told) -> Made:
    """Three outlines with type inside the die."""
    at, (cut, bleed, safe) = base(chance), three(chance)
    x, y = at.left + at.die.width_in * 0.3, at.top + at.die.height_in * 0.4
    return at.made(
        told,
        stroked(at.bleed, bleed),
        stroked(at.shape, cut),
        stroked(at.safe, safe),
        Words(Point(x, y), "FRONT", 18, "grey"),
        Words(Point(x, y + 0.4), "Keep all type inside the safe area", 7, safe),
        Words(Point(x, y + 0.6), "Artwork goes to the bleed", 7, bleed),
    )


def with_art(chance: Random, told: Told) -> Made:
    """A cut and its bleed with a design inside: a frame, a moon, a panel."""
    at = base(chance)
    x, y = at.left + at.die.width_in / 2, at.top + at.die.height_in / 2
    moon = Outline((circle_arc(Point(x, y), 0.7, 0, 180), circle_arc(Point(x, y), 0.7, 180, 180)))
    small = Outline(
        (circle_arc(Point(x + 0.2, y), 0.12, 0, 180), circle_arc(Point(x + 0.2, y), 0.12, 180, 180))
    )
    return at.made(
        told,
        stroked(at.bleed, "cyan"),
        stroked(at.shape, "magenta"),
        Drawn(courses(moon), fill="orange"),
        Drawn(courses(small), fill="purple"),
        Drawn(
            courses(rectangle(x - 1.2, y + 0.9, 2.4, 0.6)), stroke="black", fill="paper", width_pt=2
        ),
    )


def guided(chance: Random, told: Told) -> Made:
    """A cut over a grid of guides that runs over the whole page."""
    at = base(chance)
    things: list[Drawn | Words] = []
    for k in range(1, int(at.wide * 2)):
        things.append(Drawn(line(k / 2, 0, k / 2, at.high), False, "cyan", width_pt=0.25))
    for k in range(1, int(at.high * 2)):
        things.append(Drawn(line(0, k / 2, at.wide, k / 2), False, "cyan", width_pt=0.25))
    return at.made(told, *things, stroked(at.shape, "red", width_pt=1.0))


def tag(chance: Random, told: Told) -> Made:
    """A tag with its hole, drawn together, apart, or on a layer of its own."""
    wide, high = chance.choice(((2.0, 3.5), (2.5, 4.0)))
    die = make_die("tag", wide, high)
    shape = placed(die.shape, 0.8, 0.9)
    at = Base(
        die,
        shape,
        grown(shape, 0.125),
        grown(shape, -0.125),
        0.8,
        0.9,
        wide + 2.2,
        high + 2.2,
        "in",
    )
    if chance.random() < 0.4:
        return at.made(told, stroked(at.bleed, "cyan"), stroked(shape, "magenta"))
    hole = chance.choice((None, "Drill holes", "Bohrung"))
    return at.made(
        told,
        stroked(at.bleed, "cyan"),
        stroked(shape.outer, "magenta", layer="Die line" if hole else None),
        stroked(shape.holes[0], "blue" if hole else "magenta", layer=hole),
    )


def sheet_frame(chance: Random, told: Told) -> Made:
    """A letter sheet with a frame round it, a title block and a die."""
    at = replace(
        base(chance, ("round-arch", "ticket-corner", "rounded-corner", "ogee-arch")),
        wide=11.0,
        high=17.0,
    )
    return at.made(
        told,
        stroked(rectangle(0.25, 0.25, 10.5, 16.5), "black"),
        stroked(rectangle(7.5, 15.5, 3.0, 1.0), "black"),
        stroked(at.shape, "red"),
        Words(Point(7.7, 15.9), "TEMPLATE 12 - card"),
    )


def bare_pair(chance: Random, told: Told) -> Made:
    """Two outlines one in the other that look alike, of no usual size: the card's size, or none."""
    wide, high = chance.choice(((4.6, 6.35), (5.1, 6.9), (3.8, 5.3)))
    die = family_die(chance.choice(("round-arch", "rounded-corner", "ticket-corner")), wide, high)
    shape = placed(die.shape, 1, 1)
    at = Base(
        die, shape, grown(shape, 0.125), grown(shape, -0.125), 1, 1, wide + 2.5, high + 2.5, "in"
    )
    other = chance.choice((at.bleed, at.safe))
    made = at.made(told, stroked(shape, "black"), stroked(other, "black"))
    return made if told.card else replace(made, truth=None)


def other_size(chance: Random, told: Told) -> Made:
    """Three outlines, none of the size of the card that is asked for."""
    at = base(chance)
    made = at.made(
        told, stroked(at.bleed, "cyan"), stroked(at.shape, "red"), stroked(at.safe, "green")
    )
    return replace(made, truth=None, card_in=(at.die.width_in + 0.6, at.die.height_in - 0.4))
