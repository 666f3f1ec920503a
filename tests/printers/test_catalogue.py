"""Printers' catalogues: reading, mistakes told in lines, who has which die at which size."""

from decimal import Decimal
from pathlib import Path

import pytest

from mockup.dies import make_die
from mockup.errors import SuiteError
from mockup.printers.catalogue import named, read_printer, read_printers
from mockup.printers.choosing import advice, customs_of, offers_at, offers_of, same_die, turned_to
from mockup.printers.files_asked import THE_USUAL

SHIPPED = Path(__file__).parents[2] / "assets_demo" / "printers"

GOOD = """
name = "Groyne Cutters"
currency = "EUR"
[custom]
tool = 100
each = 0.3
thickest_mil = 20
[[dies]]
die = "ticket-corner"
parameters = { radius = [0.5, 0.5, 0, 0] }
cards = { A7 = 0.45, "5 x 8 in" = 0.5 }
minimum = 25
thickest_mil = 30
[[dies]]
die = "round-arch"
cards = { A2 = 0.4 }
"""


@pytest.fixture
def printer(tmp_path):
    path = tmp_path / "groyne.toml"
    path.write_text(GOOD, encoding="utf-8")
    return read_printer(path)


def test_prices_are_exact_and_dies_are_drawn(printer):
    first, second, _ = printer.offers
    assert first.terms.each == Decimal("0.45") and first.terms.minimum == 25
    assert (first.card.name, first.die.width_in) == ("A7", 5)
    assert first.given == (("radius", "0.5, 0.5, 0, 0"),)
    assert second.die.height_in == 8
    assert printer.custom.terms.tool == 100


def test_an_offer_is_found_by_its_outline_turned_or_not(printer):
    lying = make_die("ticket-corner", 7, 5, {"radius": [0, 0.5, 0.5, 0]})
    assert [offer.card.name for offer in offers_of([printer], lying)] == ["A7"]
    assert offers_of([printer], make_die("ticket-corner", 7, 5, {"radius": 0.5})) == []
    assert offers_of([printer], lying, caliper_mil=31) == []
    assert customs_of([printer], caliper_mil=21) == []
    assert same_die(turned_to(printer.offers[0].die, 7, 5), lying)


