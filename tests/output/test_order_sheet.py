"""The order sheet as it is set: of many pieces on numbered pages, each with its heading."""

import re
from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

from mockup.ordering.bill import bill_of
from mockup.output.order_sheet import write_order_sheet
from mockup.output.order_told import OrderTold
from mockup.printers.catalogue import read_printer
from mockup.record.status import Standing
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf
from tests.record.made import item

CATALOGUE = """
name = "{} Cutters"
currency = "EUR"
[custom]
tool = 100
each = 0.2
[[dies]]
die = "lancet-arch"
cards = {{ A7 = 0.58 }}
[[stocks]]
stock = "cotton-110-white"
each = 1.1
"""


@pytest.fixture
def told(tmp_path: Path) -> OrderTold:
    """24 pieces, none approved, at one printer."""
    make_pdf(tmp_path / "card.pdf")
    path = tmp_path / "suite.toml"
    path.write_text(
        'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\ndie = "lancet-arch"\n'
        'stock = "cotton-110-white"\nquantity = 100\n',
        encoding="utf-8",
    )
    suite = read_suite(path)
    (piece,) = suite.pieces
    pieces = [replace(piece, name=f"p{n}", title=f"Piece {n}") for n in range(24)]
    suite = replace(suite, pieces=tuple(pieces))
    bills = []
    for name in ("Groyne", "Weir"):
        (tmp_path / "a.toml").write_text(CATALOGUE.format(name), encoding="utf-8")
        bills.append(bill_of(suite, read_printer(tmp_path / "a.toml")))
    stand = tuple(Standing(item(each.name), "not proofed") for each in pieces)
    return OrderTold(suite, "2026-11-26", stand, tuple(bills))


def _pages(path: Path) -> list[str]:
    with pypdfium2.PdfDocument(path) as document:
        return [page.get_textpage().get_text_range() for page in document]


@pytest.mark.parametrize(
    ("printers", "going_on"), [(1, "By the catalogue of Groyne"), (2, "By their catalogues")]
)
def test_many_pieces_are_set_on_numbered_pages(told, tmp_path, printers, going_on) -> None:
    path = tmp_path / "order.pdf"
    write_order_sheet(path, replace(told, bills=told.bills[:printers]))
    pages = _pages(path)
    assert len(pages) > 2
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
    for n in range(24):
        assert sum(re.search(rf"Piece {n}\b", page) is not None for page in pages) == 1
    resumed = [page for page in pages if f"{going_on}" in page and "continued" in page]
    assert resumed
    assert all("Weir Cutters" in page for page in resumed) is (printers == 2)


def test_a_sheet_of_one_page_has_no_number(told, tmp_path) -> None:
    suite = replace(told.suite, pieces=told.suite.pieces[:2])
    write_order_sheet(tmp_path / "order.pdf", replace(told, suite=suite, bills=()))
    (page,) = _pages(tmp_path / "order.pdf")
    assert "page 1" not in page
