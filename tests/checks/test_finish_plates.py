"""What finishes cannot hold, on small cards with known lines, gaps, type and edges."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from pikepdf import Dictionary

from mockup.artwork.art import FinishSaid, art_of
from mockup.checks.finding import Finding
from mockup.checks.finish_edges import check_finish_edges
from mockup.checks.finish_plates import check_finish_plates
from mockup.checks.finishes import check_finishes
from mockup.checks.page_context import PageContext
from mockup.reading.page import read_facts
from mockup.reading.through import under_other_side
from mockup.suite.suite import Edge, TornSide
from mockup.trade.papers import stock
from tests.checks.bench.sheet import BLACK, Sheet
from tests.checks.contexts import context_of

Draw = Callable[[Sheet], object]
SIDE = 1.6
FOIL, SUNK = "Gold foil", "Blind deboss"


def context(
    draw: Draw,
    folder: Path,
    finishing: Sequence[FinishSaid] = (),
    torn: tuple[TornSide, ...] = (),
    edge: Edge | None = None,
    back: Draw | None = None,
) -> PageContext:
    made = context_of(draw, folder, size=(SIDE, SIDE), sheet={"bleed": 0.125})
    piece = made.page.piece
    art = replace(piece.art, finishing=tuple(finishing))
    piece = replace(piece, art=art, torn=torn, edge=edge)
    if back is not None:
        sheet = Sheet(width=SIDE, height=SIDE)
        back(sheet)
        piece = replace(piece, back=art_of(sheet.save(folder / "back.pdf"))).sides[0]
    return PageContext(read_facts(piece), made.settings)


def told(draw: Draw, folder: Path, *finishing: FinishSaid) -> list[Finding]:
    return check_finish_plates(context(draw, folder, finishing))


def rule(width_pt: float, colour: object) -> Draw:
    return lambda sheet: sheet.line([(0.4, 0.8), (1.2, 0.8)], width_pt, colour)


def pair(gap_pt: float, colour: object) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.rect(0.4, 0.4, 0.3, 0.6, colour)
        sheet.rect(0.7 + gap_pt / 72, 0.4, 0.3, 0.6, colour)

    return draw


LETTERPRESS = FinishSaid("letterpress")


@pytest.mark.parametrize(
    ("width_pt", "colour", "finishing", "words"),
    [
        (0.3, FOIL, (), "a line of gold foil is only"),
        (0.6, SUNK, (), "a line of debossing is only"),
        (0.15, BLACK, (LETTERPRESS,), "a line of letterpress is only"),
    ],
)
def test_a_line_too_fine_is_told_with_its_width_and_place(
    tmp_path: Path, width_pt: float, colour: object, finishing: list[FinishSaid], words: str
) -> None:
    (finding,) = told(rule(width_pt, colour), tmp_path, *finishing)
    assert finding.message.startswith(words)
    assert finding.value == pytest.approx(width_pt, abs=0.07)
    assert finding.at is not None
    assert finding.at.y == pytest.approx(0.8, abs=0.06) and 0.3 < finding.at.x < 1.3


@pytest.mark.parametrize(
    ("width_pt", "colour", "finishing"),
    [(0.5, FOIL, ()), (1.0, SUNK, ()), (0.25, BLACK, (LETTERPRESS,)), (0.3, BLACK, ())],
)
def test_a_line_as_fine_as_its_finish_holds_is_well(
    tmp_path: Path, width_pt: float, colour: object, finishing: list[FinishSaid]
) -> None:
    assert told(rule(width_pt, colour), tmp_path, *finishing) == []


def test_a_gap_is_told_and_a_wider_one_is_not(tmp_path: Path) -> None:
    (finding,) = told(pair(0.6, FOIL), tmp_path)
    assert "a gap in gold foil" in finding.message
    assert finding.value == pytest.approx(0.6, abs=0.07)
    assert finding.at is not None and finding.at.x == pytest.approx(0.7, abs=0.06)
    assert told(pair(1.1, FOIL), tmp_path) == []


def test_small_type_in_foil(tmp_path: Path) -> None:
    findings = told(lambda sheet: sheet.outlined(0.4, 0.8, "barley broth", 6, FOIL), tmp_path)
    (finding,) = [each for each in findings if each.message.startswith("type")]
    assert "in foil is about" in finding.message
    assert finding.value == pytest.approx(6, abs=1) and finding.limit == 8


def test_a_tint_is_no_foil(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.resources.ExtGState = Dictionary(Half=Dictionary(ca=0.5))
        sheet.ops.append("/Half gs")
        sheet.rect(0.5, 0.5, 0.5, 0.5, FOIL)

    findings = told(draw, tmp_path)
    assert [each for each in findings if "laid in a tint" in each.message]


def test_foil_of_no_metal_is_told_and_a_word_mends_it(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.rect(0.5, 0.5, 0.5, 0.5, "Foil")

    (finding,) = told(draw, tmp_path)
    assert finding.message == "nothing says which metal or colour the foil is"
    assert told(draw, tmp_path, FinishSaid("foil", metal="silver")) == []


def test_foil_near_the_cut_is_told_and_further_in_is_not(tmp_path: Path) -> None:
    (finding,) = told(lambda sheet: sheet.rect(0.04, 0.5, 0.3, 0.3, FOIL), tmp_path)
    assert "of the cut: it may crack there" in finding.message
    assert finding.at is not None and finding.at.x < 1 / 16
    assert told(lambda sheet: sheet.rect(0.08, 0.5, 0.3, 0.3, FOIL), tmp_path) == []


def test_a_plate_the_art_lacks_is_told_with_those_it_has(tmp_path: Path) -> None:
    said = [FinishSaid("foil", "Tyde")]
    made = context(lambda sheet: sheet.rect(0.5, 0.5, 0.5, 0.5, "Tide"), tmp_path, said)
    (finding,) = check_finishes(made)
    assert 'of plate "Tyde", which the art lacks' in finding.message
    assert 'did you mean "Tide"' in finding.fix


def test_a_page_of_its_own_of_another_size_stops(tmp_path: Path) -> None:
    foil = Sheet(width=SIDE + 0.5, height=SIDE)
    foil.rect(0.5, 0.5, 0.5, 0.5, BLACK)
    said = FinishSaid("foil", art=art_of(foil.save(tmp_path / "foil.pdf")))
    made = context(lambda sheet: sheet.rect(0.5, 0.5, 0.5, 0.5, BLACK), tmp_path, [said])
    (finding,) = check_finishes(made)
    assert finding.check == "size" and "does not fit" in finding.message
    assert check_finish_plates(made) == []


def test_art_at_a_torn_side(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.rect(-0.125, -0.125, 0.3, SIDE + 0.25, BLACK)

    made = context(draw, tmp_path, torn=("left", "right"))
    (finding,) = check_finish_edges(made)
    assert "art runs to the torn left edge" in finding.message
    assert check_finish_edges(context(draw, tmp_path, torn=("right",))) == []


def test_painted_edges(tmp_path: Path) -> None:
    made = context(rule(1, BLACK), tmp_path, edge=Edge((200, 0, 0)), torn=("top",))
    thin = replace(made.page.piece, stock=stock("text-80-white"))
    page = replace(made.page, piece=thin)
    told_ = [each.message for each in check_finish_edges(PageContext(page, made.settings))]
    assert any("little of it is seen" in each for each in told_)
    assert any("a torn edge takes no even coat" in each for each in told_)


def test_relief_shows_under_art_of_the_other_side(tmp_path: Path) -> None:
    """The back is seen from the other side: what is left on the front is right on the back."""

    def front(sheet: Sheet) -> None:
        sheet.rect(0.2, 0.5, 0.4, 0.4, SUNK)

    def under(sheet: Sheet) -> None:
        sheet.live_type(1.05, 0.8, "Supper", 9)

    def beside(sheet: Sheet) -> None:
        sheet.live_type(0.25, 0.8, "Supper", 9)

    made = context(front, tmp_path, back=under)
    (finding,) = [each for each in check_finish_edges(made) if "relief" in each.message]
    assert "debossing lies over art on the back" in finding.message
    assert finding.at is not None and 0.2 < finding.at.x < 0.6
    clear = context(front, tmp_path, back=beside)
    assert under_other_side(clear.page.piece, "deboss") is None
