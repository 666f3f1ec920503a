"""Pages with a template's line or mark left in, in every manner that programs leave them."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import shapely
import shapely.affinity

from benchmarks.art.clean import hole_of, page
from benchmarks.art.scene import (
    BLACK,
    CREAM,
    CYAN,
    GREEN,
    INK,
    MAGENTA,
    RED,
    Scene,
    apart,
    box,
    circle,
    polyline,
    shifted,
    spot,
)
from mockup.checks.finding import Severity
from tests.checks.bench.case import Fault

Draw = Callable[[Random], tuple[Scene, list[Fault]]]
PRIMARIES = (CYAN, MAGENTA, RED, GREEN)
SHAPED = ("lancet-arch", "round-arch", "ogee-arch", "ellipse", "scalloped-edge", "ticket-corner")
EVERYWHERE = shapely.box(-9, -9, 19, 19)


def _line(scene: Scene, inside: float, moved=(0.0, 0.0)) -> shapely.Geometry:
    """Where a line runs that follows the die so far inside."""
    whole = (
        shapely.box(0, 0, scene.width, scene.height) if scene.die == "rectangle" else scene.polygon
    )
    course = whole.buffer(-inside, join_style="mitre" if scene.die == "rectangle" else "round")
    return shapely.affinity.translate(course.exterior, *moved)


def _told(
    scene: Scene, inside: float, least=Severity.STOP, moved=(0.0, 0.0), within=0.005
) -> list[Fault]:
    return [Fault("left-in", _line(scene, inside, moved), inside, within, least)]


def cut_line(colours, widths, dashes=((),), dies=("rectangle",)) -> Draw:
    """Returns a page with the cut line left in."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        die = random.choice(dies)
        scene = page(
            random, die=die, **({} if die == "rectangle" else {"width": 5.0, "height": 7.0})
        )
        scene.path(scene.outline(), stroke=random.choice(colours), width_pt=random.choice(widths),
                   dash=random.choice(dashes))  # fmt: skip
        return scene, _told(scene, 0.0)

    return draw


def out_of_register(dies) -> Draw:
    """Returns a page whose cut line is not where the die is, by 0.02 in."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene = page(random, die=random.choice(dies), width=5.0, height=7.0)
        moved = random.choice(
            ((0.02, 0.0), (0.0, 0.02), (-0.02, 0.0), (0.014, -0.014), (0.0, -0.02))
        )
        scene.path(shifted(scene.outline(), *moved), stroke=random.choice((*PRIMARIES, BLACK)),
                   width_pt=random.choice((0.25, 0.5, 1.0)))  # fmt: skip
        return scene, _told(scene, 0.0, moved=moved, within=0.021)

    return draw


def in_pieces(dies, colours=(*PRIMARIES, BLACK)) -> Draw:
    """Returns a page whose cut line is drawn as separate open lines."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene = page(random, die=random.choice(dies), width=5.0, height=7.0)
        colour, width = random.choice(colours), random.choice((0.25, 0.5, 1.0))
        for piece in apart(scene.outline(), random.choice((1, 2))):
            scene.path(piece, stroke=colour, width_pt=width)
        return scene, _told(scene, 0.0)

    return draw


def outline_of_a_line(random: Random) -> tuple[Scene, list[Fault]]:
    """The cut line turned into its outline: a thin filled ring."""
    scene = page(random, die=random.choice(("rectangle", "lancet-arch", "ellipse")))
    half = 0.5 / 72
    whole = scene.polygon
    join = "mitre" if scene.die == "rectangle" else "round"
    rings = [whole.buffer(out, join_style=join, quad_segs=32) for out in (half, -half)]
    outer, inner = ([*ring.exterior.coords][:-1] for ring in rings)
    scene.path(polyline(outer) + polyline(inner[::-1]), fill=random.choice((MAGENTA, BLACK)))
    return scene, _told(scene, 0.0)


