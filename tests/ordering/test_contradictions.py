"""What does not go together at a printer: each planted contradiction told, none in clean suites."""

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.dies.making import make_die
from mockup.ordering.contradictions import contradictions
from mockup.printers.catalogue import read_printer
from mockup.suite.reading import read_suite
from mockup.trade.papers import STOCKS
from tests.conftest import make_pdf

CATALOGUE = """
name = "Groyne Cutters"
currency = "EUR"
[[dies]]
die = "lancet-arch"
cards = { A7 = 0.58, A6 = 0.55 }
minimum = 25
thickest_mil = 20
[[dies]]
die = "ticket-corner"
parameters = { radius = 0.5 }
cards = { A7 = 0.5 }
[[stocks]]
stock = "smooth-120-white"
each = 0.8
minimum = 20
[[stocks]]
stock = "cotton-110-white"
each = 1.1
cards = ["A7"]
[[stocks]]
stock = "cotton-220-white"
each = 2.1
[[finishes]]
finish = "foil"
stocks = ["cotton-110-white"]
each = 0.4
minimum = 50
[[envelopes]]
size = "A7"
flaps = ["pointed"]
colours = ["white", "#22385a"]
each = 0.48
minimum = 25
[[never]]
dies = ["ticket-corner"]
stocks = ["smooth-120-white"]
"""
PLANTED = [  # card, die, stock, quantity, finishes, what is said, the way that goes
    ("A6", "ticket-corner", "cotton-220-white", 100, (), "no ticket-corner", "in stock at A7"),
    ("A2", "lancet-arch", "smooth-120-white", 100, (), "no lancet-arch", "in stock at A6"),
    ("A7", "ogee-arch", "smooth-120-white", 100, (), "no ogee-arch", "lancet-arch is in stock"),
    ("A7", "lancet-arch", "cotton-220-white", 100, (), "cuts stock to 20", "cotton-110-white"),
    ("A7", "lancet-arch", "smooth-120-white", 22, (), "22 are ordered", "order 25"),
    ("A7", "rectangle", "smooth-120-white", 10, (), "10 are ordered", "order 20"),
    ("A7", "rectangle", "kraft-100", 100, (), "is not printed on", "smooth-120-white is"),
    ("A6", "rectangle", "cotton-110-white", 100, (), "at A7 only", "smooth-120-white is"),
    ("A7", "rectangle", "smooth-120-white", 100, ("foil",), "foil goes on", "cotton-110"),
    ("A7", "rectangle", "cotton-110-white", 40, ("foil",), "40 are ordered", "order 50"),
    ("A7", "rectangle", "cotton-110-white", 100, ("varnish",), "not offered", "they have foil"),
    ("A7", "ticket-corner", "smooth-120-white", 100, (), "not done there", "another stock"),
]  # fmt: skip
CLEAN = [
    ("A7", "rectangle", "smooth-120-white", 20, ()),
    ("A6", "lancet-arch", "smooth-120-white", 25, ()),
    ("A7", "lancet-arch", "cotton-110-white", 100, ("foil",)),
    ("A7", "ticket-corner", "cotton-220-white", 100, ()),
    ("A2", "rectangle", "cotton-220-white", 1, ()),
]


@pytest.fixture(scope="module")
def base(tmp_path_factory):
    folder: Path = tmp_path_factory.mktemp("suite")
    make_pdf(folder / "card.pdf", (5.25, 7.25), "0.2 g 0 0 400 500 re f")
    (folder / "suite.toml").write_text(
        'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\nquantity = 100\n'
        '[envelopes.outer]\nsize = "A7"\nflap = "pointed"\ncolour = "white"\nquantity = 100\n',
        encoding="utf-8",
    )
    (folder / "groyne.toml").write_text(CATALOGUE, encoding="utf-8")
    return read_suite(folder / "suite.toml"), read_printer(folder / "groyne.toml")


def _with(suite, card, die, stock, quantity, finishes):
    from mockup.trade.sizes import card_size

    size = card_size(card)
    given = {"radius": 0.5} if die == "ticket-corner" else {}
    made = make_die(die, size.width_in, size.height_in, given)
    (piece,) = suite.pieces
    own = {"card": size, "die": made, "stock": STOCKS[stock]}
    return replace(
        suite, pieces=(replace(piece, **own, quantity=quantity, finishes=tuple(finishes)),)
    )


@pytest.mark.parametrize("planted", PLANTED, ids=lambda each: "-".join(map(str, each[:4])))
def test_a_planted_contradiction_is_told_alone_with_its_way_out(base, planted) -> None:
    suite, printer = base
    *what, said, way = planted
    (told,) = contradictions(_with(suite, *what), printer)
    assert told.startswith("card: ") and said in told and way in told


@pytest.mark.parametrize("clean", CLEAN)
def test_nothing_is_told_of_a_suite_that_goes(base, clean) -> None:
    suite, printer = base
    assert contradictions(_with(suite, *clean), printer) == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"quantity": 10}, "order 25"),
        ({"colour": (9, 9, 9), "colour_name": "#090909"}, "there: white, #22385a"),
    ],
)
def test_an_envelope_that_is_not_offered_is_told(base, change, said) -> None:
    suite, printer = base
    other = replace(suite, envelopes=(replace(suite.envelopes[0], **change),))
    (told,) = contradictions(other, printer)
    assert told.startswith("envelopes.outer: ") and said in told
