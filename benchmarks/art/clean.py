"""Pages without a fault: borders of every kind, names that sound like a die's, ornaments that run
off, fonts that are listed and not used."""

from __future__ import annotations

import math
from collections.abc import Callable
from random import Random

import shapely

from benchmarks.art.scene import (
    ART,
    BLACK,
    CREAM,
    CYAN,
    INK,
    MAGENTA,
    PLUM,
    RED,
    RUST,
    WHITE,
    Scene,
    Steps,
    box,
    circle,
    polyline,
    spot,
)
from tests.checks.bench.case import die_polygon

Draw = Callable[[Random], Scene]
SIZES = ((5.0, 7.0), (4.25, 5.5), (3.5, 5.0), (4.1339, 5.8268), (5.5, 8.5), (6.0, 4.5))
DISTANCES = (0.125, 0.1875, 0.25, 3 / 25.4, 5 / 25.4)


def page(random: Random, colour=CREAM, **more) -> Scene:
    """Returns a card with its ground and a name in the middle."""
    width, height = random.choice(SIZES)
    scene = Scene(**{"width": width, "height": height, **more})
    if colour is not None:
        scene.flood(colour)
    scene.title(random.choice((INK, BLACK)))
    return scene


def border(colours, widths, dashes=((),), distances=DISTANCES, cap="butt", radius=(0.0,)) -> Draw:
    """Returns a page with one border."""

    def draw(random: Random) -> Scene:
        scene = page(random)
        course = scene.rim(random.choice(distances), random.choice(radius))
        dash, width = random.choice(dashes), random.choice(widths)
        scene.path(course, stroke=random.choice(colours), width_pt=width, dash=dash, cap=cap)
        return scene

    return draw


def double(random: Random) -> Scene:
    scene, colour = page(random), random.choice((*ART, CYAN, MAGENTA, BLACK))
    first = random.choice(DISTANCES)
    for inside, width in ((first, 1.5), (first + random.choice((0.04, 0.0625, 0.125)), 0.5)):
        scene.path(scene.rim(inside), stroke=colour, width_pt=width)
    return scene


def dashed_in_type_colour(random: Random) -> Scene:
    """A dashed border in a pure primary that the words on the card have too."""
    colour = random.choice((CYAN, MAGENTA, RED))
    width, height = random.choice(SIZES)
    scene = Scene(width, height)
    scene.title(colour)
    inside = random.choice((0.125, 0.25, 3 / 25.4))
    scene.path(scene.rim(inside), stroke=colour, width_pt=0.5, dash=(4, 3))
    return scene


def along_die(dies, colours, widths=(0.75, 1.0, 1.5), dashes=((),), scaled=False) -> Draw:
    """Returns a shaped card with a border that follows its die."""

    def draw(random: Random) -> Scene:
        scene = page(random, die=random.choice(dies), width=5.0, height=7.0)
        inside = random.choice((0.1, 0.125, 0.15, 0.1875, 0.2, 0.25, 0.3, 5 / 25.4))
        course = scene.along(inside)
        if scaled:
            course = _scaled(scene, inside)
        scene.path(course, stroke=random.choice(colours), width_pt=random.choice(widths),
                   dash=random.choice(dashes))  # fmt: skip
        return scene

    return draw


def _scaled(scene: Scene, inside: float) -> Steps:
    """A smaller copy of the die, as designers draw a border: no true offset."""
    k, m = 1 - 2 * inside / scene.width, 1 - 2 * inside / scene.height
    return [
        [step[0], *(inside + v * (m if i % 2 else k) for i, v in enumerate(step[1:]))]
        for step in scene.outline()
    ]


def plain(random: Random) -> Scene:
    scene = page(random)
    scene.text(scene.width * 0.3, scene.height * 0.7, "Fiddles in the grain loft", 10.0, BLACK)
    return scene


def words_of_the_trade(random: Random) -> Scene:
    """A border, and an invitation that speaks of cutting, trim and safety."""
    scene = page(random)
    scene.path(scene.rim(0.25), stroke=random.choice(ART), width_pt=0.75,
               dash=random.choice(((), (6, 3))))  # fmt: skip
    said = random.choice(
        ("We cut the cake at nine", "Safe harbour and a fold of wool",
         "Trim sails, no bleeding hearts", "Dress to the trim, mind the knife")
    )  # fmt: skip
    scene.text(scene.width * 0.22, scene.height - 0.55, said, 8.5, BLACK)
    return scene


def flowers(random: Random, scene: Scene, colour, layer=None) -> None:
    """Draws some petals, well inside."""
    for _ in range(6):
        x = random.uniform(0.6, scene.width - 0.6)
        y = random.choice((random.uniform(0.6, 1.4), scene.height - random.uniform(0.6, 1.4)))
        for k in range(5):
            a = 2 * math.pi * k / 5
            scene.path(circle(x + 0.12 * math.cos(a), y + 0.12 * math.sin(a), 0.08), fill=colour,
                       layer=layer)  # fmt: skip


