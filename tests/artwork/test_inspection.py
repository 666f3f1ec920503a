"""What a page is read to hold, against what was drawn on it and against a second reading."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pikepdf
import pytest
from pikepdf import Dictionary, Name

from mockup.artwork.art import art_of
from mockup.artwork.inspection import Inspection, inspect
from mockup.artwork.page import place_card, read_page
from mockup.foreign.document import opened_page
from tests.checks.bench.sheet import BLACK, CREAM, INK, Sheet


def inspected(path: Path, size: tuple[float, float] = (5.0, 7.0)) -> Inspection:
    page = read_page(art_of(path))
    return inspect(page.art, place_card(page, *size, 0.125))


@pytest.fixture
def sheet() -> Sheet:
    return Sheet()


def test_paths_lie_where_they_were_drawn(sheet, tmp_path):
    sheet.rect(1.0, 2.0, 3.0, 0.5, INK)
    sheet.line([(1.0, 4.0), (2.0, 4.0)], 2.0, CREAM, "3 2", cap=1)
    fill, stroke = inspected(sheet.save(tmp_path / "a.pdf")).painted
    assert tuple(fill.box) == pytest.approx((1.0, 2.0, 4.0, 2.5), abs=1e-5)
    assert fill.ink.space == "cmyk"
    assert fill.ink.values == pytest.approx(INK, abs=1e-4)
    assert stroke.pen.width_in == pytest.approx(2 / 72, abs=1e-6)
    assert stroke.pen.dashes == pytest.approx((3.0, 2.0), abs=1e-4)  # in the page's own units
    assert stroke.pen.cap == "round"
    assert tuple(stroke.box) == pytest.approx((1 - 1 / 72, 4 - 1 / 72, 2 + 1 / 72, 4 + 1 / 72))


def test_a_closed_path_comes_back_and_curves_stay_within_a_mil(sheet, tmp_path):
    """Eight cubics a circle are 4.2e-6 of the radius off; the chords may be 0.001 in off."""
    kappa = 0.5522847498  # the usual four-cubic circle, radius off by 2.7e-4 at most
    sheet.colour(INK)
    sheet.ops.append(
        f"3 3 m 3 {3 + kappa} {2 + kappa} 4 2 4 c {2 - kappa} 4 1 {3 + kappa} 1 3 c "
        f"1 {3 - kappa} {2 - kappa} 2 2 2 c {2 + kappa} 2 3 {3 - kappa} 3 3 c h f"
    )
    (circle,) = inspected(sheet.save(tmp_path / "a.pdf")).painted
    (ring,) = circle.rings
    assert circle.closed == (True,)
    assert (ring[0] == ring[-1]).all()
    radius = np.hypot(*(ring - (2.0, 3.0)).T)
    assert np.abs(radius - 1.0).max() < 0.0005
    middles = np.hypot(*((ring[1:] + ring[:-1]) / 2 - (2.0, 3.0)).T)
    assert (1.0 - middles).max() < 0.001


def test_sub_paths_after_a_closed_one_go_on_from_its_start(sheet, tmp_path):
    """ISO 32000-1 8.5.2.1: after h the current point is the start of the sub-path."""
    sheet.colour(INK)
    sheet.ops.append("1 1 m 2 1 l 2 2 l h 1 3 l 2 3 l f")
    (both,) = inspected(sheet.save(tmp_path / "a.pdf")).painted
    assert both.closed == (True, False)
    assert both.rings[1][0] == pytest.approx((1.0, 1.0), abs=1e-5)


def test_live_type_has_its_outlines_size_and_font(sheet, tmp_path):
    box = sheet.live_type(1.0, 3.0, "Samphire", 14, BLACK)
    (word,) = inspected(sheet.save(tmp_path / "a.pdf")).painted
    assert word.kind == "type"
    assert word.lettering.text == "Samphire"
    assert word.lettering.size_pt == pytest.approx(14, abs=1e-3)
    assert word.lettering.embedded
    assert tuple(word.box) == pytest.approx(tuple(box), abs=0.0015)
    assert len(word.glyphs) == 8
    assert sum(word.glyphs) == len(word.rings)


def test_a_font_that_is_not_in_the_file_is_told(sheet, tmp_path):
    sheet.live_type(1.0, 3.0, "Samphire", 14, BLACK, None)
    read = inspected(sheet.save(tmp_path / "a.pdf"))
    assert read.unembedded == ("Helvetica",)
    assert not read.painted[0].lettering.embedded


@pytest.mark.parametrize(("channels", "space"), [(1, "gray"), (3, "rgb"), (4, "cmyk")])
def test_images_with_their_resolution_and_colours(sheet, tmp_path, channels, space):
    sheet.image(np.full((300, 200, channels), 90, np.uint8), 1.0, 1.0, 2.0, 2.0)
    (image,) = inspected(sheet.save(tmp_path / "a.pdf")).painted
    assert image.image.ppi == pytest.approx(100)  # 200 px over 2 in; the other way 150
    assert (image.image.width_px, image.image.height_px) == (200, 300)
    assert image.image.space == space
    assert tuple(image.box) == pytest.approx((1, 1, 3, 3), abs=1e-5)


def test_spot_colours_have_their_names(sheet, tmp_path):
    sheet.rect(1, 1, 1, 1, "Gold foil")
    (foil,) = inspected(sheet.save(tmp_path / "a.pdf")).painted
    assert foil.ink.space == "spot"
    assert foil.ink.names == ("Gold foil",)


@pytest.mark.parametrize("state", ["on", "hidden", "unprinted"])
def test_layers_and_what_they_hide(sheet, tmp_path, state):
    sheet.rect(0, 0, 1, 1, INK)
    sheet.begin_layer("Guides", state)
    sheet.rect(2, 2, 1, 1, INK)
    sheet.end_layer()
    read = inspected(sheet.save(tmp_path / "a.pdf"))
    (layer,) = read.layers
    assert (layer.shown, layer.printed) == (state != "hidden", state != "unprinted")
    assert len(read.painted) == (2 if state == "on" else 1)
    assert len(read.hidden) == (0 if state == "on" else 1)


@pytest.mark.parametrize(("step", "read"), [("Cutting", "Structural/Cutting"), ("/White", "White")])
def test_a_processing_step_is_read_from_its_layer(sheet, tmp_path, step, read):
    """ISO 19593-1: GTS_ProcStepsGroup and GTS_ProcStepsType of the layer's GTS_Metadata."""
    sheet.begin_layer("Line", step=step)
    sheet.rect(2, 2, 1, 1, INK)
    sheet.end_layer()
    (layer,) = inspected(sheet.save(tmp_path / "a.pdf")).layers
    assert layer.processing_step == read


