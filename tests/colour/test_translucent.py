"""A sheet on a ground, against Kubelka's own formulas and the cases that need none."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.translucent import Film, film_of

SHARES = st.floats(0.02, 0.98)


@given(SHARES, st.floats(0.2, 0.95))
def test_what_passes_is_kubelkas(opacity: float, body: float) -> None:
    """Kubelka 1948, J. Opt. Soc. Am. 38, 448: T^2 = (a - R0)^2 - b^2, a = (1/Roo + Roo) / 2,
    b^2 = a^2 - 1."""
    film = Film(opacity, (body, body, body))
    a = (1 / body + body) / 2
    expected = (a - opacity * body) ** 2 - (a * a - 1)
    assert film.passed[0] ** 2 == pytest.approx(expected, abs=1e-5)


@given(SHARES, st.floats(0.2, 0.95))
def test_over_black_it_is_as_its_opacity_says_and_over_its_own_pad_itself(
    opacity: float, body: float
) -> None:
    """ISO 2471: opacity is the reflectance over black as a share of that of a pad."""
    film = Film(opacity, (body,) * 3)
    own = np.full(3, body)
    assert film.over(own, np.zeros(3)) / own == pytest.approx([opacity] * 3, rel=1e-5)
    assert film.over(own, own) == pytest.approx(own, rel=1e-4)


@given(SHARES, SHARES, SHARES)
def test_a_paler_ground_shows_paler_and_less_through_more_opaque_paper(
    opacity: float, one: float, other: float
) -> None:
    own = np.full(3, 0.85)
    dark, pale = sorted((one, other))
    film, denser = Film(opacity, (0.85,) * 3), Film(min(opacity + 0.02, 1.0), (0.85,) * 3)
    seen = [film.over(own, np.full(3, each))[0] for each in (dark, pale)]
    behind = [denser.over(own, np.full(3, each))[0] for each in (dark, pale)]
    assert seen[0] <= seen[1] + 1e-7
    assert behind[1] - behind[0] <= seen[1] - seen[0] + 1e-6


def test_ink_on_the_sheet_dims_what_is_seen_through_it() -> None:
    film, black = Film(0.35, (0.85,) * 3), np.zeros(3)
    assert film.over(black, np.full(3, 0.85)) == pytest.approx([0, 0, 0])


def test_paper_that_is_not_seen_through_is_no_film() -> None:
    assert film_of(0.0, (250, 250, 250)) is None
    film = film_of(0.65, (255, 255, 255))
    assert film is not None
    assert film.opacity == pytest.approx(0.35)
    assert film.body == pytest.approx((1, 1, 1))
