"""The demo's art is what a printer wants: four inks, PDF/X-4 (ISO 15930-7:2010), type embedded."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from PIL import Image, ImageCms

from mockup.artwork.art import art_of
from mockup.artwork.page import place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.geometry.affine import IDENTITY
from mockup.pixels import view_around
from mockup.trade.tolerances import LINE_POSITIVE, LINE_REVERSED, TOTAL_INK, TYPE_RICH_BLACK

# ISO 32000-1, table 51: what sets a colour, and what paints.
COLOURS = {"G", "g", "RG", "rg", "K", "k", "CS", "cs", "SC", "sc", "SCN", "scn"}
PAINTS = {"f", "F", "f*", "B", "B*", "b", "b*", "S", "s", "TJ", "Tj", "'", '"', "Do", "sh"}
SIZES = {"invitation": (5, 7), "details": (4.25, 5.5), "reply": (4.875, 3.5), "liner": (7, 9.5)}
BLEED = 0.125
SHEETS = pytest.mark.parametrize("name", SIZES)
RICH_BLACK = 0.6  # of black, with other inks beside it: GWG2015 4.16 speaks of small type in it
OAT = 0.3  # the lightest build is the paper's tint; a line of it in a dark ground is reversed


@SHEETS
def test_every_thing_painted_is_in_the_four_inks(art: Path, name: str) -> None:
    with pikepdf.open(art / f"{name}.pdf") as pdf:
        steps = pikepdf.parse_content_stream(pdf.pages[0])
        spaces = {picture.ColorSpace for picture in pdf.pages[0].images.values()}
    said = [str(step.operator) for step in steps]
    assert set(said) & COLOURS == ({"k", "K"} if "S" in said else {"k"})
    assert said.index("k") < min(said.index(word) for word in PAINTS & set(said))
    assert spaces <= {pikepdf.Name.DeviceCMYK}
    assert "gs" not in said  # no transparency, no overprint: what is on top knocks out


@SHEETS
def test_a_page_says_its_sizes_its_press_and_what_it_is(art: Path, name: str) -> None:
    with pikepdf.open(art / f"{name}.pdf") as pdf:
        page, (intent,) = pdf.pages[0], pdf.Root.OutputIntents
        sheet = [72 * side + 144 * BLEED for side in SIZES[name]]
        assert [float(v) for v in page.MediaBox] == [0, 0, *sheet] == [*map(float, page.BleedBox)]
        assert [float(v) for v in page.TrimBox] == [9, 9, *(side - 9 for side in sheet)]
        assert "/ArtBox" not in page
        assert intent.S == "/GTS_PDFX"
        assert intent.OutputConditionIdentifier == "FOGRA39"
        data = intent.DestOutputProfile.read_bytes()
        profile = ImageCms.ImageCmsProfile(io.BytesIO(data)).profile
        assert (profile.device_class, profile.xcolor_space) == ("prtr", "CMYK")
        assert intent.DestOutputProfile.N == 4
        info, metadata = pdf.docinfo, pdf.open_metadata()
        said = re.search(rb"<pdfxid:GTS_PDFXVersion>(.*?)<", pdf.Root.Metadata.read_bytes())
        assert said is not None and said[1] == b"PDF/X-4"
        assert metadata["pdf:Trapped"] == "False"
        assert info["/Trapped"] == pikepdf.Name("/False")
        assert metadata["dc:title"] == str(info["/Title"]) == f"Tide Mill Supper: {name}"
        assert metadata["xmpMM:DocumentID"].startswith("uuid:")
        assert metadata["xmp:CreateDate"] == metadata["xmp:ModifyDate"] != ""
        assert pdf.pdf_version == "1.6" and len(pdf.trailer.ID) == 2 and not pdf.is_encrypted


@SHEETS
def test_all_type_is_embedded(art: Path, name: str) -> None:
    """Live type is on the details card alone; elsewhere there are outlines."""
    with pikepdf.open(art / f"{name}.pdf") as pdf:
        fonts = pdf.pages[0].Resources.get("/Font", {})
        faces = [font.DescendantFonts[0] for font in fonts.values()] if fonts else []
        assert len(faces) == (3 if name == "details" else 0)
        assert all(len(face.FontDescriptor.FontFile2.read_bytes()) > 10_000 for face in faces)


@SHEETS
def test_the_inks_together_are_what_uncoated_paper_takes(art: Path, name: str) -> None:
    """At most, at every pixel of a drawing at 100 ppi, and in every build."""
    page, size = read_page(art_of(art / f"{name}.pdf")), SIZES[name]
    view = view_around((0, 0, *size), 100, BLEED)
    job = RasterJob(page, place_card(page, *size, BLEED), IDENTITY, view)
    inks = rasterise([job])[0].drawn.process / 255 * 100
    assert 200 < inks.sum(axis=2).max() < TOTAL_INK.value
    with pikepdf.open(art / f"{name}.pdf") as pdf:
        steps = pikepdf.parse_content_stream(pdf.pages[0])
    builds = [[float(v) for v in s.operands] for s in steps if str(s.operator) in ("k", "K")]
    assert max(sum(build) for build in builds) * 100 < TOTAL_INK.value
    assert all(build[3] < RICH_BLACK for build in builds), TYPE_RICH_BLACK.source


@SHEETS
def test_lines_are_thick_enough_for_their_ground(art: Path, name: str) -> None:
    """In points: dark lines, and light ones drawn over a dark ground."""
    with pikepdf.open(art / f"{name}.pdf") as pdf:
        steps = pikepdf.parse_content_stream(pdf.pages[0])
    width, light = 0.0, False
    for step in steps:
        if str(step.operator) == "K":
            light = sum(float(v) for v in step.operands) < OAT + 0.05
        if str(step.operator) == "w":
            width = 72 * float(step.operands[0])
        if str(step.operator) == "S":
            assert width > (LINE_REVERSED if light else LINE_POSITIVE).value - 0.005


def test_the_art_is_drawn_anew_the_same(art: Path, tmp_path: Path) -> None:
    """The reply card made twice is one file, and its drawing the one that is there."""
    script = "import reply, sys, pathlib; reply.draw(pathlib.Path(sys.argv[1]))"
    for file in ("one.pdf", "two.pdf"):
        command = [sys.executable, "-c", script, str(tmp_path / file)]
        subprocess.run(command, cwd=art, check=True)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()
    drawn = [_drawing(path) for path in (tmp_path / "one.pdf", art / "reply.pdf")]
    assert drawn[0] == drawn[1]


def _drawing(path: Path) -> bytes:
    with pikepdf.open(path) as pdf:
        return pdf.pages[0].Contents.read_bytes()


def test_the_picture_fades_into_the_very_ink_of_its_ground(art: Path) -> None:
    """So no edge is seen where the painting on the details card ends: its last row is the ground."""
    with pikepdf.open(art / "details.pdf") as pdf:
        (picture,) = pdf.pages[0].images.values()
        full = np.asarray(Image.open(io.BytesIO(picture.read_raw_bytes())))
        assert [int(v) for v in picture.Decode] == [1, 0] * 4
        steps = pikepdf.parse_content_stream(pdf.pages[0])
    ground = next([float(v) for v in s.operands] for s in steps if str(s.operator) == "k")
    last = full[-4:].reshape(-1, 4).astype(float) / 255  # Pillow has turned the Adobe form round
    assert np.abs(last - ground).max() < 0.02
