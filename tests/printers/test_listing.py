"""The list of dies, for machines and in words, and the sheet at true size read back."""

import json

import pytest

from mockup.dies import FAMILIES, make_die
from mockup.errors import SuiteError
from mockup.geometry.outline import Cubic
from mockup.geometry.point import Point, box_of
from mockup.output.dies_sheet import write_dies_sheet
from mockup.printers.answers import dies_answer, piece_told, pieces_answer, who_has
from mockup.printers.catalogue import find_printers, read_printer
from mockup.printers.listing import listed

CATALOGUE = """
name = "Groyne Cutters"
currency = "EUR"
[custom]
tool = 100
each = 0.3
[[dies]]
die = "ticket-corner"
parameters = { radius = 0.4 }
cards = { A7 = 0.45, A2 = 0.4 }
minimum = 25
"""


@pytest.fixture
def printers(tmp_path):
    path = tmp_path / "groyne.toml"
    path.write_text(CATALOGUE, encoding="utf-8")
    return [read_printer(path)]


def test_every_family_is_listed_with_who_has_it(printers):
    rows = listed(printers)
    assert [row.name for row in rows] == list(FAMILIES)
    answer = json.loads(json.dumps({"dies": dies_answer(rows)}))
    ticket = next(row for row in answer["dies"] if row["name"] == "ticket-corner")
    assert ticket["parameters"] == {"radius": 0.4}
    places = [(each["printer"], each["card"], each["price"]) for each in ticket["available"]]
    assert places == [("Groyne Cutters", "A7", 0.45), ("Groyne Cutters", "A2", 0.4)]
    words = {row.name: who_has(printers, row) for row in rows}
    assert words["ticket-corner"] == "Groyne Cutters: A7 0.45, A2 0.40 EUR"
    assert words["petal"] == "made to order" and words["rectangle"] == "needs no die"


def test_a_card_size_narrows_the_offers_and_fills_in_the_parameters(printers):
    rows = {row.name: row for row in listed(printers, (7, 5))}
    assert [offer.card.name for offer in rows["ticket-corner"].offers] == ["A7"]
    assert dict(rows["gable"].parameters) == {"rise": 1.75, "side": "top"}
    assert rows["circle"].die is None
    only = listed(printers, (4.25, 5.5), only_offered=True)
    assert [row.name for row in only] == ["ticket-corner"]


def test_pieces_are_told_what_would_do(printers):
    pieces = [
        ("reply", make_die("ticket-corner", 3.5, 4.875, {"radius": 0.4})),
        ("card", make_die("ticket-corner", 7, 5, {"radius": 0.4})),
        ("arch", make_die("round-arch", 5, 7)),
        ("plain", make_die("rectangle", 5, 7)),
    ]
    answer = {each["piece"]: each for each in pieces_answer(printers, pieces)}
    assert answer["reply"]["sizes"] == ["A7", "A2"] and answer["reply"]["dies"] == []
    assert answer["card"]["available"][0]["price"] == 0.45
    assert answer["arch"]["dies"] == ["ticket-corner"]
    told = [piece_told(printers, *piece) for piece in pieces]
    assert "nobody has it; this die exists at A7, A2; a die made to order" in told[0]
    assert told[1].endswith("Groyne Cutters, 0.45 EUR each, from 25")
    assert "at this size there are ticket-corner" in told[2]
    assert told[3].endswith("needs no die")


def _true_box(drawing):
    """The box of a drawing MuPDF read; it bounds curves by their control points itself."""
    points = []
    for kind, *places in drawing["items"]:
        if kind == "c":
            points += Cubic(*(Point(p.x, p.y) for p in places)).extremes()
        elif kind == "l":
            points += [Point(p.x, p.y) for p in places]
        else:  # a rectangle or, where it winds the other way, a quadrilateral
            rect = getattr(places[0], "rect", places[0])
            points += [Point(rect.x0, rect.y0), Point(rect.x1, rect.y1)]
    return box_of(points)


def test_the_sheet_draws_true_to_size(printers, tmp_path):
    """Read back with MuPDF: each outline's box is the die's, to 0.002 in."""
    import pymupdf

    path = tmp_path / "sheet.pdf"
    rows = listed(printers, (4.25, 5.5))
    pages = write_dies_sheet(path, rows, "A2")
    with pymupdf.open(path) as document:
        assert document.page_count == pages
        names = "".join(page.get_text() for page in document)
        boxes = [_true_box(d) for page in document for d in page.get_drawings()]
    outlines = [(box.width / 72, box.height / 72) for box in boxes if box.height > 72]
    assert len(outlines) == len(FAMILIES) - 2  # two need a square card
    for size in outlines:
        assert size == pytest.approx((4.25, 5.5), abs=0.002)
    assert all(row.name in names for row in rows if row.die)


def test_a_die_larger_than_the_paper_gets_a_larger_page(printers, tmp_path):
    import pymupdf

    path = tmp_path / "large.pdf"
    write_dies_sheet(path, listed(printers, (12, 18)), "12 x 18 in", "a4")
    with pymupdf.open(path) as document:
        assert document[0].rect.height > 18 * 72 and document[0].rect.width > 12 * 72


def test_the_demos_invented_printers_speak_where_they_are_named_alone(art, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert find_printers(None) == ()
    assert find_printers(None, beside=tmp_path / "suite.toml") == ()
    with pytest.raises(SuiteError, match="put a printer's catalogue"):
        find_printers(None, ["weir"])
    named = find_printers(art / "printers", ["weir"])
    assert [p.name for p in named] == ["Weir Lane Print and Cut (invented)"]
    assert len(find_printers(None, beside=art / "suite.toml")) == 2


def test_no_price_is_told_of_a_size_that_is_not_sold(printers, tmp_path):
    """The ticket corner is sold at A7 and A2; the sheet without a card draws it smaller."""
    import pymupdf

    def told(rows):
        write_dies_sheet(tmp_path / "sheet.pdf", rows, "about")
        with pymupdf.open(tmp_path / "sheet.pdf") as document:
            return " ".join("".join(page.get_text() for page in document).split())

    small, true = told(listed(printers)), told(listed(printers, (5, 7)))
    assert "EUR" not in small and "sold at A7, A2" in small
    assert "A7 0.45 EUR, Groyne Cutters" in true