def named_layer(random: Random) -> Scene:
    """Filled shapes on a layer whose name holds a word of the trade."""
    name = random.choice(
        ("Cut paper flowers", "Bleeding hearts", "Die Blumen", "Trim of lace", "Folded paper birds",
         "Cutwork", "Safety pins", "Guide dogs")
    )  # fmt: skip
    scene = page(random)
    scene.layers = {name: {}}
    flowers(random, scene, random.choice(ART), name)
    return scene


def named_zone(random: Random) -> Scene:
    """Filled shapes alone on a layer called Cut, Die or Bleed: a designer's name for her art."""
    name = random.choice(("Cut", "Die cuts", "Bleed", "Safe", "Trim"))
    scene = page(random)
    scene.layers = {name: {}}
    flowers(random, scene, random.choice(ART), name)
    return scene


def named_spot(random: Random) -> Scene:
    name, cmyk = random.choice(
        (("Safety Orange", [0, 0.6, 1, 0]), ("Cutwork lace", [0.1, 0.2, 0.1, 0]),
         ("Trim Teal", [0.8, 0.1, 0.4, 0.1]), ("Bleeding Heart Pink", [0, 0.7, 0.2, 0]),
         ("Gold foil", [0.1, 0.3, 0.8, 0.1]))
    )  # fmt: skip
    colour = spot(name, cmyk)
    scene = page(random)
    flowers(random, scene, colour)
    y, right = scene.height * 0.6, scene.width - 1.2
    scene.path(polyline([(1.2, y), (right, y)], False), stroke=colour, width_pt=1.0)
    return scene


def running_off(random: Random) -> Scene:
    """Large soft shapes and a band that run off to the end of the bleed."""
    scene = page(random)
    for _ in range(5):
        x, y = random.choice((0.0, scene.width)), random.uniform(0.4, scene.height - 0.4)
        scene.path(circle(x, y, random.uniform(0.3, 0.5)), fill=random.choice((RUST, MOSS_TINT)))
    return scene


MOSS_TINT = {"cmyk": [0.25, 0.12, 0.35, 0.0]}


def pattern(random: Random) -> Scene:
    width, height = random.choice(SIZES)
    scene = Scene(width, height)
    pitch = random.choice((0.22, 0.3))
    for i in range(math.ceil((width + 0.4) / pitch)):
        for j in range(math.ceil((height + 0.4) / pitch)):
            scene.path(circle(i * pitch - 0.2, j * pitch - 0.2, pitch * 0.2), fill=MOSS_TINT)
    scene.title(BLACK)
    return scene


def photograph(random: Random) -> Scene:
    width, height = random.choice(SIZES[:4])
    scene = Scene(width, height)
    scene.image(-0.125, -0.125, width + 0.25, height + 0.25, 300, random.randrange(99))
    scene.title(WHITE)
    return scene


def stroked_ground(random: Random) -> Scene:
    """The ground drawn with a line of its own colour round it, as some programs do."""
    width, height = random.choice(SIZES)
    scene = Scene(width, height)
    colour = random.choice((CREAM, RUST))
    scene.path(scene.rim(-0.125), fill=colour, stroke=colour, width_pt=1.0)
    scene.title(INK)
    return scene


def panel(random: Random) -> Scene:
    """A filled panel with a line round it."""
    scene = page(random, RUST)
    scene.marks = scene.marks[:1]
    inside = random.choice((0.25, 0.3, 0.1875))
    scene.path(
        scene.rim(inside), fill=CREAM, stroke=random.choice((INK, CYAN, BLACK)), width_pt=0.75
    )
    scene.title(INK)
    return scene


def brackets(random: Random) -> Scene:
    """Corner ornaments of two lines each, a rule above and one below."""
    scene, colour = page(random), random.choice((*ART, BLACK, MAGENTA))
    d, long = random.choice((0.135, 0.2, 0.25)), random.uniform(0.3, 0.8)
    for x, sx in ((d, 1), (scene.width - d, -1)):
        for y, sy in ((d, 1), (scene.height - d, -1)):
            scene.path(polyline([(x + sx * long, y), (x, y), (x, y + sy * long)], False),
                       stroke=colour, width_pt=0.75)  # fmt: skip
    return scene


def border_in_pieces(random: Random) -> Scene:
    """A border of four lines, each by itself."""
    scene, colour = page(random), random.choice((*ART, BLACK, CYAN))
    d = random.choice((0.14, 0.1875, 0.25, 5 / 25.4))
    w, h = scene.width - d, scene.height - d
    corners = [(d, d), (w, d), (w, h), (d, h)]
    for k in range(4):
        scene.path(
            polyline([corners[k], corners[(k + 1) % 4]], False), stroke=colour, width_pt=0.75
        )
    return scene


def eyelet(random: Random) -> Scene:
    """A card with a gold ring round its hole."""
    scene = Scene(3.5, 5.0, hole=(1.75, 0.6, random.choice((0.0625, 0.125))))
    scene.flood(CREAM)
    hole = hole_of(scene)
    if hole is not None:
        x, y, radius = hole
        scene.path(circle(x, y, radius + random.choice((0.14, 0.16))),
                   stroke=random.choice((RUST, PLUM)), width_pt=1.0)  # fmt: skip
    scene.title(INK)
    return scene


