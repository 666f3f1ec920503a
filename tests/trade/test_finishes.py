"""Finishes by the names of plates and layers, in ten languages, and what only sounds like one."""

import pytest

from mockup.trade.finishes import finish_named, finish_of_step

WHITES = (
    "White", "WHITE", "Opaque White", "white_ink", "WhiteInk", "Weiß", "Deckweiß", "Weiß deckend",
    "Blanc", "blanc couvrant", "Encre blanche", "Bianco", "bianco coprente", "inchiostro bianco",
    "Blanco", "tinta blanca", "Branco", "tinta branca", "Wit", "witte inkt", "dekwit", "Biały",
    "biała farba", "Vit", "täckvit", "vit färg", "Hvid", "dækhvid", "Bílá", "krycí bílá",
    "White 1", "White Underprint",
)  # fmt: skip
OTHERS = {
    "Gold foil": "foil",
    "Heißfolie": "foil",
    "Spot UV": "varnish",
    "Lack": "varnish",
    "Blind emboss": "emboss",
    "Deboss": "deboss",
    "Blind deboss": "deboss",
    b"Tiefpr\xe4gung".decode("utf-8", "surrogateescape"): "deboss",
    "Tiefprägung": "deboss",
    "débossage": "deboss",
    "rilievo a secco": "emboss",
    "Hochprägung": "emboss",
    "Letterpress green": "letterpress",
    "Buchdruck": "letterpress",
    "Heißfolie Kupfer": "foil",
    "Rose gold foil": "foil",
    "dorure à chaud": "foil",
    "Spot gloss": "varnish",
    "lakier wybiórczy": "varnish",
}
NONE = ("White gold", "Off White", "Whitecap birds", "Gold", "Snow", "silver white", "Cyan", "")


@pytest.mark.parametrize("name", WHITES)
def test_white_in_ten_languages(name: str) -> None:
    assert finish_named(name) == "white"


@pytest.mark.parametrize("name", OTHERS)
def test_other_finishes(name: str) -> None:
    assert finish_named(name) == OTHERS[name]


@pytest.mark.parametrize("name", NONE)
def test_what_only_sounds_like_a_finish(name: str) -> None:
    assert finish_named(name) is None


def test_processing_steps() -> None:
    """ISO 19593-1:2018; an area kept free of varnish is none."""
    assert finish_of_step("White") == "white"
    assert finish_of_step("Varnish") == "varnish"
    assert finish_of_step("Structural/FoilStamping") == "foil"
    assert finish_of_step("Structural/Debossing") == "deboss"
    assert finish_of_step("Structural/VarnishFree") is None
    assert finish_of_step("Structural/Cutting") is None
    assert finish_of_step(None) is None
