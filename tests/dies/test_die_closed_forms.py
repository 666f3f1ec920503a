"""Every family against formulas worked out apart from its drawing: area and perimeter to 1e-6.

Closed forms are elementary geometry; integrals are mpmath's or scipy's, of the curve's own
equation. W is 5 in and H 7 in unless said.
"""

from math import acos, asin, atan2, cos, hypot, pi, radians, sin, sqrt

import mpmath as mp
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar

from mockup.dies import FAMILIES, make_die
from mockup.geometry.measure import area, perimeter

W, H = 5.0, 7.0


def _check(die, area_in2, perimeter_in, holes_in=0.0):
    assert area(die.shape) == pytest.approx(float(area_in2), rel=1e-7)
    length = sum(perimeter(outline) for outline in die.shape.outlines)
    assert length == pytest.approx(float(perimeter_in) + holes_in, rel=1e-7)


def test_rectangle():
    _check(make_die("rectangle", W, H), 35, 24)


def test_corners_each_apart():
    reach = [0.25, 0.5, 0, 1]
    square, once = sum(r * r for r in reach), sum(reach)
    _check(
        make_die("rounded-corner", W, H, {"radius": reach}),
        35 - (1 - pi / 4) * square,
        24 - 2 * once + pi / 2 * once,
    )
    _check(
        make_die("ticket-corner", W, H, {"radius": reach}),
        35 - pi / 4 * square,
        24 - 2 * once + pi / 2 * once,
    )
    _check(
        make_die("chamfered-corner", W, H, {"cut": reach}),
        35 - square / 2,
        24 - 2 * once + sqrt(2) * once,
    )
    down = [0.5, 0.25, 1, 0]
    _check(
        make_die("notched-corner", W, H, {"across": reach, "down": down}),
        35 - sum(p * q for p, q in zip(reach, down, strict=True)),
        24,
    )


def test_ellipse_has_mpmaths_elliptic_integral_for_perimeter():
    _check(make_die("ellipse", W, H), pi * 8.75, 4 * 3.5 * mp.ellipe(1 - (2.5 / 3.5) ** 2))


def test_circle():
    _check(make_die("circle", W, W), pi * 6.25, 5 * pi)


@pytest.mark.parametrize("exponent", [2, 2.2, 2.5, 3, 4, 7.5, 12])
def test_superellipse_has_gamma_functions_for_area_and_a_quadrature_for_perimeter(exponent):
    n, a, b = mp.mpf(exponent), mp.mpf(2.5), mp.mpf(3.5)
    whole = 4 * a * b * mp.gamma(1 + 1 / n) ** 2 / mp.gamma(1 + 2 / n)

    def speed(p, q):
        return lambda x: mp.sqrt(p**2 + (q * x ** (n - 1) * (1 - x**n) ** (1 / n - 1)) ** 2)

    middle = mp.mpf(1) / 2 ** (1 / n)
    quarter = mp.quad(speed(a, b), [0, middle]) + mp.quad(speed(b, a), [0, middle])
    _check(make_die("superellipse", W, H, {"exponent": exponent}), whole, 4 * quarter)


def test_stadium_either_way_up():
    for size in ((W, H), (H, W)):
        _check(make_die("stadium", *size), pi * 6.25 + 10, 5 * pi + 4)


def test_round_arch_on_every_side():
    for side, span, deep in (("top", 5, 7), ("bottom", 5, 7), ("left", 7, 5), ("right", 7, 5)):
        r = span / 2
        die = make_die("round-arch", W, H, {"side": side})
        _check(die, span * (deep - r) + pi * r * r / 2, span + 2 * (deep - r) + pi * r)


@pytest.mark.parametrize("rise", [0.2, 1, 2.5])
def test_segmental_arch(rise):
    radius = (W * W / 4 + rise * rise) / (2 * rise)
    half = asin(min(1, W / 2 / radius))
    _check(
        make_die("segmental-arch", W, H, {"rise": rise}),
        W * (H - rise) + radius**2 * (half - sin(half) * cos(half)),
        W + 2 * (H - rise) + 2 * radius * half,
    )


