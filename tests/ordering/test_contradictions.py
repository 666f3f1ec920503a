"""What does not go together at a printer: each planted contradiction told, none in clean suites."""

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.dies.making import make_die
from mockup.envelopes.spec import envelope_spec
from mockup.errors import SuiteError
from mockup.ordering.contradictions import contradictions, contradictions_at
from mockup.printers.catalogue import read_printer
from mockup.suite.reading import read_suite
from mockup.trade.papers import STOCKS
from mockup.trade.sizes import envelope_size
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
    ("A7", "ticket-corner", "smooth-120-white", 100, (), "not done there", "take cotton-110"),
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


def test_every_way_that_is_named_ends_its_contradiction_and_makes_no_other(base) -> None:
    suite, printer = base
    seen = 0
    for *what, _, _ in PLANTED:
        (told,) = contradictions_at(_with(suite, *what), printer)
        assert told.ways, told
        for way in told.ways:
            seen += 1
            assert contradictions(replace(suite, pieces=(way.item,)), printer) == []
    assert seen > len(PLANTED)


PRESS = """
name = "Weir Press"
currency = "EUR"
[[dies]]
die = "round-arch"
cards = { A7 = 0.4 }
minimum = 50
[[stocks]]
stock = "smooth-120-white"
each = 0.4
minimum = 30
step = 20
[[stocks]]
stock = "smooth-100-white"
each = 0.4
[[envelopes]]
size = "A7"
flaps = ["straight"]
each = 0.4
[printing]
thinnest_mil = 8
thickest_mil = 18
backs = false
[files]
bleed = 0.25
"""


@pytest.fixture
def press(tmp_path: Path):
    (tmp_path / "press.toml").write_text(PRESS, encoding="utf-8")
    return read_printer(tmp_path / "press.toml")


AT_THE_PRESS = [  # card, die, stock, quantity; what else of the piece; what is said
    (
        "rectangle",
        "cotton-220-white",
        100,
        {},
        "stock from 8 mil to 18 mil, this is 38 mil; take s",
    ),
    ("rectangle", "text-80-white", 100, {}, "this is 6.2 mil; take smooth-100-white (12 mil)"),
    ("rectangle", "smooth-120-white", 90, {}, "printed in steps of 20; order 100"),
    ("rectangle", "smooth-120-white", 25, {}, "from 30 on; order 40"),
    ("rectangle", "smooth-120-white", 100, {"back": 1}, "on a back there; leave the back out"),
    ("rectangle", "smooth-120-white", 100, {"bleed_in": 0.125}, "draw it with 0.25 in of bleed"),
    ("gable", "smooth-120-white", 20 * 2, {}, "round-arch is in stock at this size (order 60)"),
]


@pytest.mark.parametrize("planted", AT_THE_PRESS, ids=lambda each: each[-1][:20])
def test_what_a_press_does_not_take_is_told(base, press, planted) -> None:
    suite, _ = base
    die, stock, quantity, other, said = planted
    suite = replace(_with(suite, "A7", die, stock, quantity, ()), envelopes=())
    (piece,) = suite.pieces
    own = {"bleed_in": 0.25, **other}
    own |= {"back": piece.art} if "back" in other else {}
    (told,) = contradictions(replace(suite, pieces=(replace(piece, **own),)), press)
    assert said in told


def test_an_envelope_is_offered_only_where_its_cards_go_in(base, press) -> None:
    suite, _ = base
    (outer,) = suite.envelopes
    larger = replace(outer, size=envelope_size("A9"), holds=("card",))
    small, large = (
        _with(suite, card, "rectangle", "smooth-120-white", 100, ()) for card in ("A7", "A9")
    )
    goes, does_not = (
        contradictions(replace(each, envelopes=(larger,)), press)[-1] for each in (small, large)
    )
    assert goes.endswith("no envelope of size A9; there are A7; take A7")
    assert does_not.endswith("none of them takes these cards; buy it elsewhere")


def test_a_size_is_one_by_whatever_name_millimetres_give_it(base, press, tmp_path) -> None:
    suite, _ = base
    (outer,) = suite.envelopes
    straight = envelope_spec(7.25, 5.25, "straight")
    other = replace(outer, size=envelope_size("184.15 x 133.35", "mm"), spec=straight, units="mm")
    told = contradictions(replace(suite, envelopes=(other,)), press)
    assert not any(each.startswith("envelopes.") for each in told)


def test_a_press_that_takes_no_stock_is_told(tmp_path: Path) -> None:
    path = tmp_path / "press.toml"
    path.write_text(PRESS.replace("thinnest_mil = 8", "thinnest_mil = 80"), encoding="utf-8")
    with pytest.raises(SuiteError, match=r"printing.thinnest_mil.*no stock would be printed on"):
        read_printer(path)
