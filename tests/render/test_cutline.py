"""The cut line stays visible: contrast by the WCAG formula, a casing where no tone will do."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.contrast import LINE_CONTRAST, contrast, luminance
from mockup.dies import make_die
from mockup.geometry.measure import perimeter
from mockup.pixels import view_around
from mockup.render.cutline import CASING, choose_cut_line, colours_beside, one_tone, stroke_coverage


def colours(*hexes: str) -> np.ndarray:
    return np.array([[int(h[k : k + 2], 16) for k in (0, 2, 4)] for h in hexes], np.uint8)


# WCAG 2.2 ratios computed with the published formula at full precision.
@pytest.mark.parametrize(
    ("pair", "ratio"),
    [
        (("000000", "ffffff"), 21.0),
        (("767676", "ffffff"), 4.542225),
        (("949494", "ffffff"), 3.033470),
        (("c9a227", "ffffff"), 2.419096),
        (("d4af37", "1b2a41"), 6.867778),
        (("7d5a50", "f4e9dc"), 5.082357),
    ],
)
def test_contrast_is_that_of_wcag(pair: tuple[str, str], ratio: float) -> None:
    first, second = luminance(colours(*pair))
    assert float(contrast(first, second)) == pytest.approx(ratio, abs=2e-4)


def test_a_pale_card_on_white_gets_quiet_graphite() -> None:
    line = choose_cut_line(colours("f1e8d6", "ffffff"))
    assert line.casing is None
    assert max(line.colour) < 90


def test_a_dark_card_on_a_pale_ground_gets_a_tone_between_them() -> None:
    line = choose_cut_line(colours("101820", "ffffff"))
    assert line.casing is None
    assert 90 < max(line.colour) < 200
    assert line.contrast >= LINE_CONTRAST


def test_where_no_tone_will_do_a_light_casing_lies_under_a_dark_line() -> None:
    line = choose_cut_line(colours("000000", "777777", "ffffff"))
    assert line.casing == CASING
    assert line.contrast >= LINE_CONTRAST


@given(st.lists(st.tuples(*[st.integers(0, 255)] * 3), min_size=1, max_size=6))
def test_every_line_keeps_three_to_one(beside: list[tuple[int, int, int]]) -> None:
    grounds = np.array(beside, np.uint8)
    line = choose_cut_line(grounds)
    against = np.array([line.casing], np.uint8) if line.casing else grounds
    own = luminance(np.array(line.colour, np.uint8))
    assert float(contrast(own, luminance(against)).min()) >= LINE_CONTRAST


def test_colours_are_read_along_the_whole_line() -> None:
    die = make_die("rectangle", 2, 2)
    view = view_around((0, 0, 2, 2), 50)
    picture = np.full((100, 100, 3), 255, np.uint8)
    picture[60:64, :6] = (10, 20, 30)  # a mark at the left edge only
    beside = colours_beside(die.shape, (picture, view), colours("ffffff"))
    assert (beside == (10, 20, 30)).all(axis=1).any()


@pytest.mark.parametrize("name", ["rectangle", "ellipse", "ticket-corner", "lancet-arch"])
def test_a_stroke_covers_its_width_along_its_length(name: str) -> None:
    die = make_die(name, 3, 4)
    width_in = 1 / 72
    bands = stroke_coverage(die.shape, width_in, view_around(die.shape.box, 200, 0.05))
    area = sum(band.sum(dtype=np.float64) for _, band in bands) / 200**2
    assert area == pytest.approx(perimeter(die.shape.outer) * width_in, rel=0.002)


def test_a_line_of_one_tone_has_no_casing_and_stands_out_most() -> None:
    grounds = colours("000000", "777777", "ffffff")
    cased = choose_cut_line(grounds)
    assert cased.casing == CASING
    single = one_tone(cased, grounds)
    assert single.casing is None
    own = luminance(np.array(single.colour, np.uint8))
    assert single.contrast == pytest.approx(float(contrast(own, luminance(grounds)).min()))
    graphite = luminance(np.array(cased.colour, np.uint8))
    assert single.contrast >= float(contrast(graphite, luminance(grounds)).min())
    plain = choose_cut_line(colours("f1e8d6", "ffffff"))
    assert one_tone(plain, grounds) == plain
