"""Papers: generic stocks with weight, thickness and look; basis weights; colours of paper.

Thickness is not a function of weight: at one basis weight it spreads twofold. A stock therefore
carries the range one may meet; the mill's or printer's own number belongs in the suite file.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

from mockup.errors import SuiteError, nearest, quoted
from mockup.trade.swatch import Swatch

G_PER_LB = 453.59237  # exact, international pound (1959)
M2_PER_IN2 = 0.00064516  # exact
REAM_SHEETS = 500
MIL_PER_MICRON = 1 / 25.4  # exact
GRAMMAGE_TOLERANCE = 0.05  # JCP L20 (US Government Paper Specification Standards): 5 % either way

OWN = "given in the suite file"
BULK_CM3_G = (0.6, 4.0)  # judgement: calendered art paper has 0.75, the bulkiest board some 2.5
USUAL_BULK_CM3_G: dict[str, float] = {  # of the stocks below; common practice
    "smooth": 1.25,
    "eggshell": 1.3,
    "vellum": 1.35,
    "cotton": 1.67,
    "laid": 1.35,
    "kraft": 1.4,
}
SPREAD = 0.1  # judgement: how far a sheet's thickness is from what its maker says
EXAMPLE = "unmeasured example"
UNMEASURED = f"{EXAMPLE}: no citable measurement; ask for a swatch reading"
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
    """What its opacity lacks to 1; 0 for paper that is not seen through."""
    coated: bool = False
    """Whether its surface is coated: another press condition is assumed for it."""
    swatch: Swatch | None = None
    """What was measured of it and of ink on it."""

    @property
    def is_coloured_example(self) -> bool:
        """Whether it is coloured, and its colour an example that nobody measured."""
        whites = (PAPER_COLOURS[name].colour_hex for name in ("white", "soft-white"))
        return self.colour_source == UNMEASURED and self.colour_hex not in whites


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


def own_stock(gsm: float, caliper_um: float | None, colour: PaperColour, grain: Grain) -> Stock:
    """Returns a paper by what is known of it; a thickness not known is the usual one of its
    surface."""
    usual_um = gsm * USUAL_BULK_CM3_G[grain] if caliper_um is None else caliper_um
    mil = usual_um * MIL_PER_MICRON
    about = f"{gsm:g} g/m\u00b2 {grain} paper"
    spread = (mil * (1 - SPREAD), mil * (1 + SPREAD))
    hexed = colour.colour_hex
    return Stock(about, about, mil, spread, gsm, hexed, grain, OWN, colour.source)


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
        "ink-blue": "#1f3350",  # CIELAB 21 0 -20, about
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
    for name, about, gsm, (usual, least, most), colour, grain in _METRIC_ROWS:
        mil, spread = usual * MIL_PER_MICRON, (least * MIL_PER_MICRON, most * MIL_PER_MICRON)
        hexed = PAPER_COLOURS[colour].colour_hex
        stocks[name] = Stock(name, about, mil, spread, gsm, hexed, grain, COMMON)
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
    ("eggshell-100-ink-blue", "eggshell cover, 100 lb, dyed ink blue through",
     100, "cover", (13.5, 12, 15), "ink-blue", "eggshell", COMMON),
    ("eggshell-100-black", "eggshell cover, 100 lb, dyed black through",
     100, "cover", (13.5, 12, 15), "black", "eggshell", COMMON),
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

_MetricRow = tuple[str, str, float, tuple[float, float, float], str, Grain]

# Name, about, grams per square metre, caliper in microns (usual, least, most), colour, surface.
# Common practice: the weights European printers keep, at the bulk of such papers.
_METRIC_ROWS: tuple[_MetricRow, ...] = (
    ("cotton-300-gsm-white", "soft all-cotton board, 300 g/m\u00b2, for letterpress",
     300, (500, 450, 540), "soft-white", "cotton"),
    ("cotton-600-gsm-white", "soft all-cotton board, double thick, 600 g/m\u00b2",
     600, (1000, 900, 1080), "soft-white", "cotton"),
    ("smooth-250-gsm-white", "smooth uncoated board, 250 g/m\u00b2",
     250, (300, 280, 330), "white", "smooth"),
    ("smooth-300-gsm-white", "smooth uncoated board, 300 g/m\u00b2",
     300, (370, 340, 400), "white", "smooth"),
    ("smooth-350-gsm-white", "smooth uncoated board, 350 g/m\u00b2, for cards posted bare",
     350, (440, 400, 480), "white", "smooth"),
    ("eggshell-280-gsm-ivory", "eggshell board, 280 g/m\u00b2",
     280, (360, 330, 400), "ivory", "eggshell"),
    ("laid-250-gsm-ivory", "laid board, 250 g/m\u00b2, fine parallel lines",
     250, (340, 300, 370), "ivory", "laid"),
    ("kraft-300-gsm", "unbleached kraft board, 300 g/m\u00b2, flecked",
     300, (420, 380, 460), "kraft", "kraft"),
    ("eggshell-300-gsm-ink-blue", "eggshell board, 300 g/m\u00b2, dyed ink blue through",
     300, (390, 350, 430), "ink-blue", "eggshell"),
    ("eggshell-300-gsm-black", "eggshell board, 300 g/m\u00b2, dyed black through",
     300, (390, 350, 430), "black", "eggshell"),
    ("smooth-100-gsm-white", "uncoated paper, 100 g/m\u00b2: liners and bands",
     100, (120, 110, 135), "white", "smooth"),
    ("smooth-120-gsm-white", "uncoated paper, 120 g/m\u00b2: envelopes",
     120, (145, 130, 165), "white", "smooth"),
    ("kraft-120-gsm", "unbleached kraft paper, 120 g/m\u00b2: envelopes",
     120, (165, 145, 185), "kraft", "kraft"),
)
# fmt: on

_TRANSLUCENT = {"translucent-30-white": 0.65}
"""Stocks one sees through, and what their opacity (ISO 2471) lacks to 1: makers of tracing paper
tell opacities of 30 to 40 %; from memory."""

STOCKS = _stocks()
"""Generic stocks by name."""