def hole_of(scene: Scene) -> tuple[float, float, float] | None:
    """Returns the die's own hole: centre and radius."""
    holes = die_polygon(scene.case).interiors
    if not holes:
        return None
    middle = shapely.Polygon(holes[0]).centroid
    return middle.x, middle.y, float(middle.distance(holes[0]))


def marks_outside(random: Random) -> Scene:
    """Crop marks where they belong, on a page that has room for them."""
    scene = page(random, slug=0.375)
    w, h, near, far = scene.width, scene.height, 0.15, 0.4
    for x in (0.0, w):
        for y0, y1 in ((-far, -near), (h + near, h + far)):
            scene.path(polyline([(x, y0), (x, y1)], False), stroke=BLACK, width_pt=0.25)
    for y in (0.0, h):
        for x0, x1 in ((-far, -near), (w + near, w + far)):
            scene.path(polyline([(x0, y), (x1, y)], False), stroke=BLACK, width_pt=0.25)
    return scene


def bleeding_frame(random: Random) -> Scene:
    """A thick frame that runs off on all sides."""
    scene = page(random)
    scene.path(scene.rim(0.05), stroke=random.choice(ART), width_pt=0.4 * 72)
    return scene


def grid(random: Random) -> Scene:
    """Panels ruled in thin lines, none round the card."""
    scene, colour = page(random), random.choice(ART)
    for k in range(3):
        top = scene.height * (0.62 + 0.1 * k)
        scene.path(box(0.5, top, scene.width - 0.5, top + scene.height * 0.08), stroke=colour,
                   width_pt=0.5)  # fmt: skip
    return scene


def reply_lines(random: Random) -> Scene:
    """Dotted lines to write on, across the card."""
    scene = page(random)
    for k in range(3):
        y = scene.height * (0.65 + 0.08 * k)
        scene.path(polyline([(0.4, y), (scene.width - 0.4, y)], False), stroke=BLACK, width_pt=0.75,
                   dash=random.choice(((1, 2), (3, 2))))  # fmt: skip
    return scene


def concentric(random: Random) -> Scene:
    """Three lines that follow an arch, one in another, each in a colour of the art."""
    scene = page(random, die=random.choice(ARCHES), width=5.0, height=7.0)
    first, apart = random.choice((0.15, 0.2, 0.25)), random.choice((0.08, 0.1))
    for k in range(3):
        scene.path(scene.along(first + k * apart), stroke=random.choice(ART), width_pt=0.75)
    return scene


def dots_round(random: Random) -> Scene:
    """A border of small discs."""
    scene, colour = page(random), random.choice((*ART, CYAN))
    d, pitch = random.choice((0.16, 0.25)), 0.11
    across = int((scene.width - 2 * d) / pitch)
    down = int((scene.height - 2 * d) / pitch)
    for k in range(across + 1):
        for y in (d, scene.height - d):
            scene.path(circle(d + k * (scene.width - 2 * d) / across, y, 0.02), fill=colour)
    for k in range(1, down):
        for x in (d, scene.width - d):
            scene.path(circle(x, d + k * (scene.height - 2 * d) / down, 0.02), fill=colour)
    return scene


def arch_panel(random: Random) -> Scene:
    """An arched window, filled, with a line round it, on an arched card."""
    scene = page(random, RUST, die=random.choice(ARCHES), width=5.0, height=7.0)
    scene.marks = scene.marks[:1]
    course = scene.along(random.choice((0.25, 0.3, 0.1875)))
    scene.path(course, fill=CREAM, stroke=random.choice((INK, PLUM, BLACK)), width_pt=0.75)
    scene.title(INK)
    return scene


def framed_photograph(random: Random) -> Scene:
    """A photograph that runs off, and a thin white line in it."""
    width, height = random.choice(SIZES[:4])
    scene = Scene(width, height)
    scene.image(-0.125, -0.125, width + 0.25, height + 0.25, 300, random.randrange(99))
    scene.path(scene.rim(random.choice((0.1875, 0.25))), stroke=WHITE, width_pt=1.0)
    return scene


def menu(random: Random) -> Scene:
    """Headings of one word that the trade has too, a border, and lines of text."""
    scene = page(random)
    scene.marks = scene.marks[:1]
    scene.path(scene.rim(0.25), stroke=random.choice((*ART, BLACK)), width_pt=0.75)
    heads = random.sample(("Cold cuts", "Legend", "Fold of lamb", "Safe travels", "Glue & paper",
                           "Die Hochzeit", "Punch", "White", "Varnish Lane"), 3)  # fmt: skip
    for k, head in enumerate(heads):
        y = scene.height * (0.3 + 0.18 * k)
        scene.text(scene.width * 0.3, y, head, 12.0, INK)
        scene.text(scene.width * 0.3, y + 0.2, "with bread and butter", 8.5, BLACK)
    return scene


ARCHES = ("lancet-arch", "round-arch", "ogee-arch")
