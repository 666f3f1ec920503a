"""White ink over paper: worked values of Kubelka and Munk's formula, and what must always hold."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour import white_ink
from mockup.colour.lab import lab_of_xyz, rgb_of_xyz, xyz_of_lab, xyz_of_rgb
from mockup.colour.plates import Plates, WhitePlate
from mockup.colour.srgb import Rgb, decode
from mockup.colour.white_ink import over, scattering, white_on

KRAFT, NAVY, BLACK = (62.0, 8.0, 22.0), (22.0, 3.0, -20.0), (18.0, 0.0, 0.0)


def rgb(lab: tuple[float, float, float]) -> Rgb:
    return rgb_of_xyz(xyz_of_lab(np.array(lab)))


def lightness(colour: Rgb) -> float:
    return float(lab_of_xyz(xyz_of_rgb(colour))[0])


@pytest.mark.parametrize(
    ("opacity", "hits", "paper", "expected"),
    [
        (0.5, 1, KRAFT, 79), (0.5, 1, NAVY, 73), (0.5, 1, BLACK, 73),
        (0.7, 1, KRAFT, 86), (0.7, 1, NAVY, 84), (0.7, 1, BLACK, 83),
        (0.9, 1, KRAFT, 92.5), (0.9, 1, NAVY, 92), (0.9, 1, BLACK, 92),
        (0.5, 2, BLACK, 83), (0.7, 2, BLACK, 90),
    ],
)  # fmt: skip
def test_worked_values(
    monkeypatch: pytest.MonkeyPatch,
    opacity: float,
    hits: int,
    paper: tuple[float, float, float],
    expected: float,
) -> None:
    """L* of white over papers, worked out apart from this program by the same formula."""
    monkeypatch.setattr(white_ink, "OPACITY", opacity)
    assert lightness(white_on(rgb(paper), hits)) == pytest.approx(expected, abs=0.6)


def test_opacity_is_what_it_says() -> None:
    """TAPPI T 425: reflectance over black is that share of the one over a body of 0.89."""
    for opacity in (0.3, 0.55, 0.8, 0.97):
        black, body = over(np.array([0.0, 0.89]), scattering(opacity))
        assert black / body == pytest.approx(opacity, abs=1e-9)


def test_a_film_without_end_hides_everything() -> None:
    assert over(np.array([0.0, 0.3, 0.9]), 60.0) == pytest.approx([0.9] * 3)
    assert over(np.array([0.0, 0.3, 0.8]), 1e-9) == pytest.approx([0.0, 0.3, 0.8], abs=1e-6)


@given(st.tuples(*[st.integers(0, 225)] * 3))
def test_two_hits_are_lighter_than_one_and_one_than_none(paper: Rgb) -> None:
    one, two = white_on(paper, 1), white_on(paper, 2)
    assert lightness(paper) < lightness(one) + 0.3
    assert lightness(one) < lightness(two) + 0.3


def test_a_half_tone_of_white_is_half_way_in_light() -> None:
    paper = rgb(KRAFT)
    art = np.full((1, 3, 3), 255, np.uint8)
    plate = np.array([[0, 128, 255]], np.uint8)
    bare, half, full = Plates(art, WhitePlate(plate, 1)).on(paper)[0]
    assert tuple(bare) == paper
    assert tuple(full) == white_on(paper, 1)
    between = decode(bare) + (decode(full) - decode(bare)) * 128 / 255
    assert decode(half) == pytest.approx(between, abs=0.004)


def test_white_paper_is_what_checks_look_at_whatever_white_is_printed() -> None:
    art = np.full((2, 2, 3), 200, np.uint8)
    plates = Plates(art, WhitePlate(np.full((2, 2), 255, np.uint8), 2))
    assert (plates.on_white == 200).all()
