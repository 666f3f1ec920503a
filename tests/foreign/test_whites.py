"""White ink and other finishes on small pages with known inks: what is a plate, what is drawn."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pymupdf
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.artwork.art import art_of
from mockup.artwork.finishes import finishes_told, plates_named
from mockup.artwork.page import Placement, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.plates import Plates, Pressed
from mockup.colour.press import COATED
from mockup.colour.white_ink import WhiteInk, WhiteRule, white_on
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import View
from tests.colour.press_pages import SIDE_PT, Page, at, drawn, field_at, write
from tests.foreign.test_presses import percent, spot, with_streams

KRAFT = (174, 144, 111)
COATED_ICC = COATED.profile.read_bytes()
STATES = Dictionary(Over=Dictionary(OP=True, op=True, OPM=1))
SPACES = Dictionary(
    W=spot("White", 0, 1, 0, 0),  # drawn in magenta, so that designers see it
    V=spot("Spot UV", 1, 0, 0, 0),
    E=spot("Blind emboss", 0, 0, 0, 0.5),
    F=spot("Gold foil", 0, 0.2, 1, 0),
    S=spot("Tide", 0.8, 0.2, 0, 0),
)
RESOURCES: dict[str, object] = {"ExtGState": STATES, "ColorSpace": SPACES}
INTENTS = pytest.mark.parametrize("intent", [None, COATED_ICC], ids=["assumed", "intent"])


def by_rule(path: Path, rule: WhiteRule, hits: int = 1) -> Plates:
    art = replace(art_of(path), white=WhiteInk(rule, hits))
    placement = Placement(Box(0, 0, SIDE_PT / 72, SIDE_PT / 72), 0.0, "it is the page")
    view = View(0, 0, SIDE_PT // 2, SIDE_PT // 2, 36)
    (plates,) = rasterise([RasterJob(read_page(art), placement, IDENTITY, view)])
    return plates


def inks_at(plates: Plates, number: int) -> list[float]:
    assert isinstance(plates.drawn, Pressed)
    return percent(plates.drawn.process, number)


def white_at(plates: Plates, number: int) -> float:
    assert plates.white is not None
    return at(plates.white.plate[:, :, None], number)[0] / 2.55


@INTENTS
def test_a_white_plate_over_and_beneath_ink(tmp_path: Path, intent: bytes | None) -> None:
    """Overprinting it leaves the ink, else it knocks it out, as any ink does (ISO 32000-1, 8.6.7);
    ink over it that does not overprint knocks it out."""
    content = (
        f"0 0 1 0 k {field_at(0)} f {field_at(1)} f {field_at(2)} f "
        f"q /Over gs /W cs 1 scn {field_at(1)} f Q /W cs 0.5 scn {field_at(2)} f {field_at(3)} f "
        f"1 scn {field_at(4)} f {field_at(5)} f 1 0 0 0 k {field_at(4)} f "
        f"/Over gs {field_at(5)} f"
    )
    plates = drawn(write(tmp_path / "art.pdf", Page(content, RESOURCES, intent)))
    expected = [
        ((0, 0, 100, 0), 0), ((0, 0, 100, 0), 100), ((0, 0, 0, 0), 50),
        ((0, 0, 0, 0), 50), ((100, 0, 0, 0), 0), ((100, 0, 0, 0), 100),
    ]  # fmt: skip
    for number, (inks, white) in enumerate(expected):
        assert inks_at(plates, number) == pytest.approx(inks, abs=1), number
        assert white_at(plates, number) == pytest.approx(white, abs=0.5), number


def test_white_alone_looks_as_the_paper_under_it(tmp_path: Path) -> None:
    content = f"/W cs 1 scn {field_at(1)} f 0 0 0 1 k {field_at(3)} f"
    plates = drawn(write(tmp_path / "art.pdf", Page(content, RESOURCES)))
    assert tuple(at(plates.on(KRAFT), 0)) == KRAFT
    assert at(plates.on(KRAFT), 1) == pytest.approx(white_on(KRAFT, 1), abs=1)


def test_ink_over_white_looks_as_on_the_whitened_paper(tmp_path: Path) -> None:
    content = f"0 1 0 0 k {field_at(0)} f {field_at(1)} f q /Over gs /W cs 1 scn {field_at(1)} f Q"
    path = write(tmp_path / "art.pdf", Page(content, RESOURCES))
    plain = write(tmp_path / "plain.pdf", Page(f"0 1 0 0 k {field_at(1)} f"))
    plates = drawn(path)
    on_white = at(drawn(plain).on(white_on(KRAFT, 1)), 1)
    assert at(plates.on(KRAFT), 1) == pytest.approx(on_white, abs=1)
    assert at(plates.on(KRAFT), 0) == pytest.approx(at(drawn(plain).on(KRAFT), 1), abs=1)


def test_white_beside_rgb(tmp_path: Path) -> None:
    content = (
        f"1 0 0 rg {field_at(0)} f {field_at(1)} f {field_at(2)} f "
        f"q /Over gs /W cs 1 scn {field_at(1)} f /V cs 1 scn {field_at(0)} f Q "
        f"/W cs 0.5 scn {field_at(2)} f"
    )
    plates = drawn(write(tmp_path / "art.pdf", Page(content, RESOURCES)))
    assert isinstance(plates.drawn, np.ndarray)
    assert [at(plates.drawn, k) for k in range(3)] == [[255, 0, 0], [255, 0, 0], [255, 255, 255]]
    assert [white_at(plates, k) for k in range(3)] == pytest.approx([0, 100, 50], abs=0.5)


@INTENTS
def test_varnish_and_embossing_are_clear_and_foil_has_its_tint(
    tmp_path: Path, intent: bytes | None
) -> None:
    content = (
        f"0 0 1 0 k {field_at(0)} f {field_at(1)} f q /Over gs /V cs 1 scn {field_at(0)} f "
        f"/E cs 1 scn {field_at(1)} f Q /V cs 1 scn {field_at(2)} f /F cs 1 scn {field_at(3)} f"
    )
    path = write(tmp_path / "art.pdf", Page(content, RESOURCES, intent))
    plates = drawn(path)
    expected = [(0, 0, 100, 0), (0, 0, 100, 0), (0, 0, 0, 0), (0, 20, 100, 0)]
    for number, inks in enumerate(expected):
        assert inks_at(plates, number) == pytest.approx(inks, abs=1), number
    assert plates.white is None
    told = "; ".join(finishes_told(art_of(path), plates_named([art_of(path)])[0]))
    assert 'varnish "Spot UV" is clear and not drawn' in told
    assert 'embossing "Blind emboss" has no colour and is not drawn' in told
    assert 'foil "Gold foil" is drawn flat in its swatch colour' in told


@pytest.mark.parametrize("kind", [0, 4], ids=["sampled", "calculated"])
def test_white_among_inks_named_one_by_one(tmp_path: Path, kind: int) -> None:
    """Of DeviceN (here NChannel) the others are drawn by what stands for them without white."""
    spans = "/Domain[0 1 0 1]/Range[0 1 0 1 0 1 0 1]"
    # As much cyan as white, so that designers see it, and half as much magenta as tide.
    calculated = (f"<</FunctionType 4{spans}>>", b"{ 0.5 mul 0 0 }")
    sampled = (
        f"<</FunctionType 0{spans}/Size[2 2]/BitsPerSample 8>>",
        bytes([0, 0, 0, 0, 255, 0, 0, 0, 0, 128, 0, 0, 255, 128, 0, 0]),
    )
    function = sampled if kind == 0 else calculated
    path = with_streams(
        tmp_path / "art.pdf",
        f"/N cs 1 1 scn {field_at(0)} f 0 1 scn {field_at(1)} f 1 0 scn {field_at(2)} f",
        "<</ColorSpace<</N[/DeviceN[/White/Tide]/DeviceCMYK {tint}<</Subtype/NChannel>>]>>>>",
        tint=function,
    )
    plates = drawn(path)
    assert [white_at(plates, k) for k in range(3)] == pytest.approx([100, 0, 100], abs=0.5)
    alone, both, none = (inks_at(plates, k) for k in (1, 0, 2))
    assert both == pytest.approx(alone, abs=1)
    assert sum(alone) == pytest.approx(50, abs=1)
    assert none == pytest.approx((0, 0, 0, 0), abs=1)


def layered(path: Path, layer: str, step: str | None, content: str) -> Path:
    """Writes a page whose marks after `/L BDC` lie on a layer, for a processing step if one is."""
    write(path, Page(content, RESOURCES))
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        group = Dictionary(Type=Name.OCG, Name=layer)
        if step is not None:
            steps = Dictionary(GTS_ProcStepsGroup=Name(f"/{step}"))
            group.GTS_Metadata = steps
        made = pdf.make_indirect(group)
        pdf.Root.OCProperties = Dictionary(OCGs=Array([made]), D=Dictionary(ON=Array([made])))
        pdf.pages[0].Resources.Properties = Dictionary(L=made)
        pdf.save(path)
    return path


@pytest.mark.parametrize(
    ("layer", "step", "is_white"),
    [("Underlay", "White", True), ("Weiß", None, True), ("Underlay", None, False)],
)
def test_a_spot_is_white_by_its_layer_or_processing_step(
    tmp_path: Path, layer: str, step: str | None, is_white: bool
) -> None:
    content = f"/OC /L BDC /S cs 1 scn {field_at(1)} f EMC 0 0 0 1 k {field_at(2)} f"
    path = layered(tmp_path / "art.pdf", layer, step, content)
    plates = drawn(path)
    assert (plates.white is not None) == is_white
    assert inks_at(plates, 1) == pytest.approx((0, 0, 0, 0) if is_white else (80, 20, 0, 0), abs=1)


def test_a_spot_that_is_painted_off_the_layer_too_is_an_ink(tmp_path: Path) -> None:
    content = f"/OC /L BDC /S cs 1 scn {field_at(1)} f EMC {field_at(2)} f"
    assert drawn(layered(tmp_path / "art.pdf", "White", None, content)).white is None


def test_white_beneath_all_of_the_art(tmp_path: Path) -> None:
    """Solid beneath tints, beneath what is painted white too; not beneath a program's white paper,
    nor where there is nothing."""
    content = (
        f"0 0 0 0 k 0 0 120 120 re f 0.1 0 0 0 k {field_at(0)} f 0 0 0 0 k {field_at(1)} f "
        f"0 0 0 1 k {field_at(2)} f /F cs 1 scn {field_at(4)} f"
    )
    plates = by_rule(write(tmp_path / "art.pdf", Page(content, RESOURCES)), "under-art")
    assert [white_at(plates, k) for k in range(5)] == [100, 100, 100, 0, 0]
    assert inks_at(plates, 0) == pytest.approx((10, 0, 0, 0), abs=0.5)
    rgb = f"1 1 1 rg 0 0 120 120 re f 0.9 0.9 1 rg {field_at(0)} f"
    plates = by_rule(write(tmp_path / "rgb.pdf", Page(rgb)), "under-art")
    assert [white_at(plates, k) for k in range(2)] == [100, 0]


def test_white_in_place_of_the_art(tmp_path: Path) -> None:
    """As much of it as the heaviest ink; a spot is as heavy as its tint, whatever stands for it."""
    content = (
        f"0 0 0 1 k {field_at(0)} f 0.3 0.6 0 0 k {field_at(1)} f /S cs 0.9 scn {field_at(2)} f "
        f"0 0 0 0 k {field_at(3)} f"
    )
    plates = by_rule(write(tmp_path / "art.pdf", Page(content, RESOURCES)), "art-as-white", 2)
    assert [white_at(plates, k) for k in range(5)] == pytest.approx([100, 60, 90, 0, 0], abs=0.5)
    assert [inks_at(plates, k) for k in range(4)] == [[0, 0, 0, 0]] * 4
    assert at(plates.on((44, 44, 44)), 0) == pytest.approx(white_on((44, 44, 44), 2), abs=1)
    rgb = f"0 0 0 rg {field_at(0)} f 0.5 0.8 0.9 rg {field_at(1)} f 1 1 1 rg {field_at(2)} f"
    plates = by_rule(write(tmp_path / "rgb.pdf", Page(rgb)), "art-as-white")
    assert [white_at(plates, k) for k in range(3)] == pytest.approx([100, 50, 0], abs=0.5)
    assert (plates.drawn == 255).all()


def test_a_white_plate_is_printed_beside_the_rule(tmp_path: Path) -> None:
    content = f"0 0 0 1 k {field_at(0)} f /W cs 1 scn {field_at(1)} f"
    plates = by_rule(write(tmp_path / "art.pdf", Page(content, RESOURCES)), "under-art")
    assert [white_at(plates, k) for k in range(3)] == [100, 100, 0]


def test_art_without_white_has_none(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"0 0 0 1 k {field_at(0)} f", RESOURCES))
    assert drawn(path).white is None
    assert finishes_told(art_of(path), plates_named([art_of(path)])[0]) == ()


def test_what_is_assumed_of_white_is_told(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"/W cs 1 scn {field_at(0)} f", RESOURCES))
    art = art_of(path)
    (named,) = plates_named([art])
    assert finishes_told(art, named) == ('white ink, plate "White": one hit, 55 % opaque assumed',)
    twice = replace(art, white=WhiteInk("under-art", 2))
    assert finishes_told(twice, named) == (
        'white ink, beneath all of the art and plate "White": two hits, 55 % opaque each assumed',
    )


def test_the_file_is_never_changed(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"/W cs 1 scn {field_at(0)} f", RESOURCES))
    before = path.read_bytes()
    drawn(path)
    assert path.read_bytes() == before
    assert pymupdf.open(path).page_count == 1


@pytest.mark.parametrize("rule", ["plate", "art-as-white"])
def test_foil_hides_the_paper(tmp_path: Path, rule: WhiteRule) -> None:
    """Flat in the colour it is drawn in, on black as on white."""
    content = f"0 0 0 1 k {field_at(0)} f /F cs 1 scn {field_at(1)} f"
    plates = by_rule(write(tmp_path / "art.pdf", Page(content, RESOURCES)), rule)
    swatch = at(plates.on_white, 1)
    assert at(plates.on((44, 44, 44)), 1) == pytest.approx(swatch, abs=1)
    assert at(plates.on((44, 44, 44)), 2) == [44, 44, 44]
