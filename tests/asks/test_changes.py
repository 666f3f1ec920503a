"""A proof of a later revision shows what changed since the one before; a first proof does not."""

from __future__ import annotations

from pathlib import Path

import pypdfium2 as pdfium
import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

import mockup
from mockup import ProofRequest

pytestmark = pytest.mark.usefixtures("plain_cover")

DAY = "2026-11-26"
SUITE = """
title = "Supper"
client = "The Millers"
[pieces.card]
art = "card.pdf"
card = "3.5 x 2 in"
die = "rectangle"
quantity = 120
[envelopes.outer]
size = "4-bar"
colour = "oat"
holds = ["card"]
"""


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    path = tmp_path / "suite.toml"
    path.write_text(SUITE)
    _art(tmp_path, "Oysters, bread, butter", "The tide waits for nobody")
    return path


def _art(folder: Path, *lines: str, size: tuple[float, float] = (3.5, 2.0)) -> None:
    """Writes the card with 1/8 in round it."""
    wide, high = (72 * side for side in size)
    canvas = Canvas(str(folder / "card.pdf"), pagesize=(wide + 18, high + 18), invariant=1)
    canvas.setTrimBox((9, 9, wide + 9, high + 9))
    canvas.setFont("Helvetica", 11)
    for number, line in enumerate(lines):
        canvas.drawString(50, 100 - 40 * number, line)
    canvas.save()


def _texts(suite: Path, name: str, **asked: str) -> list[str]:
    request = ProofRequest(suite, suite.parent / name, date=DAY, **asked)  # type: ignore[arg-type]
    written = mockup.write_proof(request).written
    with pdfium.PdfDocument(written) as document:
        return [page.get_textpage().get_text_range() for page in document]


def _changes(texts: list[str]) -> str:
    return "\n".join(text for text in texts if text.startswith("What changed"))


def test_a_first_proof_and_the_same_again_have_no_such_page(suite: Path) -> None:
    assert _changes(_texts(suite, "one.pdf")) == ""
    assert _changes(_texts(suite, "one.pdf")) == ""


def test_a_comma_that_changed_is_one_place(suite: Path) -> None:
    _texts(suite, "one.pdf")
    _art(suite.parent, "Oysters. bread, butter", "The tide waits for nobody")
    told = _changes(_texts(suite, "two.pdf"))
    assert "What changed since revision 1" in told
    assert "1 place ringed." in told


def test_words_that_changed_are_told_beside_their_number(suite: Path) -> None:
    _art(suite.parent, "Supper at 7 o'clock", "The tide waits for nobody")
    _texts(suite, "one.pdf")
    _art(suite.parent, "Supper at 8 o'clock", "The ebb waits for nobody")
    told = " ".join(_changes(_texts(suite, "two.pdf")).split())
    assert "\u201c7 o'clock\u201d became \u201c8 o'clock\u201d" in told
    assert "\u201ctide\u201d became \u201cebb\u201d" in told


def test_a_record_of_pictures_without_words_tells_what_is_seen(suite: Path) -> None:
    _texts(suite, "one.pdf")
    for kept in (suite.parent / "suite.record/pictures").iterdir():
        with Image.open(kept) as image:
            image.load()
        kept.unlink()
        image.save(kept, dpi=image.info["dpi"])
    _art(suite.parent, "Oysters. bread, butter", "The tide waits for nobody")
    told = _changes(_texts(suite, "two.pdf"))
    assert "1 place ringed." in told
    assert "became" not in told


@pytest.mark.slow
def test_a_landscape_card_stands_before_above_now_with_its_colour_on_one_page(suite: Path) -> None:
    text = suite.read_text().replace("3.5 x 2 in", "7 x 5 in").replace("4-bar", "A7")
    suite.write_text(text)
    _art(suite.parent, "Oysters, bread, butter", size=(7.0, 5.0))
    _texts(suite, "one.pdf")
    _art(suite.parent, "Oysters. bread, butter", size=(7.0, 5.0))
    suite.write_text(text.replace('"oat"', '"ink-blue"'))
    told = _changes(_texts(suite, "two.pdf"))
    assert "Colour changed" in told and "continued" not in told
    with pdfium.PdfDocument(suite.parent / "two.pdf") as document:
        pages = [page.get_textpage() for page in document]
        page = next(each for each in pages if each.get_text_range().startswith("What changed"))
        before, now = (_place(page, words) for words in ("Before, revision", "Now"))
    assert before[0] == pytest.approx(now[0], abs=0.05)
    assert before[1] - now[1] > 2.8  # of 5 in at half the page's width 2.4 would be left


