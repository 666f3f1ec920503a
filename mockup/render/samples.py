"""Small pictures of what there is: a paper under a window's light, a scene with a plain card."""

from __future__ import annotations

import math

import numpy as np

from mockup.colour.srgb import parse_hex
from mockup.colour.translucent import film_of
from mockup.pixels import Bytes
from mockup.render.light import light
from mockup.render.light.scene import Flat, LitScene, Material, Plane, Rings, Sheet, Surface
from mockup.render.scenes import Scene
from mockup.trade.papers import Stock
from mockup.units import MIL_PER_INCH

PPI = 150.0
SCENE_PPI = 60.0
SWATCH_IN = (1.5, 1.05)
TABLE_IN = (6.0, 4.5)
_SHEET_IN = (1.2, 0.75)  # of a paper on its table
_CARD_IN = (2.6, 3.7)
_CARD_TURN_DEG = -8.0
_TABLE = Surface("plaster", 3)


def swatch(stock: Stock) -> Bytes:
    """Returns a sheet of a paper on plaster, true size at 150 pixels an inch: (h, w, 3) sRGB."""
    sheet = _sheet(stock, _rectangle(SWATCH_IN, _SHEET_IN, 0.0), 0.0)
    return light(LitScene(*SWATCH_IN, (sheet,), _TABLE), PPI)


def scene_sample(scene: Scene, stock: Stock) -> Bytes:
    """Returns a scene's table with a plain card on it, in its own light: (h, w, 3) sRGB."""
    rings = _rectangle(TABLE_IN, _CARD_IN, _CARD_TURN_DEG)
    sheet = _sheet(stock, rings, scene.lift_in["main"], _CARD_TURN_DEG)
    lit = LitScene(*TABLE_IN, (sheet,), scene.surface, scene.window, scene.sky)
    return light(lit, SCENE_PPI)


def _sheet(stock: Stock, rings: Rings, lift_in: float, angle_deg: float = 0.0) -> Sheet:
    return Sheet(
        rings,
        Flat(parse_hex(stock.colour_hex)),
        Plane(lift_in),
        stock.caliper_mil / MIL_PER_INCH,
        Material(stock.grain, film=film_of(stock.translucency, parse_hex(stock.colour_hex))),
        angle_deg,
    )


def _rectangle(table_in: tuple[float, float], size_in: tuple[float, float], turn: float) -> Rings:
    """Returns a rectangle in the middle of a table, turned clockwise by degrees."""
    half = np.array(size_in) / 2
    corners = half * np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    turned = corners @ np.array([(cos, sin), (-sin, cos)])
    return (turned + np.array(table_in) / 2,)
