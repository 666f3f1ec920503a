"""sRGB against the published curve, and ink on stock against its worked limits."""

import numpy as np
import pytest

from mockup.colour.ink import FLOOR, on_stock, printed
from mockup.colour.srgb import decode, encode, parse_hex, to_hex
from mockup.errors import SuiteError


# Values of the IEC 61966-2-1 formula, computed at 30 digits.
@pytest.mark.parametrize(
    ("code", "light"),
    [(0, 0.0), (10, 0.0030352698), (11, 0.0033465358), (128, 0.2158605001), (188, 0.5028864580)],
)
def test_decoding_follows_iec_61966_2_1(code: int, light: float) -> None:
    assert float(decode(np.array(code, np.uint8))) == pytest.approx(light, abs=1e-7)


def test_every_byte_comes_back() -> None:
    codes = np.arange(256, dtype=np.uint8)
    assert np.array_equal(encode(decode(codes)), codes)


def test_half_of_white_is_188() -> None:
    assert int(encode(np.array(0.5, np.float32))) == 188


def test_hex_colours() -> None:
    assert to_hex(parse_hex("1D314D")) == "#1d314d"
    with pytest.raises(SuiteError, match="six hex digits"):
        parse_hex("navy")


def test_white_stock_changes_nothing() -> None:
    picture = np.arange(48, dtype=np.uint8).reshape(4, 4, 3)
    assert on_stock(picture, (255, 255, 255)) is picture


def test_bare_paper_shows_its_own_colour() -> None:
    white = np.full((2, 2, 3), 255, np.uint8)
    assert np.abs(on_stock(white, (174, 144, 111)).astype(int) - (174, 144, 111)).max() <= 1


def test_ink_on_kraft_follows_the_worked_example() -> None:
    """Multiplied reflectances with a floor, each channel by itself (transparent ink).

    Checked against the formula worked by hand for a grey: in greys all spaces agree.
    """
    ink, paper = np.full(3, 0.2), np.full(3, 0.4)
    expected = FLOOR + (0.2 - FLOOR) * (0.4 - FLOOR) / (1 - FLOOR)
    assert printed(ink, paper) == pytest.approx(np.full(3, expected), abs=1e-9)


def test_ink_never_lightens_paper() -> None:
    rng = np.random.default_rng(2)
    ink, paper = rng.random((50, 3)), np.array([0.5, 0.4, 0.3])
    luminance = np.array([0.2126, 0.7152, 0.0722])
    assert (printed(ink, paper) @ luminance <= paper @ luminance + 1e-9).all()
