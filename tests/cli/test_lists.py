"""`mockup papers`, `envelopes` and `scenes`: what there is, told, for machines, and drawn."""

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from mockup.colour.srgb import parse_hex
from mockup.render.samples import swatch
from mockup.suite.scene_file import scene_names
from mockup.trade.papers import STOCKS
from mockup.trade.sizes import ENVELOPES
from tests.mockup_command import mockup

NAMES = {
    "papers": list(STOCKS),
    "envelopes": [size.name for size in ENVELOPES.values()],
    "scenes": scene_names(),
}


@pytest.mark.parametrize("what", NAMES)
def test_all_there_is_is_listed(what: str, tmp_path: Path) -> None:
    answer = mockup(what, "--json")
    assert [row["name"] for row in json.loads(answer.stdout)[what]] == NAMES[what]
    assert mockup(what).stdout.count("\n") > len(NAMES[what])


def test_json_tells_both_units() -> None:
    rows = json.loads(mockup("envelopes", "--json").stdout)["envelopes"]
    c6 = next(row for row in rows if row["name"] == "C6")
    assert (c6["width_mm"], c6["height_mm"], c6["card"]) == (162, 114, "ISO A6")
    assert c6["width_in"] == pytest.approx(162 / 25.4, abs=1e-4)
    papers = json.loads(mockup("papers", "--json").stdout)["papers"]
    cotton = next(row for row in papers if row["name"] == "cotton-300-gsm-white")
    assert (cotton["gsm"], cotton["caliper_um"], cotton["texture"]) == (300, 500, "cotton")


def test_american_envelopes_are_called_so_among_millimetres() -> None:
    told = mockup("envelopes", "--units", "mm").stdout
    assert "American A6" in told and "165.1 × 120.65 mm" in told and "ISO A6, 105 × 148 mm" in told


def test_envelopes_are_drawn_with_their_names(tmp_path: Path) -> None:
    import pymupdf

    answer = mockup("envelopes", "-o", tmp_path / "e.pdf")
    assert answer.returncode == 0, answer.stderr
    with pymupdf.open(tmp_path / "e.pdf") as document:
        page = document[0]
        told, inside = page.get_text(), page.rect
        assert document.page_count == 1
        assert all(inside.contains(drawing["rect"]) for drawing in page.get_drawings())
    for size in ENVELOPES.values():
        assert size.name in told


@pytest.mark.slow
def test_scenes_are_drawn_as_wide_as_asked(tmp_path: Path) -> None:
    answer = mockup("scenes", "-o", tmp_path / "s.png", "--width", "600")
    assert answer.returncode == 0, answer.stderr
    with Image.open(tmp_path / "s.png") as picture:
        assert picture.width == 600
        pixels = np.asarray(picture.convert("RGBA")).view(np.uint32)
    assert len(np.unique(pixels)) > 2000  # tables, not flat boxes


@pytest.mark.parametrize("name", ["kraft-300-gsm", "smooth-350-gsm-white", "text-80-oat"])
def test_a_swatch_has_its_papers_colour(name: str) -> None:
    """In a window's light, so near it, not at it."""
    picture = swatch(STOCKS[name]).astype(int)
    high, wide = picture.shape[:2]
    middle = picture[high // 3 : 2 * high // 3, wide // 3 : 2 * wide // 3].reshape(-1, 3)
    assert np.abs(middle.mean(axis=0) - parse_hex(STOCKS[name].colour_hex)).max() < 24


def test_an_ending_that_is_not_drawn_is_refused() -> None:
    answer = mockup("papers", "-o", "papers.tif")
    assert answer.returncode == 5 and ".pdf" in answer.stderr
    assert mockup("papers", "--units", "cm").returncode == 2
