"""Papers: generic stocks with weight, thickness and look; basis weights; colours of paper.

Thickness is not a function of weight: at one basis weight it spreads twofold. A stock therefore
carries the range one may meet; the mill's or printer's own number belongs in the suite file.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

from mockup.errors import SuiteError, nearest, quoted

G_PER_LB = 453.59237  # exact, international pound (1959)
M2_PER_IN2 = 0.00064516  # exact
REAM_SHEETS = 500
MIL_PER_MICRON = 1 / 25.4  # exact
GRAMMAGE_TOLERANCE = 0.05  # JCP L20 (US Government Paper Specification Standards): 5 % either way

UNMEASURED = "unmeasured example: no citable measurement; ask for a swatch reading"
COMMON = "common practice, no source"
JCP_K10 = "JCP K10 index, US Government Paper Specification Standards"

Grade = Literal["cover", "text", "bristol", "index", "bond", "tag"]
Grain = Literal["smooth", "eggshell", "vellum", "cotton", "laid", "kraft"]
"""The surface as seen and felt. Vellum is the lightly toothy finish, not the translucent sheet."""

BASIC_AREA_IN2: dict[Grade, float] = {
    "cover": 20 * 26,  # JCP L20
    "text": 25 * 38,  # JCP, book papers
    "bristol": 22.5 * 28.5,  # common practice
    "index": 25.5 * 30.5,  # JCP K10
    "bond": 17 * 22,  # JCP, writing papers
    "tag": 24 * 36,  # common practice
}
"""The sheet whose ream of 500 weighs the basis weight, square inches."""


@dataclass(frozen=True)
class PaperColour:
    """A named colour of paper: `#rrggbb`, sRGB, and where it comes from."""

    name: str
    colour_hex: str
    source: str


@dataclass(frozen=True)
class Stock:
    """A generic stock: grammage, thickness with the range one may meet, colour and surface."""

    name: str
    about: str
    caliper_mil: float
    caliper_range_mil: tuple[float, float]
    gsm: float
    colour_hex: str
    grain: Grain
    source: str
    colour_source: str = UNMEASURED
    translucency: float = 0.0
    """Share of the light from below that passes."""


def gsm_from_lb(basis_weight_lb: float, grade: Grade) -> float:
    """Returns grams per square metre of a basis weight in pounds a ream of 500 basic sheets."""
    ream_m2 = REAM_SHEETS * BASIC_AREA_IN2[grade] * M2_PER_IN2
    return basis_weight_lb * G_PER_LB / ream_m2


def lb_from_gsm(gsm: float, grade: Grade) -> float:
    """Returns the basis weight in pounds of a grammage in grams per square metre."""
    return gsm / gsm_from_lb(1, grade)


def caliper_mil(gsm: float, bulk_cm3_g: float) -> float:
    """Returns the thickness in mils (0.001 in) of a sheet: grammage times bulk is in microns.

    ISO 534:2011 defines bulk (specific volume) as thickness over grammage.
    """
    return gsm * bulk_cm3_g * MIL_PER_MICRON


def weight_g(area_in2: float, gsm: float) -> float:
    """Returns the weight in grams of a sheet of `area_in2` square inches."""
    return area_in2 * M2_PER_IN2 * gsm


def stock(text: str) -> Stock:
    """Returns a stock by name, in any case. Raises SuiteError with the nearest name."""
    name = _key(text)
    if name not in STOCKS:
        hint = nearest(name, STOCKS)
        raise SuiteError(f"no stock called {quoted(text)}{hint}; allowed: {', '.join(STOCKS)}")
    return STOCKS[name]


def paper_colour(text: str) -> PaperColour:
    """Returns a paper colour from its name, or from `#rrggbb`. Raises SuiteError otherwise."""
    if re.fullmatch(r"#[0-9a-f]{6}", text.strip(), re.I):
        return PaperColour(text.strip().lower(), text.strip().lower(), "given in the suite file")
    name = _key(text)
    if name not in PAPER_COLOURS:
        hint = nearest(name, PAPER_COLOURS)
        allowed = ", ".join(PAPER_COLOURS)
        raise SuiteError(
            f"no paper colour called {quoted(text)}{hint}; allowed: {allowed}, or #rrggbb"
        )
    return PAPER_COLOURS[name]


def _key(text: str) -> str:
    return re.sub(r"[\s_]+", "-", text.strip().lower())


def _colours() -> dict[str, PaperColour]:
    hexes = {
        "white": "#f5f4f0",
        "soft-white": "#f3efe6",
        "ivory": "#f0e7d5",  # CIELAB 92 1 10
        "oat": "#e3d7c0",
        "kraft": "#ae906f",  # CIELAB 62 8 22
        "blush": "#e6c9bd",
        "rust": "#a5512f",
        "clay": "#bf7d5e",
        "ochre": "#c99a45",
        "sage": "#a3ad94",
        "moss": "#5f6a4a",
        "mist": "#c9d2d3",
        "tide": "#5f8089",
        "ink-blue": "#1f3350",
        "charcoal": "#3a3b3d",
        "black": "#2c2c2c",  # CIELAB 18 0 0: the blackest paper is far from ink black
    }
    return {name: PaperColour(name, colour, UNMEASURED) for name, colour in hexes.items()}


PAPER_COLOURS = _colours()
"""Generic colours of paper, for stocks and envelopes, by name."""


def _stocks() -> dict[str, Stock]:
    """Returns the stocks by name."""
    stocks: dict[str, Stock] = {}
    for name, about, lb, grade, (usual, least, most), colour, grain, source in _ROWS:
        gsm = round(gsm_from_lb(lb, grade), 1)
        hexed = PAPER_COLOURS[colour].colour_hex
        stocks[name] = Stock(name, about, usual, (least, most), gsm, hexed, grain, source)
    for name, share in _TRANSLUCENT.items():
        stocks[name] = replace(stocks[name], translucency=share)
    return stocks


_Row = tuple[str, str, float, Grade, tuple[float, float, float], str, Grain, str]

# Name, about, pounds, grade, caliper in mil (usual, least, most), colour, surface, source.
# fmt: off
_ROWS: tuple[_Row, ...] = (
    ("cotton-110-white", "soft all-cotton cover, 110 lb, the usual letterpress sheet",
     110, "cover", (19.5, 18, 20.5), "soft-white", "cotton", COMMON),
    ("cotton-220-white", "soft all-cotton cover, double thick, 220 lb",
     220, "cover", (38, 36, 40), "soft-white", "cotton", COMMON),
    ("smooth-100-white", "smooth uncoated cover, 100 lb",
     100, "cover", (12, 11, 15), "white", "smooth", COMMON),
    ("smooth-120-white", "smooth uncoated cover, 120 lb, for flat printing",
     120, "cover", (15, 14, 17), "white", "smooth", COMMON),
    ("smooth-240-white", "smooth uncoated cover, two sheets mounted, 240 lb",
     240, "cover", (30, 28, 36), "white", "smooth", COMMON),
    ("eggshell-80-ivory", "eggshell cover, 80 lb, light: details and menus",
     80, "cover", (10, 9, 12), "ivory", "eggshell", COMMON),
    ("eggshell-110-ivory", "eggshell cover, 110 lb",
     110, "cover", (14.5, 13, 16), "ivory", "eggshell", COMMON),
    ("eggshell-110-oat", "eggshell cover, 110 lb, dyed through",
     110, "cover", (14.5, 13, 16), "oat", "eggshell", COMMON),
    ("vellum-80-white", "vellum-finish cover, 80 lb",
     80, "cover", (11, 9.5, 12), "white", "vellum", COMMON),
    ("laid-80-ivory", "laid cover, 80 lb, fine parallel lines",
     80, "cover", (11, 9.5, 13), "ivory", "laid", COMMON),
    ("kraft-100", "unbleached kraft cover, 100 lb, flecked",
     100, "cover", (13.5, 12, 15), "kraft", "kraft", COMMON),
    ("index-110-white", "index board, 110 lb, for reply postcards",
     110, "index", (9.1, 8.6, 9.6), "white", "smooth", JCP_K10),
    ("text-70-white", "uncoated text, 70 lb: liners and belly bands",
     70, "text", (5.3, 4.5, 6), "white", "smooth", COMMON),
    ("text-80-white", "uncoated text, 80 lb: envelopes",
     80, "text", (6.2, 5.5, 7), "white", "smooth", COMMON),
    ("text-80-oat", "eggshell text, 80 lb, dyed through: envelopes",
     80, "text", (6.2, 5.5, 7.5), "oat", "eggshell", COMMON),
    ("translucent-30-white", "translucent vellum sheet, 30 lb: overlays and wraps",
     30, "cover", (3.2, 2.8, 4), "white", "vellum", COMMON),
    ("text-80-kraft", "unbleached kraft text, 80 lb: envelopes",
     80, "text", (6.5, 5.5, 7.5), "kraft", "kraft", COMMON),
)
# fmt: on

_TRANSLUCENT = {"translucent-30-white": 0.45}
"""Stocks one sees through, and the share of light they pass: judgements, by eye."""

STOCKS = _stocks()
"""Generic stocks by name."""