@pytest.mark.slow
def test_what_is_shown_larger_stands_on_the_page_of_its_piece(suite: Path) -> None:
    sizes = {"card": (7.0, 5.0), "menu": (5.0, 7.0), "reply": (4.875, 3.5)}
    pieces = "".join(
        f'[pieces.{name}]\nart = "{name}.pdf"\ncard = "{wide} x {high} in"\ndie = "rectangle"\n'
        for name, (wide, high) in sizes.items()
    )
    suite.write_text(f'title = "Supper"\nclient = "The Millers"\n{pieces}')
    for mark in (",", "."):
        for name, size in sizes.items():
            _art(suite.parent, f"Oysters{mark} bread", "butter", size=size)
            (suite.parent / "card.pdf").rename(suite.parent / f"{name}-new.pdf")
        for name in sizes:
            (suite.parent / f"{name}-new.pdf").rename(suite.parent / f"{name}.pdf")
        texts = _texts(suite, f"{ord(mark)}.pdf")
    pages = [text.splitlines() for text in texts if text.startswith("What changed")]
    assert len(pages) > 1
    assert all(page[1] in ("Card", "Menu", "Reply") for page in pages)


def _place(page: pdfium.PdfTextPage, words: str) -> tuple[float, float]:
    """Returns where words begin, inches from a page's lower left."""
    found = page.search(words, match_case=True).get_next()
    assert found is not None
    left, bottom, _, _ = page.get_charbox(found[0])
    return left / 72, bottom / 72


def test_the_same_art_saved_again_looks_the_same(suite: Path) -> None:
    _texts(suite, "one.pdf")
    card = suite.parent / "card.pdf"
    card.write_bytes(card.read_bytes() + b"\n% saved again\n")
    told = _changes(_texts(suite, "two.pdf"))
    assert "it looks the same" in told
    assert "ringed" not in told


def test_facts_that_changed_are_told_without_pictures(suite: Path) -> None:
    _texts(suite, "one.pdf")
    text = suite.read_text().replace("120", "140").replace('"oat"', '"ink-blue"')
    suite.write_text(text)
    told = _changes(_texts(suite, "two.pdf"))
    assert "Quantity changed from 120 to 140." in told
    assert "Colour changed from oat to ink blue." in told
    assert "Before, revision" not in told


def test_the_page_compares_with_the_last_proof_a_client_had(suite: Path) -> None:
    _texts(suite, "one.pdf")
    suite.write_text(suite.read_text().replace("120", "130"))
    _texts(suite, "studio.pdf", audience="studio")
    suite.write_text(suite.read_text().replace("130", "140"))
    told = _changes(_texts(suite, "three.pdf"))
    assert "What changed since revision 1" in told
    assert "from 120 to 140" in told


def test_a_picture_that_was_lost_leaves_words(suite: Path) -> None:
    _texts(suite, "one.pdf")
    for kept in (suite.parent / "suite.record/pictures").iterdir():
        kept.unlink()
    _art(suite.parent, "Oysters. bread, butter")
    told = _changes(_texts(suite, "two.pdf"))
    assert "No picture is kept of how it was." in told


def test_a_piece_taken_away_and_one_added_are_told(suite: Path) -> None:
    _texts(suite, "one.pdf")
    text = suite.read_text().replace("pieces.card", "pieces.menu").replace("120", "60")
    suite.write_text(text.replace('["card"]', '["menu"]'))
    told = _changes(_texts(suite, "two.pdf"))
    assert "Added." in told
    assert "Taken away." in told
