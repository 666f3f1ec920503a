"""At every key of every schema, absurd values are read soundly or refused at that very key."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest

from mockup.dies.families import FAMILIES
from mockup.errors import MockupError
from mockup.printers import catalogue
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite
from mockup.suite.scene_file import SceneFileTable
from mockup.suite.schema import SuiteTable
from mockup.suite.suite import Suite
from tests.conftest import make_pdf
from tests.quickly import quickly
from tests.tables.absurd import ABSURD, LONGEST, assert_told_at, changed, keys_of

SUITE = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "A7"
[envelopes.outer]
size = "A7"
holds = ["card"]
[[accept]]
check = "rgb"
piece = "card"
reason = "the printer takes RGB"
"""
SCENE = """
width_in = 20
[places.card]
at = [1, 2]
[[things]]
svg = "twine"
at = [0.5, 0.5]
"""
LAID_ON = """
[[things]]
svg = "twine"
where = "on"
on = "card"
at = [1, 2]
"""
CATALOGUE = """
name = "Groyne Cutters"
currency = "EUR"
[custom]
tool = 100
each = 0.3
[[dies]]
die = "ticket-corner"
cards = { A7 = 0.45 }
[[stocks]]
stock = "smooth-120-white"
each = 0.3
[[finishes]]
finish = "foil"
each = 0.3
[[envelopes]]
size = "A7"
each = 0.3
[drilling]
each = 0.1
[[never]]
dies = ["ticket-corner"]
stocks = ["smooth-120-white"]
over_mil = 20
"""
SUITE_KEYS = [
    *keys_of(SuiteTable, {"pieces": "card", "envelopes": "outer", "die": "radius"}),
    ("envelopes", "outer", "holds", "1"),
    ("pieces", "card", "wraps", "cards", "1"),
]
LIKE_OTHERS = (
    "pieces.card.back.white", "pieces.card.back.finish.1", "pieces.card.inside",
    "envelopes.outer.stock", "envelopes.outer.liner.stock", "envelopes.outer.liner.white",
    "envelopes.outer.face.white", "envelopes.outer.flap_art", "envelopes.outer.return_address",
)  # fmt: skip
"""Tables read as another is that stands in the list: of each its first key is tried at every run,
which shows that its mistakes are told by its own name, and once all."""
HOW = 'condition = "M1", backing = "black"'
MEASURED = {
    "colour": f", colour = {{ lab = [62, 8, 22], {HOW} }}",
    "swatch": ", swatch = { paper = [62, 8, 22], cyan = [40, -20, -20], magenta = [38, 40, 8], "
    f"yellow = [58, 6, 45], black = [14, 1, 2], {HOW} }}",
}
AROUND = {
    "face": 'art = "card.pdf"',
    "flap_art": 'art = "card.pdf"',
    "address": 'lines = ["The Tide Mill"]',
    "return_address": 'lines = ["The Tide Mill"]',
}
SCENE_KEYS = [
    *keys_of(SceneFileTable, {"places": "card"}),
    ("places", "card", "at", "1"),
    ("things", "1", "at", "2"),
]
CATALOGUE_KEYS = list(keys_of(catalogue._PrinterTable, {"cards": "A7", "parameters": "radius"}))
PARAMETERS = [(name, each.name) for name, family in FAMILIES.items() for each in family.parameters]
# What else is rightly told when the pieces, of which other keys speak, are others.
FOLLOWING = {"pieces": ("envelopes.outer.holds", "accept.1.piece"), "envelopes": ()}


BAND = 'wraps = { cards = ["menu", "details"] }\n' + "".join(
    f'[pieces.{name}]\nart = "card.pdf"\ncard = "A7"\n' for name in ("menu", "details")
)


def ids(path: tuple[str, ...]) -> str:
    return ".".join(path)