def test_a_font_that_is_listed_and_not_used_is_not_told(sheet, tmp_path):
    """Some programs list the standard Helvetica in every file they save."""
    about = {"Type": Name.Font, "Subtype": Name.Type1, "BaseFont": Name.Helvetica}
    sheet.resources.Font = Dictionary(F9=Dictionary(**about))
    sheet.rect(1, 1, 1, 1, INK)
    sheet.ops.append("BT /F9 0.2 Tf ET")
    assert inspected(sheet.save(tmp_path / "a.pdf")).unembedded == ()


def test_a_font_whose_letters_clip_is_needed_too(sheet, tmp_path):
    about = {"Type": Name.Font, "Subtype": Name.Type1, "BaseFont": Name.Helvetica}
    sheet.resources.Font = Dictionary(F9=Dictionary(**about))
    sheet.ops.append("q BT 7 Tr /F9 1 Tf 1 0 0 -1 1 2 Tm (Tide) Tj ET")
    sheet.rect(0, 0, 5, 5, INK)
    sheet.ops.append("Q")
    assert inspected(sheet.save(tmp_path / "a.pdf")).unembedded == ("Helvetica",)


def test_a_clip_cuts_the_box_and_is_noted(sheet, tmp_path):
    sheet.clip_rect(1, 1, 2, 2)
    sheet.rect(0, 0, 2, 2, INK)
    sheet.end()
    sheet.rect(0, 0, 2, 2, INK)
    clipped, whole = inspected(sheet.save(tmp_path / "a.pdf")).painted
    assert tuple(clipped.box) == pytest.approx((1, 1, 2, 2), abs=1e-5)
    assert clipped.clip == 1
    assert whole.clip == 0


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_turned_page_is_read_as_it_is_seen(tmp_path, turn):
    """A mark drawn near one corner is found at the corner where a viewer shows it (ISO 32000-1
    Table 30: Rotate turns clockwise)."""
    width, height = (5.0, 7.0) if turn == 180 else (7.0, 5.0)
    sheet = Sheet(width, height)
    sheet.rect(0.5, 0.5, 0.2, 0.2, INK)  # near the top left, before turning
    path = sheet.save(tmp_path / "a.pdf")
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        pdf.pages[0].Rotate = turn
        pdf.save(path)
    (mark,) = inspected(path).painted
    corners = {90: (4.3, 0.5), 180: (4.3, 6.3), 270: (0.5, 6.3)}
    assert (mark.box.left, mark.box.top) == pytest.approx(corners[turn], abs=1e-4)


def test_the_demo_is_read_whole(art):
    """As many objects as the library's own list of them."""
    for name, size in (("invitation", (5, 7)), ("details", (4.25, 5.5)), ("reply", (4.875, 3.5))):
        path = art / f"{name}.pdf"
        read = inspected(path, size)
        boxes = opened_page(art_of(path)).marks
        seen = [b for verb, b in boxes if not verb.startswith(("clip", "ignore"))]
        assert len(seen) - len(read.painted) in range(8)  # those a clip leaves nothing of
        assert read.pages == 1
        assert not read.unembedded