def safe_line(colours, widths, dashes, label: str | None, dies=("rectangle",), least=Severity.STOP,
              margins=(0.125, 3 / 25.4, 0.25)) -> Draw:  # fmt: skip
    """Returns a page with the safe line left in, its label beside it or not."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        die = random.choice(dies)
        scene = page(
            random, die=die, **({} if die == "rectangle" else {"width": 5.0, "height": 7.0})
        )
        inside, colour = random.choice(margins), random.choice(colours)
        scene.path(scene.along(inside), stroke=colour, width_pt=random.choice(widths),
                   dash=random.choice(dashes))  # fmt: skip
        if label is not None:
            scene.text(scene.width * 0.35, scene.height - inside - 0.05, label, 6.5, colour)
        return scene, _told(scene, inside, least)

    return draw


def bleed_line(labelled: bool) -> Draw:
    """Returns a page with the bleed line left in."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene = page(random)
        out = random.choice((0.11, 0.12, 0.1))
        colour = random.choice((RED, CYAN, BLACK))
        scene.path(scene.rim(-out), stroke=colour, width_pt=0.5, dash=random.choice(((), (4, 3))))
        if labelled:
            scene.text(scene.width * 0.4, scene.height + 0.09, "bleed", 5.5, colour)
        return scene, _told(scene, -out)

    return draw


def whole_template(dies) -> Draw:
    """Returns a page with a template's three lines under the art, and their legend."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene = page(random, die=random.choice(dies), width=5.0, height=7.0)
        faults: list[Fault] = []
        rows = (
            (-0.115, CYAN, "bleed line"),
            (0.0, MAGENTA, "cut line"),
            (0.125, GREEN, "safe area"),
        )
        for k, (inside, colour, label) in enumerate(rows):
            scene.path(scene.along(inside), stroke=colour, width_pt=0.5,
                       dash=(4, 3) if inside > 0 else ())  # fmt: skip
            y = scene.height * 0.7 + 0.16 * k
            scene.path(polyline([(1.2, y), (1.6, y)], False), stroke=colour, width_pt=0.5)
            scene.text(1.7, y + 0.03, label, 6.5, BLACK)
            faults += _told(scene, inside)
        return scene, faults

    return draw


def hole_circle(random: Random) -> tuple[Scene, list[Fault]]:
    """The drill hole drawn where the die has it."""
    scene = Scene(2.5, 4.0, "tag")
    if random.random() < 0.5:
        scene = Scene(3.5, 5.0, hole=(1.75, 0.4, 0.125))
    scene.flood(CREAM)
    scene.title(INK)
    hole = hole_of(scene)
    assert hole is not None
    x, y, radius = hole
    scene.path(circle(x, y, radius), stroke=random.choice((MAGENTA, BLACK, CYAN)), width_pt=0.5)
    place = shapely.Point(x, y).buffer(radius).exterior
    return scene, [Fault("left-in", place, 0.0, least=Severity.STOP)]


def crop_marks(random: Random) -> tuple[Scene, list[Fault]]:
    scene = page(random)
    w, h, near, far = scene.width, scene.height, random.choice((0.03, 0.05, 0.07)), 0.12
    places = []
    for x in (0.0, w):
        for y0, y1 in ((-near, -far), (h + near, h + far)):
            scene.path(polyline([(x, y0), (x, y1)], False), stroke=BLACK, width_pt=0.25)
            places.append((x, y0))
    for y in (0.0, h):
        for x0, x1 in ((-near, -far), (w + near, w + far)):
            scene.path(polyline([(x0, y), (x1, y)], False), stroke=BLACK, width_pt=0.25)
            places.append((x0, y))
    return scene, [Fault("left-in", places, near, least=Severity.STOP)]


def layer(names, state="on") -> Draw:
    """Returns a page with a template's layer on it."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene, name = page(random), random.choice(names)
        scene.layers = {name: {"state": state}}
        inside = random.choice((0.0, 0.125))
        scene.path(
            scene.rim(inside), stroke=random.choice((MAGENTA, BLACK)), width_pt=0.5, layer=name
        )
        return scene, [Fault("left-in", _line(scene, inside).envelope, least=Severity.STOP)]

    return draw


