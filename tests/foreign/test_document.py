"""Opening foreign files in a worker: mended where that is safe, opened once, known by their bytes."""

from __future__ import annotations

import io
import zlib
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from PIL import Image

from mockup.artwork.art import art_of
from mockup.artwork.page import place_card, read_page
from mockup.artwork.raster import RasterJob, ink_plates, rasterise
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY
from mockup.pixels import Bytes, View, view_around
from mockup.workshop import crew
from mockup.workshop.job import Job
from tests.conftest import make_pdf

VIEW = View(0, 0, 50, 70, 10)


def picture(path: Path) -> Bytes:
    page = read_page(art_of(path))
    placement = place_card(page, 5, 7, 0.125)
    return rasterise([RasterJob(page, placement, IDENTITY, VIEW)])[0].on_white


@pytest.mark.parametrize("share", (0.3, 0.5, 0.6, 0.9, 0.97))
def test_a_file_cut_short_is_refused(art: Path, tmp_path: Path, share: float) -> None:
    """A reader would rebuild it, and show the card without the lines that are gone."""
    for whole in (make_pdf(tmp_path / "whole.pdf"), art / "invitation.pdf"):
        content = whole.read_bytes()
        path = tmp_path / f"{share}-{whole.name}"
        path.write_bytes(content[: int(len(content) * share)])
        with pytest.raises(InputError) as told:
            picture(path)
        assert str(path) in str(told.value) and "\n" not in str(told.value)


def test_a_file_with_a_wrong_table_of_objects_is_drawn_whole(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "whole.pdf")
    content = path.read_bytes()
    at = content.rindex(b"startxref") + len(b"startxref\n")
    hurt = tmp_path / "hurt.pdf"
    hurt.write_bytes(content[:at] + b"7" + content[at + 1 :])
    assert np.array_equal(picture(hurt), picture(path))


def test_what_the_first_reader_gives_up_on_the_second_mends(tmp_path: Path) -> None:
    """A page tree whose nodes lost their types and counts: MuPDF finds no page in it, qpdf
    rebuilds it (found by trying; both libraries as installed)."""
    path = make_pdf(tmp_path / "whole.pdf")
    lamed = (
        path.read_bytes()
        .replace(b"/Type /Pages", b"/Tipo /Pages")
        .replace(b"/Count 1", b"/Count 0")
    )
    hurt = tmp_path / "hurt.pdf"
    hurt.write_bytes(lamed)
    assert np.array_equal(picture(hurt), picture(path))


def test_a_file_that_changes_meanwhile_is_told(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "art.pdf")
    page = read_page(art_of(path))
    crew.dismiss()
    make_pdf(path, content="1 0 0 rg 0 0 300 300 re f")
    with pytest.raises(InputError, match="changed while it was being read"):
        rasterise([RasterJob(page, place_card(page, 5, 7, 0.125), IDENTITY, VIEW)])


def test_a_file_is_opened_once_a_worker(tmp_path: Path) -> None:
    crew.dismiss()
    art = art_of(make_pdf(tmp_path / "art.pdf", pages=4))
    for ppi in range(10, 22):
        pages = [read_page(type(art)(art.path, k, art.sha256)) for k in (1, 2, 3, 4)]
        view = view_around((0, 0, 5, 7), ppi)
        rasterise([RasterJob(p, place_card(p, 5, 7, 0.125), IDENTITY, view) for p in pages])
    asked = [Job((art.sha256,), "count", kin) for kin in (art.sha256, "another")]
    times = crew.done("mockup.foreign.document:times_opened", asked)
    assert 1 <= sum(times) <= 2


def image_page(path: Path, data: bytes, filter_name: str | None) -> Path:
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(378, 522))
    image = pdf.make_stream(data, Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Image)
    image.Width = image.Height = 100
    image.BitsPerComponent, image.ColorSpace = 8, pikepdf.Name.DeviceRGB
    if filter_name:
        image.Filter = pikepdf.Name(filter_name)
    page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(I=image))
    page.Contents = pdf.make_stream(b"q 200 0 0 200 100 100 cm /I Do Q")
    pdf.save(path, compress_streams=False)
    return path


def jpeg() -> bytes:
    noise = np.random.default_rng(1).integers(0, 255, (100, 100, 3), dtype=np.uint8)
    written = io.BytesIO()
    Image.fromarray(noise).save(written, "JPEG")
    return written.getvalue()


