"""What sheets see of the light is found while their pages are drawn, and neither disturbs the other."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from mockup.errors import InputError
from mockup.progress import Forward, Progress, told
from mockup.render.light import light, lit_while
from mockup.render.light.finish import Coat, Press
from mockup.render.light.metal import foil
from mockup.render.light.scene import Flat, LitScene, Picture, Plane, Sheet
from mockup.render.memory import MEMORY

PPI = 40.0


@pytest.fixture(autouse=True)
def nothing_remembered() -> None:
    MEMORY.forget()


def square(left: float, top: float, side: float) -> tuple[np.ndarray, ...]:
    right, bottom = left + side, top + side
    return (np.array([(left, top), (right, top), (right, bottom), (left, bottom)], float),)


BARE = LitScene(
    3.0,
    2.5,
    (
        Sheet(square(0.4, 0.4, 1.4), Flat((240, 238, 230))),
        Sheet(square(1.2, 0.8, 1.2), Flat((250, 250, 250)), Plane(0.1)),
    ),
)


def finished() -> LitScene:
    """The same sheets with a picture on one and a foiled bar pressed into the other."""
    art = np.random.default_rng(3).integers(0, 255, (56, 56, 3), np.uint8)
    bar = np.zeros((48, 48), np.uint8)
    bar[20:28, 8:40] = 255
    printed = replace(BARE.sheets[0], art=Picture(art, 16, 16))
    foiled = replace(
        BARE.sheets[1],
        presses=(Press(bar, 48, 32, 0.002, 0.003),),
        coats=(Coat(bar, 48, 32, foil("gold")),),
    )
    return replace(BARE, sheets=(printed, foiled))


def test_drawn_meanwhile_is_the_same_as_drawn_before() -> None:
    before = light(finished(), PPI).copy()
    MEMORY.forget()
    assert np.array_equal(lit_while(BARE, PPI, lambda _: finished()), before)


def test_finishes_come_and_go_as_if_for_the_first_time() -> None:
    """What the bare sheets see is remembered; what is pressed into them or laid on them is not."""
    bare = light(BARE, PPI).copy()
    with_foil = light(finished(), PPI).copy()
    assert (with_foil != bare).any()
    assert np.array_equal(light(BARE, PPI), bare)
    assert np.array_equal(light(finished(), PPI), with_foil)


def test_art_that_cannot_be_drawn_ends_the_picture() -> None:
    def refused(_: Progress | None) -> LitScene:
        raise InputError("no such page")

    with pytest.raises(InputError, match="no such page"):
        lit_while(BARE, PPI, refused)


def test_progress_only_goes_forward() -> None:
    heard: list[float] = []

    def slow(progress: Progress | None) -> LitScene:
        for share in (0.2, 0.6, 1.0):
            told(progress, share)
        return finished()

    lit_while(BARE, PPI, slow, heard.append)
    assert heard == sorted(set(heard))
    assert heard[-1] == 1.0


def test_less_than_before_is_not_told() -> None:
    heard: list[float] = []
    forward = Forward(heard.append)
    for share in (0.1, 0.5, 0.3, 0.5, 0.9):
        forward(share)
    assert heard == [0.1, 0.5, 0.9]
    Forward(None)(0.4)  # nobody listens: nothing is told, and nothing breaks
