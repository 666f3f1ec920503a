"""A stock's measured colour, swatch and press in a suite file."""

import shutil
from pathlib import Path

import pytest

from mockup.colour.press import COATED, UNCOATED
from mockup.errors import SuiteError
from mockup.suite.reading import read_suite
from mockup.suite.suite import Piece, Suite

STOCK = 'stock = "smooth-120-white"'
SWATCH = (
    "swatch = { paper = [62, 8, 22], cyan = [40, -20, -10], magenta = [38, 45, 15], "
    "yellow = [58, 8, 55], black = [18, 1, 2], condition = 'M1', backing = 'black' }"
)


def with_stock(suite: Path, inside: str) -> Suite:
    text = suite.read_text().replace(STOCK, f"stock = {{ gsm = 300, {inside} }}", 1)
    suite.write_text(text)
    return read_suite(suite)


def details(suite: Path, inside: str) -> Piece:
    return with_stock(suite, inside).piece("details")


def test_a_colour_measured(demo_suite: Path) -> None:
    """Kraft's placeholder, CIELAB 62, 8, 22, is sRGB ae906f."""
    inside = 'colour = { lab = [62, 8, 22], condition = "M1", backing = "black" }'
    stock = details(demo_suite, inside).stock
    assert stock.colour_hex in ("#ae906f", "#ae906e", "#ad906f")
    assert stock.colour_source == "measured: CIELAB 62, 8, 22 (M1, black backing)"


def test_what_is_not_said_of_a_measurement_is_told(demo_suite: Path) -> None:
    told = details(demo_suite, "colour = { lab = [62, 8.5, 22] }").stock.colour_source
    assert told == "measured: CIELAB 62, 8.5, 22 (condition not said, backing not said)"


def test_a_swatch_tells_the_papers_colour(demo_suite: Path) -> None:
    piece = details(demo_suite, SWATCH)
    assert piece.stock.colour_hex == "#ae906f"
    assert piece.art.swatch == piece.stock.swatch
    assert piece.stock.swatch is not None
    assert piece.stock.swatch.yellow == (58, 8, 55)


def test_a_colour_may_be_said_beside_its_swatch(demo_suite: Path) -> None:
    assert details(demo_suite, f'colour = "#ae906f", {SWATCH}').stock.colour_hex == "#ae906f"


def test_a_stocks_press_goes_before_the_suites(demo_suite: Path) -> None:
    for name in ("ours.icc", "theirs.icc"):
        shutil.copy(COATED.profile, demo_suite.parent / name)
    demo_suite.write_text(demo_suite.read_text() + '\n[press]\nprofile = "theirs.icc"\n')
    suite = with_stock(demo_suite, 'press = "ours.icc"')
    pressed = {piece.name: piece.art.press for piece in suite.pieces}
    assert pressed["details"].profile.name == "ours.icc"
    assert pressed["details"].because == "the stock's press"
    assert pressed["invitation"].profile.name == "theirs.icc"


def test_without_a_press_of_its_own_a_stock_has_the_assumed(demo_suite: Path) -> None:
    suite = with_stock(demo_suite, "coated = true")
    pressed = {piece.name: piece.art.press for piece in suite.pieces}
    assert pressed["details"] == COATED
    assert pressed["invitation"] == UNCOATED


@pytest.mark.parametrize(
    ("inside", "key", "told"),
    [
        ("colour = { lab = [162, 8, 22] }", "colour.lab.1", "at most 100"),
        ("colour = { lab = [62, 8] }", "colour.lab.3", "missing"),
        ('colour = { lab = "62, 8, 22" }', "colour.lab", "list"),
        ("colour = { lab = [62, 8, 22], condition = 'M7' }", "colour.condition", "M0"),
        ("colour = { lab = [62, 8, 22], backing = 'grey' }", "colour.backing", "black"),
        ("colour = { hex = '#ae906f' }", "colour.hex", "hex"),
        ("swatch = { paper = [62, 8, 22] }", "swatch.cyan", "missing"),
        (SWATCH.replace("[18, 1, 2]", "[88, 1, 2]"), "swatch.black", "lighter than its paper"),
        (f"colour = 'white', {SWATCH}", "colour", "leave it out"),
        ("press = 'none.icc'", "press", "no file"),
        ("press = 'reply.pdf'", "press", "no ICC profile"),
    ],
)
def test_a_mistake_is_told_with_its_key(demo_suite: Path, inside: str, key: str, told: str) -> None:
    with pytest.raises(SuiteError) as caught:
        with_stock(demo_suite, inside)
    found = {each.key: str(each) for each in caught.value.mistakes}
    assert f"pieces.details.stock.{key}" in found, found
    assert told in found[f"pieces.details.stock.{key}"]
    assert str(demo_suite) in found[f"pieces.details.stock.{key}"]
