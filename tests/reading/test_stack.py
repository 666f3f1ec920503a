"""Weight and thickness of a whole invitation, by areas, grammages and calipers.

The worked suite: a 5 x 7 ellipse, a 4.25 x 6 card and a 3.5 x 5 card of 110 lb cover, an inner
envelope of 80 lb text (45.68 in² of paper), an A7 of 80 lb text (92.275 in²), a liner of 70 lb text
(48.125 in²). Basis weight by definition (500 sheets of 20 x 26, 25 x 38 in); added up by hand.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from mockup.reading.stack import Paper, Stack, inside, posted
from mockup.suite.reading import read_suite
from mockup.trade.papers import Stock, gsm_from_lb, stock


def paper(lb: float, grade: str, caliper_mil: float) -> Stock:
    plain = stock("smooth-100-white")
    spread = (caliper_mil, caliper_mil)
    return replace(
        plain, gsm=gsm_from_lb(lb, grade), caliper_mil=caliper_mil, caliper_range_mil=spread
    )


COVER, TEXT, LINER = paper(110, "cover", 15.5), paper(80, "text", 6.2), paper(70, "text", 5.3)
WORKED = Stack(
    (
        Paper("invitation", math.pi * 2.5 * 3.5, COVER, 1),
        Paper("details", 4.25 * 6, COVER, 1),
        Paper("reply", 3.5 * 5, COVER, 1),
        Paper("inner", 45.68, TEXT, 2),
        Paper("liner", 48.125, LINER, 1),
        Paper("outer", 92.275, TEXT, 2),
    )
)


def test_the_worked_suite_weighs_27_28_g():
    assert WORKED.weight_g == pytest.approx(27.2834, abs=0.0005)
    assert [s.weight_g for s in WORKED.papers] == pytest.approx(
        [5.2752, 4.8936, 3.3583, 3.4900, 3.2169, 7.0493], abs=0.0005
    )


def test_five_per_cent_more_paper_takes_it_over_an_ounce():
    ounce_g = 28.349523125
    assert WORKED.weight_g / ounce_g == pytest.approx(0.9624, abs=0.0001)
    assert WORKED.most_g / ounce_g == pytest.approx(1.0105, abs=0.0001)


def test_the_worked_stack_is_76_6_mil_thick():
    assert WORKED.thickness_in == pytest.approx(0.0766, abs=1e-9)


def test_the_demo_s_reply_envelope_goes_inside_the_outer_one(demo_suite):
    suite = read_suite(demo_suite)
    outer, reply = suite.envelopes
    assert inside(suite, outer) == [reply]
    assert inside(suite, reply) == []
    names = [paper.name for paper in posted(suite, outer).papers]
    assert names == ["invitation", "details", "reply", "reply", "liner", "outer"]


def test_a_shaped_card_weighs_what_is_left_of_it(demo_suite):
    """An equilateral lancet arch 5 x 7: 28.703986 in² (rise 5 sqrt 3 / 2), not 35."""
    suite = read_suite(demo_suite)
    paper = posted(suite, suite.envelopes[0]).papers[0]
    rise = 5 * math.sqrt(3) / 2
    expected = 5 * (7 - rise) + 25 * (math.pi / 3 - math.sqrt(3) / 4)
    assert paper.area_in2 == pytest.approx(expected, rel=1e-6)