@pytest.mark.parametrize("rise", [0.8, 5 / 3, 2.2])
def test_three_centred_arch_is_the_one_with_least_ratio_of_radii(rise):
    a = W / 2

    def crown(r):
        return (a * a + rise * rise - 2 * a * r) / (2 * (rise - r))

    best = minimize_scalar(
        lambda r: crown(r) / r,
        bounds=(1e-3 * rise, rise * 0.999),
        method="bounded",
        options={"xatol": 1e-13},
    )
    r = best.x
    big = crown(r)
    turn = atan2(big - rise, a - r)
    touch = r - r * cos(turn)  # from the side to where haunch and crown meet

    def top(x):
        if x < touch:
            return rise - sqrt(max(0, r * r - (x - r) ** 2))
        return big - sqrt(big * big - (x - a) ** 2)

    under = 2 * quad(lambda x: H - top(x), 0, a, points=[touch], epsabs=1e-12)[0]
    length = W + 2 * (H - rise) + 2 * r * turn + 2 * big * (pi / 2 - turn)
    _check(make_die("three-centred-arch", W, H, {"rise": rise}), under, length)


@pytest.mark.parametrize("rise", [2.5, 3, 4.330127018922193, 6, 7])
def test_lancet_arch(rise):
    radius = (rise * rise + W * W / 4) / W
    turn = asin(min(1, rise / radius)) if radius >= W / 2 else None
    triangle = (radius - W / 2) * rise / 2
    _check(
        make_die("lancet-arch", W, H, {"rise": rise}),
        W * (H - rise) + 2 * (radius**2 * turn / 2 - triangle),
        W + 2 * (H - rise) + 2 * radius * turn,
    )


@pytest.mark.parametrize(("rise", "point"), [(3.0, 90), (2.7, 70), (3.6, 80)])
def test_ogee_arch_found_again_by_its_tangency(rise, point):
    a, lean = W / 2, radians(point / 2)

    def gap(r):  # the upper circle leaves the tip at the half-angle; how far it misses the lower
        return hypot(-r * cos(lean), rise + r * sin(lean)) - (a + r)

    r = brentq(gap, 1e-6, 1e3, xtol=1e-14)
    centre = (a - r * cos(lean), -r * sin(lean))
    touch = a + (centre[0] - a) * a / (a + r)

    def top(x):
        if x < touch:
            return rise - sqrt(max(0, a * a - (x - a) ** 2))
        return centre[1] + sqrt(r * r - (x - centre[0]) ** 2)

    under = 2 * quad(lambda x: H - top(x), 0, a, points=[touch], epsabs=1e-12)[0]
    lower = acos((a - touch) / a) * a
    upper = r * (acos((touch - centre[0]) / r) - acos((a - centre[0]) / r))
    die = make_die("ogee-arch", W, H, {"rise": rise, "point": point})
    _check(die, under, W + 2 * (H - rise) + 2 * lower + 2 * upper)


def test_twin_arch():
    _check(
        make_die("twin-arch", W, H), W * (H - 1.25) + pi * 1.25**2, W + 2 * (H - 1.25) + 2.5 * pi
    )


@pytest.mark.parametrize("corner", ["top-left", "top-right", "bottom-left", "bottom-right"])
def test_quarter_arch(corner):
    die = make_die("quarter-arch", W, H, {"radius": 3, "corner": corner})
    _check(die, 35 - (1 - pi / 4) * 9, 24 - 6 + 1.5 * pi)


