"""Where a thing goes on its page, which page that is, and what the proof says of it."""

from __future__ import annotations

import pytest

from mockup.dies import make_die
from mockup.errors import LimitError
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.proof.layout import Picture, is_folded, laid_out, larger_paper
from mockup.output.proof.notes import Note, column_height, have_room
from mockup.output.proof.words import die_measures, die_name, size_in_mm

NOTES = tuple(Note(f"Note {k}", ("What is said of it, a line or two.",)) for k in range(6))
TAIL_IN = 1.6


def picture(width_in: float, height_in: float) -> Picture:
    return Picture(width_in, height_in, lambda pdf, at: None, 0.35, 0.35)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(
    ("width_in", "height_in", "folded"),
    [
        (5, 7, (False, False)),
        (7, 5, (False, False)),
        (2, 3.5, (False, False)),
        (148 / 25.4, 210 / 25.4, (True, True)),  # A5: no paper has room for its notes as well
        (7.5, 7.5, (True, True)),
        (8, 8, (True, True)),
        (9, 4, (False, False)),  # on its side
        (25, 35, (True, True)),
    ],
)
def test_everything_is_at_true_size_on_the_paper_or_folded_out(
    paper: str, width_in: float, height_in: float, folded: tuple[bool, bool]
) -> None:
    layout = laid_out(paper, "Reply", [picture(width_in, height_in)], NOTES, TAIL_IN)
    assert is_folded(paper, layout) == folded[("letter", "a4").index(paper)]
    (place,) = layout.places
    assert place.x >= 0.5 - 1e-6 and place.y > 0.65
    assert place.x + width_in + 0.35 <= layout.width_in - 0.5 + 1e-6
    assert place.y + height_in + 0.35 <= layout.height_in - TAIL_IN + 1e-6
    assert have_room(layout.columns, NOTES)
    for column in layout.columns:
        assert column.bottom <= layout.height_in - TAIL_IN + 1e-6
        assert column.right <= place.x or column.top >= place.y + height_in + 0.35


def test_a_page_folded_out_is_no_larger_than_it_must_be() -> None:
    layout = laid_out("letter", "Reply", [picture(8, 8)], NOTES, TAIL_IN)
    assert layout.width_in == pytest.approx(max(8.5, 8 + 0.35 + 2 * 0.5))
    assert layout.spare.height == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(
    ("paper", "size", "name"),
    [
        ("letter", (8.5, 12), "tabloid paper"),
        ("a4", (420 / 25.4, 297 / 25.4), "A3 paper"),
        ("a4", (421 / 25.4, 297 / 25.4), "A2 paper"),
        ("letter", (40, 60), None),
    ],
)
def test_the_smallest_paper_that_holds_a_page_is_named(
    paper: str, size: tuple[float, float], name: str | None
) -> None:
    """ISO 216 and ANSI/ASME Y14.1."""
    assert larger_paper(paper, *size) == name


def test_what_no_page_can_hold_is_refused() -> None:
    """ISO 32000-1 Annex C: a page has at most 14,400 points, 200 in, a side."""
    with pytest.raises(LimitError, match="too large for a page of a proof"):
        laid_out("letter", "Banner", [picture(190, 199)], NOTES, TAIL_IN)


def test_two_pictures_stand_one_under_another() -> None:
    layout = laid_out("letter", "Envelope", [picture(5, 3), picture(5, 3)], NOTES, TAIL_IN)
    first, second = layout.places
    assert first.x == second.x and second.y > first.y + 3.35
    assert (layout.width_in, layout.height_in) == PAPERS_IN["letter"]
    assert column_height(NOTES, layout.columns[0].width) <= layout.columns[0].height + 1e-6


@pytest.mark.parametrize(
    ("name", "given", "told"),
    [
        ("rectangle", {}, ""),
        ("lancet-arch", {"rise": 4}, "rise 4 in"),
        ("lancet-arch", {"rise": 4, "side": "left"}, "rise 4 in, side left"),
        ("ticket-corner", {"radius": 0.5}, "radius 0.5 in"),
        ("superellipse", {"exponent": 3}, "exponent 3"),
        ("ogee-arch", {"point": 80}, "point 80\u00b0"),
    ],
)
def test_dies_are_told_in_words(name: str, given: dict[str, float | str], told: str) -> None:
    die = make_die(name, 5, 7, given)
    assert die_name(die) == name.replace("-", " ").capitalize()
    assert told in die_measures(die).replace("\u00a0", " ")


def test_millimetres_are_exact_to_a_tenth() -> None:
    """1 in = 25.4 mm (international inch, 1959)."""
    assert size_in_mm(5, 7).replace("\u00a0", " ") == "127 \u00d7 177.8 mm"
    assert size_in_mm(4.25, 5.5).replace("\u00a0", " ") == "108 \u00d7 139.7 mm"  # 107.95
