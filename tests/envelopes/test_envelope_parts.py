"""Envelopes: proportions, sheets that fit together, liners that do their work.

No standard for social envelopes was found; ranges named "common practice" are the trade's.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import scale
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

from mockup.envelopes.flap import closed_flap, flap_corners, open_flap
from mockup.envelopes.liner import (
    GUM_BARE_IN,
    RAW_EDGE_HIDDEN_IN,
    SIDE_PLAY_IN,
    liner_fit,
    liner_in_envelope,
    liner_placement,
    liner_shape,
)
from mockup.envelopes.spec import FLAPS, envelope_spec
from mockup.envelopes.views import closed_back, face, open_back, paper_area_in2
from mockup.errors import SuiteError
from mockup.geometry.affine import translation
from mockup.geometry.flatten import polygon
from mockup.geometry.measure import area, signed_area
from mockup.geometry.outline import Shape, polygon_outline
from mockup.trade.sizes import ENVELOPES

A7 = (7.25, 5.25)


@st.composite
def specs(draw):
    """Returns envelopes of any face from 3 x 3 to 12 x 9 in, some measures replaced."""
    width, height = draw(st.floats(3, 12)), draw(st.floats(3, 9))
    flap = draw(st.sampled_from(FLAPS))
    overrides = {}
    if draw(st.booleans()):
        overrides["throat_in"] = draw(st.floats(0.25, 0.4 * height))
    if draw(st.booleans()):
        overrides["flap_depth_in"] = draw(st.floats(1.25, height - 0.25))
    if draw(st.booleans()):
        overrides["gum_width_in"] = draw(st.floats(0.125, 0.3))
    return envelope_spec(width, height, flap, overrides)


def _sheets(spec):
    opened, closed = open_back(spec), closed_back(spec)
    named = {
        "back sheet": opened.back_sheet,
        "gum": opened.gum,
        "liner": opened.liner,
        "left": opened.side_flaps[0],
        "right": opened.side_flaps[1],
        "bottom": opened.bottom_flap,
        "pocket": opened.pocket,
        "body": closed.body,
        "flap": closed.flap,
        "open flap": open_flap(spec),
        "face": face(spec),
    }
    return {name: (shape, polygon(shape)) for name, shape in named.items()}


@given(specs())
@settings(max_examples=60, deadline=None)
def test_every_sheet_is_simple_and_drawn_clockwise(spec):
    for name, (shape, flat) in _sheets(spec).items():
        assert flat.is_valid, name
        assert signed_area(shape.outer) > 0, name


@given(specs())
@settings(max_examples=60, deadline=None)
def test_every_sheet_is_symmetric(spec):
    sheets = {name: flat for name, (_, flat) in _sheets(spec).items()}
    for name, flat in sheets.items():
        other = {"left": "right", "right": "left"}.get(name, name)
        mirrored = scale(sheets[other], -1, 1, origin=(spec.width_in / 2, 0))
        assert flat.symmetric_difference(mirrored).area < 1e-4, name


@given(specs())
@settings(max_examples=60, deadline=None)
def test_sheets_lie_within_one_another(spec):
    sheets = {name: flat for name, (_, flat) in _sheets(spec).items()}
    for inner, outer in [
        ("gum", "open flap"),
        ("open flap", "back sheet"),
        ("liner", "back sheet"),
        ("bottom", "pocket"),
        ("pocket", "face"),
        ("flap", "face"),
    ]:
        assert sheets[inner].difference(sheets[outer]).area < 1e-3, (inner, outer)
    parts = unary_union([sheets["left"], sheets["right"], sheets["bottom"]])
    assert parts.symmetric_difference(sheets["pocket"]).area < 0.002
    assert sheets["left"].intersection(sheets["right"]).is_empty
    # Glued together: the bottom flap lies on a good part of each side flap.
    assert sheets["left"].intersection(sheets["bottom"]).area > 0.2


@given(specs())
@settings(max_examples=60, deadline=None)
def test_gum_keeps_its_margin_and_the_liner_leaves_it_bare(spec):
    opened = open_back(spec)
    edge = polygon(open_flap(spec)).exterior
    gum, liner = polygon(opened.gum), polygon(opened.liner)
    assert gum.exterior.distance(edge) >= spec.gum_offset_in - 1e-3
    assert gum.bounds[3] < 1e-9
    assert (
        liner.distance(gum) >= spec.liner_inset_in - spec.gum_offset_in - spec.gum_width_in - 1e-6
    )
    corners = [c[:2] for c in flap_corners(spec)]
    gummed = corners[1:3] if spec.flap == "straight" else corners[1:4]
    on_flap = liner.intersection(polygon(open_flap(spec)))
    assert on_flap.distance(LineString(gummed)) == pytest.approx(spec.liner_inset_in, abs=1e-3)


@given(specs())
@settings(max_examples=60, deadline=None)
def test_the_usual_liner_passes_its_own_checks(spec):
    fit = liner_fit(spec, liner_in_envelope(spec))
    assert fit.gum_clearance_in == pytest.approx(1 / 16, abs=1e-3)
    assert fit.gum_clearance_in >= GUM_BARE_IN
    assert fit.hidden_in == pytest.approx(spec.height_in - 0.25 - spec.throat_in)
    assert fit.hidden_in >= RAW_EDGE_HIDDEN_IN
    assert fit.side_play_in == pytest.approx(0.25)
    assert fit.side_play_in >= SIDE_PLAY_IN


@given(specs())
@settings(max_examples=30, deadline=None)
def test_the_liner_is_ordered_from_its_own_corner_and_placed_back(spec):
    ordered = liner_shape(spec)
    assert ordered.box[:2] == pytest.approx((0, 0), abs=1e-12)
    placed = ordered.mapped(liner_placement(spec))
    assert placed.box == pytest.approx(liner_in_envelope(spec).box)
    assert area(placed) == pytest.approx(area(liner_in_envelope(spec)))


@pytest.mark.parametrize("flap", FLAPS)
@pytest.mark.parametrize("size", ENVELOPES.values(), ids=list(ENVELOPES))
def test_every_trade_size_makes_an_envelope_of_common_proportions(size, flap):
    spec = envelope_spec(size.width_in, size.height_in, flap)
    # Depth over height, common practice: square .33-.45, pointed .50-.60, deep .65-.90.
    least, most = {"straight": (0.33, 0.45), "pointed": (0.5, 0.6), "deep-pointed": (0.65, 0.9)}[
        flap
    ]
    assert least <= spec.flap_depth_in / spec.height_in <= most
    assert spec.throat_in >= 0.5
    assert open_back(spec).back_sheet.box.top == pytest.approx(-spec.flap_depth_in, abs=0.25)


def test_worked_a7_straight():
    # Common practice for an A7: flap 1.75-2.25 in, throat 3/4 in, liner 7 in wide.
    spec = envelope_spec(*A7, "straight")
    assert spec.flap_depth_in == pytest.approx(1.995)
    assert spec.throat_in == pytest.approx(0.75)
    liner = liner_shape(spec)
    assert liner.box.width == pytest.approx(7.0)
    assert liner.box.height == pytest.approx(5.0 + 1.995 - 0.5)
    # Face + back to the throat + two side flaps .75 x .9 H + flap W x 2: 92.275 in2, a model.
    assert paper_area_in2(spec) == pytest.approx(92.275, rel=0.05)


def test_worked_a7_pointed_flaps():
    # Common practice for an A7: pointed 2.6-3.2 in, deep pointed 3.5-4.7 in.
    assert 2.6 <= envelope_spec(*A7, "pointed").flap_depth_in <= 3.2
    assert 3.5 <= envelope_spec(*A7, "deep-pointed").flap_depth_in <= 4.7
    spec = envelope_spec(*A7, "pointed", {"flap_depth_in": 3.0, "shoulder_rise_in": 0.2})
    # The gummed slope runs from (1/16, -0.2) to (3.625, -3): by hand 2.8 / 3.5625.
    assert spec.gummed_slope == pytest.approx(2.8 / 3.5625)
    # The liner's tip before easing is 1/2 in square to the slopes below the flap's.
    tip_in = 3.0 - 0.5 * (1 + (2.8 / 3.5625) ** 2) ** 0.5
    eased = (1 / 16) * ((1 + (2.8 / 3.5625) ** 2) ** 0.5 - 1)
    assert -liner_in_envelope(spec).box.top == pytest.approx(tip_in - eased, abs=1e-9)


def test_the_closed_flap_is_the_open_one_folded():
    spec = envelope_spec(*A7, "pointed")
    opened, closed = open_flap(spec), closed_flap(spec)
    assert closed.box.bottom == pytest.approx(-opened.box.top)
    assert area(closed) == pytest.approx(area(opened))


@pytest.mark.parametrize(
    ("move_y", "fails"),
    [(0.0, None), (-0.1, "gum_clearance_in"), (-4.0, "hidden_in")],
)
def test_a_liner_out_of_place_is_measured(move_y, fails):
    spec = envelope_spec(*A7, "straight")
    fit = liner_fit(spec, liner_in_envelope(spec).mapped(translation(0, move_y)))
    assert fit.gum_clearance_in == pytest.approx(1 / 16 + move_y, abs=1e-6)
    assert fit.hidden_in == pytest.approx(5.0 - 0.75 + move_y)
    assert (fit.gum_clearance_in < GUM_BARE_IN) == (fails is not None)
    assert (fit.hidden_in < RAW_EDGE_HIDDEN_IN) == (fails == "hidden_in")


def test_a_liner_cut_to_the_envelope_does_not_slide_in():
    spec = envelope_spec(*A7, "straight")
    sheet = Shape(polygon_outline((0, -1), (7.25, -1), (7.25, 5), (0, 5)))
    fit = liner_fit(spec, sheet)
    assert fit.side_play_in == pytest.approx(0)
    assert fit.side_play_in < SIDE_PLAY_IN


def test_the_gum_clearance_is_the_distance_to_the_slope():
    # A rectangle's corner against the slope, by shapely.
    spec = envelope_spec(*A7, "deep-pointed")
    sheet = Shape(polygon_outline((1.5, -1.0), (5.75, -1.0), (5.75, 4), (1.5, 4)))
    left, tip = flap_corners(spec)[1:3]
    away = LineString([left[:2], tip[:2]]).distance(Point(1.5, -1.0))
    expected = away - spec.gum_offset_in - spec.gum_width_in
    assert liner_fit(spec, sheet).gum_clearance_in == pytest.approx(expected)


@pytest.mark.parametrize(
    ("flap", "overrides", "words"),
    [
        ("pointy", {}, 'did you mean "pointed"'),
        ("pointed", {"flap_dept_in": 2}, 'did you mean "flap_depth_in"'),
        ("pointed", {"flap_depth_in": 6}, "flap depth is 6 in"),
        ("straight", {"throat_in": 4}, "throat is 4 in"),
        ("straight", {"gum_width_in": float("nan")}, "gum width is nan"),
        ("pointed", {"gum_width_in": 3}, "gum width is 3 in"),
    ],
)
def test_impossible_envelopes_get_one_line(flap, overrides, words):
    with pytest.raises(SuiteError, match=r"^[^\n]+$") as caught:
        envelope_spec(*A7, flap, overrides)
    assert words in str(caught.value)
