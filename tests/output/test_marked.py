"""The studio's sheet of findings, read back by PDFium: lines and marks at their true places."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from mockup.checks.finding import Finding, Severity
from mockup.checks.settings import Settings
from mockup.geometry.point import Point
from mockup.output.marked import write_marked
from mockup.suite.reading import read_suite
from tests.output.demo_proof import Drawn, paths, pictures


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> pdfium.PdfPage:
    path = tmp_path_factory.mktemp("marked") / "marked.pdf"
    suite = read_suite(Path(__file__).parents[2] / "assets_demo" / "suite.toml")
    small = replace(suite, pieces=suite.pieces[1:2], envelopes=())  # the details, 4.25 x 5.5 in
    findings = [
        Finding("safe", Severity.STOP, "details", "too near", "move it", Point(1.0, 2.0)),
        Finding("fit", Severity.WARN, "envelopes.outer", "too tight", "take a larger one"),
    ]
    write_marked(path, small, findings, Settings())
    document = pdfium.PdfDocument(path)
    assert len(document) == 2  # a page for the piece, one for the suite as a whole
    return document[0]


def drawn_at(page: pdfium.PdfPage) -> tuple[Drawn, list[Drawn]]:
    (art,) = pictures(page)
    return art, [path for path in paths(page) if path.stroked and path.segments > 2]


def test_cut_bleed_and_safe_lines_have_their_true_size(page: pdfium.PdfPage) -> None:
    """The card is 4.25 x 5.5 in; bleed is 1/8 in beyond, type keeps 1/8 in inside."""
    _, lines = drawn_at(page)
    sizes = {(round(wide, 2), round(high, 2)) for wide, high in (line.size_in for line in lines)}
    assert {(4.25, 5.5), (4.5, 5.75), (4.0, 5.25)} <= sizes


def test_a_finding_is_marked_at_its_place(page: pdfium.PdfPage) -> None:
    """The art begins with its bleed, so 1 in, 2 in of the trim are 1.125, 2.125 in of it."""
    art, _ = drawn_at(page)
    left, top = art.box[0] / 72, page.get_height() / 72 - art.box[3] / 72
    dots = [
        p for p in paths(page) if p.filled and p.size_in == pytest.approx((0.04, 0.04), abs=0.004)
    ]
    (dot,) = dots
    x = (dot.box[0] + dot.box[2]) / 2 / 72
    y = (page.get_height() - (dot.box[1] + dot.box[3]) / 2) / 72
    assert (x - left, y - top) == pytest.approx((1.125, 2.125), abs=0.01)


def test_words_of_the_finding_are_on_the_page(page: pdfium.PdfPage) -> None:
    text = page.get_textpage().get_text_range()
    assert "too near" in text and "move it" in text and "not for the client" in text.lower()
    assert "too tight" not in text
