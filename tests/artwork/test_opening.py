"""Art that cannot be used is refused in one line that says what to do."""

from pathlib import Path

import pikepdf
import pytest

from mockup.artwork.art import art_of
from mockup.artwork.page import page_count, place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.errors import InputError, LimitError
from mockup.geometry.affine import IDENTITY
from mockup.pixels import View
from tests.conftest import make_pdf


def test_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        page_count(art_of(tmp_path / "none.pdf"))


def test_a_folder(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is a folder"):
        page_count(art_of(tmp_path))


def test_a_file_that_is_no_pdf(tmp_path: Path) -> None:
    path = tmp_path / "art.pdf"
    path.write_bytes(b"\x89PNG\r\n not a pdf")
    with pytest.raises(InputError, match="is not a PDF; save the art as PDF"):
        page_count(art_of(path))


@pytest.mark.parametrize("content", [b"%PDF-1.7\n", b"%PDF-1.4\ntrailer\n<<>>\n%%EOF"])
def test_a_broken_pdf(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "art.pdf"
    path.write_bytes(content)
    with pytest.raises(InputError, match="broken"):
        page_count(art_of(path))


def test_an_encrypted_pdf(tmp_path: Path) -> None:
    plain = make_pdf(tmp_path / "plain.pdf")
    locked = tmp_path / "locked.pdf"
    with pikepdf.open(plain) as pdf:
        pdf.save(locked, encryption=pikepdf.Encryption(owner="o", user="u"))
    with pytest.raises(InputError, match="protected by a password"):
        page_count(art_of(locked))


def test_a_page_out_of_range(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "art.pdf", pages=2)
    with pytest.raises(InputError, match=r"no page 3; the file has 2 pages"):
        read_page(art_of(path, 3))


def test_too_many_pages(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "art.pdf", pages=201)
    with pytest.raises(LimitError, match="201 pages; the limit is 200"):
        page_count(art_of(path))


def test_a_page_too_large(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "art.pdf", (100, 100), UserUnit=10)
    with pytest.raises(LimitError, match="sides from 3 pt to 200 in"):
        read_page(art_of(path))


def test_a_page_with_nothing_on_it(tmp_path: Path) -> None:
    path = make_pdf(tmp_path / "art.pdf", content="")
    page = read_page(art_of(path))
    job = RasterJob(page, place_card(page, 5, 7, 0.125), IDENTITY, View(0, 0, 50, 70, 10))
    with pytest.raises(InputError, match="page 1: has nothing on it"):
        rasterise([job])


def test_more_pixels_than_the_limit(tmp_path: Path) -> None:
    page = read_page(art_of(make_pdf(tmp_path / "art.pdf")))
    view = View(0, 0, 20_000, 20_000, 2400)
    with pytest.raises(LimitError, match="over the limit of 150 megapixels"):
        rasterise([RasterJob(page, place_card(page, 5, 7, 0.125), IDENTITY, view)])


def test_a_page_that_draws_without_end_is_stopped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Each form draws the next ten times over: ten to the ninth squares.
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(378, 522))
    form = pdf.make_stream(b"0 0 1 1 re f", Type=pikepdf.Name.XObject)
    form.Subtype, form.BBox = pikepdf.Name.Form, pikepdf.Array([0, 0, 400, 600])
    for _ in range(9):
        above = pdf.make_stream(b"/F Do " * 10, Type=pikepdf.Name.XObject)
        above.Subtype, above.BBox = pikepdf.Name.Form, pikepdf.Array([0, 0, 400, 600])
        above.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(F=form))
        form = above
    page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(F=form))
    page.Contents = pdf.make_stream(b"/F Do")
    path = tmp_path / "endless.pdf"
    pdf.save(path)
    art = read_page(art_of(path))
    monkeypatch.setattr("mockup.workshop.process.PAGE_SECONDS", 0.5)
    monkeypatch.setattr("mockup.workshop.round.PAGE_SECONDS", 0.5)
    job = RasterJob(art, place_card(art, 5, 7, 0.125), IDENTITY, View(0, 0, 50, 70, 10))
    with pytest.raises(LimitError, match="to read or draw, the limit; simplify"):
        rasterise([job])
