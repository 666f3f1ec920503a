"""What the comparison must find, and what it must not; drawn by Pillow, not by our own pipeline."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image, ImageDraw

from mockup.comparing.comparison import Comparison, compare, compare_cut
from mockup.comparing.kinds import Kind
from mockup.geometry.point import Box
from mockup.pixels import Bytes
from tests.comparing.made import INK, PPI, TIMES, Draw, card, plain, words

LINE_IN = Box(0.38, 0.68, 2.9, 0.95)  # where the second line stands


def _second(text: str, **how: object) -> Draw:
    """Returns a drawing with another second line in place of the first."""

    def draw(canvas: ImageDraw.ImageDraw) -> None:
        words(canvas, "The Tide Mill Supper", 80, 18)
        words(canvas, text, 220, **how)  # pyright: ignore[reportArgumentType]
        words(canvas, "Boats leave at six, and again at ten.", 320)
        canvas.line((TIMES * 120, TIMES * 440, TIMES * 700, TIMES * 440), INK, 2 * TIMES)
        canvas.ellipse((TIMES * 420, TIMES * 500, TIMES * 436, TIMES * 516), INK)

    return draw


def _jpeg(picture: Bytes) -> Bytes:
    kept = io.BytesIO()
    Image.fromarray(picture).save(kept, "JPEG", quality=90, subsampling=0)
    return np.asarray(Image.open(kept).convert("RGB"))


def _off(picture: Bytes) -> Bytes:
    return np.clip(picture.astype(int) + np.array((2, -2, 2)), 0, 255).astype(np.uint8)


def _within(found: Comparison, box: Box) -> bool:
    return all(
        place.box.left >= box.left
        and place.box.right <= box.right
        and place.box.top >= box.top
        and place.box.bottom <= box.bottom
        for place in found.places
    )


@pytest.mark.parametrize(
    "after",
    [
        card(plain),
        card(plain, shift=(1, 2)),
        card(plain, shift=(-2, 1)),
        _off(card(plain)),
        _jpeg(card(plain)),
        card(plain, scale=1.0005),
    ],
    ids=["same", "shifted", "shifted the other way", "rounded by two", "as JPEG", "0.05 % larger"],
)
def test_the_same_page_drawn_another_way_is_the_same(after: Bytes) -> None:
    assert compare(card(plain), after).same


@pytest.mark.parametrize(
    "text",
    [
        "Oysters. bread, butter; and a song.",
        "Oysters, bread, butter, and a song.",
        "Oysters, broad, butter; and a song.",
        "Oysters, bread, butter; and a song",
    ],
    ids=["comma to full stop", "semicolon to comma", "one letter", "full stop gone"],
)
def test_one_sign_is_found_and_nothing_else(text: str) -> None:
    found = compare(card(plain), card(_second(text)))
    assert found.places
    assert not found.throughout
    assert _within(found, LINE_IN)


def test_a_line_of_a_quarter_point_is_found_as_new() -> None:
    def ruled(canvas: ImageDraw.ImageDraw) -> None:
        plain(canvas)
        canvas.line((TIMES * 200, TIMES * 480, TIMES * 330, TIMES * 480), INK, TIMES)

    found = compare(card(plain), card(ruled, shift=(1, 1)))
    assert [place.kind for place in found.places] == [Kind.APPEARED]
    assert found.places[0].box.centre.y == pytest.approx(1.6, abs=0.03)
    (gone,) = compare(card(ruled), card(plain)).places
    assert gone.kind is Kind.VANISHED


def test_a_line_of_type_in_a_colour_three_apart_is_found_as_recoloured() -> None:
    """(30, 36, 60) and (33, 42, 63) are CIEDE2000 3.01 apart, by colour-science 0.4.7."""
    other = _second("Oysters, bread, butter; and a song.", ink=(33, 42, 63))
    (place,) = compare(card(plain), card(other)).places
    assert place.kind is Kind.RECOLOURED
    assert _within(compare(card(plain), card(other)), LINE_IN)


def test_a_moved_line_tells_how_far() -> None:
    other = _second("Oysters, bread, butter; and a song.", x=129)
    (place,) = compare(card(plain), card(other)).places
    assert place.kind is Kind.MOVED
    assert place.moved_in == pytest.approx((9 / PPI, 0), abs=1 / PPI)


def test_one_percent_larger_is_told_as_that_and_nothing_else() -> None:
    found = compare(card(plain), card(plain, scale=1.01))
    assert found.scaled == pytest.approx(1.01, abs=0.001)
    assert found.places == ()


def test_all_of_it_moved_is_told_as_that_and_a_changed_letter_besides() -> None:
    other = _second("Oysters, broad, butter; and a song.")
    found = compare(card(plain), card(other, shift=(24, -16)))
    assert found.moved_in == pytest.approx((6 / PPI, -4 / PPI), abs=0.5 / PPI)
    assert len(found.places) == 1


def test_another_paper_and_ink_is_told_as_recoloured_and_a_changed_letter_besides() -> None:
    def other(canvas: ImageDraw.ImageDraw) -> None:
        _second("Oysters, broad, butter; and a song.")(canvas)

    found = compare(card(plain), card(other, paper=(236, 236, 240)))
    assert found.recoloured > 3
    assert len(found.places) == 1
    assert _within(found, LINE_IN)


def test_type_in_another_face_is_found_in_every_line() -> None:
    def other(canvas: ImageDraw.ImageDraw) -> None:
        words(canvas, "The Tide Mill Supper", 80, 18, face="Light")
        words(canvas, "Oysters, bread, butter; and a song.", 220, face="Italic")
        words(canvas, "Boats leave at six, and again at ten.", 320, face="Italic")

    found = compare(card(plain), card(other))
    tops = [place.box.top * PPI for place in found.places]
    assert found.redrawn
    for line in (80, 220, 320):
        assert any(line - 15 < top < line + 60 for top in tops)


def test_what_only_the_cut_takes_away_is_no_change_of_the_art() -> None:
    art = card(plain)
    whole = np.dstack([art, np.full(art.shape[:2], 255, np.uint8)])
    cut = whole.copy()
    cut[:120, :200] = 0
    assert compare_cut(whole, cut).same
    assert compare_cut(whole, whole[:-30]).resized
