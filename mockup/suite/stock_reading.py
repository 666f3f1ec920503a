"""A paper as a suite file gives it: by name, or by what its maker says of it."""

from __future__ import annotations

from dataclasses import replace

from mockup.errors import Mistake, MockupError, SuiteError
from mockup.suite.schema import StockTable
from mockup.trade.papers import BULK_CM3_G, Stock, own_stock, paper_colour, stock
from mockup.units import Unit

USUAL: dict[Unit, dict[str, str]] = {
    "in": {"piece": "cotton-110-white", "envelope": "text-80-white", "liner": "text-70-white"},
    "mm": {
        "piece": "cotton-300-gsm-white",
        "envelope": "smooth-120-gsm-white",
        "liner": "smooth-100-gsm-white",
    },
}
"""The paper of what a file names none for, by its units."""


def read_stock(given: str | StockTable) -> Stock:
    """Returns a paper. Raises SuiteError; where one key of a table is the cause, the mistake's key
    is that key."""
    if isinstance(given, str):
        return stock(given)
    try:
        colour = paper_colour(given.colour)
    except MockupError as error:
        said = error.mistakes[0].sentence
        raise SuiteError(Mistake(said, key="colour", value=given.colour)) from error
    if given.caliper_um is not None:
        _refuse_unlikely(given.gsm, given.caliper_um)
    paper = own_stock(given.gsm, given.caliper_um, colour, given.texture)
    return replace(paper, coated=given.coated)


def _refuse_unlikely(gsm: float, caliper_um: float) -> None:
    least, most = (bulk * gsm for bulk in BULK_CM3_G)
    if not least <= caliper_um <= most:
        said = (
            f"{caliper_um:g} is no thickness of a paper of {gsm:g} g/m\u00b2; in thousandths of a "
            f"millimetre that is from {least:.0f} to {most:.0f}"
        )
        raise SuiteError(Mistake(said, key="caliper_um", value=f"{caliper_um:g}"))
