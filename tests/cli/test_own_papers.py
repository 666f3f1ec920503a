"""A paper by grams and microns in the suite file, through the command line."""

from pathlib import Path

import pytest

from mockup.suite.reading import read_suite
from mockup.trade.papers import STOCKS
from tests.conftest import make_pdf
from tests.mockup_command import mockup

SUITE = """
title = "Supper"
units = "mm"
[pieces.card]
art = "card.pdf"
card = "105 x 148"
stock = {stock}
[envelopes.outer]
size = "C6"
stock = {{ gsm = 120, colour = "kraft", texture = "kraft" }}
holds = ["card"]
"""
GIVEN = '{ gsm = 300, caliper_um = 380, colour = "#c8a878", texture = "laid" }'


def written(folder: Path, stock: str) -> Path:
    make_pdf(folder / "card.pdf", (111 / 25.4, 154 / 25.4))
    (folder / "suite.toml").write_text(SUITE.format(stock=stock), encoding="utf-8")
    return folder / "suite.toml"


def test_a_paper_is_what_its_maker_says(tmp_path: Path) -> None:
    suite = read_suite(written(tmp_path, GIVEN))
    stock = suite.piece("card").stock
    assert (stock.gsm, stock.colour_hex, stock.grain) == (300, "#c8a878", "laid")
    assert stock.caliper_mil == pytest.approx(380 / 25.4)
    (outer,) = suite.envelopes
    assert outer.stock.caliper_mil == pytest.approx(120 * 1.4 / 25.4)  # its surface's usual bulk
    assert outer.stock.colour_hex == STOCKS["kraft-100"].colour_hex
    answer = mockup("piece", tmp_path / "card.pdf", "-o", tmp_path / "a.png", "--ppi", "72")
    assert answer.returncode == 0, answer.stderr


@pytest.mark.parametrize(
    ("stock", "key", "told"),
    [
        ('{ gsm = 300, caliper_um = 38 }', "stock.caliper_um", "38 is no thickness of a paper of 300 g/m²; in thousandths of a millimetre that is from 180 to 1200"),
        ('{ gsm = 5000 }', "stock.gsm", "5000 cannot be; write at most 2,500"),
        ('{ caliper_um = 380 }', "stock.gsm", "missing"),
        ('{ gsm = 300, colour = "beige" }', "stock.colour", 'no paper colour called "beige"'),
        ('{ gsm = 300, colour = "#zzzzzz" }', "stock.colour", "or #rrggbb"),
        ('{ gsm = 300, texture = "eggshel" }', "stock.texture", "eggshell"),
        ('{ gms = 300 }', "stock.gms", 'did you mean "gsm"'),
        ('{ gsm = "300" }', "stock.gsm", "a number"),
        ('"cotton-300-gsm-whit"', "stock", 'did you mean "cotton-300-gsm-white"'),
    ],
)  # fmt: skip
def test_mistakes_of_a_paper_are_told_with_their_key(tmp_path, stock, key, told) -> None:
    answer = mockup("dies", written(tmp_path, stock))
    assert answer.returncode == 3
    assert f"pieces.card.{key}: " in answer.stderr and told in answer.stderr, answer.stderr


def test_metric_papers_have_the_thickness_of_their_bulk() -> None:
    """ISO 534: bulk is thickness over grammage; uncoated boards have 1.1 to 1.8 cm3/g."""
    metric = [stock for name, stock in STOCKS.items() if "gsm" in name]
    assert len(metric) >= 10
    for stock in metric:
        least, most = stock.caliper_range_mil
        assert least < stock.caliper_mil < most
        assert 1.1 <= stock.caliper_mil * 25.4 / stock.gsm <= 1.8
