"""The page of colours, read back with MuPDF: words, colours where they are drawn, pages."""

import re
from pathlib import Path

import numpy as np
import pymupdf
import pytest
from PIL import Image

from mockup.asks.colours import ColoursRequest, show_colours
from mockup.geometry.point import Box
from mockup.output.colours_page import colours_pages
from mockup.output.colours_told import colours_sheet
from mockup.reading.beside import suite_colours
from mockup.suite.reading import read_suite

SAGE, SAGE_PAPER, RUST = (155, 178, 154), "#979c7f", (168, 71, 42)


def page(path: Path, *painted):
    document = pymupdf.open()
    sheet = document.new_page(width=5.25 * 72, height=7.25 * 72)
    for box, colour in painted:
        fill = [part / 255 for part in colour]
        sheet.draw_rect(pymupdf.Rect(*(72 * v for v in box)), color=None, fill=fill)
    document.save(path)


@pytest.fixture
def folder(tmp_path):
    page(tmp_path / "a.pdf", ((0, 0, 5.25, 4), SAGE), ((0, 5, 5.25, 7.25), RUST))
    return tmp_path


def suite(folder: Path, pieces=1, envelopes=1, title="Tide"):
    text = f'title = "{title}"\n'
    for k in range(pieces):
        text += f'[pieces.p{k}]\nart = "a.pdf"\ncard = "A7"\ntitle = "{title} {k}"\n'
        text += 'stock = { gsm = 300, colour = "#ffffff" }\n'
    for k in range(envelopes):
        held = ", ".join(f'"p{n}"' for n in range(k, pieces, envelopes))
        text += f'[envelopes.e{k}]\nsize = "A7"\ncolour = "{SAGE_PAPER}"\nholds = [{held}]\n'
        text += f'title = "{title} envelope {k}"\n'
    path = folder / "suite.toml"
    path.write_text(text, encoding="utf-8")
    return path


def words(path: Path) -> str:
    with pymupdf.open(path) as document:
        return " ".join(sheet.get_text() for sheet in document).replace("\xa0", " ")


def test_the_client_reads_words_and_no_figures(folder):
    answer = show_colours(ColoursRequest(suite(folder), folder / "c.pdf"))
    text = " ".join(words(answer.written).split())
    assert "Nearly a match" in text and "Clearly apart" in text
    assert "no contract proof" in text and "not measured" in text
    for figure in ("L*", "\u0394E", "RGB #", " %", "C 4"):
        assert figure not in text
    assert re.findall(r"#[0-9a-f]{6}", text) == []


def test_the_studio_reads_lab_difference_and_both_ways_out(folder):
    answer = show_colours(ColoursRequest(suite(folder), folder / "c.pdf", audience="studio"))
    text = " ".join(words(answer.written).split())
    (near,) = [pair for pair, _ in answer.pairs if pair.found.is_near_miss]
    assert f"\u0394E00 {near.found.difference:.1f}" in text
    assert "lighter: L*" in text and "darker: L*" in text and "or the envelope at L*" in text
    assert "For the studio" in text or "FOR THE STUDIO" in text.upper()


def test_colours_are_drawn_as_they_print(folder):
    """On white stock art in RGB prints as it is: its colours stand in the picture."""
    output = folder / "c.png"
    show_colours(ColoursRequest(suite(folder), output, 900))
    pixels = np.asarray(Image.open(output).convert("RGB")).astype(int)
    for colour, least in ((SAGE, 3000), (RUST, 3000), ((0x97, 0x9C, 0x7F), 20000)):
        same = (np.abs(pixels - np.array(colour)).max(axis=2) <= 2).sum()
        assert same > least, colour


@pytest.mark.parametrize(
    ("pieces", "envelopes"),
    [
        (1, 0),
        (1, 1),
        (9, 3),
        pytest.param(24, 6, marks=pytest.mark.slow),
        pytest.param(24, 0, marks=pytest.mark.slow),
    ],
    ids=str,
)
def test_everything_fits_on_its_pages(folder, pieces, envelopes):
    path = suite(folder, pieces, envelopes, "A name as long as anybody would ever give to it")
    answer = show_colours(ColoursRequest(path, folder / "c.pdf", audience="studio"))
    with pymupdf.open(answer.written) as document:
        assert len(document) == answer.pages
        for sheet in document:
            box = pymupdf.Rect(0.5 * 72, 0.3 * 72, sheet.rect.width - 36, sheet.rect.height - 20)
            for x0, y0, x1, y1, *_ in sheet.get_text("words"):
                assert box.contains(pymupdf.Rect(x0, y0, x1, y1))
    assert f"p{pieces - 1}" in answer.faces


def test_pages_go_into_another_documents_room(folder):
    sheet = colours_sheet(suite_colours(read_suite(suite(folder, 9, 3))), studio=False)
    room = Box(1, 1, 7.5, 4)
    pages = colours_pages(sheet, room)
    assert len(pages) > 1
    assert all(0 < each.height_in <= room.height for each in pages)


def test_without_an_output_colours_are_only_told(folder):
    answer = show_colours(ColoursRequest(suite(folder)))
    assert answer.written is None and answer.pages == 0
    assert [round(each.share, 1) for each in answer.faces["p0"].colours] == [0.6, 0.3]
    assert sorted(folder.iterdir()) == sorted([folder / "a.pdf", folder / "suite.toml"])


def heights(path: Path, room: Box) -> list[float]:
    sheet = colours_sheet(suite_colours(read_suite(path)), False)
    return [each.height_in for each in colours_pages(sheet, room)]


def test_pages_are_as_few_as_can_be_and_filled_alike(folder):
    path = suite(folder, pieces=4, envelopes=3)
    (roomy,) = heights(path, Box(0.5, 0, 8, 40))
    (close,) = heights(path, Box(0.5, 0, 8, roomy - 0.3))
    assert close < roomy - 0.3
    first, second = heights(path, Box(0.5, 0, 8, close - 0.3))
    assert min(first, second) > 0.3 * (first + second)
    assert max(first, second) < close - 0.3
