"""Which dies a piece is offered: its own, those in stock as the piece lies, some made to order."""

from decimal import Decimal

import pytest

from mockup.dies import make_die
from mockup.errors import DieError
from mockup.printers.catalogue import read_printer
from mockup.printers.options import MOST, MOST_STOCK, options_for

CATALOGUE = """
name = "Groyne Cutters"
currency = "EUR"
[custom]
tool = 100
each = 0.3
thickest_mil = 30
[[dies]]
die = "ticket-corner"
cards = { A7 = 0.45 }
[[dies]]
die = "ticket-corner"
parameters = { radius = 0.3 }
cards = { A7 = 0.40 }
[[dies]]
die = "round-arch"
cards = { A7 = 0.5 }
thickest_mil = 15
"""


@pytest.fixture
def printers(tmp_path):
    path = tmp_path / "groyne.toml"
    path.write_text(CATALOGUE, encoding="utf-8")
    return [read_printer(path)]


def test_own_die_first_then_stock_then_made_to_order(printers):
    options = options_for(printers, make_die("round-arch", 5, 7), 12)
    names = [option.die.name for option in options]
    assert names[:2] == ["round-arch", "ticket-corner"]
    assert len(options) == MOST and len(set(names)) == MOST
    assert [option.in_stock for option in options] == [True] * 2 + [False] * (MOST - 2)
    assert options[1].offer.terms.each == Decimal("0.40")  # the cheaper of two alike
    assert all(option.custom.terms.tool == 100 for option in options[2:])


def test_stock_too_thick_for_a_die_makes_it_custom_or_impossible(printers):
    own = make_die("round-arch", 5, 7)
    twenty, forty = (options_for(printers, own, mil) for mil in (20, 40))
    by_name = {option.die.name: option for option in twenty}
    assert by_name["round-arch"].offer is None and by_name["round-arch"].custom is not None
    assert all(option.custom is None for option in forty)


def test_named_dies_come_in_the_order_named_and_once(printers):
    own = make_die("rectangle", 5, 7)
    options = options_for(printers, own, 12, ["ellipse", "round-arch", "rectangle", "ellipse"])
    assert [option.die.name for option in options] == ["round-arch", "rectangle", "ellipse"]
    with pytest.raises(DieError, match='did you mean "ellipse"'):
        options_for(printers, own, 12, ["elipse"])
    with pytest.raises(DieError, match="square card"):
        options_for(printers, own, 12, ["circle"])


def test_a_lying_piece_is_offered_standing_dies_turned(printers):
    options = options_for(printers, make_die("rectangle", 7, 5), 12)
    arch = next(option for option in options if option.die.name == "round-arch")
    assert (arch.die.width_in, arch.die.height_in) == (7, 5)
    assert arch.in_stock
    # The point of the arch lies to the right: its left side is the straight foot.
    assert arch.die.shape.box == pytest.approx((0, 0, 7, 5))


def test_dies_the_art_does_not_suit_are_not_made(printers):
    own = make_die("rectangle", 5, 7)
    options = options_for(printers, own, 12, suits=lambda die: die.name == "ellipse")
    assert [option.die.name for option in options if not option.in_stock] == ["ellipse"]
    assert len([option for option in options if option.in_stock]) <= MOST_STOCK
