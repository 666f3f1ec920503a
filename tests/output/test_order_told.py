"""The order as CSV: no cell is a formula to a spreadsheet; money is rounded to its own coin."""

from decimal import Decimal

import pytest

from mockup.output.order_told import safe_cells
from mockup.printers.prices import paid, to_coin


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1"])
def test_a_formula_is_made_text(cell: str) -> None:
    assert safe_cells([cell]) == [f"'{cell}"]


def test_plain_cells_stay() -> None:
    assert safe_cells(["5 × 7 in", "", "12.50"]) == ["5 × 7 in", "", "12.50"]


@pytest.mark.parametrize(
    ("currency", "amount"), [("USD", "12.35"), ("JPY", "12"), ("KWD", "12.345")]
)
def test_money_is_rounded_to_the_currency_s_coin(currency: str, amount: str) -> None:
    assert to_coin(Decimal("12.345"), currency) == Decimal(amount)
    assert paid(Decimal("12.345"), currency) == f"{amount} {currency}"
