"""Each fault of the score in a small layout where it can be worked out by hand."""

import pytest

from mockup.geometry.point import Box, Point
from mockup.render.arrangement import Arrangement, Frame, Item, Score, score
from mockup.render.arrangement.model import WEIGHTS, place
from mockup.render.arrangement.rules import broken
from tests.render.arrangement.suites import card, envelope, rectangle

FRAME = Frame(12, 10, 0.5)
NO_SCORE = Score(*[0.0] * len(Score._fields))


def laid(
    *spots: tuple[Item, float, float, float], frame: Frame = FRAME
) -> tuple[list[Item], Arrangement]:
    placed = tuple(
        place(item, angle, Point(x, y), layer) for layer, (item, x, y, angle) in enumerate(spots)
    )
    return [item for item, *_ in spots], Arrangement(placed, frame, NO_SCORE)


def plain(name: str, width: float, height: float, role: str = "card") -> Item:
    return Item(name, rectangle(width, height), (), role)  # type: ignore[arg-type]


def test_hidden_type_is_counted_in_square_inches() -> None:
    under = Item("under", rectangle(4, 4), (Box(0, 0, 4, 4),))
    case = laid((under, 4, 5, 0), (plain("over", 4, 4), 7, 5, 0))
    assert score(*case).hidden == pytest.approx(1 * 4, abs=0.7)  # with the air kept around it
    assert "hides" in broken(*case)[0]


def test_nothing_is_hidden_the_other_way_up() -> None:
    under = Item("under", rectangle(4, 4), (Box(0, 0, 4, 4),))
    case = laid((plain("over", 4, 4), 7, 5, 0), (under, 4, 5, 0))
    assert score(*case).hidden == 0
    assert broken(*case) == ()


@pytest.mark.parametrize(
    ("shift", "faults"),
    [(3.5, 0), (4.3, 0), (3.95, 1), (4.1, 1)],
    ids=["overlap of half an inch", "clear gap", "sliver", "all but touching"],
)
def test_pieces_lie_clear_or_overlap_in_earnest(shift: float, faults: int) -> None:
    case = laid((plain("a", 4, 4), 3, 5, 0), (plain("b", 4, 5), 3 + shift, 5, 0))
    assert score(*case).touching == faults
    assert len(broken(*case)) == faults


def test_a_corner_over_a_corner_by_little_more_than_the_least_is_half_a_fault() -> None:
    case = laid((plain("a", 4, 4), 3, 4, 0), (plain("b", 4, 4), 6.6, 7.6, 0))
    assert score(*case).touching == pytest.approx(0.6)


def test_two_flush_cards_read_as_one_strip() -> None:
    case = laid((plain("a", 4, 4), 4, 5, 0), (plain("b", 4, 4), 7, 5, 0))
    assert score(*case).touching == pytest.approx(0.6)


def test_reaching_into_the_margin_is_measured_in_inches() -> None:
    case = laid((plain("a", 4, 4), 2.25, 5, 0))  # left edge at 0.25, margin 0.5
    assert score(*case).outside == pytest.approx(0.25)
    assert "margin" in broken(*case)[0]


def test_fill_is_the_distance_from_the_range() -> None:
    case = laid((plain("a", 6, 8), 6, 5, 0))  # 48 of 120 square inches, the range begins at 0.58
    assert score(*case).fill == pytest.approx(0.58 - 48 / 120, abs=0.005)


def test_balance_counts_weights_about_the_centre() -> None:
    even = laid((plain("a", 4, 4), 3, 5, 0), (plain("b", 4, 4), 9, 5, 0))
    assert score(*even).balance == pytest.approx(0)
    dark = Item("b", rectangle(4, 4), weight=3.0)
    heavy = laid((plain("a", 4, 4), 3, 5, 0), (dark, 9, 5, 0))
    # One of four parts at 3 in, three at 9 in: the mean lies 1.5 in right of the middle. The unit
    # is the side of the square that 32 in^2 of cards, a seventh part overlapped, fill to 62 %.
    unit = (32 * 0.86 / 0.62) ** 0.5
    assert score(*heavy).balance == pytest.approx(1.5 / unit)