def step(group: str, kind: str | None) -> Draw:
    """Returns a page with a processing step on it, by its group alone or with a type."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene = page(random)
        scene.layers = {"Layer 4": {"group": group, "type": kind}}
        scene.path(polyline([(1, 1), (2, 1)], False), stroke=BLACK, width_pt=0.5, layer="Layer 4")
        return scene, [Fault("left-in", (1.0, 1.0), least=Severity.NOTE)]

    return draw


def spot_line(random: Random) -> tuple[Scene, list[Fault]]:
    scene = page(random)
    name = random.choice(("CutContour", "Stanzlinie", "Die line", "Thru-cut", "Fustella", "Crease"))
    inside = 0.0 if name != "Crease" else 0.6
    scene.path(
        scene.rim(inside), stroke=spot(name, [0, 1, 0, 0]), width_pt=random.choice((0.5, 1.0))
    )
    return scene, [Fault("left-in", EVERYWHERE, least=Severity.STOP)]


def fold_line(random: Random) -> tuple[Scene, list[Fault]]:
    """A dashed fold across the card, with its word."""
    scene = page(random)
    y = scene.height * 0.35
    scene.path(polyline([(0, y), (scene.width, y)], False), stroke=random.choice((CYAN, BLACK)),
               width_pt=0.5, dash=(4, 3))  # fmt: skip
    scene.text(0.3, y - 0.04, random.choice(("fold line", "fold", "crease")), 6.5, BLACK)
    line = shapely.LineString([(0, y), (scene.width, y)])
    return scene, [Fault("left-in", line, least=Severity.WARN)]


def in_thin_fills(random: Random) -> tuple[Scene, list[Fault]]:
    """The cut line as four thin filled rectangles."""
    scene, colour, half = page(random), random.choice((MAGENTA, BLACK)), 0.25 / 72
    w, h = scene.width, scene.height
    for corners in ((0, 0, w, 0), (w, 0, w, h), (0, h, w, h), (0, 0, 0, h)):
        left, top, right, bottom = corners
        scene.path(box(left - half, top - half, right + half, bottom + half), fill=colour)
    return scene, _told(scene, 0.0)


def in_pieces_beside(random: Random) -> tuple[Scene, list[Fault]]:
    """The cut line as four lines, the whole of it out of register."""
    scene, colour = page(random), random.choice((*PRIMARIES, BLACK))
    moved = random.choice(((0.02, 0.01), (-0.02, 0.0), (0.0, 0.018)))
    for piece in apart(shifted(scene.outline(), *moved)):
        scene.path(piece, stroke=colour, width_pt=0.5)
    return scene, _told(scene, 0.0, moved=moved, within=0.025)


def safe_in_other_words(random: Random) -> tuple[Scene, list[Fault]]:
    """The safe line with its word in another language, its corners round or not."""
    scene, inside = page(random), random.choice((0.125, 3 / 25.4, 5 / 25.4))
    colour = random.choice((GREEN, BLACK, CYAN))
    said = random.choice(
        ("Sicherheitsabstand", "zone de sécurité", "área de seguridad", "3 mm safe")
    )
    scene.path(scene.rim(inside, random.choice((0.0, 0.1))), stroke=colour, width_pt=0.5,
               dash=random.choice(((), (4, 3))))  # fmt: skip
    scene.text(scene.width * 0.3, inside + 0.14, said, 6.5, BLACK)
    return scene, _told(scene, inside)


def hole_disc(random: Random) -> tuple[Scene, list[Fault]]:
    """The drill hole drawn as a disc where the die has it."""
    scene = Scene(3.5, 5.0, hole=(1.75, 0.45, random.choice((0.0625, 0.125))))
    scene.flood(CREAM)
    scene.title(INK)
    assert scene.hole is not None
    x, y, radius = scene.hole
    scene.path(circle(x, y, radius), fill=random.choice((MAGENTA, BLACK)))
    place = shapely.Point(x, y).buffer(radius).exterior
    return scene, [Fault("left-in", place, 0.0)]


def crop_marks_filled(random: Random) -> tuple[Scene, list[Fault]]:
    """Crop marks that were turned into thin fills, in the bleed."""
    scene, places, half = page(random), [], 0.125 / 72
    w, h, near, far = scene.width, scene.height, 0.04, 0.12
    for x in (0.0, w):
        for y0, y1 in ((-far, -near), (h + near, h + far)):
            scene.path(box(x - half, y0, x + half, y1), fill=BLACK)
            places.append((x, y1 if y1 < 0 else y0))
    for y in (0.0, h):
        for x0, x1 in ((-far, -near), (w + near, w + far)):
            scene.path(box(x0, y - half, x1, y + half), fill=BLACK)
            places.append((x1 if x1 < 0 else x0, y))
    return scene, [Fault("left-in", places, near, least=Severity.STOP)]


RECTANGLE = ("rectangle",)
LINES: dict[str, Draw] = {
    "cut-magenta": cut_line((MAGENTA, RED), (0.25, 0.5, 1.0)),
    "cut-black-hair": cut_line((BLACK,), (0.25, 0.3)),
    "cut-dashed": cut_line((BLACK, CYAN, MAGENTA), (0.5, 1.0), ((4, 3),)),
    "cut-shaped": cut_line((MAGENTA, BLACK, CYAN), (0.25, 0.5, 1.0), dies=SHAPED),
    "cut-shaped-dashed": cut_line((MAGENTA, BLACK), (0.5,), ((4, 3),), SHAPED),
    "cut-thick": cut_line((MAGENTA, RED, BLACK), (2.0, 2.5, 3.0)),
    "cut-thick-shaped": cut_line((MAGENTA, BLACK), (2.0, 2.5, 3.0), dies=SHAPED[:4]),
    "cut-out-of-register": out_of_register(RECTANGLE),
    "cut-out-of-register-shaped": out_of_register(SHAPED[:4]),
    "cut-in-pieces": in_pieces(RECTANGLE),
    "cut-in-pieces-shaped": in_pieces(SHAPED),
    "cut-as-outline": outline_of_a_line,
    "safe-dashed-labelled": safe_line(PRIMARIES, (0.5, 1.0), ((4, 3),), "safe zone"),
    "safe-solid-labelled": safe_line((GREEN, CYAN), (0.5, 1.0), ((),), "safe zone"),
    "safe-solid-labelled-shaped": safe_line(
        (GREEN,), (0.5,), ((),), "safe area", ("lancet-arch", "ellipse")
    ),
    "safe-dashed": safe_line((CYAN, MAGENTA), (0.5,), ((4, 3),), None, least=Severity.WARN),
    "safe-dashed-shaped": safe_line(
        (CYAN, MAGENTA), (0.5,), ((4, 3),), None, ("lancet-arch", "ellipse", "round-arch"),
        Severity.WARN,
    ),
    "bleed-line": bleed_line(False),
    "bleed-line-labelled": bleed_line(True),
    "whole-template": whole_template(RECTANGLE),
    "whole-template-shaped": whole_template(("lancet-arch", "ellipse", "scalloped-edge")),
    "hole-circle": hole_circle,
    "crop-marks-in-bleed": crop_marks,
    "layer-of-a-die": layer(("Dieline", "Stanzlinie", "CUT", "Template", "Trace de découpe")),
    "layer-hidden": layer(("Guides", "Safe zone", "Die"), "hidden"),
    "spot-line": spot_line,
    "step-without-type": step("Dimensions", None),
    "step-of-positions": step("Positions", "ContentArea"),
    "fold-labelled": fold_line,
    "cut-in-thin-fills": in_thin_fills,
    "cut-in-pieces-beside": in_pieces_beside,
    "safe-in-other-words": safe_in_other_words,
    "hole-disc": hole_disc,
    "crop-marks-filled": crop_marks_filled,
}  # fmt: skip
