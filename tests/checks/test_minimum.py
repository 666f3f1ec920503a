"""The quantity ordered against the least that the printers of a catalogue cut."""

from __future__ import annotations

from mockup.checks.minimum import check_minimum
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.printers.catalogue import read_printers
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf
from tests.mockup_command import mockup

CATALOGUE = """name = "Sluice End Letterpress"
currency = "USD"
[custom]
tool = 100
each = 0.3
minimum = 60
[[dies]]
die = "lancet-arch"
cards = { A7 = 0.58 }
minimum = 25
"""
ARCH = """title = "Supper"
[pieces.invitation]
art = "card.pdf"
card = "A7"
die = "lancet-arch"
quantity = 2
"""


def minimums(demo_suite, quantity: int, catalogue: str = CATALOGUE):
    folder = demo_suite.parent / "own"
    folder.mkdir()
    (folder / "sluice.toml").write_text(catalogue)
    text = demo_suite.read_text().replace("quantity = 120", f"quantity = {quantity}")
    demo_suite.write_text(text)
    context = SuiteContext(read_suite(demo_suite), Settings(), read_printers(folder))
    return {f.piece: (f.value, f.limit) for f in check_minimum(context)}


def test_fewer_than_the_printer_cuts_is_told_by_die(demo_suite):
    """The arch is in stock from 25 on; the ticket would be made to order, from 60 on; the details
    card is trimmed square."""
    assert minimums(demo_suite, 24) == {"invitation": (24, 25), "reply": (24, 60)}


def test_as_many_as_the_printer_asks_is_enough(demo_suite):
    assert minimums(demo_suite, 60) == {}


def test_a_printer_who_makes_none_asks_for_none(demo_suite):
    ready_made = CATALOGUE.replace("[custom]\ntool = 100\neach = 0.3\nminimum = 60\n", "")
    assert minimums(demo_suite, 24, ready_made) == {"invitation": (24, 25)}


def test_without_a_catalogue_of_hers_no_printer_is_asked(tmp_path):
    make_pdf(tmp_path / "card.pdf")
    suite, own = tmp_path / "suite.toml", tmp_path / "printers"
    suite.write_text(ARCH)
    assert "are ordered" not in mockup("check", suite).stdout
    own.mkdir()
    (own / "sluice.toml").write_text(CATALOGUE)
    told = " ".join(mockup("check", suite).stdout.split())
    assert "2 are ordered; Sluice End Letterpress cuts this die from 25 copies on" in told
