"""A table kept apart from the paper on it: told, least, and never where the scene is hers."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.colour.difference import difference
from mockup.colour.lab import lab_of_xyz, xyz_of_rgb
from mockup.render.scenes import Scene, read_scene, scene_names
from mockup.render.tones import LEAST_DE00, set_apart
from mockup.shipped import shipped
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf

HERE = Path()
SUITE = read_suite(shipped("assets_demo") / "suite.toml")


def apart(first: tuple[int, int, int], second: tuple[int, int, int]) -> float:
    labs = (lab_of_xyz(xyz_of_rgb(each)) for each in (first, second))
    return float(difference(*labs))


def with_envelope(colour: tuple[int, int, int]) -> Suite:
    """The demo with its first envelope in another colour, and nothing else that is near it."""
    return replace(SUITE, envelopes=(replace(SUITE.envelopes[0], colour=colour),))


@pytest.mark.parametrize("name", scene_names())
def test_an_envelope_of_the_tables_own_colour_moves_the_table_by_the_least_step(name: str):
    scene = read_scene(name, HERE)
    own = scene.surface_colour
    moved, told = set_apart(scene, with_envelope(own))
    assert apart(moved.surface_colour, own) >= LEAST_DE00
    lightness = [float(lab_of_xyz(xyz_of_rgb(c))[0]) for c in (own, moved.surface_colour)]
    assert abs(lightness[0] - lightness[1]) < 9  # a step of L* 4 is 4 of dE00 at mid, 9 in whites
    assert moved.surface.rgb == moved.surface_colour
    assert len(told) == 1
    assert SUITE.envelopes[0].title in told[0]


def test_a_table_far_from_every_paper_is_left_alone():
    scene = read_scene("granary", HERE)
    assert set_apart(scene, with_envelope((40, 60, 120))) == (scene, ())


def test_a_scene_of_the_designers_own_is_never_changed(tmp_path: Path):
    (tmp_path / "mine").mkdir()
    table = '[surface]\nkind = "plaster"\ncolour = "#a97f68"\n'
    (tmp_path / "mine" / "scene.toml").write_text(table, encoding="utf-8")
    scene: Scene = read_scene("mine", tmp_path)
    assert set_apart(scene, with_envelope((0xA9, 0x7F, 0x68))) == (scene, ())
    assert scene.surface_colour == (0xA9, 0x7F, 0x68)


SLATE = read_scene("slate", HERE)


def flooded(folder: Path, colour: tuple[int, int, int], part: str, more: str = "") -> Suite:
    """A white card of which a part is printed in one sRGB colour; `part` is a PDF rectangle."""
    inks = " ".join(f"{channel / 255:.5f}" for channel in colour)
    make_pdf(folder / "card.pdf", (5.25, 7.25), f"{inks} rg {part} re f")
    stock = 'stock = { gsm = 300, colour = "#ffffff" }\n'
    text = f'title = "S"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n{stock}{more}'
    (folder / "suite.toml").write_text(text, encoding="utf-8")
    return read_suite(folder / "suite.toml")


FLOOD, MIDDLE, HALF = "0 0 378 522", "40 40 298 442", "0 0 378 230"


def test_a_flood_of_the_tables_own_colour_moves_the_table(tmp_path: Path):
    own = SLATE.surface_colour
    moved, told = set_apart(SLATE, flooded(tmp_path, own, FLOOD))
    assert apart(moved.surface_colour, own) >= LEAST_DE00 - 0.5  # as drawn it is a byte off
    (line,) = told
    assert "what is printed on Card has nearly that colour" in line


@pytest.mark.parametrize("part", [MIDDLE, HALF])
def test_print_that_most_of_the_edge_is_free_of_moves_nothing(tmp_path: Path, part: str):
    suite = flooded(tmp_path, SLATE.surface_colour, part)
    assert set_apart(SLATE, suite) == (SLATE, ())


def test_an_edge_in_three_colours_has_none_however_they_average(tmp_path: Path):
    """Between a darker and a lighter third the table's own colour is the middle one."""
    own = SLATE.surface_colour
    stripes = "0 0 378 160 re f 1 1 1 rg 0 330 378 192 re f 0 0 0 rg 0 160 378 170"
    assert set_apart(SLATE, flooded(tmp_path, own, stripes)) == (SLATE, ())


def test_paper_that_a_flood_hides_moves_nothing(tmp_path: Path):
    scene = read_scene("slate", HERE)
    suite = flooded(tmp_path, (0x8A, 0x2B, 0x1F), FLOOD)
    near = replace(scene, surface_colour=(255, 255, 255))
    assert set_apart(near, suite) == (near, ())


@pytest.mark.parametrize(("lies", "moves"), [("face", True), ("closed", False)])
def test_a_flood_on_an_envelope_counts_on_the_side_that_lies_up(
    tmp_path: Path, lies: str, moves: bool
):
    own = SLATE.surface_colour
    inks = " ".join(f"{channel / 255:.5f}" for channel in own)
    make_pdf(tmp_path / "face.pdf", (7.5, 5.5), f"{inks} rg 0 0 540 396 re f")
    envelope = (
        f'[envelopes.outer]\nsize = "A7"\ncolour = "#ffffff"\nface = "face.pdf"\nshown = "{lies}"\n'
    )
    suite = flooded(tmp_path, (0x8A, 0x2B, 0x1F), FLOOD, envelope)
    _, told = set_apart(SLATE, suite)
    assert bool(told) == moves
    assert all("printed on Outer envelope" in line for line in told)
