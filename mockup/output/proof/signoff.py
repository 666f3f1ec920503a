"""The proof's pages of answers: a yes or a change for every piece, a word to each, name and date.

They are form fields, for any reader or telephone; printed, they are boxes to tick with a pen. Each
page bears a code that says, for machines, which proof it answers.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
from reportlab.graphics.barcode.qr import QrCodeWidget

from mockup.colour.plates import Plates
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.answer_places import (
    ANSWER,
    COMMENT,
    DAY,
    LAYOUT,
    SIGNED,
    AnswerPage,
    AnswerRow,
    answer_pages,
    field_name,
)
from mockup.output.proof.grid import (
    BODY,
    LABEL,
    LEFT_IN,
    PAPERS_IN,
    REMARK,
    TEXT,
    draw_title,
)
from mockup.output.proof.plan import Page, Telling
from mockup.output.typography import HAIR, INK, line_width_in, shortened
from mockup.record.fingerprint import Named
from mockup.record.paper_mark import PaperMark

TITLE = "Before you say yes"
CONTINUED = "Your answer, continued"

_CHECKS = (
    ("Names, and how each is spelled", "The shape and size of each piece"),
    ("Dates, weekdays and hours", "Colours, as far as a screen goes"),
    ("Places, and the way to reply", "Papers, envelopes, liners"),
    ("All the words, read aloud once", "Quantities, with a few to spare"),
)
_YES = (
    "Say yes to each piece, or ask for a change and write which; save this document and send it "
    "back. A yes is to these files, this shape, size, paper and number: what changes afterwards "
    "has another code, and asks for another yes."
)
_CHECKS_IN, _CHECK_ROW_IN = 1.35, 0.27
_CHECK_COLUMNS_IN = (0.0, 3.1)
_YES_IN = 2.95
_LABEL_GAP_IN = 0.09
_TO_BASELINE_IN = 0.19


def signoff_pages(telling: Telling) -> list[Page]:
    """Returns the pages of answers: what to check, then a row for every piece and envelope."""
    issue, paper = telling.issue, telling.suite.paper
    items = {each.name: each for each in issue.items}
    width, height = PAPERS_IN[paper]
    pages: list[Page] = []
    for page in answer_pages(items, paper):
        mark = PaperMark(issue.revision, issue.mark, paper, LAYOUT, page.number)
        title = TITLE if page.number == 1 else CONTINUED
        pages.append(Page(title, width, height, _drawing(page, mark, items, title)))
    return pages


def _drawing(
    page: AnswerPage, mark: PaperMark, items: Mapping[str, Named], title: str
) -> Callable[[Pdf, Sequence[Plates]], None]:
    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, title)
        draw_code(pdf, mark.text, page.mark)
        if page.number == 1:
            _draw_checks(pdf)
            pdf.paragraph(Point(LEFT_IN, _YES_IN), _YES, TEXT, pdf.width_in - 2 * LEFT_IN)
        for row in page.rows:
            _draw_row(pdf, row, items[row.name])
        _draw_signature(pdf, page)

    return draw


def _draw_checks(pdf: Pdf) -> None:
    with pdf.element("H2"):
        pdf.text(Point(LEFT_IN, _CHECKS_IN), "Please check", LABEL)
    for number, row in enumerate(_CHECKS, start=1):
        for text, across in zip(row, _CHECK_COLUMNS_IN, strict=True):
            at = Point(LEFT_IN + across, _CHECKS_IN + number * _CHECK_ROW_IN)
            pdf.text(at, text, TEXT)


def draw_code(pdf: Pdf, text: str, box: Box) -> None:
    """Draws a QR code (ISO/IEC 18004) that fills a square box."""
    dark = code_modules(text)
    side = box.width / len(dark)
    with pdf.artifact():
        for y, row in enumerate(dark):
            top, bottom = box.top + y * side, box.top + (y + 1) * side
            changes = np.flatnonzero(np.diff(row, prepend=False, append=False))
            for start, end in changes.reshape(-1, 2):  # modules side by side are drawn as one
                left, right = box.left + start * side, box.left + end * side
                corners = ((left, top), (right, top), (right, bottom), (left, bottom))
                pdf.fill(Shape(polygon_outline(*corners)), INK)


def code_modules(text: str) -> np.ndarray[tuple[int, int], np.dtype[np.bool_]]:
    """Returns a text as a QR code's modules, (n, n) bool, true where dark; a quarter of them may
    be damaged."""
    widget: Any = QrCodeWidget(text, barLevel="Q")
    code = widget.qr
    code.make()
    sides = range(code.getModuleCount())
    return np.array([[bool(code.isDark(row, column)) for column in sides] for row in sides])


def _draw_row(pdf: Pdf, row: AnswerRow, item: Named) -> None:
    baseline = row.whole.top + _TO_BASELINE_IN
    code = item.fingerprint.short
    room = row.approve.left - LEFT_IN - 0.2
    after = line_width_in(code, LABEL) + 0.12
    title = shortened(item.title, TEXT, room - after)
    pdf.text(Point(LEFT_IN, baseline), title, TEXT)
    pdf.text(Point(LEFT_IN + line_width_in(title, TEXT) + 0.12, baseline), code, LABEL)
    field = field_name(ANSWER, row.name)
    choices = (("approve", "Yes, as shown", row.approve), ("change", "Please change", row.change))
    for value, words, box in choices:
        pdf.choice(field, value, box, f"{item.title}: yes as shown, or please change")
        pdf.text(Point(box.right + _LABEL_GAP_IN, baseline), words, BODY)
    told = f"{item.title}: what should change, or a remark"
    pdf.entry(field_name(COMMENT, row.name), row.comment, told, "several")
    if row.whole.bottom - row.comment.bottom > 0.1:
        y = row.whole.bottom - 0.07
        pdf.rule(Point(row.whole.left, y), Point(row.whole.right, y), 0.35, HAIR)


def _draw_signature(pdf: Pdf, page: AnswerPage) -> None:
    if page.signed is None or page.day is None:
        return
    told = (
        "A yes in a message of your own counts as well. Your printer and die maker have the last "
        "word on what can be made."
    )
    pdf.paragraph(Point(LEFT_IN, page.signed.top - 0.42), told, REMARK, 7.0)
    places = (
        (SIGNED, page.signed, "Name", "Your name, in place of a signature"),
        (DAY, page.day, "Date", "The date of your answer"),
    )
    for field, box, label, words in places:
        pdf.entry(field, box, words)
        pdf.text(Point(box.left, box.bottom + 0.17), label, LABEL)
