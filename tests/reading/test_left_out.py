"""What a client's picture leaves out: only what is surely a template's; nothing on a guess."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from mockup.artwork.inspection import Inspection, Layer, Lettering, Painted, Pen
from mockup.dies import make_die
from mockup.geometry.point import Box
from mockup.reading import page as reading_page
from mockup.reading.die_zones import DieZones
from mockup.reading.left_out import surely_a_templates
from mockup.reading.page import left_out as left_out_of
from mockup.reading.template_lines import find_template_lines
from tests.checks.bench.case import Case, die_polygon
from tests.checks.bench.sheet import BLACK, CREAM, INK, Sheet

MAGENTA = (0.0, 1.0, 0.0, 0.0)
LONG = [(1.0, 1.0), (4.0, 1.0)]
ART = 2  # the ground and one outlined letter are painted first


def left_out(draw: Callable[[Sheet], object], folder: Path, **case) -> frozenset[int]:
    """Returns the numbers left out of a page that has a ground, a letter, and what is drawn."""
    made = Case("page", draw, **case)
    sheet = Sheet(*made.size, **made.sheet)
    sheet.flood(CREAM)
    sheet.outlined(2.0, 4.0, "S", 40, INK)
    draw(sheet)
    marks = left_out_of(made.piece(sheet.save(folder / "page.pdf")))
    return frozenset(mark.painted.number for mark in marks)


def on_layer(name: str, draw: Callable[[Sheet], object], step: str | None = None):
    def drawn(sheet: Sheet) -> None:
        sheet.begin_layer(name, step=step)
        draw(sheet)
        sheet.end_layer()

    return drawn


def hairline(sheet: Sheet) -> None:
    sheet.line(LONG, 0.5, MAGENTA)


def leaf(sheet: Sheet) -> None:
    sheet.polygon([(1, 1), (2, 0.8), (2.5, 1.6), (1.4, 2)], INK)


def outlined_line(sheet: Sheet) -> None:
    """A stroke of 1 pt round a box, turned into its outline."""
    thin = 1 / 72
    sheet.polygon([(1, 1), (4, 1), (4, 1 + thin), (1, 1 + thin)], MAGENTA)


def around(out_in: float, width_pt: float, dash: str = "", die: str = "rectangle", colour=MAGENTA):
    def drawn(sheet: Sheet) -> None:
        whole = die_polygon(Case("", drawn, (sheet.width, sheet.height), die))
        points = np.asarray(whole.buffer(out_in, join_style="mitre").exterior.coords)[:-1]
        sheet.line(points, width_pt, colour, dash, closed=True)

    return drawn


LEFT_OUT = {
    "a line on a die's layer": on_layer("CutContour", hairline),
    "a line on a layer of guides": on_layer("Guides", hairline),
    "a fold in another language": on_layer("Rillung", hairline),
    "a line in a spot of that name": lambda s: s.line(LONG, 1, "Stanzform"),
    "a drill hole's ring": on_layer("Drill holes", lambda s: s.line(_ring(0.1), 0.5, BLACK)),
    "a line turned into its outline": on_layer("Dieline", outlined_line),
    "a processing step, whatever it paints": on_layer("Layer 3", leaf, step="Cutting"),
    "a cut line on the die": around(0.0, 0.5),
    "a cut line on an arch": around(0.0, 0.5, die="lancet-arch"),
    "a dashed cut line on an ellipse": around(0.0, 1.0, "3 2", die="ellipse"),
    "a bleed line alone on its layer": on_layer("Bleed", hairline),
    "a fine cut line in black": around(0.0, 0.25, colour=BLACK),
    "a step that has no types": on_layer("Layer 3", hairline, step="/Legend"),
}  # fmt: skip
KEPT = {
    "a drawing on a layer with a die's name": on_layer("Die cut", leaf),
    "a line on a layer of cut paper flowers": on_layer("Cut paper flowers", hairline),
    "a line in safety orange": lambda s: s.line(LONG, 1, "Safety Orange"),
    "a drawing in a spot called Cut": lambda s: s.polygon(_ring(0.8), "Cut"),
    "a border in a spot called Die": lambda s: s.line(_ring(0.8), 6, "Die"),
    "a dashed border at 1/8 in": around(-0.125, 1.0, "3 2"),
    "a hairline border in a pure primary": around(-0.125, 0.25),
    "a line at the end of the bleed": around(0.11, 0.5),
    "a gold border on the cut, thick": around(0.0, 6.0),
    "foil on its layer": on_layer("Gold foil", hairline),
    "a map's legend": on_layer("Legend", hairline),
    "art that lies on a layer called Bleed": on_layer("Bleed", lambda s: (leaf(s), hairline(s))),
    "art that lies on a layer called Safe": on_layer("Safe", lambda s: (leaf(s), hairline(s))),
    "art without a name": hairline,
    "a black line of 1 pt on the cut, which a border may be": around(0.0, 1.0, colour=BLACK),
    "a thick line on the edge of an arch": around(0.0, 3.0, die="lancet-arch"),
    "foil, which is printed, as a processing step": on_layer("F", leaf, step="FoilStamping"),
    "white ink as a processing step": on_layer("W", leaf, step="/White"),
    "a disc where nothing is drilled": lambda s: s.polygon(_ring(0.1), BLACK),
}


def _ring(radius_in: float) -> np.ndarray:
    angle = np.linspace(0, 2 * np.pi, 60, endpoint=False)
    return np.stack([2.5 + radius_in * np.cos(angle), 2 + radius_in * np.sin(angle)], axis=1)


def _die_of(name: str) -> str:
    return "lancet-arch" if "arch" in name else "ellipse" if "ellipse" in name else "rectangle"


@pytest.mark.parametrize("name", LEFT_OUT)
def test_what_is_surely_a_template_s_is_left_out(name, tmp_path):
    numbers = left_out(LEFT_OUT[name], tmp_path, die=_die_of(name))
    assert len(numbers) == 1
    assert min(numbers) >= ART


@pytest.mark.parametrize("name", KEPT)
def test_what_may_be_art_is_shown(name, tmp_path):
    assert left_out(KEPT[name], tmp_path, die=_die_of(name)) == frozenset()


@pytest.mark.parametrize(
    ("layer", "text", "gone"),
    [
        ("Dieline", "cut line", True),
        ("Guides", "3 mm bleed", True),
        ("Dimensions", "127 mm", True),
        ("Legend", "fold line", False),  # a map may have one; no layer of that name is believed
        ("Guides", "The Tide Mill Supper", False),
        ("Safe", "Kindly reply by 4 June", False),
        ("Text", "cut line", False),
    ],
)
def test_type_is_left_out_where_it_names_a_line_or_is_a_measure(layer, text, gone):
    lettering = Lettering(text, "Serif", 8, True)
    said = Painted("type", Box(1, 1, 2, 1.1), (), (), False, None, 1, layer, 0, None, lettering,
                   number=7)  # fmt: skip
    assert surely(said) == (frozenset((7,)) if gone else frozenset())


def test_a_line_stays_where_type_lies_on_the_safe_zones_layer():
    """Designers lay their type on a layer called after the zone it has to keep to."""
    ring = np.array([(1.0, 1.2), (2.0, 1.2)])
    box, pen = Box(1, 1.2, 2, 1.2), Pen(0.5 / 72)
    rule = Painted("path", box, (ring,), (False,), False, None, 1, "Safe", 0, pen, number=6)
    lettering = Lettering("Kindly reply by 4 June", "Serif", 8, True)
    said = Painted("type", box, (), (), False, None, 1, "Safe", 0, None, lettering, number=7)
    assert surely(rule) == frozenset((6,))
    assert surely(rule, said) == frozenset()


def surely(*painted: Painted) -> frozenset[int]:
    layers = tuple({p.layer: Layer(str(p.layer), True, True) for p in painted}.values())
    inspection = Inspection(painted, (), (), (), layers, 1, ())
    zones = DieZones(make_die("rectangle", 5, 7).shape, 0.125, 0.125, Box(-0.2, -0.2, 5.2, 7.2))
    marks = surely_a_templates(find_template_lines(inspection, zones))
    return frozenset(mark.painted.number for mark in marks)


def test_a_die_is_not_looked_for_where_the_card_is_not_found(tmp_path):
    """A page of another size: the place of the card is a guess, and a line on it no evidence."""

    def draw(sheet: Sheet) -> None:
        sheet.line([(0, 0), (5, 0), (5, 7), (0, 7)], 0.5, MAGENTA, closed=True)
        sheet.line(LONG, 0.5, "CutContour")

    sheet = Sheet(5, 7, trim_box=False)
    sheet.flood(CREAM)
    draw(sheet)
    case = Case("page", draw, size=(5.0, 6.0))
    (mark,) = left_out_of(case.piece(sheet.save(tmp_path / "page.pdf")))
    assert mark.painted.number == 2
    assert mark.what == 'ink "CutContour"'


def test_nothing_is_drawn_for_it(tmp_path, monkeypatch):
    def refuse(*_: object) -> None:
        raise AssertionError("a picture was asked for")

    monkeypatch.setattr(reading_page, "rasterise", refuse)
    monkeypatch.setattr(reading_page, "ink_plates", refuse)
    assert len(left_out(on_layer("Die", hairline), tmp_path)) == 1


def test_a_line_goes_with_the_words_that_name_it(tmp_path):
    """The safe line, and the words beside it."""

    def draw(sheet: Sheet) -> None:
        around(-0.125, 1.0)(sheet)
        sheet.live_type(1.0, 6.95, "safe zone", 6.5, BLACK)

    made = Case("page", draw)
    sheet = Sheet()
    sheet.flood(CREAM)
    draw(sheet)
    marks = left_out_of(made.piece(sheet.save(tmp_path / "page.pdf")))
    assert [(mark.painted.kind, mark.what) for mark in marks] == [
        ("path", "safe line"), ("type", "safe line")
    ]  # fmt: skip