def test_a_die_nobody_has_gets_sizes_and_dies_that_would_do(printer):
    told = advice([printer], make_die("round-arch", 5, 7))
    assert told.sizes == ("A2",) and told.dies == ("ticket-corner",)
    assert advice([printer], make_die("round-arch", 4.25, 5.5)) is None
    assert len(offers_at([printer], 7, 5)) == 1


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('die = "round-arch"', 'die = "round-arc"'), 'dies.2.die: no die called "round-arc"'),
        (("A2 = 0.4", "B9 = 0.4"), 'no card size called "B9"'),
        (("A2 = 0.4", '"3 x 1 in" = 0.4'), "the least is 1.5 in"),
        (("tool = 100", "tol = 100"), 'custom.tol: no key called "tol"; did you mean "tool"'),
        (("tool = 100", ""), "custom.tool: is missing"),
        (("each = 0.3", "each = -1"), "custom.each"),
        (("currency", "curency"), "curency"),
        (("minimum = 25", "minimum = 0"), "dies.1.minimum"),
        (('name = "Groyne Cutters"', "name ="), "line 2, column 7"),
    ],
)
def test_mistakes_are_told_with_file_and_key(change, said, tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text(GOOD.replace(*change), encoding="utf-8")
    with pytest.raises(SuiteError) as told:
        read_printer(path)
    assert said in str(told.value) and "bad.toml" in str(told.value)


def test_several_mistakes_are_told_together(tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text(GOOD.replace("A2", "Z2").replace("radius", "radios"), encoding="utf-8")
    with pytest.raises(SuiteError) as told:
        read_printer(path)
    assert [each.key for each in told.value.mistakes] == [
        "dies.1.parameters.radios",
        "dies.2.cards.Z2",
    ]


def test_printers_are_chosen_by_part_of_their_name(printer):
    assert named([printer], ["groyne"]) == (printer,)
    assert named([printer], []) == (printer,)
    with pytest.raises(SuiteError, match="Groyne Cutters"):
        named([printer], ["Groin Cuters"])


def test_the_two_printers_of_the_demo_can_be_read():
    printers = read_printers(SHIPPED)
    assert len(printers) == 2
    assert all(printer.custom for printer in printers)
    assert {o.die.name for p in printers for o in p.offers} >= {"lancet-arch", "ticket-corner"}


def test_a_folder_without_catalogues_says_what_to_put_there(tmp_path):
    with pytest.raises(SuiteError, match="put a .toml file there"):
        read_printers(tmp_path)


FILES = """
[files]
variant = "both"
outlines = true
bleed = 3
cut_name = "Knife line"
"""


def test_what_files_a_printer_takes_is_read_in_its_own_units(tmp_path):
    path = tmp_path / "groyne.toml"
    path.write_text(GOOD.replace("[custom]", 'units = "mm"\n[custom]') + FILES, encoding="utf-8")
    path.write_text(path.read_text().replace("radius = [0.5, 0.5, 0, 0]", "radius = 12"))
    files = read_printer(path).files
    assert files.variants == ("art-alone", "cut-line") and files.outlined
    assert files.bleed_in == pytest.approx(3 / 25.4)
    assert (files.cut_name, files.fold_name) == ("Knife line", "Crease")


def test_a_printer_that_says_nothing_of_files_takes_the_usual(printer):
    assert printer.files == THE_USUAL


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('"both"', '"die"'), 'files.variant: "die" is not allowed'),
        (("outlines = true", "outlines = 1"), "files.outlines"),
        (("bleed = 3", "bleed = -3"), "files.bleed: -3 cannot be"),
        (("Knife line", "All"), 'files.cut_name: "All" cannot name an ink of its own'),
        (("Knife line", "Magenta"), "files.cut_name"),
        (("cut_name", "cut_nam"), 'did you mean "cut_name"'),
    ],
)
def test_mistakes_about_files_are_told(change, said, tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text(GOOD + FILES.replace(*change), encoding="utf-8")
    with pytest.raises(SuiteError) as told:
        read_printer(path)
    assert said in str(told.value)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ('[[stocks]]\nstock = "kraft-10"\neach = 1\n', "stocks.1.stock"),
        ('[[stocks]]\nstock = "kraft-100"\neach = -1\n', "stocks.1.each"),
        ('[[finishes]]\nfinish = "glitter"\neach = 1\n', "finishes.1.finish"),
        ('[[envelopes]]\nsize = "Z9"\neach = 1\n', "envelopes.1.size"),
        ('[drilling]\neach = 1\nnot_with = ["tickt"]\n', "drilling.not_with"),
        ('[[never]]\ndies = ["tag"]\n', "rules nothing out"),
        ('[[never]]\nover_mil = "20"\n', "never.1.over_mil"),
    ],
)
def test_rules_that_cannot_be_are_told_with_their_key(tmp_path, more, said) -> None:
    from mockup.errors import SuiteError
    from mockup.printers.catalogue import read_printer

    path = tmp_path / "groyne.toml"
    path.write_text(f'name = "Groyne"\ncurrency = "EUR"\n{more}', encoding="utf-8")
    with pytest.raises(SuiteError) as caught:
        read_printer(path)
    assert said in str(caught.value)


def test_a_folder_of_too_many_catalogues_is_told_in_a_line(tmp_path: Path) -> None:
    for number in range(101):
        (tmp_path / f"{number}.toml").write_text("name = 3")
    with pytest.raises(SuiteError, match="holds 101 catalogues; keep at most 100") as refused:
        read_printers(tmp_path)
    assert len(refused.value.mistakes) == 1
