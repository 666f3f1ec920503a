"""What cutting costs: each piece, the run, and the quantity at which a die of one's own pays.

Money is exact, in Decimal. The printer's own quotation goes before any of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

CENT = Decimal("0.01")
QUANTITY_MAX = 1_000_000
_DIGITS = {"BHD": 3, "CLP": 0, "ISK": 0, "JPY": 0, "KRW": 0, "KWD": 3, "OMR": 3, "VND": 0}
"""How many digits follow the point where they are not two (ISO 4217)."""


@dataclass(frozen=True)
class Terms:
    """A price: `each` piece, `setup` for a run, `tool` once for a die made; `minimum` pieces, more
    of them in steps."""

    each: Decimal
    setup: Decimal = Decimal(0)
    tool: Decimal = Decimal(0)
    minimum: int = 1
    step: int = 1

    def least(self, quantity: int) -> int:
        """Returns the least quantity from one on that may be ordered."""
        return -(-max(quantity, self.minimum) // self.step) * self.step


def run_cost(terms: Terms, quantity: int) -> Decimal:
    """Returns what a run costs: tool, setup, and each piece; fewer than may be ordered pay for
    what may."""
    return terms.tool + terms.setup + terms.each * terms.least(quantity)


def cost_each(terms: Terms, quantity: int) -> Decimal:
    """Returns what one of a run's pieces costs with everything in it, to the cent."""
    return (run_cost(terms, quantity) / quantity).quantize(CENT)


def break_even(custom: Terms, stock: Terms) -> int | None:
    """Returns the least quantity from which on the custom die is never dearer than the stock one.

    None where that is never so, or only beyond a million. Solves
    tool + setup' + each' q <= setup + each q beyond both minimums, then looks below them.
    """
    saved = stock.each - custom.each
    extra = custom.tool + custom.setup - stock.tool - stock.setup
    if saved < 0 or (saved == 0 and extra > 0):
        return None
    settled = max(custom.minimum, stock.minimum)
    if saved > 0:
        least = (extra / saved).to_integral_value(ROUND_CEILING)
        if least > QUANTITY_MAX:
            return None
        settled = max(settled, int(least))
    while settled > 1 and run_cost(custom, settled - 1) <= run_cost(stock, settled - 1):
        settled -= 1
    return settled


def money(amount: Decimal, currency: str) -> str:
    """Returns an amount for a reader: `1,250.00 USD`."""
    return f"{amount.quantize(CENT):,} {currency}"


def to_coin(amount: Decimal, currency: str) -> Decimal:
    """Returns an amount as it is paid, to its currency's smallest coin, halves up."""
    coin = Decimal(1).scaleb(-_DIGITS.get(currency, 2))
    return amount.quantize(coin, ROUND_HALF_UP)


def paid(amount: Decimal, currency: str) -> str:
    """Returns an amount to be paid, for a reader: `1,250.00 USD`, `1,250 JPY`."""
    return f"{to_coin(amount, currency):,} {currency}"
