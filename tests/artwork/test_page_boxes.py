"""Where a card lies on its page: boxes, rotation, units, and sizes that do not fit."""

from pathlib import Path

import numpy as np
import pytest

from mockup.artwork.art import art_of
from mockup.artwork.objects import ArtObject, keep_clear, objects_of
from mockup.artwork.page import place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import View
from tests.conftest import make_pdf

# A square inch at the top left of the trim of a 5 x 7 card, on a larger sheet off centre.
SHEET = (5.6, 7.9)
TRIM = (0.25, 0.5, 5.25, 7.5)
MARK = f"1 0 0 rg {0.25 * 72} {6.5 * 72} 72 72 re f"

# ISO 32000-1 table 30: Rotate turns the page clockwise when it is shown.
CORNERS = {0: (0, 0), 90: (6, 0), 180: (4, 6), 270: (0, 4)}


@pytest.mark.parametrize("rotate", CORNERS)
@pytest.mark.parametrize("unit", [1, 2])
@pytest.mark.parametrize("cropped", [False, True])
def test_boxes_rotation_and_user_unit_are_honoured(
    tmp_path: Path, rotate: int, unit: int, cropped: bool
) -> None:
    entries: dict[str, object] = {"Rotate": rotate, "UserUnit": unit}
    if cropped:
        entries["CropBox"] = [0.1 * 72, 0.2 * 72, 5.5 * 72, 7.8 * 72]
    path = make_pdf(tmp_path / "art.pdf", SHEET, MARK, TRIM, **entries)
    page = read_page(art_of(path))
    wide, high = (5 * unit, 7 * unit) if rotate % 180 == 0 else (7 * unit, 5 * unit)
    placement = place_card(page, wide, high, 0.125)
    view = View(0, 0, wide * 20, high * 20, 20)
    picture = rasterise([RasterJob(page, placement, IDENTITY, view)])[0].on_white
    rows, columns = np.nonzero(picture[:, :, 1] < 128)
    left, top = (corner * unit for corner in CORNERS[rotate])
    assert (columns.min() / 20, rows.min() / 20) == (left, top)
    assert ((columns.max() + 1) / 20, (rows.max() + 1) / 20) == (left + unit, top + unit)
    ((mark,),) = objects_of([(page, placement)])
    assert mark.box == pytest.approx((left, top, left + unit, top + unit), abs=1e-3)


@pytest.mark.parametrize(
    ("size", "bleed"),
    [((5.25, 7.25), 0.125), ((5 + 6 / 25.4, 7 + 6 / 25.4), 3 / 25.4), ((5, 7), 0)],
)
def test_without_a_trim_box_the_bleed_is_found(
    tmp_path: Path, size: tuple[float, float], bleed: float
) -> None:
    placement = place_card(read_page(art_of(make_pdf(tmp_path / "art.pdf", size))), 5, 7, 0.125)
    assert placement.bleed_in == pytest.approx(bleed, abs=1e-6)
    assert placement.trim == pytest.approx((bleed, bleed, bleed + 5, bleed + 7), abs=1e-6)


def test_a_trim_box_that_is_the_whole_page_is_not_believed(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "art.pdf", (5.25, 7.25), trim_in=(0, 0, 5.25, 7.25))
    assert place_card(read_page(art_of(path)), 5, 7, 0.125).trim.left == pytest.approx(0.125)


def test_a_wrong_size_is_told_by_how_much(tmp_path: Path) -> None:
    page = read_page(art_of(make_pdf(tmp_path / "art.pdf", (5.25, 7.25))))
    with pytest.raises(InputError, match=r"\+0\.5 in wide, \+0\.5 in high"):
        place_card(page, 4.5, 6.5, 0.125)


def test_swapped_sides_are_named(tmp_path: Path) -> None:
    page = read_page(art_of(make_pdf(tmp_path / "art.pdf", (7.25, 5.25))))
    with pytest.raises(InputError, match="the sides are swapped"):
        place_card(page, 5, 7, 0.125)


def test_type_and_drawings_are_kept_clear_and_grounds_are_not(art: Path) -> None:
    page = read_page(art_of(art / "reply.pdf"))
    placement = place_card(page, 4.875, 3.5, 0.125)
    boxes = keep_clear(objects_of([(page, placement)])[0], 4.875, 3.5)
    assert boxes
    card = Box(0, 0, 4.875, 3.5)
    assert all(box.left >= 0 and box.right <= card.right for box in boxes)
    covered = sum(box.width * box.height for box in boxes)
    assert 0.03 < covered / (4.875 * 3.5) < 0.5  # the flood and the water are no marks


def test_a_border_is_kept_clear_and_a_ground_to_the_edge_is_not() -> None:
    border, ground = Box(0.25, 0.25, 4.75, 6.75), Box(0.0, 0.0, 5.0, 7.0)
    marks = [ArtObject("path", border), ArtObject("path", ground)]
    assert keep_clear(marks, 5.0, 7.0) == [pytest.approx(border)]
