"""Prices worked by hand."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.printers.prices import Terms, break_even, cost_each, money, run_cost


def _terms(each, setup="0", tool="0", minimum=1):
    return Terms(Decimal(each), Decimal(setup), Decimal(tool), minimum)


STOCK = _terms("0.58", setup="45", minimum=25)
CUSTOM = _terms("0.32", setup="45", tool="165", minimum=50)


@pytest.mark.parametrize(
    ("terms", "quantity", "whole", "each"),
    [
        (STOCK, 120, "114.60", "0.96"),  # 45 + 120 x 0.58 = 45 + 69.60
        (STOCK, 10, "59.50", "5.95"),  # the minimum of 25 is paid: 45 + 14.50
        (CUSTOM, 120, "248.40", "2.07"),  # 165 + 45 + 38.40
        (CUSTOM, 1000, "530.00", "0.53"),
    ],
)
def test_runs_worked_by_hand(terms, quantity, whole, each):
    assert run_cost(terms, quantity) == Decimal(whole)
    assert cost_each(terms, quantity) == Decimal(each)


@pytest.mark.parametrize(
    ("custom", "stock", "quantity"),
    [
        (CUSTOM, STOCK, 635),  # 165 / 0.26 = 634.6
        (_terms("0.50", tool="100"), _terms("0.75"), 400),  # 100 / 0.25, exactly
        (_terms("0.75", tool="100"), _terms("0.75"), None),  # no saving
        (_terms("0.80", tool="10"), _terms("0.75"), None),  # each is dearer
        (_terms("0.75"), _terms("0.75", setup="30"), 1),  # cheaper from the first
        # the stock minimum of 100 costs 50 whatever is ordered; the custom die 20 + 0.40 q
        (_terms("0.40", tool="20"), _terms("0.50", minimum=100), 200),
        (_terms("0.40", tool="5"), _terms("0.50", minimum=100), 1),
        (_terms("0.000001", tool="1000000"), _terms("0.000002"), None),  # beyond a million
    ],
)
def test_break_even_worked_by_hand(custom, stock, quantity):
    assert break_even(custom, stock) == quantity


prices = st.decimals("0", "5", places=2)
terms = st.builds(
    Terms, prices, st.decimals("0", "90", places=2), st.just(Decimal(0)), st.integers(1, 200)
)
tools = st.builds(
    Terms, prices, st.decimals("0", "90", places=2), st.decimals("0", "300", places=2),
    st.integers(1, 200),
)  # fmt: skip


@given(tools, terms)
def test_break_even_is_where_it_turns(custom, stock):
    found = break_even(custom, stock)
    if found is None:
        return
    for quantity in (found, found + 1, found + 7, found * 2, found * 10):
        assert run_cost(custom, quantity) <= run_cost(stock, quantity)
    if found > 1:
        assert run_cost(custom, found - 1) > run_cost(stock, found - 1)


def test_money_is_written_with_cents_and_currency():
    assert money(Decimal("1250"), "USD") == "1,250.00 USD"
