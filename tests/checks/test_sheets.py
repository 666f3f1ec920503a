"""The studio's marked sheet and the picture of a run, read back."""

from __future__ import annotations

import numpy as np
import pymupdf
import pytest
from PIL import Image

from mockup.checks.running import check_suite
from mockup.checks.settings import Settings
from mockup.output.marked import write_marked
from mockup.output.shifted import PPI, write_shifted
from mockup.suite.reading import read_suite
from tests.checks.bench.sheet import CREAM, INK, WHITE, Sheet


@pytest.fixture
def faulty(tmp_path):
    sheet = Sheet()
    sheet.flood(CREAM, left=0.05)
    sheet.outlined(0.06, 3.0, "Come in on the flood", 16, INK)
    sheet.save(tmp_path / "one.pdf")
    dark = Sheet(4.25, 5.5)
    dark.flood(INK)
    dark.outlined(0.09, 2.0, "Carriages at one", 14, WHITE)
    dark.save(tmp_path / "two.pdf")
    file = tmp_path / "suite.toml"
    file.write_text(
        'title = "Faulty"\n[pieces.one]\nart = "one.pdf"\ncard = "A7"\n'
        '[pieces.two]\nart = "two.pdf"\ncard = "A2"\n'
        '[envelopes.outer]\nsize = "square-7"\nholds = ["one", "two"]\n'
    )
    return read_suite(file)


def test_the_marked_sheet_numbers_every_finding(faulty, tmp_path):
    findings = check_suite(faulty, Settings())
    path = tmp_path / "marked.pdf"
    write_marked(path, faulty, findings, Settings())
    with pymupdf.open(path) as document:
        text = "\n".join(page.get_text() for page in document)
        first = document[0]
        assert "studio" in text.lower()
        # True to size: the art with its bleed, 5.25 x 7.25 in.
        (image,) = first.get_image_info()
        left, top, right, bottom = image["bbox"]
        assert (right - left, bottom - top) == pytest.approx((5.25 * 72, 7.25 * 72), abs=0.5)
        # Findings keep the numbers of the table.
        words = {word[4] for word in first.get_text("words")}
        own = [str(n) for n, f in enumerate(findings, 1) if f.piece == "one" and f.at]
        assert own
        assert set(own) <= words
    for finding in findings:
        assert finding.check in text


def test_the_run_is_drawn_at_its_resolution_and_repeats(faulty, tmp_path):
    paths = [tmp_path / "a.png", tmp_path / "b.png"]
    for path in paths:
        write_shifted(path, faulty, Settings(run=50))
    one, two = (np.asarray(Image.open(path).convert("RGB")) for path in paths)
    assert (one == two).all()
    assert one.shape[1] > 3 * 5 * PPI
    assert one.shape[0] > (7 + 5.5) * PPI