@pytest.mark.parametrize("r", [1.31, 1.45, 1.9])
def test_trefoil_top_is_the_union_of_three_discs_and_a_rectangle(r):
    s = W - 2 * r
    rise = r + s * sqrt(3) / 2

    def top(x):
        lobes = [(r, rise), (W / 2, r), (W - r, rise)]
        tops = [y - sqrt(r * r - (x - c) ** 2) for c, y in lobes if abs(x - c) < r]
        return min(tops)

    # Only the upper disc bulges over its own neck; what lies under the bulge is taken off apart.
    meet = acos(s / 2 / r)
    x_meet = r + r * cos(radians(60) + meet)
    left_of_top = W / 2 - r
    breaks = sorted({x_meet, left_of_top})
    under = 2 * quad(lambda x: H - top(x), 0, W / 2, points=breaks, epsabs=1e-12, limit=200)[0]
    if left_of_top < x_meet:  # the gap under the bulge, between the two discs

        def gap(x):
            over = r + sqrt(r * r - (x - W / 2) ** 2)
            return max(0.0, (rise - sqrt(r * r - (x - r) ** 2)) - over)

        under -= 2 * quad(gap, left_of_top, x_meet, epsabs=1e-12, limit=200)[0]
    sides = 2 * r * (radians(120) - meet)
    upper = r * (radians(300) - 2 * meet)
    _check(make_die("trefoil-top", W, H, {"radius": r}), under, W + 2 * (H - rise) + sides + upper)


def test_scalloped_edge_all_round_with_touching_lobes():
    r, sides = 0.25, 40
    _check(
        make_die("scalloped-edge", W, H, {"lobe": 0.5}),
        (W - 2 * r) * (H - 2 * r) + sides * pi * r * r / 2 + 3 * pi * r * r,
        (sides + 6) * pi * r,
    )


def test_scalloped_edge_that_needs_lobes_a_little_out_of_round():
    # 4.25 x 5.5 in with lobes near 1/2 in: 9 and 11 or 12 lobes, half ellipses on each side.
    die = make_die("scalloped-edge", 4.25, 5.5, {"lobe": 0.5})
    arcs = die.shape.outer.segments
    round_ones = [arc for arc in arcs if arc.sweep_deg == 270]
    r = round_ones[0].u.x
    assert len(round_ones) == 4
    lobes = [(hypot(*arc.u), hypot(*arc.v)) for arc in arcs if arc.sweep_deg == 180]
    expected = (4.25 - 2 * r) * (5.5 - 2 * r) + 3 * pi * r * r
    expected += sum(pi * p * q / 2 for p, q in lobes)
    length = 6 * pi * r
    for p, q in lobes:
        long, short = max(p, q), min(p, q)
        length += 2 * long * mp.ellipe(1 - (short / long) ** 2)
        assert long / short < 1.06  # the eye does not see it
    _check(die, expected, length)


def test_scalloped_edge_on_two_edges():
    _check(
        make_die("scalloped-edge", W, H, {"edges": "top-bottom", "lobe": 0.5}),
        W * (H - 0.5) + 20 * pi / 32,
        20 * pi / 4 + 2 * (H - 0.5),
    )
    _check(
        make_die("scalloped-edge", W, H, {"edges": "left-right", "lobe": 0.5}),
        H * (W - 0.5) + 28 * pi / 32,
        28 * pi / 4 + 2 * (W - 0.5),
    )


@pytest.mark.parametrize("lobes", [8, 24, 48])
def test_scalloped_circle(lobes):
    ring = W / 2 / (cos(pi / lobes) + sin(pi / lobes))
    s = 2 * ring * sin(pi / lobes)
    _check(
        make_die("scalloped-circle", W, W, {"lobes": lobes}),
        lobes * ring**2 * sin(2 * pi / lobes) / 2 + lobes * pi * s * s / 8,
        lobes * pi * s / 2,
    )


def test_scalloped_circle_of_24_on_a_ring_of_2_25_in():
    die = make_die("scalloped-circle", 2 * 2.524434870586, 2 * 2.524434870586, {"lobes": 24})
    _check(die, 18.97481489438, 22.14324683530)


def _sine_length(pitch, swing):
    """One period of swing sin(2 pi x / pitch): (2 L / pi) sqrt(1 + k^2) E(k^2 / (1 + k^2))."""
    k = 2 * mp.pi * swing / pitch
    return 2 * pitch / mp.pi * mp.sqrt(1 + k * k) * mp.ellipe(k * k / (1 + k * k))


