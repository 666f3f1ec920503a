"""Basis weights, calipers and stocks."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.errors import SuiteError
from mockup.trade.papers import (
    BASIC_AREA_IN2,
    PAPER_COLOURS,
    STOCKS,
    caliper_mil,
    gsm_from_lb,
    lb_from_gsm,
    paper_colour,
    stock,
    weight_g,
)


@pytest.mark.parametrize(
    ("lb", "grade", "rounded_gsm", "within"),
    [
        # US Government Paper Specification Standards (JCP) L20 and K10: their own roundings.
        (50, "cover", 135, 2.5),
        (65, "cover", 175, 2.5),
        (80, "cover", 215, 2.5),
        (90, "index", 165, 2.5),
        (110, "index", 200, 2.5),
        (140, "index", 255, 2.5),
        (170, "index", 305, 2.5),
    ],
)
def test_basis_weights_against_the_jcp_specifications(lb, grade, rounded_gsm, within):
    assert gsm_from_lb(lb, grade) == pytest.approx(rounded_gsm, abs=within)


@pytest.mark.parametrize(
    ("lb", "grade", "gsm"),
    [
        # Worked from exact pounds, inches and a ream of 500.
        (80, "cover", 216.33),
        (110, "cover", 297.45),
        (120, "cover", 324.49),
        (220, "cover", 594.91),
        (70, "text", 103.61),
        (80, "text", 118.41),
        (100, "bristol", 219.28),
        (24, "bond", 90.23),
        (1, "tag", 1.6274758788),
    ],
)
def test_basis_weights_worked(lb, grade, gsm):
    assert gsm_from_lb(lb, grade) == pytest.approx(gsm, abs=0.005)


@given(st.floats(10, 300), st.sampled_from(sorted(BASIC_AREA_IN2)))
def test_pounds_come_back(lb, grade):
    assert lb_from_gsm(gsm_from_lb(lb, grade), grade) == pytest.approx(lb)


@pytest.mark.parametrize(
    ("gsm", "bulk", "mil"),
    # JCP K10 index: 165, 200, 255, 305 gsm at .0075, .0091, .0114, .0138 in.
    [(165, 1.152, 7.5), (200, 1.150, 9.1), (255, 1.137, 11.4), (305, 1.148, 13.8)],
)
def test_caliper_is_grammage_times_bulk_jcp_k10(gsm, bulk, mil):
    assert caliper_mil(gsm, bulk) == pytest.approx(mil, abs=0.05)


def test_weight_of_one_square_metre_is_its_grammage():
    assert weight_g(1 / 0.00064516, 297.45) == pytest.approx(297.45)


def test_weight_of_the_worked_invitation():
    # A 5 x 7 ellipse (pi a b) of 110 lb cover: 5.2752 g by arithmetic from exact units.
    assert weight_g(27.48893571891, gsm_from_lb(110, "cover")) == pytest.approx(5.2752, abs=5e-5)


@pytest.mark.parametrize("row", STOCKS.values(), ids=STOCKS)
def test_a_stock_is_whole(row):
    least, most = row.caliper_range_mil
    assert least <= row.caliper_mil <= most
    # Bulk between coated and soft cotton: 0.85 to 1.75 cm3/g, common practice.
    assert 0.85 <= row.caliper_mil * 25.4 / row.gsm <= 1.75
    assert re.fullmatch(r"#[0-9a-f]{6}", row.colour_hex)
    assert row.source
    assert row.colour_source.startswith("unmeasured example")


def test_index_stock_has_the_published_caliper_jcp_k10():
    row = stock("index-110-white")
    # 110 lb is 200 gsm there, 0.0091 in thick, 0.0005 in either way.
    assert row.gsm == pytest.approx(200, abs=2.5)
    assert (row.caliper_mil, row.caliper_range_mil) == (9.1, (8.6, 9.6))
    assert "JCP K10" in row.source


def test_stock_and_colour_names_are_read_in_any_case():
    assert stock("Cotton 110 White").name == "cotton-110-white"
    assert paper_colour("Ink Blue") is PAPER_COLOURS["ink-blue"]
    assert paper_colour("#A1B2C3").colour_hex == "#a1b2c3"


@pytest.mark.parametrize("look_up", [stock, paper_colour])
def test_unknown_names_get_the_nearest(look_up):
    with pytest.raises(SuiteError, match='did you mean "kraft'):
        look_up("krafft")
