"""Codes found in pictures of pages: where, how fine; and what is none."""

from __future__ import annotations

import numpy as np
import pytest

from mockup.artwork.inspection import Inspection, Painted
from mockup.geometry.point import Box
from mockup.pixels import View
from mockup.reading.codes import find_codes
from mockup.reading.sight import Sight
from tests.checks.bench.codes import bars, modules


def page(pixels: np.ndarray, box: Box) -> tuple[Inspection, Sight]:
    """A card of 4 x 4 in at 300 pixels an inch with a picture on it, as one placed image."""
    picture = np.full((1200, 1200, 3), 255, np.uint8)
    left, top = round(box.left * 300), round(box.top * 300)
    picture[top : top + pixels.shape[0], left : left + pixels.shape[1]] = pixels[..., None]
    image = Painted("image", box, (), (), False, None, 1.0, None, 0)
    inspection = Inspection((image,), (), (), (), (), 1, ())
    return inspection, Sight(picture, View(0, 0, 1200, 1200, 300))


def drawn(count: int, module_px: int, dark=20, light=255) -> np.ndarray:
    cells = np.where(modules(count), dark, light).astype(np.uint8)
    return cells.repeat(module_px, 0).repeat(module_px, 1)


@pytest.mark.parametrize(("count", "module_px"), [(21, 4), (25, 8), (33, 6), (41, 3)])
@pytest.mark.parametrize("turned", [0, 1, 2, 3])
def test_a_matrix_code_is_found_whichever_way_up(count, module_px, turned):
    pixels = np.rot90(drawn(count, module_px), turned)
    side = pixels.shape[0] / 300
    (code,) = find_codes(*page(pixels, Box(1.0, 1.5, 1.0 + side, 1.5 + side)))
    assert code.kind == "matrix"
    assert code.box == pytest.approx((1.0, 1.5, 1.0 + side, 1.5 + side), abs=0.01)
    assert code.module_in == pytest.approx(module_px / 300, rel=0.03)
    assert not code.reversed_


def test_contrast_is_the_difference_of_luminance():
    """sRGB 200 is 0.578 of white's light, 255 all of it (IEC 61966-2-1)."""
    pixels = drawn(25, 8, dark=200)
    (code,) = find_codes(*page(pixels, Box(1.0, 1.0, 1.0 + 200 / 300, 1.0 + 200 / 300)))
    assert code.contrast == pytest.approx(1 - 0.578, abs=0.01)


def test_light_on_dark_is_told():
    pixels = np.pad(drawn(25, 8, dark=255, light=10), 40, constant_values=10)
    side = pixels.shape[0] / 300
    (code,) = find_codes(*page(pixels, Box(1.0, 1.0, 1.0 + side, 1.0 + side)))
    assert code.reversed_


def test_bars_are_found_with_their_narrowest():
    row = np.full(400, 255, np.uint8)
    for at, width in bars(30):
        row[3 * at : 3 * (at + width)] = 10
    pixels = row[None].repeat(120, 0)
    (code,) = find_codes(*page(pixels, Box(1.0, 1.0, 1.0 + 400 / 300, 1.4)))
    assert code.kind == "bars"
    assert code.module_in == pytest.approx(3 / 300, abs=1e-9)


def test_grain_stripes_and_checks_are_no_codes():
    random = np.random.default_rng(3)
    grain = random.integers(0, 256, (300, 300)).astype(np.uint8)
    stripes = np.tile(np.repeat(np.array([0, 255], np.uint8), 6), (300, 25))
    checks = np.kron(np.indices((25, 25)).sum(axis=0) % 2, np.ones((12, 12))).astype(np.uint8) * 255
    for pixels in (grain, stripes, checks):
        assert find_codes(*page(pixels, Box(1.0, 1.0, 2.0, 2.0))) == []
