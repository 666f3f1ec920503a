"""The lit picture as a whole: energy, evenness, sameness, truth of colour."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from mockup.colour.srgb import LINEAR, parse_hex
from mockup.colour.translucent import film_of
from mockup.errors import SuiteError
from mockup.render.light import light, plain, prepare, shade
from mockup.render.light.interface import interface
from mockup.render.light.irradiance import open_light
from mockup.render.light.scene import (
    Bow,
    Crease,
    Flat,
    LitScene,
    Material,
    Photograph,
    Picture,
    Plane,
    Sheet,
    Sky,
    Surface,
    Window,
)
from mockup.render.light.tone import camera_lamps
from mockup.render.scenes import read_scene, scene_names
from mockup.trade.papers import PAPER_COLOURS
from tests.quickly import quickly

BARE = Material("none", bevel_in=0.004)


def box(left: float, top: float, right: float, bottom: float) -> np.ndarray:
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]], float)


def card(rgb: tuple[int, int, int] = (255, 255, 255), **more: object) -> Sheet:
    return Sheet((box(1, 1, 3, 2.5),), Flat(rgb), material=BARE, **more)  # type: ignore[arg-type]


def linear(picture: np.ndarray) -> np.ndarray:
    return LINEAR[picture]


def test_white_under_an_even_light_is_even():
    """A window so far away that it lights the table evenly: uniform to 0.1 %."""
    far = Window(4000, 6000, 6000, radiance=(2.0, 2.0, 2.0))
    sheet = Sheet((box(-5, -5, 9, 9),), Flat((255, 255, 255)), material=BARE)
    scene = LitScene(4, 3, (sheet,), window=far)
    view = prepare.view_of(scene, 20)
    found = shade_all(scene, 20)
    assert found.shape == (3, view.height_px, view.width_px)
    assert np.ptp(found) / found.mean() < 0.001
    assert found.max() == pytest.approx(1, rel=0.005)


def shade_all(scene: LitScene, ppi: float) -> np.ndarray:
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(1) as pool:
        layers = prepare.layers(scene, ppi, pool, lambda share: None)
    lamps = camera_lamps(scene)
    view = prepare.view_of(scene, ppi)
    return shade.lit_block(layers, lamps, ((0, view.height_px), (0, view.width_px)), ppi)


def test_falloff_of_a_small_window():
    """A small bright rectangle: cos cos / r^2 of photometry (Lambert), from corner to corner."""
    small = Window(1, 1, 40)
    scene = LitScene(16, 12, (), window=small)
    bare = open_light(scene, Material(ior=1.0), 161, 121)
    elevation, azimuth = math.radians(45), math.radians(315)
    lamp = 40 * np.array(
        [
            math.sin(azimuth) * math.cos(elevation),
            -math.cos(azimuth) * math.cos(elevation),
            math.sin(elevation),
        ]
    )
    for column, x in ((0, 0.05), (80, 8.0), (160, 15.95)):
        ray = lamp - np.array([x - 8, -6, 0])
        far = np.linalg.norm(ray)
        expected = (ray[2] / far) * (ray @ lamp / (far * 40)) / far**2
        assert bare.values[0, 0, column] == pytest.approx(expected, rel=0.003)


def test_furnace():
    """In an even white room no surface throws back more than it gets, and a bare body all of it."""
    bare = interface(1.0, 0.4)
    assert bare.body * bare.transmit_sky + bare.shine_sky == pytest.approx(1, abs=1e-6)
    for alpha in (0.1, 0.3, 0.5):
        paper = interface(1.5, alpha)
        assert paper.body * paper.transmit_sky + paper.shine_sky <= 1
        assert np.all(paper.transmit <= 1)


def test_smooth_interface_against_fresnel():
    """Normal reflectance ((n - 1) / (n + 1))^2 and the diffuse reflectance of n = 1.5 from both
    sides: 0.0918 and 0.5963 (Egan and Hilgeman 1973, as tabled by d'Eon and Irving 2011)."""
    smooth = interface(1.5, 0.01)
    assert smooth.shine_sky == pytest.approx(0.04, abs=0.001)
    assert 1 - smooth.transmit_sky == pytest.approx(0.0918, abs=0.003)
    inside = 1 - smooth.transmit[-1] / (smooth.body * 1.5**2)
    assert inside == pytest.approx(0.5963, abs=0.01)


def test_rough_interface_against_chance():
    """What gets in straight down through 1.30 at alpha 0.42, by drawing two million facets.

    Facets by GGX's own density (Walter et al. 2007, equations 33 to 36), each weighed by how much
    of it is seen and by Smith's masking of the way on; nothing of ours but the formulas they name.
    """
    rng = np.random.default_rng(5)
    u = rng.uniform(size=2_000_000)
    alpha, eta = 0.42, 1.30
    slope2 = alpha**2 * u / (1 - u)
    cosine = 1 / np.sqrt(1 + slope2)
    inside = np.sqrt(1 - (1 - cosine**2) / eta**2)
    s = (cosine - eta * inside) / (cosine + eta * inside)
    p = (eta * cosine - inside) / (eta * cosine + inside)
    # Snell: the ray goes on along -wi / eta + (c / eta - c_t) m.
    down = 1 / eta - (cosine / eta - inside) * cosine
    masked = 2 / (1 + np.sqrt(1 + alpha**2 * (1 - down**2) / down**2))
    # A facet drawn by D(m) cos m covers its share of the plane once: no weight is left over.
    passed = float(((1 - (s * s + p * p) / 2) * masked).mean())
    assert interface(eta, alpha).transmit[-1] == pytest.approx(passed, abs=3e-4)


def test_a_window_no_brighter_than_the_sky_is_sky():
    """Wherever it stands: it takes as much of the sky's light as it sends in itself."""
    same = (0.5, 0.5, 0.5)
    window = Window(60, 60, 50, elevation_deg=30, radiance=same)
    sheet = Sheet((box(-5, -5, 35, 25),), Flat((255, 255, 255)), material=BARE)
    found = shade_all(LitScene(30, 20, (sheet,), window=window, sky=Sky(same)), 4)
    assert np.ptp(found) / found.mean() < 0.002


def test_an_even_sky_alone_fills_and_occludes():
    """A sheet half a hemisphere away: at a straight edge on the gap's foot half the sky is left."""
    dark = Window(0.01, 0.01, radiance=(1e-6, 1e-6, 1e-6))  # too small to hide any sky
    lifted = Sheet((box(-90, -90, 2, 90),), Flat((0, 0, 0)), Plane(0.3), 0.001, BARE)
    floor = Sheet((box(-90, -90, 90, 90),), Flat((255, 255, 255)), material=BARE, thickness_in=1e-4)
    scene = LitScene(12, 2, (floor, lifted), window=dark, sky=Sky((1, 1, 1)))
    found = shade_all(scene, 20)[1, 20]
    open_sky = found[-1]
    at = {d: found[round((2 + d) * 20)] / open_sky for d in (0.15, 0.3, 0.6)}
    for d, value in at.items():
        d += 0.5 / 20
        gap = 0.3 + 0.001 - 1e-4
        assert value == pytest.approx(1 - (1 - d / math.hypot(d, gap)) / 2, abs=0.03)


def test_colours_follow_the_proof():
    """In the open, each tone comes out as its own linear light times white paper's."""
    for level in (90, 128, 180, 230):
        sheet = Sheet((box(-5, -5, 9, 9),), Flat((level,) * 3), material=BARE)
        found = shade_all(LitScene(4, 3, (sheet,)), 10)[:, 15, 20]
        white = replace(sheet, art=Flat((255, 255, 255)))
        paper = shade_all(LitScene(4, 3, (white,)), 10)[:, 15, 20]
        # The shine taken off is a little less than the shine put on, the less the lighter.
        assert np.allclose(found / paper, LINEAR[level], rtol=0.02, atol=0.009)


@pytest.mark.parametrize("name", quickly(scene_names(), lambda n: n % 3 == 0))
def test_white_paper_never_clips(name: str):
    """Nor where it lies nearest the window, on a table as wide as a large suite's."""
    found = read_scene(name, Path())
    paper = Sheet((box(-1, -1, 33, 41),), Flat(parse_hex(PAPER_COLOURS["white"].colour_hex)))
    scene = LitScene(32, 32 / found.aspect, (paper,), found.surface, found.window, found.sky)
    picture = light(scene, 5)
    assert picture.max() < 255
    # Where the window stands to one side the fall of its light is still to be seen.
    if found.window.elevation_deg < 50:
        assert np.ptp(picture) > 12


def test_same_scene_same_bytes(monkeypatch: pytest.MonkeyPatch):
    from mockup.render import light as room

    scene = LitScene(4, 3, (card(plane=Plane(0.1)), card((80, 30, 30), plane=Plane(0.15, 0.01))))
    first = light(scene, 40)
    monkeypatch.setattr(room, "_workers", lambda: 1)
    assert np.array_equal(first, light(scene, 40))


def test_hidden_work_changes_nothing():
    """What lies wholly under another sheet cannot be seen in the picture."""
    top = Sheet((box(0.5, 0.5, 3.5, 2.8),), Flat((200, 190, 180)), Plane(0.05), material=BARE)
    alone = light(LitScene(4, 3, (top,)), 40)
    under = Sheet((box(1, 1, 3, 2),), Flat((255, 0, 0)), thickness_in=0.02, material=BARE)
    both = light(LitScene(4, 3, (replace(under, bow=None), top)), 40)
    assert np.abs(alone.astype(int) - both).max() <= 1


def test_twice_the_size_is_the_same_picture():
    """Boxes of 2 x 2 pixels at double size against the smaller picture, grain and bevel left out."""
    scene = LitScene(
        4, 3, (card((200, 120, 90), plane=Plane(0.1)),), Surface(Photograph(grey(), 10))
    )
    small, large = linear(light(scene, 40)), linear(light(scene, 80))
    boxes = large.reshape(120, 2, 160, 2, 3).mean(axis=(1, 3))
    assert np.abs(boxes - small).mean() < 0.002
    assert np.percentile(np.abs(boxes - small), 99) < 0.03


def grey() -> np.ndarray:
    return np.full((4, 4, 3), 128, np.uint8)


def test_shadow_falls_away_from_the_window_and_widens_with_height():
    def darkness(lift: float) -> np.ndarray:
        scene = LitScene(5, 4, (card(plane=Plane(lift)),), Surface(Photograph(grey(), 10)))
        return linear(light(scene, 40))[..., 1]

    low, high = darkness(0.02), darkness(0.3)
    lit, shaded = high[:34, 60].mean(), high[104:110, 80].mean()
    assert shaded < 0.8 * lit
    assert (high[100:140, 80] < 0.95 * high[150, 80]).sum() > (
        low[100:140, 80] < 0.95 * low[150, 80]
    ).sum()


def test_art_is_placed_by_pixel():
    art = np.zeros((60, 80, 3), np.uint8)
    art[:, :40] = (250, 250, 250)
    sheet = Sheet((box(1, 1, 3, 2.5),), Picture(art, 40, 40), material=BARE)
    found = light(LitScene(4, 3, (sheet,)), 40)
    assert found[70, 78].min() > 180
    assert found[70, 81].max() < 60


def test_plain_keeps_every_byte_of_art():
    rng = np.random.default_rng(1)
    art = rng.integers(0, 256, (60, 80, 3), np.uint8)
    sheet = Sheet((box(1, 1, 3, 2.5),), Picture(art, 40, 40), material=BARE)
    found = plain(LitScene(4, 3, (sheet,)), 40)
    assert np.array_equal(found[42:98, 42:118], art[2:58, 2:78])


def test_vellum_lets_the_sheet_below_through():
    below = card((200, 30, 30))
    above = card((240, 240, 240), plane=Plane(0.02))
    vellum = replace(above, material=replace(BARE, film=film_of(0.5, (240, 240, 240))))
    opaque = linear(light(LitScene(4, 3, (below, above)), 40))[70, 80]
    clear = linear(light(LitScene(4, 3, (below, vellum)), 40))[70, 80]
    assert opaque[0] == pytest.approx(opaque[1], rel=0.05)
    assert clear[0] > 1.2 * clear[1]


def test_painted_edge_shows_at_the_rim_only():
    edged = replace(BARE, bevel_in=0.05, edge_rgb=(200, 0, 0))
    sheet = replace(card(), material=edged)
    found = linear(light(LitScene(4, 3, (sheet,)), 40))
    assert found[70, 41, 0] > 1.5 * found[70, 41, 1]
    assert found[70, 80, 0] == pytest.approx(found[70, 80, 1], rel=0.03)


def test_crease_is_lit_on_one_flank_and_dim_on_the_other():
    fold = Crease((2, 0.5), (2, 3), 0.1, 0.15)
    found = linear(light(LitScene(4, 3, (replace(card((200, 200, 200)), creases=(fold,)),)), 40))
    left, right, flat = (found[70, x, 1] for x in (78, 82, 100))
    assert left > flat * 1.03
    assert right < flat * 0.97


def test_a_curled_corner_throws_more_shadow():
    flat = card(plane=Plane(0.02))
    curled = replace(flat, bow=Bow(1, 1.75, 0, 2, 0.3))
    floor = Surface(Photograph(grey(), 10))
    a, b = (linear(light(LitScene(4, 3, (s,), floor), 40))[60:100, 126, 1] for s in (flat, curled))
    assert b.mean() < 0.9 * a.mean()


@pytest.mark.parametrize("kind", ["plaster", "linen", "oak", "slate"])
def test_surfaces_are_seeded_and_in_their_own_colour(kind: str):
    scene = LitScene(5, 4, (), Surface(kind, 3))
    first, other = light(scene, 30), light(replace(scene, surface=Surface(kind, 4)), 30)
    assert np.array_equal(first, light(scene, 30))
    assert not np.array_equal(first, other)
    dyed = light(replace(scene, surface=Surface(kind, 3, (150, 40, 40))), 30)
    assert dyed[..., 0].mean() > 2 * dyed[..., 1].mean()


def test_unknown_names_are_told():
    with pytest.raises(SuiteError, match='no surface called "linnen"; did you mean "linen"'):
        light(LitScene(2, 2, (), Surface("linnen")), 20)
    with pytest.raises(SuiteError, match='no paper grain called "coton"; did you mean "cotton"'):
        light(LitScene(2, 2, (replace(card(), material=Material("coton")),)), 20)


def test_progress_grows_to_the_whole():
    told: list[float] = []
    light(LitScene(4, 3, (card(),)), 40, told.append)
    assert told == sorted(told)
    assert told[-1] == 1


@pytest.mark.parametrize("ground", [(242, 241, 238), (20, 20, 20), (200, 30, 30)])
@pytest.mark.parametrize("opacity", [0.35, 0.55, 0.9])
def test_paper_under_a_sheet_is_as_kubelka_has_it(
    ground: tuple[int, int, int], opacity: float
) -> None:
    """Held against the same sheet, opaque: the light falls alike on both."""
    white = (242, 241, 238)
    film = film_of(1 - opacity, white)
    assert film is not None
    below = Sheet((box(0.6, 0.6, 3.4, 2.4),), Flat(ground), material=BARE)
    solid = Sheet(
        (box(1, 1, 3, 2),), Flat(white), Plane(0.012), 0.003, replace(BARE, bevel_in=0.001)
    )
    thin = replace(solid, material=replace(solid.material, film=film))
    seen, own = (linear(light(LitScene(4, 3, (below, each)), 40))[60, 80] for each in (thin, solid))
    pad = np.array(film.body)
    assert seen / own == pytest.approx(film.over(pad, linear(np.array(ground))) / pad, abs=0.04)


def test_a_sheet_seen_through_is_no_lighter_at_its_rim_than_within():
    """Light gets under it from the side for no more than its gap of some thousandths of an inch."""
    film = film_of(0.65, (242, 241, 238))
    below = Sheet((box(1, 1, 3, 2),), Flat((240, 240, 236)), Plane(0.012), 0.012, BARE)
    above = Sheet((box(1, 1, 3, 2),), Flat((242, 241, 238)), Plane(0.014), 0.003, BARE)
    thin = replace(above, material=replace(BARE, film=film))
    seen, own = (linear(light(LitScene(4, 3, (below, each)), 80)) for each in (thin, above))
    across = (seen / own)[120, 81:160, 1]
    down = (seen / own)[81:120, 160, 1]
    assert across == pytest.approx(across[-1], rel=0.015)
    assert down == pytest.approx(down[-1], rel=0.015)


def test_plain_light_passes_through_vellum_and_mixes_edges_in_linear_light():
    """What is below as the sheet's formula has it; an edge at half a pixel is half the light."""
    below = Sheet((box(0, 0, 4, 3),), Flat((200, 40, 40)), material=BARE)
    film = film_of(0.5, (250, 250, 250))
    assert film is not None
    vellum = Sheet(
        (box(1, 1, 3.05, 2.5),), Flat((250, 250, 250)), material=replace(BARE, film=film)
    )
    black = Sheet((box(0.2, 0.2, 0.85, 0.8),), Flat((0, 0, 0)), material=BARE)
    found = linear(plain(LitScene(4, 3, (below, vellum, black)), 10))
    red = linear(np.array((200, 40, 40), np.uint8))
    own = linear(np.array((250, 250, 250), np.uint8))
    assert found[15, 20] == pytest.approx(film.over(own, red), abs=0.01)
    assert found[5, 8] == pytest.approx(0.5 * red, abs=0.01)


def test_plain_light_keeps_the_seams_of_folded_paper():
    """White on white has no edge of its own: a flap is told by a darker line just inside it."""
    white = Flat((250, 250, 250))
    back = Sheet((box(0, 0, 4, 3),), white, material=BARE)
    flap = Sheet((box(1, 1, 3, 2),), white, material=BARE, folded=True)
    found = plain(LitScene(4, 3, (back, flap)), 60)[..., 1].astype(int)
    assert found[90, 60] < 235
    assert found[90, 57] == found[90, 63] == found[90, 120] == 250
