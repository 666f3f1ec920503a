"""A paper as a suite file gives it: by name, or by what its maker says of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mockup.colour.difference import difference
from mockup.colour.lab import lab_of_xyz, rgb_of_xyz, xyz_of_lab, xyz_of_rgb
from mockup.colour.printing import ALIKE_DE00
from mockup.colour.srgb import parse_hex, to_hex
from mockup.errors import Mistake, MockupError, SuiteError
from mockup.suite.schema import LabTable, StockTable, SwatchTable
from mockup.trade.papers import BULK_CM3_G, PaperColour, Stock, own_stock, paper_colour, stock
from mockup.trade.swatch import Lab, Measured, Swatch
from mockup.units import Unit

_LIGHTER_L = 3.0  # judgement: yellow on black paper measures as the paper does, give or take

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
    swatch = given.swatch and _swatch(given.swatch)
    colour = _colour(given)
    if given.caliper_um is not None:
        _refuse_unlikely(given.gsm, given.caliper_um)
    paper = own_stock(given.gsm, given.caliper_um, colour, given.texture)
    through = 0.0 if given.opacity is None else 1 - given.opacity / 100
    return replace(paper, coated=given.coated, swatch=swatch, translucency=through)


def _colour(given: StockTable) -> PaperColour:
    """Returns a paper's colour: as measured with its swatch, else as said, else white."""
    said = None if given.colour is None else _said(given.colour)
    if given.swatch is None:
        return said or paper_colour("white")
    swatch = given.swatch
    own = _measured(swatch.paper, Measured(swatch.condition, swatch.backing))
    if said is not None and _apart(own, said) > ALIKE_DE00:
        told = (
            f"is another colour than the swatch's paper, by {_apart(own, said):.1f} \u0394E00; "
            "leave it out: the swatch tells the paper's colour"
        )
        raise SuiteError(Mistake(told, key="colour", value=said.name))
    return own


def _said(given: str | LabTable) -> PaperColour:
    if not isinstance(given, str):
        return _measured(given.lab, Measured(given.condition, given.backing))
    try:
        return paper_colour(given)
    except MockupError as error:
        told = error.mistakes[0].sentence
        raise SuiteError(Mistake(told, key="colour", value=given)) from error


def _measured(lab: Lab, how: Measured) -> PaperColour:
    told = ", ".join(f"{value:g}" for value in lab)
    colour = to_hex(rgb_of_xyz(xyz_of_lab(np.array(lab, np.float64))))
    name = f"CIELAB {told}"
    return PaperColour(name, colour, f"measured: {name} ({how.told})")


def _apart(one: PaperColour, other: PaperColour) -> float:
    xyz = [xyz_of_rgb(parse_hex(each.colour_hex)) for each in (one, other)]
    return float(difference(lab_of_xyz(xyz[0]), lab_of_xyz(xyz[1])))


def _swatch(given: SwatchTable) -> Swatch:
    """Returns a swatch. Raises SuiteError for one whose inks are lighter than its paper."""
    paper = given.paper[0]
    for name in ("cyan", "magenta", "yellow", "black"):
        lightness = getattr(given, name)[0]
        if lightness > paper + _LIGHTER_L:
            said = f"{name} of L* {lightness:g} is lighter than its paper, L* {paper:g}"
            raise SuiteError(Mistake(said, key=f"swatch.{name}", value=f"{lightness:g}"))
    return Swatch(given.paper, given.cyan, given.magenta, given.yellow, given.black)


def _refuse_unlikely(gsm: float, caliper_um: float) -> None:
    least, most = (bulk * gsm for bulk in BULK_CM3_G)
    if not least <= caliper_um <= most:
        said = (
            f"{caliper_um:g} is no thickness of a paper of {gsm:g} g/m\u00b2; in thousandths of a "
            f"millimetre that is from {least:.0f} to {most:.0f}"
        )
        raise SuiteError(Mistake(said, key="caliper_um", value=f"{caliper_um:g}"))
