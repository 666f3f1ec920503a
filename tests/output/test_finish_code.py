"""The flat code of finishes: told apart by colour, by hatch alone, and where they are fine."""

from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

from mockup.colour.plates import FinishPlate
from mockup.output.finish_code import CODES, code_of, coded, smaller, swatch
from mockup.output.proof.finish_map import finish_notes_drawn
from mockup.suite.reading import read_suite
from mockup.trade.finishes import FINISHES
from mockup.trade.metals import METALS
from tests.conftest import make_pdf

WHITE = np.full((40, 60, 3), 255, np.uint8)


def test_every_finish_and_metal_has_a_code_of_its_own() -> None:
    assert {*CODES} == {*FINISHES}
    codes = [code_of(each) for each in FINISHES] + [code_of("foil", each) for each in METALS]
    names = [each.name for each in codes]
    assert len({*names}) == len(names)


@pytest.mark.parametrize(("one", "other"), combinations(FINISHES, 2))
def test_hatches_tell_finishes_apart_without_colour(one: str, other: str) -> None:
    row, column = np.ogrid[:64, :64]
    a, b = (CODES[each].hatch(row, column) for each in (one, other))
    assert np.mean(a != b) > 0.1


def test_nothing_is_shown_where_no_plate_is() -> None:
    plate = np.zeros((40, 60), np.uint8)
    plate[:, :30] = 255
    picture = coded(WHITE, [FinishPlate("deboss", plate)])
    assert (picture[:, 30:] == 255).all()
    assert (picture[:, :30] == swatch(code_of("deboss"), 40, 30)).all()


def test_a_fine_line_stays_where_the_page_is_made_smaller() -> None:
    plate = np.zeros((40, 60), np.uint8)
    plate[21] = 255
    _, (small,) = smaller(WHITE, [FinishPlate("foil", plate)], 4)
    assert small.plate.shape == (10, 15)
    assert (small.plate[5] == 255).all() and small.plate.sum() == 15 * 255


@pytest.mark.parametrize(
    ("lines", "named"),
    [
        ("", None),
        ('finish = ["letterpress"]', "letterpress"),
        ('edge = "copper"\ntorn = ["left"]', "copper edges, torn edge"),
        ('finish = [{ as = "foil", art = "foil.pdf", metal = "gold" }]', "gold foil"),
    ],
)
def test_the_note_of_a_piece_names_its_finishes(
    tmp_path: Path, lines: str, named: str | None
) -> None:
    for name in ("menu.pdf", "foil.pdf"):
        make_pdf(tmp_path / name)
    file = tmp_path / "suite.toml"
    file.write_text(f'title = "Supper"\n[pieces.menu]\nart = "menu.pdf"\ncard = "A7"\n{lines}')
    notes = finish_notes_drawn(read_suite(file).piece("menu"))
    figures = [note.figure for note in notes]
    if named is None:
        assert not notes
    else:
        (figure,) = figures
        assert figure is not None and figure.alt.endswith(f"where its finishes lie, {named}")
