"""The order sheet: what is ordered, of whom, what it costs, and what was waived; one page, more
where there is much."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from mockup.geometry.point import Point
from mockup.ordering.bill import Bill
from mockup.ordering.side_by_side import Row, side_by_side
from mockup.output.order_told import CAUTION, OrderTold, item_rows
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.proof.words import date_told
from mockup.output.typography import QUIET, Style, shortened, wrapped
from mockup.printers.prices import paid

_TITLE = Style("light", 24, 28)
_ABOUT = Style("text", 11, 14, QUIET)
_GROUP = Style("caps", 10, 13, QUIET, 0.06)
_NAME = Style("text", 12, 15)
_FINE = Style("text", 9.5, 12, QUIET)
_SIDE_IN, _TOP_IN, _FOOT_IN = 0.65, 0.82, 0.6
_BESIDE_MOST = 3  # printers whose names and amounts have room beside each other on a page
_COLUMN_IN = 1.55


class _Setting:
    """Where the next line stands; a new page is begun where one does not fit, which tells its
    number of `pages` and goes on with its group. No pages: they are only counted."""

    def __init__(self, pdf: Pdf, told: OrderTold, pages: int = 0) -> None:
        self.pdf, self.told, self.pages, self.y = pdf, told, pages, 0.0
        self.page, self.label = 0, ""
        self.heads: Callable[[], None] = _nothing
        self.begin()

    @property
    def right(self) -> float:
        return self.pdf.width_in - _SIDE_IN

    @property
    def measure(self) -> float:
        return self.pdf.width_in - 2 * _SIDE_IN

    def begin(self) -> None:
        """Begins a page with its head, and with that of the group that goes on."""
        told, pdf = self.told, self.pdf
        self.page += 1
        pdf.begin_page(*PAPERS_IN[told.suite.paper], "Order")
        word = "Order" if len(told.bills) < 2 else "Printers compared"
        title = shortened(f"{told.suite.title}: {word.lower()}", _TITLE, self.measure)
        pdf.text(Point(_SIDE_IN, _TOP_IN), title, _TITLE)
        printers = " and ".join(each.printer for each in told.bills) or "no printer named"
        about = shortened(f"{printers}  \u00b7  {date_told(told.date)}", _ABOUT, self.measure)
        pdf.text(Point(_SIDE_IN, _TOP_IN + 0.27), about, _ABOUT)
        if self.pages > 1:
            with pdf.footer():
                at = Point(self.right, pdf.height_in - _FOOT_IN / 2)
                pdf.text(at, f"page {self.page} of {self.pages}", _FINE, "right")
        self.y = _TOP_IN + 0.68
        if self.label:
            self._head(f"{self.label}, continued")

    def room(self, height_in: float) -> None:
        """Makes room of a height, on the next page where this one is full."""
        if self.y + height_in > self.pdf.height_in - _FOOT_IN:
            self.begin()

    def group(self, label: str, heads: Callable[[], None] | None = None) -> None:
        """Sets a heading with a rule under it, and the heads of its columns; both again on every
        page that it goes on to."""
        self.label = ""
        self.room(0.6)
        self.label, self.heads = label, heads or _nothing
        self._head(label)

    def _head(self, label: str) -> None:
        self.pdf.text(Point(_SIDE_IN, self.y), shortened(label, _GROUP, self.measure), _GROUP)
        under = self.y + 0.07
        self.pdf.rule(Point(_SIDE_IN, under), Point(self.right, under))
        self.y += 0.29
        self.heads()

    def fine(self, text: str, indent_in: float = 0.0) -> None:
        """Sets a paragraph of small type."""
        measure = self.measure - indent_in
        lines = len(wrapped(text, _FINE, measure))
        self.room(lines * _FINE.leading_in)
        self.pdf.paragraph(Point(_SIDE_IN + indent_in, self.y), text, _FINE, measure)
        self.y += lines * _FINE.leading_in


def write_order_sheet(path: Path, told: OrderTold) -> None:
    """Writes the sheet; the same order gives the same bytes. Raises OutputError."""
    suite = told.suite
    about = (f"{suite.title}: order", suite.designer or "", "Order")
    pages = _set(_Setting(Pdf(io.BytesIO(), *about), told))
    with whole_pdf(path, *about) as pdf:
        _set(_Setting(pdf, told, pages))


def _set(page: _Setting) -> int:
    """Sets all of the sheet, and returns how many pages it took."""
    told = page.told
    page.group("What is ordered" if len(told.bills) < 2 else "What both were asked for")
    for row in item_rows(told):
        _item(page, row)
    if 1 < len(told.bills) <= _BESIDE_MOST:
        _beside(page, told.bills)
    else:
        for bill in told.bills:
            _bill(page, bill)
    for of, lines in told.against:
        page.y += 0.1
        page.group(of)
        for line in lines:
            page.fine(line)
    page.y += 0.1
    page.label = ""
    page.fine(CAUTION if told.bills else "No printer was named: nothing is priced.")
    return page.page


def _nothing() -> None:
    """Sets nothing: the heads of a group without columns."""


def _item(page: _Setting, row: dict[str, str]) -> None:
    page.room(0.75)
    run = f", {row['run']} run" if row["run"] else ""
    count = f"{row['quantity'] or 'no quantity'}{run}"
    title = shortened(row["title"], _NAME, page.measure - 1.8)
    page.pdf.text(Point(_SIDE_IN, page.y), title, _NAME)
    page.pdf.text(Point(page.right, page.y), count, _NAME, "right")
    page.y += 0.19
    sides = f", {row['sides']}" if row["sides"] else ""
    finish = f"finish {row['finish']}" if row["finish"] else row["liner"]
    page.fine(f"{row['size']}; {row['die']}; {row['stock']}; {finish}{sides}")
    page.fine(f"{row['fingerprint']}; {row['approved']}; {row['files'] or 'no file'}")
    page.y += 0.13


def _bill(page: _Setting, bill: Bill) -> None:
    page.y += 0.1
    page.group(f"By the catalogue of {bill.printer}")
    for line in bill.lines:
        page.room(0.2)
        amount = "not priced" if line.amount is None else paid(line.amount, bill.currency)
        count = f", {line.quantity}" if line.quantity else ""
        what = f"{line.item}: {line.what}{count}"
        page.pdf.text(Point(_SIDE_IN, page.y), shortened(what, _FINE, page.measure - 1.2), _FINE)
        page.pdf.text(Point(page.right, page.y), amount, _FINE, "right")
        page.y += _FINE.leading_in
        if line.note:
            page.fine(line.note, 0.2)
    page.y += 0.08
    page.room(0.2)
    word = "Total" if bill.whole else "Total of what is priced"
    page.pdf.text(Point(_SIDE_IN, page.y), word, _NAME)
    page.pdf.text(Point(page.right, page.y), paid(bill.total, bill.currency), _NAME, "right")
    page.y += 0.24


def _beside(page: _Setting, bills: Sequence[Bill]) -> None:
    """Sets what printers ask in a column each."""
    page.y += 0.1
    page.room(1.2)
    ends = [page.right - _COLUMN_IN * at for at in reversed(range(len(bills)))]
    page.group("By their catalogues", partial(_names, page, bills, ends))
    item = ""
    for row in side_by_side(bills):
        if row.item not in ("", item):
            page.room(0.85)  # the first lines of a piece stay with its name
            page.y += 0.06
            page.pdf.text(Point(_SIDE_IN, page.y), shortened(row.item, _FINE, 1.0), _FINE)
            item = row.item
        _row(page, row, ends)


def _names(page: _Setting, bills: Sequence[Bill], ends: Sequence[float]) -> None:
    names = [wrapped(bill.printer, _FINE, _COLUMN_IN - 0.15) for bill in bills]
    for number in range(max(map(len, names))):
        for end, own in zip(ends, names, strict=True):
            if number < len(own):
                page.pdf.text(Point(end, page.y), own[number], _FINE, "right")
        page.y += _FINE.leading_in
    page.y += 0.08


def _row(page: _Setting, row: Row, ends: Sequence[float]) -> None:
    total = not row.item and not row.under
    page.room(0.2)
    page.y += 0.1 if total else 0.0
    style = _NAME if total else _FINE
    left = _SIDE_IN if total else _SIDE_IN + (1.2 if row.under else 1.05)
    what = row.what.capitalize() if total else row.what
    measure = ends[0] - _COLUMN_IN - left
    page.pdf.text(Point(left, page.y), shortened(what, style, measure), style)
    for end, cell in zip(ends, row.cells, strict=True):
        page.pdf.text(Point(end, page.y), shortened(cell, style, _COLUMN_IN - 0.1), style, "right")
    page.y += style.leading_in
