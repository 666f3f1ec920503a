"""From plates to light: each finish its depth and its skin, a plate no larger than what is on it."""

import numpy as np
import pytest

from mockup.colour.plates import FinishPlate
from mockup.render.finishing import NOT_WORKED, worked
from mockup.render.light import metal
from mockup.trade.metals import TRUE_METALS, Metal


def plate() -> np.ndarray:
    made = np.zeros((20, 30), np.uint8)
    made[5:9, 7:20] = 255
    return made


def test_a_plate_is_cut_to_what_is_on_it_and_stays_in_its_place() -> None:
    (press,) = worked([FinishPlate("letterpress", plate())], 0.04, 100, 50).presses
    assert press.plate.shape == (4, 13) and press.plate.all()
    assert (press.left_px, press.top_px) == (107, 55)


def test_pressed_and_raised_go_either_way() -> None:
    done = worked([FinishPlate("deboss", plate()), FinishPlate("emboss", plate())], 0.04, 0, 0)
    sunk, raised = done.presses
    assert sunk.depth_in > 0 > raised.depth_in
    assert done.coats == ()


@pytest.mark.parametrize("caliper_in", [0.008, 0.02])
def test_no_paper_is_pressed_through(caliper_in: float) -> None:
    for finish in ("letterpress", "deboss", "emboss"):
        (press,) = worked([FinishPlate(finish, plate())], caliper_in, 0, 0).presses
        assert abs(press.depth_in) <= caliper_in / 2


def test_foil_is_stamped_by_the_plate_that_it_lies_on() -> None:
    done = worked([FinishPlate("foil", plate(), "copper")], 0.02, 0, 0)
    assert done.coats[0].skin == metal.foil("copper")
    assert done.presses[0].plate is done.coats[0].plate


def test_every_metal_has_a_skin_of_its_own() -> None:
    skins = {name: metal.foil(name) for name in TRUE_METALS}
    assert len(set(skins.values())) == len(TRUE_METALS)
    assert all(skin.body is None and not skin.clear for skin in skins.values())


@pytest.mark.parametrize(("finish", "said"), [("varnish", None), ("foil", "clear")])
def test_varnish_and_clear_foil_are_clear(finish, said: Metal | None) -> None:
    (coat,) = worked([FinishPlate(finish, plate(), said)], 0.02, 0, 0).coats
    assert coat.skin.clear


def test_foil_of_a_metal_nobody_says_is_silver() -> None:
    (coat,) = worked([FinishPlate("foil", plate())], 0.02, 0, 0).coats
    assert coat.skin == metal.foil("silver")


def test_a_plate_without_anything_on_it_and_white_ink_do_nothing() -> None:
    empty = FinishPlate("foil", np.zeros((5, 5), np.uint8), "gold")
    assert worked([empty, FinishPlate("white", plate())], 0.02, 0, 0) == NOT_WORKED
