"""Which plate is which finish in a suite file, painted edges, torn sides: read, and mistakes."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.errors import SuiteError
from mockup.suite.reading import read_suite
from mockup.suite.suite import Edge, Piece
from tests.conftest import make_pdf

SUITE = """
title = "Tide Mill Supper"
[pieces.menu]
art = "menu.pdf"
card = "A7"
"""


def menu(tmp_path: Path, lines: str) -> Piece:
    for name in ("menu.pdf", "foil.pdf"):
        make_pdf(tmp_path / name, pages=3)
    file = tmp_path / "suite.toml"
    file.write_text(SUITE + lines)
    return read_suite(file).piece("menu")


def test_bare_words_say_no_more_than_before(tmp_path: Path) -> None:
    piece = menu(tmp_path, 'finish = ["foil", "emboss"]')
    assert piece.finishes == ("foil", "emboss")
    assert piece.art.finishing == ()


def test_letterpress_alone_is_of_all_the_inks(tmp_path: Path) -> None:
    piece = menu(tmp_path, 'finish = ["letterpress"]')
    (said,) = piece.art.finishing
    assert (said.finish, said.plate, said.art) == ("letterpress", "", None)


def test_plates_layers_and_pages(tmp_path: Path) -> None:
    piece = menu(
        tmp_path,
        """finish = [
        { as = "foil", plate = "Tide", metal = "rose-gold" },
        { as = "deboss", page = 2 },
        { as = "foil", art = "foil.pdf", page = 3, metal = "gold" },
        ]""",
    )
    assert piece.finishes == ("foil", "deboss")
    tide, sunk, gold = piece.art.finishing
    assert (tide.plate, tide.metal, tide.art) == ("Tide", "rose-gold", None)
    assert sunk.art is not None
    assert (sunk.art.path.name, sunk.art.page, sunk.art.finishing) == ("menu.pdf", 2, ())
    assert gold.art is not None
    assert (gold.art.path.name, gold.art.page, gold.metal) == ("foil.pdf", 3, "gold")


def test_the_back_has_the_fronts_plates_but_not_its_pages(tmp_path: Path) -> None:
    lines = 'finish = ["letterpress", { as = "foil", art = "foil.pdf" }]\nback = "foil.pdf"'
    piece = menu(tmp_path, lines)
    assert piece.back is not None
    assert [each.finish for each in piece.back.finishing] == ["letterpress"]


def test_the_back_has_its_own_where_it_says_so(tmp_path: Path) -> None:
    back = 'back = { art = "foil.pdf", finish = [{ as = "emboss", plate = "Tide" }] }'
    piece = menu(tmp_path, f'finish = ["letterpress"]\n{back}')
    assert piece.back is not None
    assert [each.plate for each in piece.back.finishing] == ["Tide"]
    assert piece.finishes == ("letterpress", "emboss")


@pytest.mark.parametrize(
    ("line", "edge"),
    [
        ('edge = "gold"', Edge((198, 160, 76), "gold")),
        ('edge = "Rose Gold"', Edge((201, 145, 124), "rose-gold")),
        ('edge = { metal = "copper" }', Edge((184, 112, 72), "copper")),
        ('edge = "#8a2b1f"', Edge((138, 43, 31))),
        ('edge = { colour = "#8a2b1f" }', Edge((138, 43, 31))),
    ],
)
def test_edges(tmp_path: Path, line: str, edge: Edge) -> None:
    assert menu(tmp_path, line).edge == edge


def test_true_tears_what_is_straight_of_a_die(tmp_path: Path) -> None:
    arch = 'die = "round-arch"\n'
    assert menu(tmp_path, f"{arch}torn = true").torn == ("left", "right", "bottom")
    assert menu(tmp_path, f'{arch}torn = ["bottom"]').torn == ("bottom",)


def test_torn_sides_and_the_back_sees_them_mirrored(tmp_path: Path) -> None:
    assert menu(tmp_path, "torn = true").torn == ("left", "top", "right", "bottom")
    assert menu(tmp_path, "torn = false").torn == ()
    piece = menu(tmp_path, 'torn = ["bottom", "left"]\nback = "foil.pdf"')
    front, back = piece.sides
    assert front.torn == ("left", "bottom")
    assert set(back.torn) == {"right", "bottom"}


@pytest.mark.parametrize(
    ("line", "key", "said"),
    [
        ('finish = [{ as = "gilt" }]', "finish.1.as", '"gilt" is not allowed'),
        ('finish = [{ plate = "Tide" }]', "finish.1.as", "is missing"),
        ('finish = [{ as = "foil", plates = "x" }]', "finish.1.plates", 'did you mean "plate"'),
        ('finish = [{ as = "foil", metal = "tin" }]', "finish.1.metal", "not allowed"),
        ('finish = [{ as = "emboss", metal = "gold" }]', "finish.1.metal", "has no metal"),
        ('finish = [{ as = "foil", plate = "a", page = 2 }]', "finish.1.plate", "one of them"),
        ('finish = [{ as = "foil", page = 1 }]', "finish.1.page", "own page"),
        ('finish = [{ as = "white", page = 2 }]', "finish.1.as", "plate in the art"),
        ('finish = [{ as = "foil", art = "no.pdf" }]', "finish.1.art", "there is no file"),
        ('finish = ["foil", { as = "foil", plate = "a" }, { as = "emboss", plate = "A" }]',
         "finish.3.plate", "twice"),
        ('finish = "foil"', "finish", "write a list"),
        ('back = { page = 2, finish = [{ as = "foil", met = 1 }] }', "back.finish.1.met",
         'did you mean "metal"'),
        ('edge = "gould"', "edge", "or a metal"),
        ("edge = {}", "edge", "a colour or a metal"),
        ('edge = { metal = "black" }', "edge.metal", "not allowed"),
        ('edge = { colour = "nacre" }', "edge.colour", "no paper colour"),
        ('torn = ["under"]', "torn.1", "not allowed"),
        ('die = "ellipse"\ntorn = true', "torn", "die ellipse is nowhere straight for 0.3 in"),
        ('die = "round-arch"\ntorn = ["left", "top"]', "torn",
         "the top of die round-arch is nowhere straight for 0.3 in along the card's edge, and paper "
         "is torn against a rule; tear its left, right, bottom, or"),
        ('fold = "top"\ntorn = true', "torn", "folded card"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_its_key(tmp_path: Path, line: str, key: str, said: str) -> None:
    with pytest.raises(SuiteError) as caught:
        menu(tmp_path, line)
    (mistake,) = caught.value.mistakes
    assert mistake.key == f"pieces.menu.{key}"
    assert said in mistake.sentence, mistake.sentence


def test_the_inside_of_a_folded_card_has_its_own_too(tmp_path: Path) -> None:
    inside = 'inside = { art = "foil.pdf", finish = [{ as = "emboss", plate = "Tide" }] }'
    piece = menu(tmp_path, f'fold = "top"\nfinish = ["letterpress"]\n{inside}')
    assert piece.back is not None
    assert [each.plate for each in piece.back.finishing] == ["Tide"]
    assert piece.finishes == ("letterpress", "emboss")