def told_or_sound(path: tuple[str, ...], read: Callable[[], None]) -> None:
    key = ".".join(path)
    try:
        read()
    except MockupError as error:
        own = [each for each in error.mistakes if each.key not in FOLLOWING.get(key, ())]
        if "digits is no measure" in str(error):  # told before tables are told apart in a line
            (only,) = own
            assert only.key and f"{key}.".startswith(f"{only.key}."), str(error)
            return
        assert_told_at(type(error)(*own), key)


def is_of_its_own(number: int) -> bool:
    """Returns whether a key is in no table that is like another, or the first in it."""
    key = ids(SUITE_KEYS[number])
    like = next((each for each in LIKE_OTHERS if key.startswith(f"{each}.")), None)
    before = [] if number == 0 else [ids(SUITE_KEYS[number - 1])]
    return like is None or like in before


def written(file: Path, text: str) -> None:
    """Writes a file anew: one that is written over waits for the disk, a hundred times longer."""
    file.unlink(missing_ok=True)
    file.write_text(text, encoding="utf-8")


@pytest.mark.parametrize("path", quickly(SUITE_KEYS, is_of_its_own), ids=ids)
def test_at_every_key_of_a_suite_file(path: tuple[str, ...], tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf")
    file = tmp_path / "suite.toml"
    text = SUITE
    if path[:3] == ("pieces", "card", "die") and len(path) == 4:
        text = text.replace('"A7"\n', '"A7"\ndie = { shape = "ticket-corner" }\n', 1)
    stock = stock_around(path)
    if path[2:3] == ("wraps",):
        text = text.replace("[envelopes", f"{BAND}[envelopes", 1)
    if path[2:3] == ("inside",):
        text = text.replace('"A7"\n', '"A7"\nfold = "left"\n', 1)
    if "finish" in path[:-1]:
        around = 'finish = [{ as = "foil" }]'
        if path[2] in ("back", "inside"):
            around = f'{path[2]} = {{ art = "card.pdf", {around} }}'
        text = text.replace('"A7"\n', f'"A7"\n{around}\n', 1)
    if path[:3] == ("envelopes", "outer", "liner") and len(path) >= 4:
        paper = f", stock = {stock}" if stock else ""
        text = text.replace("holds", f'liner = {{ art = "card.pdf"{paper} }}\nholds', 1)
    elif stock:
        before = 'card = "A7"' if path[0] == "pieces" else 'size = "A7"'
        text = text.replace(before, f"{before}\nstock = {stock}", 1)
    if len(path) > 3 and path[2] in AROUND:
        text = text.replace("holds", f"{path[2]} = {{ {AROUND[path[2]]} }}\nholds", 1)
    if len(path) > 3 and path[2] in ("hole", "cord"):
        around = 'hole = { diameter = "1/4 in" }\n'
        around += 'cord = { colour = "#b08d57" }\n' if path[2] == "cord" else ""
        text = text.replace('"A7"\n', f'"A7"\n{around}', 1)
    for value in ABSURD.values():
        written(file, changed(text, path, value))
        told_or_sound(path, lambda: assert_sound(read_suite(file)))


def stock_around(path: tuple[str, ...]) -> str:
    """Returns the stock that a key of a stock stands in, whole but for that key; else nothing."""
    if "stock" not in path[:-1]:
        return ""
    inside = path[path.index("stock") + 1 :]
    return f"{{ gsm = 300{MEASURED.get(inside[0], '') if len(inside) > 1 else ''} }}"


def assert_sound(suite: Suite) -> None:
    """Asserts that a suite has the measures of things that can be printed and cut."""
    assert 0 <= suite.bleed_in <= 2 and 0 <= suite.cut_line.width_pt <= 18
    for piece in suite.pieces:
        assert min(piece.card.width_in, piece.card.height_in) >= 0.25
        assert max(piece.card.width_in, piece.card.height_in) <= 200
        assert 0 <= piece.bleed_in <= 2 and 1 <= piece.art.page <= 200
        assert piece.die.shape.box.width == pytest.approx(piece.card.width_in)
    for envelope in suite.envelopes:
        measures = [each for each in vars(envelope.spec).values() if isinstance(each, float)]
        assert all(0 <= each <= 40 and math.isfinite(each) for each in measures)


@pytest.mark.parametrize("key", ["title", "bleed", "pieces.card.art", "pieces.card.quantity"])
def test_a_text_as_long_as_a_file_may_be(key: str, tmp_path: Path) -> None:
    """Where a text, a length, a file and a number belong."""
    make_pdf(tmp_path / "card.pdf")
    path = tuple(key.split("."))
    file = tmp_path / "suite.toml"
    file.write_text(changed(SUITE, path, LONGEST), encoding="utf-8")
    told_or_sound(path, lambda: assert_sound(read_suite(file)))


@pytest.mark.parametrize(("shape", "parameter"), PARAMETERS)
def test_at_every_parameter_of_a_die(shape: str, parameter: str, tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf")
    file = tmp_path / "suite.toml"
    size = "6 x 6 in" if "circle" in shape else "A7"
    path = ("pieces", "card", "die", parameter)
    for value in ABSURD.values():
        text = SUITE.replace('card = "A7"', f'card = "{size}"\ndie = {{ shape = "{shape}" }}')
        written(file, changed(text, path, value))
        told_or_sound(path, lambda: assert_sound(read_suite(file)))


@pytest.mark.parametrize("key", ["file", "pick", "page"])
def test_at_every_key_of_a_template(key: str, tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf")
    make_pdf(tmp_path / "leaf.pdf", (5, 7), "1 w 0 0 360 504 re 20 20 m 340 20 l 180 480 l h S")
    file = tmp_path / "suite.toml"
    path = ("pieces", "card", "die", key)
    for value in ABSURD.values():
        text = SUITE.replace('card = "A7"', 'card = "A7"\ndie = { file = "leaf.pdf" }')
        written(file, changed(text, path, value))
        with pytest.raises(MockupError) as refused:
            read_suite(file)
        assert refused.value.mistakes[0].key.startswith("pieces.card.die")


@pytest.mark.parametrize("path", SCENE_KEYS, ids=ids)
def test_at_every_key_of_a_scene_file(path: tuple[str, ...], tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    for value in ABSURD.values():
        text = changed(SCENE, path, value)
        written(tmp_path / "mine" / "scene.toml", text)
        told_or_sound(path, lambda: assert_lit(tmp_path))


@pytest.mark.parametrize("path", [each for each in SCENE_KEYS if each[0] == "things"], ids=ids)
def test_at_every_key_of_a_thing_that_lies_on_a_piece(
    path: tuple[str, ...], tmp_path: Path
) -> None:
    (tmp_path / "mine").mkdir()
    text = LAID_ON.replace("at = [1, 2]\n", "") if path[-1] == "place" else LAID_ON
    for value in ABSURD.values():
        written(tmp_path / "mine" / "scene.toml", changed(text, path, value))
        told_or_sound(path, lambda: assert_lit(tmp_path))


def assert_lit(folder: Path) -> None:
    scene = read_scene("mine", folder)
    numbers = [scene.aspect, *vars(scene.window).values(), *scene.lift_in.values()]
    assert all(math.isfinite(each) for each in numbers if isinstance(each, float))
    assert 0.25 <= scene.aspect <= 4 and scene.window.width_in > 0


@pytest.mark.parametrize("path", CATALOGUE_KEYS, ids=ids)
def test_at_every_key_of_a_catalogue(path: tuple[str, ...], tmp_path: Path) -> None:
    file = tmp_path / "groyne.toml"
    for value in ABSURD.values():
        written(file, changed(CATALOGUE, path, value))
        told_or_sound(path, lambda: assert_priced(catalogue.read_printer(file)))


def assert_priced(printer: catalogue.Printer) -> None:
    for offer in (*printer.offers, *([printer.custom] if printer.custom else [])):
        assert 0 <= offer.terms.each <= 1_000_000 and 1 <= offer.terms.minimum <= 1_000_000
        assert offer.thickest_mil is None or 1 <= offer.thickest_mil <= 1000
