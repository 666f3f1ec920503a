"""What a slab sends back of the sky it hides: closed forms beside a straight edge."""

from __future__ import annotations

import numpy as np
import pytest

from mockup.render.light.distance import signed_distance
from mockup.render.light.hiding import Caster
from mockup.render.light.lamps import cells
from mockup.render.light.overhang import (
    BOUNCE,
    GRAZING,
    IN_LIGHT,
    IN_SHADE,
    OF_TABLE,
    sent_back,
)
from mockup.render.light.scene import LitScene, Plane, Sky, Window

THICK_IN = 0.1
LEFT_OF, RIGHT_OF = np.array([[3.97]], np.float32), np.array([[6.03]], np.float32)


def light(
    x: np.ndarray, lift_in: float, sky: float = 1.0, window: float = 1.0
) -> tuple[float, float]:
    """The two parts at a point of the table beside a slab 2 in wide, the window low at the left."""
    ring = np.array([[4.0, 1.0], [6.0, 1.0], [6.0, 9.0], [4.0, 9.0]])
    scene = LitScene(10, 10, (), window=Window(30, 30, 100, 270, 20), sky=Sky((0.0, 0.0, 0.0)))
    caster = Caster(signed_distance((ring,), 80), Plane(lift_in + THICK_IN), None, 1, THICK_IN)
    here = (x, np.full_like(x, 5.0), np.zeros_like(x))
    seen = np.full_like(x, window), np.full_like(x, sky)
    back = sent_back(here, caster, cells(scene, 0.0), seen, 1 / 80)
    return float(back[0][0, 0]), float(back[1][0, 0])


def test_a_side_towards_a_low_window_gets_its_cotangent():
    """Lambert's law: an upright face gets cot(elevation) of what a level one gets."""
    _, direct = light(LEFT_OF, 0.0)
    assert direct / GRAZING == pytest.approx(1 / np.tan(np.radians(20)), rel=0.08)


def test_a_side_away_from_the_window_has_only_what_the_table_sends():
    back, direct = light(RIGHT_OF, 0.0)
    assert direct == 0
    assert back == pytest.approx(GRAZING * OF_TABLE)


def test_high_on_a_pad_one_looks_at_the_underside():
    """Of what is hidden 0.03 in away the side is 1 - H(1) / H(1.1), H(g) = 1 - d / hypot(d, g)."""
    side = 1 - (1 - 0.03 / np.hypot(0.03, 1.0)) / (1 - 0.03 / np.hypot(0.03, 1.1))
    for window, near in ((1.0, IN_LIGHT), (0.0, IN_SHADE)):
        back, _ = light(LEFT_OF, 1.0, sky=0.5, window=window)
        expected = BOUNCE * 0.25 * (1 - side) * near + GRAZING * OF_TABLE * side
        assert back == pytest.approx(expected, rel=0.02)
