"""Arcs written as cubics: off the circle by 4.2e-6 of the radius at 45 degrees a piece."""

import math

import numpy as np
import pytest
from fontTools.svgLib.path import parse_path

from mockup.dies import make_die
from mockup.geometry.affine import IDENTITY, Affine
from mockup.geometry.outline import circle_arc, joined
from mockup.geometry.path_data import drawable, svg_path
from mockup.geometry.point import Point


def test_eight_cubics_a_circle():
    """Radius error +4.2455e-6 for eight pieces: the standard 4/3 tan(a/4) construction."""
    circle = joined(circle_arc(Point(0, 0), 1, 0, 360))
    cubics = drawable(circle)
    radii = [math.hypot(*cubic.at(t)) for cubic in cubics for t in np.linspace(0, 1, 201)]
    assert len(cubics) == 8
    assert max(radii) - 1 == pytest.approx(4.2455e-6, rel=1e-3)
    assert min(radii) == pytest.approx(1, abs=1e-9)


def test_svg_path_data_is_read_back_by_fonttools():
    from fontTools.pens.areaPen import AreaPen

    shape = make_die("tag", 2, 4).shape
    pen = AreaPen()
    parse_path(svg_path(shape, IDENTITY), pen)
    hole = math.pi * 0.1875**2 / 4
    assert abs(pen.value) == pytest.approx(8 - 0.4**2 + hole, rel=1e-5)  # both wind alike
    pen = AreaPen()
    parse_path(svg_path(shape, Affine(72, 0, 0, -72, 0, 288)), pen)
    assert abs(pen.value) == pytest.approx((8 - 0.4**2 + hole) * 72 * 72, rel=1e-5)
