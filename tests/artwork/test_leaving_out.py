"""Marks left out of a picture, and all the others drawn to the byte as without leaving any out."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pytest

from mockup.artwork.art import art_of
from mockup.artwork.inspection import inspect
from mockup.artwork.page import ArtPage, Placement, place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.geometry.affine import IDENTITY
from mockup.pixels import Bytes, View
from tests.conftest import make_pdf

NO_SUCH = frozenset({10**9})


def drawn(page: ArtPage, placement: Placement, width_in: float, height_in: float) -> Bytes:
    view = View(0, 0, round(width_in * 72), round(height_in * 72), 72)
    return rasterise([RasterJob(page, placement, IDENTITY, view)])[0].on_white


def less(page: ArtPage, numbers: frozenset[int]) -> ArtPage:
    return replace(page, art=replace(page.art, left_out=numbers))


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("invitation", (5, 7)),
        ("details", (4.25, 5.5)),
        ("reply", (4.875, 3.5)),
        ("liner", (7, 9.5)),
    ],
)
def test_leaving_nothing_out_changes_nothing(
    art: Path, name: str, size: tuple[float, float]
) -> None:
    page = read_page(art_of(art / f"{name}.pdf"))
    placement = place_card(page, *size, 0.125)
    handed_on = drawn(less(page, NO_SUCH), placement, *size)
    assert np.array_equal(handed_on, drawn(page, placement, *size))


def rich_page(path: Path) -> Path:
    """Writes a page with a tiling pattern, a group, a soft mask and an untagged CMYK ground."""
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(378, 522))
    box = pikepdf.Array([0, 0, 378, 522])
    cell = pdf.make_stream(b"0 0 1 rg 2 2 5 5 re f")
    cell.Type, cell.PatternType, cell.PaintType = pikepdf.Name.Pattern, 1, 1
    cell.TilingType, cell.BBox, cell.XStep, cell.YStep = 1, pikepdf.Array([0, 0, 9, 9]), 9, 9
    cell.Resources = pikepdf.Dictionary()
    group = pikepdf.Dictionary(S=pikepdf.Name.Transparency, CS=pikepdf.Name.DeviceGray)
    mask = pdf.make_stream(b"0.5 g 100 100 200 300 re f")
    mask.Type, mask.Subtype, mask.BBox = pikepdf.Name.XObject, pikepdf.Name.Form, box
    mask.Group = group
    soft = pikepdf.Dictionary(S=pikepdf.Name.Luminosity, G=mask)
    page.Resources = pikepdf.Dictionary(
        Pattern=pikepdf.Dictionary(P=cell),
        ExtGState=pikepdf.Dictionary(
            M=pikepdf.Dictionary(SMask=soft), T=pikepdf.Dictionary(ca=0.5, BM=pikepdf.Name.Multiply)
        ),
    )
    page.Contents = pdf.make_stream(
        b"0.1 0.6 0 0 k 0 0 378 522 re f /Pattern cs /P scn 40 40 150 400 re f "
        b"q /M gs 1 0 0 rg 80 80 250 350 re f Q q /T gs 0 1 0 rg 200 200 90 90 re f Q "
        b"0 G 1 w 9 9 360 504 re S"
    )
    pdf.save(path)
    return path


def test_patterns_masks_and_groups_are_handed_on(tmp_path: Path) -> None:
    page = read_page(art_of(rich_page(tmp_path / "rich.pdf")))
    placement = place_card(page, 5, 7, 0.125)
    handed_on = drawn(less(page, NO_SUCH), placement, 5, 7)
    assert np.array_equal(handed_on, drawn(page, placement, 5, 7))


@pytest.mark.parametrize("make", [rich_page, lambda path: make_pdf(path, content=LINE)])
def test_a_mark_is_left_out_by_the_number_it_is_read_with(tmp_path: Path, make: object) -> None:
    path = make(tmp_path / "art.pdf")  # type: ignore[operator]
    page = read_page(art_of(path))
    placement = place_card(page, 5, 7, 0.125)
    line = inspect(page.art, placement).painted[-1]
    assert line.pen is not None
    without = drawn(less(page, frozenset({line.number})), placement, 5, 7)
    everything = drawn(page, placement, 5, 7)
    changed = (without != everything).any(axis=2)
    rows, columns = np.nonzero(changed)
    assert len(rows) and changed.mean() < 0.02
    assert columns.min() == 0 and rows.min() == 0  # the line runs along the cut itself


LINE = "0.8 g 60 60 100 100 re f 0 G 1 w 9 9 360 504 re S"
