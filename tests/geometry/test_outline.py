"""Segments and outlines: mapping, turning round, exact boxes; sampled points as the check."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.geometry.affine import Affine, rotation
from mockup.geometry.outline import Arc, Cubic, Line, Outline, circle_arc, joined, polygon_outline
from mockup.geometry.point import Point

numbers = st.floats(-5, 5).map(lambda v: round(v, 3))
points = st.builds(Point, numbers, numbers)
segments = st.one_of(
    st.builds(Line, points, points),
    st.builds(Arc, points, points, points, st.floats(-360, 360), st.floats(-360, 360)),
    st.builds(Cubic, points, points, points, points),
)
affines = st.builds(Affine, numbers, numbers, numbers, numbers, numbers, numbers)


@given(segments, affines, st.floats(0, 1))
def test_mapping_a_segment_maps_its_points(segment, affine, t):
    assert segment.mapped(affine).at(t) == pytest.approx(affine.point(segment.at(t)), abs=1e-9)


@given(segments, st.floats(0, 1))
def test_reversing_a_segment_reverses_its_parameter(segment, t):
    assert segment.reversed().at(t) == pytest.approx(segment.at(1 - t), abs=1e-9)


@given(segments)
def test_extremes_box_is_what_dense_samples_reach(segment):
    found = np.array(segment.extremes())
    samples = np.array([segment.at(t) for t in np.linspace(0, 1, 2001)])
    assert (found.min(0) <= samples.min(0) + 1e-9).all()
    assert (found.max(0) >= samples.max(0) - 1e-9).all()
    # and no farther: the extremes lie on the curve, samples come within the step's sagitta
    assert (found.min(0) >= samples.min(0) - 1e-3).all()
    assert (found.max(0) <= samples.max(0) + 1e-3).all()


def test_an_open_path_is_no_outline():
    with pytest.raises(ValueError, match="open"):
        Outline((Line(Point(0, 0), Point(1, 0)), Line(Point(1, 1), Point(0, 0))))
    with pytest.raises(ValueError, match="needs segments"):
        Outline(())


def test_joined_closes_gaps_with_lines():
    arc = circle_arc(Point(1, 1), 1, 180, 180)
    outline = joined(arc)
    assert [type(s).__name__ for s in outline.segments] == ["Arc", "Line"]
    assert outline.box == pytest.approx((0, 0, 2, 1))


def test_a_turned_square_keeps_its_corners_exactly():
    square = polygon_outline((0, 0), (1, 0), (1, 1), (0, 1))
    assert square.mapped(rotation(90, Point(0.5, 0.5))).box == (0, 0, 1, 1)
    assert math.isclose(square.mapped(rotation(45)).box.width, math.sqrt(2))