def test_wavy_edge_on_two_edges_has_elliptic_integrals_for_perimeter():
    die = make_die("wavy-edge", W, H, {"wave": 0.5, "depth": 0.125, "edges": "top-bottom"})
    assert float(_sine_length(0.5, 1 / 16)) == pytest.approx(0.5699193321847, rel=1e-12)
    _check(die, W * (H - 0.125), 20 * _sine_length(0.5, 1 / 16) + 2 * (H - 0.25))


def test_wavy_edge_all_round():
    swing, wave = 1 / 16, 0.5
    radius = 2 * wave / pi
    wide, high = W - 2 * swing, H - 2 * swing
    across, down = (x - 2 * radius for x in (wide, high))
    counts = round(across / wave), round(down / wave)
    body = wide * high - (4 - pi) * radius**2 + pi * swing**2 / 2

    def speed(t):
        return hypot(radius - swing * cos(4 * t), 4 * swing * sin(4 * t))

    corner = quad(speed, 0, pi / 2, epsabs=1e-13)[0]
    length = 4 * corner
    for run, n in zip((across, down), counts, strict=True):
        length += 2 * n * _sine_length(run / n, swing)
    _check(make_die("wavy-edge", W, H, {"wave": wave, "depth": 2 * swing}), body, length)


@pytest.mark.parametrize("edges", ["all", "left-right", "top-bottom"])
def test_ogee_label(edges):
    d = 0.4
    across = W if edges == "top-bottom" else W - 2 * d
    down = H if edges == "left-right" else H - 2 * d

    def double_curve(h):
        radius = (d * d + h * h) / (4 * d)
        return 2 * radius * asin(h / (2 * radius))

    body, length = across * down, 0.0
    for run, shaped in ((across, edges != "left-right"), (down, edges != "top-bottom")):
        body += 2 * d * run / 2 if shaped else 0
        length += 4 * double_curve(run / 2) if shaped else 2 * run
    _check(make_die("ogee-label", W, H, {"depth": d, "edges": edges}), body, length)


def test_hexagon():
    _check(make_die("hexagon", W, H, {"point": 1}), W * (H - 1), 10 + 4 * hypot(2.5, 1))
    die = make_die("hexagon", W, H, {"point": 1, "points": "left-right"})
    _check(die, H * (W - 1), 6 + 4 * hypot(3.5, 1))


def test_gable():
    _check(make_die("gable", W, H, {"rise": 2}), W * (H - 1), W + 10 + 2 * hypot(2.5, 2))


def test_tag():
    die = make_die("tag", 2, 4, {"cut": 0.5, "hole": 0.25, "inset": 0.5})
    _check(die, 8 - 0.25 - pi / 64, 12 - 2 + sqrt(2), holes_in=pi / 4)


@pytest.mark.parametrize("petals", [3, 5, 6, 8])
def test_petal_by_quadrature_of_its_equation(petals):
    depth = 0.3

    def r(t):
        return 1 - depth * (1 - cos(petals * t)) / 2

    def slope(t):
        return -depth * petals * sin(petals * t) / 2

    # The stretch to the card follows from how far the curve reaches each way.
    steps = [2 * pi * k / 200_000 for k in range(200_000)]
    wide = max(abs(r(t) * sin(t)) for t in steps) * 2
    ups = [r(t) * cos(t) for t in steps]
    sx, sy = W / wide, H / (max(ups) - min(ups))

    def speed(t):
        dx = slope(t) * sin(t) + r(t) * cos(t)
        dy = slope(t) * cos(t) - r(t) * sin(t)
        return hypot(sx * dx, sy * dy)

    length = sum(
        quad(speed, pi * k / petals, pi * (k + 1) / petals, epsabs=1e-12)[0]
        for k in range(2 * petals)
    )
    body = pi * ((1 - depth / 2) ** 2 + depth**2 / 8) * sx * sy
    _check(make_die("petal", W, H, {"petals": petals, "depth": depth}), body, length)


def test_every_family_of_the_table_is_measured_here():
    import pathlib

    text = pathlib.Path(__file__).read_text(encoding="utf-8")
    assert [name for name in FAMILIES if f'make_die("{name}"' not in text] == []
