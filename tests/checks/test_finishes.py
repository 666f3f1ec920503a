"""Finishes that the suite does not tell of, and those it tells of that the art has none of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from pikepdf import Dictionary

from mockup.checks.finding import Finding, Severity
from mockup.checks.finishes import check_finishes
from mockup.checks.page_context import PageContext
from mockup.checks.whites import check_whites
from mockup.colour.white_ink import WhiteInk, WhiteRule
from mockup.trade.finishes import Finish
from tests.checks.bench.sheet import INK, WHITE, Sheet
from tests.checks.contexts import context_of

Draw = Callable[[Sheet], object]


def found(draw: Draw, folder: Path, *finishes: Finish, rule: WhiteRule = "plate") -> list[Finding]:
    context = context_of(draw, folder)
    piece = context.page.piece
    piece = replace(piece, finishes=finishes, art=replace(piece.art, white=WhiteInk(rule)))
    page = replace(context.page, piece=piece)
    return check_finishes(PageContext(page, context.settings))


def over(sheet: Sheet) -> None:
    sheet.resources.ExtGState = Dictionary(Over=Dictionary(OP=True, op=True, OPM=1))
    sheet.ops.append("/Over gs")


def plate(name: str) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.flood(INK)
        over(sheet)
        sheet.rect(1.5, 2.5, 2.0, 1.0, name)

    return draw


NAMES: dict[str, Finish] = {
    "White": "white",
    "Gold foil": "foil",
    "Spot UV": "varnish",
    "Blind emboss": "emboss",
}


@pytest.mark.parametrize("name", NAMES)
def test_a_plate_is_told_where_the_suite_says_nothing_of_it(tmp_path: Path, name: str) -> None:
    (told,) = found(plate(name), tmp_path)
    assert told.check == ("white-ink" if NAMES[name] == "white" else "finish")
    assert told.severity is Severity.WARN
    assert f'"{name}"' in told.message
    assert f'finish = ["{NAMES[name]}"]' in told.fix
    assert told.at == pytest.approx((1.5, 2.5), abs=0.02)


@pytest.mark.parametrize("name", NAMES)
def test_a_plate_the_suite_says_is_well(tmp_path: Path, name: str) -> None:
    assert found(plate(name), tmp_path, NAMES[name]) == []


@pytest.mark.parametrize("what", NAMES.values())
def test_a_finish_without_a_plate_is_told(tmp_path: Path, what: Finish) -> None:
    (told,) = found(lambda sheet: sheet.flood(INK), tmp_path, what)
    assert f"the suite says {what}" in told.message


def test_white_by_a_rule_needs_no_plate(tmp_path: Path) -> None:
    assert found(lambda sheet: sheet.flood(INK), tmp_path, "white", rule="under-art") == []


def test_an_ordinary_spot_is_no_finish(tmp_path: Path) -> None:
    assert found(plate("Tide blue"), tmp_path) == []


def test_art_that_knocks_out_the_white_beneath_it_is_told_with_its_share(tmp_path: Path) -> None:
    """Half of the plate lies under a colour that does not overprint (ISO 32000-1, 8.6.7)."""

    def draw(sheet: Sheet) -> None:
        sheet.rect(1.0, 2.0, 2.0, 2.0, "White")
        sheet.rect(1.0, 2.0, 1.0, 2.0, INK)

    (told,) = found(draw, tmp_path, "white")
    assert told.check == "overprint"
    assert told.value == pytest.approx(50, abs=2)


def test_art_that_overprints_the_white_is_well(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.rect(1.0, 2.0, 2.0, 2.0, "White")
        over(sheet)
        sheet.rect(1.0, 2.0, 1.0, 2.0, INK)

    assert found(draw, tmp_path, "white") == []


def test_varnish_that_knocks_out_the_ink_is_told(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.flood(INK)
        sheet.rect(1.5, 2.5, 2.0, 1.0, "Spot UV")

    (told,) = found(draw, tmp_path, "varnish")
    assert told.check == "overprint"
    assert "knocks out the ink" in told.message


def test_white_type_on_bare_paper_is_well_where_white_goes_beneath_all(tmp_path: Path) -> None:
    context = context_of(lambda sheet: sheet.outlined(1.2, 3.0, "draft", 12, WHITE), tmp_path)
    assert [each.check for each in check_whites(context)] == ["bare-white"]
    piece = context.page.piece
    piece = replace(piece, art=replace(piece.art, white=WhiteInk("under-art")))
    assert check_whites(replace(context, page=replace(context.page, piece=piece))) == []
