"""Metals of foils by name, in ten languages."""

import pytest

from mockup.trade.metals import FLAT_HEX, METALS, metal_named

NAMES = {
    "Gold foil": "gold",
    "Goldfolie": "gold",
    "dorure à chaud or": "gold",
    "White gold foil": "gold",
    "Rose Gold": "rose-gold",
    "RoséGold Folie": "rose-gold",
    "Heißfolie Kupfer": "copper",
    "lámina cobre": "copper",
    "Silberfolie": "silver",
    "Srebrny": "silver",
    "sort folie": "black",
    "clear foil": "clear",
    "Foil": None,
    "Rose": None,
    "": None,
}


@pytest.mark.parametrize("name", NAMES)
def test_a_metal_by_its_name(name: str) -> None:
    assert metal_named(name) == NAMES[name]


def test_every_metal_but_the_clear_has_a_flat_colour() -> None:
    assert {*METALS} - {*FLAT_HEX} == {"clear"}
