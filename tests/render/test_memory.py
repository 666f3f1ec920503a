"""A picture is the same to the byte whether anything was remembered or not; memory is bounded."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import numpy as np
import pymupdf
import pytest

from mockup.render.flatlay import Shot, flatlay_picture
from mockup.render.light import light
from mockup.render.light.scene import Flat, LitScene, Material, Picture, Plane, Sheet
from mockup.render.memory import MEMORY, Memory, key_of, remembered
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite


@pytest.fixture(autouse=True)
def nothing_remembered() -> None:
    MEMORY.forget()


def square(left: float, top: float, side: float) -> tuple[np.ndarray, ...]:
    right, bottom = left + side, top + side
    return (np.array([(left, top), (right, top), (right, bottom), (left, bottom)], float),)


def three_cards(art: np.ndarray) -> LitScene:
    """A card with art over a plain one, and a plain one over both, each well above the other."""
    sheets = (
        Sheet(square(0.5, 0.5, 2.0), Flat((240, 238, 230)), Plane(0.0)),
        Sheet(square(1.6, 1.4, 1.5), Picture(art, 90, 80), Plane(0.12)),
        Sheet(square(2.6, 0.8, 1.2), Flat((30, 60, 90)), Plane(0.3), material=Material("cotton")),
    )
    return LitScene(4.5, 3.5, sheets)


def test_a_card_with_other_art_is_lit_as_if_for_the_first_time() -> None:
    """Its back is another colour too, so the light under it changes where it is not itself seen."""
    pale = np.full((110, 110, 3), 235, np.uint8)
    dark = np.random.default_rng(1).integers(0, 90, pale.shape, np.uint8)
    first = light(three_cards(pale), 60).copy()
    again = light(three_cards(dark), 60)
    back = light(three_cards(pale), 60)
    MEMORY.forget()
    fresh = light(three_cards(dark), 60)
    assert np.array_equal(again, fresh)
    assert np.array_equal(back, first)
    changed = (again != first).any(axis=2)
    outside = np.ones(changed.shape, bool)
    outside[80:190, 90:190] = False
    assert changed[outside].any()  # by way of its back


def test_another_shape_or_lamp_is_never_taken_for_the_same() -> None:
    art = np.full((110, 110, 3), 200, np.uint8)
    light(three_cards(art), 60)
    scene = three_cards(art)
    moved = replace(scene, sheets=(*scene.sheets[:2], replace(scene.sheets[2], plane=Plane(0.1))))
    found = light(moved, 60).copy()
    dimmer = replace(scene, window=replace(scene.window, azimuth_deg=200.0))
    turned = light(dimmer, 60).copy()
    MEMORY.forget()
    assert np.array_equal(found, light(moved, 60))
    MEMORY.forget()
    assert np.array_equal(turned, light(dimmer, 60))


def test_a_flatlay_with_one_art_changed_is_drawn_as_in_a_fresh_process(
    demo_suite: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "demo"
    shutil.copytree(demo_suite.parent, folder)

    def drawn() -> np.ndarray:
        suite = read_suite(folder / "suite.toml")
        scene = read_scene(suite.scene.name, folder)
        return flatlay_picture(Shot(suite, scene, 240, 4 / 3, suite.cut_line))

    first = drawn()
    assert np.array_equal(first, drawn())
    with pymupdf.open(demo_suite.parent / "reply.pdf") as document:
        page = document[0]
        page.draw_rect(page.rect, color=None, fill=(0.9, 0.4, 0.1), fill_opacity=0.4)
        document.save(folder / "changed.pdf")
    (folder / "changed.pdf").replace(folder / "reply.pdf")
    second = drawn()
    MEMORY.forget()
    assert np.array_equal(second, drawn())
    assert (second != first).any(axis=2).mean() > 0.02


def test_a_picture_handed_out_cannot_be_written_on() -> None:
    picture = light(three_cards(np.zeros((110, 110, 3), np.uint8)), 30)
    with pytest.raises(ValueError, match="read-only"):
        picture[0, 0] = 1


def test_memory_keeps_the_last_used_within_its_bytes() -> None:
    memory = Memory(3000)
    for name in "abc":
        memory.keep(name, np.zeros(1000, np.uint8))
    assert memory.recalled("a") is not None
    memory.keep("d", np.zeros(1000, np.uint8))
    assert memory.recalled("b") is None
    assert memory.recalled("a") is not None
    memory.keep("vast", np.zeros(3001, np.uint8))
    assert memory.recalled("vast") is None
    assert memory.used_bytes == 3000


def test_an_answer_kept_again_counts_once() -> None:
    memory = Memory(3000)
    for size in (1000, 2000, 500):
        memory.keep("a", np.zeros(size, np.uint8))
    assert memory.used_bytes == 500


def test_keys_tell_arrays_apart_by_what_is_in_them() -> None:
    one, same = np.arange(6), np.arange(6)
    assert key_of(Plane()) != key_of(Plane(1.0))
    assert key_of((one, "a")) == key_of((same, "a"))
    assert key_of(one) != key_of(one.reshape(2, 3))
    assert key_of(one) != key_of(one.astype(float))
    assert key_of(one) != key_of(one[::-1])


def test_a_mistake_is_not_remembered() -> None:
    def fails() -> int:
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        remembered("key", fails)
    assert remembered("key", lambda: 7) == 7