@pytest.mark.parametrize(
    ("data", "filter_name"),
    [
        (jpeg()[:-2000], "/DCTDecode"),
        (b"noise" * 100, "/DCTDecode"),
        (b"noise" * 100, "/JPXDecode"),
        (b"noise" * 100, "/JBIG2Decode"),
        (b"noise" * 100, "/NoSuchDecode"),
        (zlib.compress(bytes(30_000))[:20], "/FlateDecode"),
        (b"short", None),
    ],
)
def test_an_image_that_cannot_be_decoded_is_told(
    tmp_path: Path, data: bytes, filter_name: str | None
) -> None:
    path = image_page(tmp_path / "art.pdf", data, filter_name)
    for _ in range(2):  # the second time it is decoded already
        with pytest.raises(InputError, match="an image on it cannot be decoded"):
            picture(path)


def test_a_sound_image_is_drawn(tmp_path: Path) -> None:
    assert picture(image_page(tmp_path / "art.pdf", jpeg(), "/DCTDecode")).std() > 10


def test_what_a_cropbox_hides_is_not_drawn(tmp_path: Path) -> None:
    """ISO 32000-1 14.11.2: a page is clipped to its CropBox; PDFium, a second reader, agrees."""
    size = (6.25, 8.25)
    path = make_pdf(
        tmp_path / "art.pdf", size, "0.2 g 0 0 450 594 re f", CropBox=[36, 36, 414, 558]
    )
    page = read_page(art_of(path))
    placement = place_card(page, 5, 7, 0.125)
    assert placement.bleed_in == pytest.approx(0.125)
    view = view_around((0, 0, 5, 7), 40, 0.375)
    drawn = rasterise([RasterJob(page, placement, IDENTITY, view)])[0].on_white
    dark = np.argwhere(drawn[:, :, 0] < 128)
    assert dark.min(axis=0).tolist() == [10, 10]  # a quarter inch of nothing round the bleed
    assert dark.max(axis=0).tolist() == [view.height_px - 11, view.width_px - 11]
    seen = pypdfium2.PdfDocument(path)[0]
    assert (seen.get_width() / 72, seen.get_height() / 72) == pytest.approx((5.25, 7.25))


SPOTS = b"""/Gold cs 1 scn 90 90 100 100 re f
0 1 0 0 k 150 150 100 100 re f
/Over gs /Gold cs 0.5 scn 240 240 60 60 re f
"""


def test_inks_come_plate_by_plate(tmp_path: Path) -> None:
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(378, 522))
    tint = pikepdf.Dictionary(
        FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 0.2, 1, 0], N=1
    )
    gold = pikepdf.Array(
        [pikepdf.Name.Separation, pikepdf.Name("/Gold"), pikepdf.Name.DeviceCMYK, tint]
    )
    over = pikepdf.Dictionary(Type=pikepdf.Name.ExtGState, OP=True, op=True, OPM=1)
    page.Resources = pikepdf.Dictionary(
        ColorSpace=pikepdf.Dictionary(Gold=gold), ExtGState=pikepdf.Dictionary(Over=over)
    )
    page.Contents = pdf.make_stream(SPOTS)
    pdf.save(tmp_path / "art.pdf")
    art = read_page(art_of(tmp_path / "art.pdf"))
    view = view_around((0, 0, 5, 7), 36)
    (plates,) = ink_plates([RasterJob(art, place_card(art, 5, 7, 0.125), IDENTITY, view)])
    (spot,) = plates.spots
    assert spot.name == "Gold"

    def at(x_pt: float, y_pt: float) -> tuple[list[int], int]:
        column, row = int((x_pt - 9) / 2), int((522 - y_pt - 9) / 2)
        return plates.process[row, column].tolist(), int(spot.plate[row, column])

    assert at(100, 100) == ([0, 0, 0, 0], 255)
    assert at(170, 170) == ([0, 255, 0, 0], 0)  # knocked out of the gold below
    assert at(245, 245) == ([0, 255, 0, 0], 127)  # overprinted: both inks (ISO 32000-1 8.6.7)
    assert at(280, 280) == ([0, 0, 0, 0], 127)
    assert at(20, 20) == ([0, 0, 0, 0], 0)