def test_an_empty_corner_costs_more_than_even_space() -> None:
    even = laid((plain("a", 4, 4), 3, 5, 0), (plain("b", 4, 4), 9, 5, 0))
    crowded = laid((plain("a", 4, 4), 3, 5, 0), (plain("b", 4, 4), 6.5, 5, 0))
    assert score(*crowded).empty > score(*even).empty > 0


def test_pieces_apart_and_main_off_its_envelope() -> None:
    main, outer = plain("main", 5, 7, "main"), envelope("outer", 6, 4, 3)
    frame = Frame(20, 12, 0.5)
    off = laid((outer, 4, 6, 0), (main, 14, 6, 0), frame=frame)
    assert score(*off).apart == pytest.approx(1 + 0.5)
    on = laid((outer, 6, 6, 0), (main, 9.5, 6, 0), frame=frame)
    assert score(*on).apart == 0


def test_a_heap_is_paper_under_paper_past_a_fifth() -> None:
    case = laid((plain("a", 6, 6), 6, 5, 0), (plain("b", 6, 6), 6, 5, 3))
    assert score(*case).heap == pytest.approx(0.5 - 0.2, abs=0.02)


def test_a_hidden_lining_and_a_hidden_head() -> None:
    outer = envelope("outer", 6, 4, 3)
    seen = score(*laid((outer, 5, 5, 0), (plain("low", 4, 2.5), 5, 7.2, 0)))
    covered = score(*laid((outer, 5, 5, 0), (plain("high", 7, 4), 5, 3, 0)))
    assert seen.liner == 0
    assert seen.heads == 0
    assert covered.liner == pytest.approx(1 - 0.1)  # all but the tenth that does no harm
    assert covered.heads == pytest.approx(1, abs=0.01)


def test_a_covered_card_counts_past_its_share() -> None:
    case = laid((plain("a", 4, 4), 5, 5, 0), (plain("b", 4, 6), 7, 5, 0))  # half of a under b
    assert score(*case).visible == pytest.approx(0.5 - 0.18, abs=0.02)


def test_the_main_card_belongs_near_the_optical_centre() -> None:
    main = plain("main", 4, 4, "main")
    assert score(*laid((main, 6, 4.8, 0))).main == 0
    assert score(*laid((main, 3, 4.8, 0))).main == pytest.approx(3 / 12 - 0.14)


def test_turns_that_look_like_mistakes() -> None:
    a, b, c = plain("a", 4, 4), plain("b", 4, 5), plain("c", 4, 3)
    calm = laid((a, 4, 5, 0), (b, 7, 5, 0), (c, 8, 8, 0))
    lively = laid((a, 4, 5, 3), (b, 7, 5, -3), (c, 8, 8, 4))
    nearly = laid((a, 4, 5, 3), (b, 7, 5, 4), (c, 8, 8, 5))
    assert score(*calm).angles == 0
    assert score(*lively).angles < score(*nearly).angles


def test_upright_pieces_stand_in_line() -> None:
    a, b = plain("a", 4, 4), plain("b", 3, 3)
    in_line = laid((a, 4, 4, 0), (b, 9, 4.5, 0))  # both bottoms at 6 in, no common column
    askew = laid((a, 4, 4, 0), (b, 9, 5, 0))
    assert score(*in_line).alignment == pytest.approx(0.3)
    assert score(*askew).alignment == 1


def test_the_total_is_the_weighted_sum() -> None:
    told = Score(*[1.0] * len(Score._fields))
    assert told.total == pytest.approx(sum(WEIGHTS))


def test_a_card_with_its_type_in_the_middle_may_be_overlapped_at_its_border() -> None:
    case = laid((card("a", 5, 5, 0.6), 4, 5, 0), (plain("b", 4, 4), 8, 5.5, 0))
    assert score(*case).hidden == 0
    assert broken(*case) == ()
