"""What several printers ask, a column each; on a terminal only where there is room."""

from decimal import Decimal

import pytest

from mockup.cli.bills_told import say_bills
from mockup.ordering.bill import Bill, Line, Way
from mockup.ordering.side_by_side import side_by_side
from mockup.printers.prices import Terms


def _line(work, what, amount, way=None):
    priced = None if amount is None else Decimal(amount)
    told = f"{what}, {way.how}" if way else what
    return Line("card", work, told, 100, Terms(Decimal(1)), priced, "", way)


ONE = Bill(
    "Groyne Cutters",
    "USD",
    (
        _line("printing", "printed", "80"),
        _line("cutting", "gable", "50", Way("stock die", "never")),
    ),
    Decimal(0),
)
OTHER = Bill(
    "Sallow \x1b Digital",
    "EUR",
    (_line("cutting", "gable", None, Way("die made to order")), _line("foil", "foil", "12.5")),
    Decimal(0),
)


def test_every_work_is_a_row_and_every_printer_a_column() -> None:
    rows = [(row.what, row.cells) for row in side_by_side([ONE, OTHER])]
    assert rows == [
        ("printed", ("80.00 USD", "")),
        ("gable", ("50.00 USD", "not priced")),
        ("how", ("stock die", "die made to order")),
        ("a die of your own pays", ("never", "")),
        ("foil", ("", "12.50 EUR")),
        ("total", ("130.00 USD", "12.50 EUR")),
        ("", ("", "of what is priced")),
    ]


@pytest.mark.parametrize(("columns", "beside"), [("120", True), ("40", False)])
def test_columns_are_set_where_the_terminal_has_room(monkeypatch, capsys, columns, beside) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    say_bills([ONE, OTHER])
    said = capsys.readouterr().out
    assert "\x1b" not in said
    assert ("130.00 USD" in said) and (("stock die" in said) is beside)
    assert said.startswith("Groyne Cutters: total") is not beside
