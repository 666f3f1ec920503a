"""The type of a PDF template, placed as the page is seen, written by ReportLab."""

import io

import pikepdf
import pytest
from reportlab.pdfgen.canvas import Canvas

from mockup.foreign.words import read_template_words


@pytest.fixture
def page():
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=(4 * 72, 6 * 72))
    canvas.setFillColorRGB(1, 0, 1)
    canvas.setFont("Helvetica", 12)
    canvas.drawString(72, 5 * 72, "Cut line")
    canvas.drawString(200, 5 * 72, "Bleed")
    canvas.save()
    return written.getvalue()


def test_labels_of_one_line_are_told_apart(page):
    cut, bleed = read_template_words(page)
    assert (cut.words, bleed.words) == ("Cut line", "Bleed")
    assert cut.box.left == pytest.approx(1, abs=0.01)
    assert cut.box.top < 1 < cut.box.bottom
    assert cut.colour.values == (1, 0, 1)


@pytest.mark.parametrize(("turn", "at"), [(90, (5, 1)), (180, (3, 5)), (270, (1, 3))])
def test_places_are_those_of_the_page_as_it_is_seen(page, turn, at):
    turned = io.BytesIO()
    with pikepdf.open(io.BytesIO(page)) as pdf:
        pdf.pages[0].obj.Rotate = turn
        pdf.save(turned)
    box = read_template_words(turned.getvalue())[0].box
    x, y = at
    assert box.left - 0.05 <= x <= box.right + 0.05
    assert box.top - 0.05 <= y <= box.bottom + 0.05


def test_what_cannot_be_read_has_no_words():
    assert read_template_words(b"%PDF-1.7\nnothing") == ()
    assert read_template_words(b"") == ()


def test_no_such_page_has_no_words(page):
    assert read_template_words(page, 2) == ()
