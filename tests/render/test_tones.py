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
