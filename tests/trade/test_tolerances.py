"""Limits of print and cutting."""

import pytest

from mockup.trade import tolerances
from mockup.trade.tolerances import Limit, iso_216_tolerance


@pytest.mark.parametrize(
    ("side_mm", "tolerance_mm"),
    [(105, 1.5), (148, 1.5), (150, 1.5), (150.01, 2), (210, 2), (600, 2), (601, 3)],
)
def test_iso_216_steps(side_mm, tolerance_mm):
    assert iso_216_tolerance(side_mm / 25.4).value == pytest.approx(tolerance_mm / 25.4)


def test_bleed_and_safe_margin_leave_half_after_the_worst_cut():
    # The consistent set: both are twice the cut shift.
    assert tolerances.BLEED.value - tolerances.CUT_SHIFT.value == tolerances.CUT_SHIFT.value
    assert tolerances.SAFE.value - tolerances.CUT_SHIFT.value == tolerances.CUT_SHIFT.value


def test_inch_and_metric_bleed_are_not_the_same():
    assert tolerances.BLEED.value - tolerances.BLEED_METRIC.value == pytest.approx(0.175 / 25.4)


def test_x_height_is_a_fifth_of_a_degree_at_40_cm_legge_bigelow_2011():
    from math import radians, tan

    assert tolerances.X_HEIGHT.value * 25.4 == pytest.approx(400 * tan(radians(0.2)), abs=0.01)


def test_every_limit_has_a_source():
    limits = [value for value in vars(tolerances).values() if isinstance(value, Limit)]
    assert len(limits) > 15
    assert all(limit.source and limit.value > 0 for limit in limits)
    assert not tolerances.CUT_SHIFT.published
    assert tolerances.TOTAL_INK.published
