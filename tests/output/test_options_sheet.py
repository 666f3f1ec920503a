"""The options sheet: read back with MuPDF, and what is told of each option."""

from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest

from mockup.asks.options import OptionsRequest, show_options
from mockup.errors import OutputError, SuiteError
from mockup.suite.reading import read_suite

PRINTER = """
name = "Groyne Cutters"
currency = "EUR"
[custom]
tool = 130
each = 0.25
setup = 20
[[dies]]
die = "lancet-arch"
cards = { A7 = 0.51 }
setup = 20
minimum = 25
"""


@pytest.fixture
def suite(demo_suite_folder, tmp_path) -> Path:
    return demo_suite_folder / "suite.toml"


@pytest.fixture
def catalogues(tmp_path) -> Path:
    folder = tmp_path / "printers"
    folder.mkdir()
    (folder / "groyne.toml").write_text(PRINTER, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def demo_suite_folder(tmp_path_factory) -> Path:
    """A suite of one plain page, so that nothing here hangs on the demo's art."""
    import pymupdf

    folder = tmp_path_factory.mktemp("suite")
    document = pymupdf.open()
    page = document.new_page(width=5.25 * 72, height=7.25 * 72)
    page.draw_rect(page.rect, color=None, fill=(0.2, 0.4, 0.3))
    page.insert_text((130, 330), "Tide Mill Supper", fontsize=18, color=(1, 1, 1))
    document.save(folder / "art.pdf")
    (folder / "suite.toml").write_text(
        'title = "Supper"\n[pieces.invitation]\nart = "art.pdf"\ncard = "A7"\n'
        'die = "lancet-arch"\nquantity = 120\n',
        encoding="utf-8",
    )
    return folder


def shown(suite, piece, output, names, audience, catalogues, width_px):
    asked = OptionsRequest(suite, piece, output, names, (), catalogues, width_px, audience)
    return show_options(asked)


def test_the_studio_is_told_costs_worked_by_hand(suite, catalogues, tmp_path):
    names = ["lancet-arch", "ellipse"]
    told = shown(suite, "invitation", tmp_path / "o.pdf", names, "studio", catalogues, 900)
    stock, made = (option.told for option in told.options)
    assert stock[1:4] == ("Groyne Cutters", "0.51 EUR each", "81.20 EUR for 120")  # 20 + 61.20
    # 130 / (0.51 - 0.25) = 500 exactly; 130 + 20 + 30 = 180 for 120
    assert made[1:3] == ("die 130.00 EUR, pays from 500", "180.00 EUR for 120, 1.50 each")
    assert Decimal("180") / 120 == Decimal("1.5")
    assert any(line.startswith("type clears by") for line in stock)
    assert "safe at 100 %" in stock


def test_clearance_is_the_distance_measured_on_the_page(suite, catalogues, tmp_path):
    """The text's box by MuPDF, its corners' distance to the ellipse by scipy."""
    import pymupdf
    from scipy.optimize import minimize_scalar

    told = shown(suite, "invitation", tmp_path / "o.pdf", ["ellipse"], "studio", catalogues, 900)
    line = next(t for t in told.options[0].told if t.startswith("type clears"))
    said = float(line.split()[3])
    with pymupdf.open(suite.parent / "art.pdf") as document:
        box = document[0].get_texttrace()[0]["bbox"]
    corners = [(x / 72 - 0.125, y / 72 - 0.125) for x in box[::2] for y in box[1::2]]

    def distance(corner):
        x, y = corner
        return minimize_scalar(
            lambda t: np.hypot(2.5 + 2.5 * np.cos(t) - x, 3.5 + 3.5 * np.sin(t) - y),
            bounds=(np.arctan2(y - 3.5, x - 2.5) - 0.6, np.arctan2(y - 3.5, x - 2.5) + 0.6),
            method="bounded",
        ).fun

    # The box bounds the font's height, letters fill less of it: never nearer than the box.
    assert min(map(distance, corners)) - 0.01 <= said <= min(map(distance, corners)) + 0.25


def test_a_pdf_holds_names_groups_and_true_outlines(suite, catalogues, tmp_path):
    import pymupdf

    path = tmp_path / "o.pdf"
    told = shown(suite, "invitation", path, [], "client", catalogues, 900)
    assert len(told.options) == 12
    with pymupdf.open(path) as document:
        assert document.page_count == 1
        page = document[0]
        text = page.get_text()
        inside = page.rect
        drawings = page.get_drawings()
        for block in page.get_text("blocks"):
            assert inside.contains(pymupdf.Rect(block[:4]))  # nothing clipped
    assert "1 Lancet arch" in " ".join(text.split())
    assert "MADE TO ORDER" in text.upper() and "IN STOCK" in text.upper()
    lancet = next(d for d in drawings if any(item[0] == "c" for item in d["items"]))
    scale = lancet["rect"].width / 72 / 5
    assert scale == pytest.approx(told.scale, rel=1e-3)
    # 12 outlines and their casings, if any; all at one scale
    tall = [d["rect"] for d in drawings if abs(d["rect"].height / 72 - 7 * scale) < 0.01]
    assert len(tall) >= 11


def test_a_png_has_the_width_asked_and_the_arts_colour(suite, catalogues, tmp_path):
    from PIL import Image

    path = tmp_path / "o.png"
    names = ["lancet-arch", "ellipse", "hexagon"]
    told = shown(suite, "invitation", path, names, "client", catalogues, 1100)
    with Image.open(path) as picture:
        assert picture.width == 1100
        whole = np.asarray(picture.convert("RGBA"))
    pixels = whole.reshape(-1, 4)[:, :3].astype(int)
    _, firsts, counts = np.unique(whole.view(np.uint32), return_index=True, return_counts=True)
    ground = pixels[firsts[np.argsort(counts)[-2]]]  # next to the white of the page
    assert np.abs(ground - (51, 102, 77)).max() <= 12  # on a soft white stock
    green = np.abs(pixels - ground).max(axis=1) <= 4
    ppi = 1100 / (11 if told.scale and picture.width > picture.height else 8.5)
    # three shapes' areas (28.70, 27.49, 27.78 in2), less the type and the lines over them
    expected = (28.704 + 27.489 + 27.783) * told.scale**2 * ppi**2
    assert green.sum() == pytest.approx(expected, rel=0.08)


def test_mistakes_are_told(suite, catalogues, tmp_path):
    with pytest.raises(SuiteError, match='did you mean "invitation"'):
        shown(suite, "invitaton", tmp_path / "o.pdf", [], "client", catalogues, 900)
    with pytest.raises(OutputError, match=r"\.jpeg or \.pdf"):
        shown(suite, "invitation", tmp_path / "o.tif", [], "client", catalogues, 900)
    assert read_suite(suite).pieces[0].name == "invitation"
