"""Plates of finishes on small pages with known marks: by name, layer, the suite's word, a page."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, String

from mockup.artwork.art import FinishSaid, art_of
from mockup.artwork.finishes import finishes_told, plates_named
from mockup.artwork.page import Placement, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.plates import FinishPlate, Plates
from mockup.colour.srgb import parse_hex
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import View
from mockup.trade.metals import FLAT_HEX
from tests.colour.press_pages import SIDE_PT, Page, at, field_at, write
from tests.foreign.test_presses import spot

SPACES = Dictionary(
    F=spot("Gold foil", 0, 0.2, 1, 0),
    K=spot("Kupferfolie", 0, 0.6, 0.6, 0),
    E=spot("Blind emboss", 0, 0, 0, 0.5),
    D=spot("Tiefprägung", 0, 0, 0, 0.5),
    S=spot("Tide", 0.8, 0.2, 0, 0),
    L=spot("Letterpress slate", 0.2, 0, 0, 0.1),
)
STATES = Dictionary(Over=Dictionary(OP=True, op=True, OPM=1))


def layer(name: str) -> Dictionary:
    return Dictionary(Type=Name.OCG, Name=String(name))


RESOURCES: dict[str, object] = {
    "ColorSpace": SPACES,
    "ExtGState": STATES,
    "Properties": Dictionary(A=layer("Tide ring"), P=layer("Letterpress")),
}
PAPER = (250, 248, 240)


def plates_of(path: Path, *finishing: FinishSaid) -> Plates:
    art = replace(art_of(path), finishing=finishing)
    placement = Placement(Box(0, 0, SIDE_PT / 72, SIDE_PT / 72), 0.0, "it is the page")
    view = View(0, 0, SIDE_PT // 2, SIDE_PT // 2, 36)
    (plates,) = rasterise([RasterJob(read_page(art), placement, IDENTITY, view)])
    return plates


def seen(plates: Plates) -> dict[tuple[str, str | None], list[int]]:
    """Returns of each finish and metal the fields that its plate fills."""
    return {(each.finish, each.metal): fields(each) for each in plates.finished}


def fields(each: FinishPlate) -> list[int]:
    return [k for k in range(6) if at(each.plate[:, :, None], k)[0] == 255]


def art(tmp_path: Path, content: str, name: str = "art.pdf") -> Path:
    return write(tmp_path / name, Page(content, RESOURCES))


def test_plates_by_the_names_of_spots(tmp_path: Path) -> None:
    content = (
        f"0 0 0 1 k {field_at(5)} f /F cs 1 scn {field_at(0)} f /K cs 1 scn {field_at(1)} f "
        f"q /Over gs /E cs 1 scn {field_at(2)} f /D cs 1 scn {field_at(3)} f Q "
        f"/L cs 1 scn {field_at(4)} f"
    )
    assert seen(plates_of(art(tmp_path, content))) == {
        ("foil", "copper"): [1],
        ("foil", "gold"): [0],
        ("letterpress", None): [4],
        ("deboss", None): [3],
        ("emboss", None): [2],
    }


def test_a_plate_that_is_not_in_the_picture_takes_no_room(tmp_path: Path) -> None:
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f /F cs 1 scn 0 80 20 20 re f")
    page = read_page(art_of(path))
    placement = Placement(Box(0, 0, SIDE_PT / 72, SIDE_PT / 72), 0.0, "it is the page")
    low = View(0, 100 / 72, 30, 10, 36)  # the lowest 20 points
    (plates,) = rasterise([RasterJob(page, placement, IDENTITY, low)])
    assert plates.finished == ()


def test_the_suite_says_what_a_spot_is(tmp_path: Path) -> None:
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f /S cs 1 scn {field_at(1)} f")
    said = FinishSaid("foil", "tide", "rose-gold")
    assert seen(plates_of(path, said)) == {("foil", "rose-gold"): [1]}
    assert plates_of(path).finished == ()


def test_a_layer_in_ink_is_a_plate_where_the_suite_names_it(tmp_path: Path) -> None:
    """Debossed, its marks lay no ink down; as foil they keep the colour they are drawn in."""
    content = f"0 0 0 1 k {field_at(0)} f /OC /A BDC 0 1 1 0 k {field_at(1)} f EMC"
    path = art(tmp_path, content)
    sunk, stamped, plain = (
        plates_of(path, *said)
        for said in ([FinishSaid("deboss", "Tide ring")], [FinishSaid("foil", "Tide ring")], [])
    )
    assert seen(sunk) == {("deboss", None): [1]}
    assert seen(stamped) == {("foil", None): [1]}
    assert tuple(at(sunk.on(PAPER), 1)) == PAPER
    assert at(stamped.on((40, 40, 40)), 1) == pytest.approx(at(plain.on_white, 1), abs=1)
    named = replace(art_of(path), finishing=(FinishSaid("deboss", "Tide ring"),))
    assert plates_named([named]) == [(("Tide ring", "deboss"),)]


def test_a_layer_called_letterpress_is_its_plate_and_keeps_its_ink(tmp_path: Path) -> None:
    content = f"0 0 0 1 k {field_at(0)} f /OC /P BDC 0 1 1 0 k {field_at(1)} f EMC"
    path = art(tmp_path, content)
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        own = pdf.make_indirect(layer("Letterpress"))
        pdf.pages[0].Resources.Properties.P = own
        pdf.Root.OCProperties = Dictionary(OCGs=Array([own]), D=Dictionary())
        pdf.save(path)
    plates = plates_of(path)
    assert seen(plates) == {("letterpress", None): [1]}
    assert tuple(at(plates.on(PAPER), 1)) != PAPER


@pytest.mark.parametrize("model", ["cmyk", "rgb"])
def test_all_inks_pressed(tmp_path: Path, model: str) -> None:
    """In full however light, but not where white is painted; foil is no ink."""
    if model == "cmyk":
        pale, white, black = "0.1 0 0 0 k", "0 0 0 0 k", "0 0 0 1 k"
    else:
        pale, white, black = "0.9 0.95 1 rg", "1 1 1 rg", "0 0 0 rg"
    content = (
        f"{white} 0 0 120 120 re f {black} {field_at(0)} f {pale} {field_at(1)} f "
        f"{black} {field_at(2)} f {white} {field_at(2)} f /F cs 1 scn {field_at(3)} f"
    )
    plates = plates_of(art(tmp_path, content), FinishSaid("letterpress"))
    assert seen(plates) == {("foil", "gold"): [3], ("letterpress", None): [0, 1]}


def test_a_page_of_its_own_lies_on_the_same_card(tmp_path: Path) -> None:
    """The page with bleed, its trim said by a TrimBox: the plate moves with the trim."""
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f")
    foil = art(tmp_path, f"0 0 0 1 k {field_at(2)} f 0 g {field_at(3)} f", "foil.pdf")
    said = FinishSaid("foil", metal="gold", art=art_of(foil))
    plates = plates_of(path, said)
    assert seen(plates) == {("foil", "gold"): [2, 3]}
    assert tuple(at(plates.on(PAPER), 2)) == parse_hex(FLAT_HEX["gold"])
    assert tuple(at(plates.on_white, 3)) == parse_hex(FLAT_HEX["gold"])
    assert tuple(at(plates.on(PAPER), 4)) == PAPER
    told = finishes_told(replace(art_of(path), finishing=(said,)), ())
    assert told == ("foil by foil.pdf, page 1, is drawn flat, as gold",)
    sunk = plates_of(path, FinishSaid("deboss", art=art_of(foil)))
    assert np.array_equal(sunk.on(PAPER), plates_of(path).on(PAPER))


def test_a_page_of_another_size_is_told(tmp_path: Path) -> None:
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f")
    foil = art(tmp_path, f"0 0 0 1 k {field_at(2)} f", "foil.pdf")
    with pikepdf.open(foil, allow_overwriting_input=True) as pdf:
        pdf.pages[0].mediabox = [0, 0, 200, 120]
        pdf.save(foil)
    with pytest.raises(InputError, match=r"foil\.pdf, page 1: the page is 2\.778 . 1\.667 in"):
        plates_of(path, FinishSaid("foil", art=art_of(foil)))


def test_an_empty_page_of_its_own_is_told(tmp_path: Path) -> None:
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f")
    foil = art(tmp_path, "", "foil.pdf")
    with pytest.raises(InputError, match=r"foil\.pdf, page 1.*has nothing on it"):
        plates_of(path, FinishSaid("foil", art=art_of(foil)))


def test_a_page_of_its_own_may_be_turned_and_have_bleed(tmp_path: Path) -> None:
    """Turned as seen, and 12 pt larger all round with a TrimBox: the plate lies where it lay."""
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f")
    plain = art(tmp_path, f"0 0 0 1 k {field_at(2)} f", "foil.pdf")
    # Turned by a quarter clockwise when shown: what lies at (x, y) was drawn at (120 - y, x).
    turned = art(tmp_path, "0 0 0 1 k 100 40 20 20 re f", "turned.pdf")
    with pikepdf.open(turned, allow_overwriting_input=True) as pdf:
        pdf.pages[0].mediabox = [-12, -12, 132, 132]
        pdf.pages[0].trimbox = [0, 0, 120, 120]
        pdf.pages[0].rotate(90, relative=False)
        pdf.save(turned)
    one, other = (plates_of(path, FinishSaid("foil", art=art_of(each))) for each in (plain, turned))
    assert fields(one.finished[0]) == [2]
    assert np.array_equal(one.finished[0].plate, other.finished[0].plate)


def test_a_page_of_its_own_that_is_locked_is_told(tmp_path: Path) -> None:
    path = art(tmp_path, f"0 0 0 1 k {field_at(0)} f")
    foil = art(tmp_path, f"0 0 0 1 k {field_at(2)} f", "foil.pdf")
    with pikepdf.open(foil, allow_overwriting_input=True) as pdf:
        pdf.save(tmp_path / "locked.pdf", encryption=pikepdf.Encryption(user="a", owner="b"))
    with pytest.raises(InputError, match=r"locked\.pdf.*password"):
        plates_of(path, FinishSaid("foil", art=art_of(tmp_path / "locked.pdf")))
