"""The comparison of pictures notices what spoils one, and lets pass what no eye sees."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

import tests.pictures as pictures
from tests.golden.recipes import HERE
from tests.pictures import SAME, apart, assert_same_picture, difference, read

LIT = read(HERE / "flatlay-lit.png")
PIECE = read(HERE / "piece-arch.png")


def _shadow_lost(picture: np.ndarray) -> np.ndarray:
    """A patch of table beside a card as light as the open table: what a lost shadow does."""
    lighter = picture.astype(float)
    lighter[150:170, 100:120] *= 1.06  # the shadow of a raised card takes 6 % and more
    return np.rint(lighter.clip(0, 255)).astype(np.uint8)


def _line_lost(picture: np.ndarray) -> np.ndarray:
    """The picture's ink line is replaced by what lies beside it, a pixel wide, ten long."""
    spoilt = picture.copy()
    alpha = picture[:, :, 3]
    rows = np.arange(180, 190)
    first = [int(np.argmax(alpha[row] > 0)) for row in rows]
    for row, column in zip(rows, first, strict=True):
        spoilt[row, column : column + 2, :3] = picture[row, column + 3, :3]
    return spoilt


def _two_levels_up(picture: np.ndarray) -> np.ndarray:
    return (picture.astype(int) + 2).clip(0, 255).astype(np.uint8)


def _last_bit(picture: np.ndarray) -> np.ndarray:
    """Rounding of another processor: a level up or down, at random."""
    noise = np.random.default_rng(1).integers(-1, 2, picture.shape)
    return (picture + noise).clip(0, 255).astype(np.uint8)


def _thinner(picture: np.ndarray) -> np.ndarray:
    """Coverage along an edge less by a tenth: an edge half a pixel elsewhere."""
    spoilt = picture.copy()
    edge = (spoilt[:, :, 3] > 0) & (spoilt[:, :, 3] < 255)
    spoilt[edge, 3] //= 2
    return spoilt


@pytest.mark.parametrize(
    ("picture", "spoil"),
    [
        (LIT, lambda p: np.roll(p, 1, axis=1)),
        (LIT, lambda p: np.roll(p, 1, axis=0)),
        (LIT, lambda p: p[:, :, ::-1]),
        (LIT, _shadow_lost),
        (PIECE, _line_lost),
        (PIECE, _thinner),
        (PIECE, lambda p: np.dstack([p[:, :, :3], np.full(p.shape[:2], 255, np.uint8)])),
    ],
    ids=["right", "down", "channels", "shadow", "cut line", "edge", "alpha"],
)
def test_what_spoils_a_picture_is_noticed(picture, spoil) -> None:
    assert difference(spoil(picture), picture).worst > SAME


def test_two_levels_are_noticed_in_the_dark_and_let_pass_on_paper() -> None:
    """Two levels of 255 are 0.73 on white paper (CIEDE2000); the eye sees 1.0."""
    paper = np.full((8, 8, 3), 240, np.uint8)
    assert 0.3 < difference(_two_levels_up(paper), paper).worst < SAME
    four = _two_levels_up(_two_levels_up(paper))
    assert difference(four, paper).worst > difference(_two_levels_up(paper), paper).worst


@pytest.mark.parametrize("picture", [LIT, PIECE], ids=["lit", "piece"])
def test_the_same_picture_differs_nowhere_and_rounding_counts_for_little(picture) -> None:
    assert difference(picture, picture).worst == 0
    rounded = np.dstack([_last_bit(picture[:, :, :3]), picture[:, :, 3:]])
    assert difference(rounded, picture).worst < SAME


def test_colours_under_no_coverage_do_not_count() -> None:
    other = PIECE.copy()
    other[other[:, :, 3] == 0, :3] = (255, 0, 255)
    assert difference(other, PIECE).worst == 0


def test_another_size_is_never_resized() -> None:
    with pytest.raises(AssertionError, match="is not"):
        difference(LIT[:-1], LIT)


def test_the_measure_is_ciede2000_of_srgb() -> None:
    """White to black is 100 by definition; grey 128 against 138 is 3.9, by colour-science."""
    import colour

    assert apart((255, 255, 255), (0, 0, 0)) == pytest.approx(100, abs=0.1)
    pair = [
        colour.XYZ_to_Lab(colour.sRGB_to_XYZ(np.array(c) / 255))
        for c in ((200, 80, 60), (190, 90, 60))
    ]
    wanted = float(colour.delta_E(*pair, method="CIE 2000"))
    assert apart((200, 80, 60), (190, 90, 60)) == pytest.approx(wanted, abs=0.02)


def test_a_failure_saves_three_pictures_and_tells_the_place(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(pictures, "FAILED", tmp_path / "failed")
    spoilt = LIT.copy()
    spoilt[40:44, 80:84] = (255, 0, 255)
    for name, picture in (("got", spoilt), ("wanted", LIT)):
        Image.fromarray(picture).save(tmp_path / f"{name}.png")
    with pytest.raises(AssertionError, match=r"box at 80, 40 px, 4\.00, 2\.00 in from the top"):
        assert_same_picture("lit", tmp_path / "got.png", tmp_path / "wanted.png", 20)
    saved = {path.name for path in (tmp_path / "failed").iterdir()}
    assert saved == {"lit-actual.png", "lit-expected.png", "lit-difference.png"}
    assert read(tmp_path / "failed" / "lit-actual.png").tolist() == spoilt.tolist()
