"""Folded cards on the table: their outline from above, where their panels come to rest."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from mockup.artwork.objects import ArtObject
from mockup.geometry.measure import area
from mockup.geometry.point import Box
from mockup.render.flatlay import Shot, composed, lit_scene
from mockup.render.folded import HALF_OPEN_DEG, STANDING_DEG, pose_of
from mockup.render.light.scene import LitScene, Picture, Sheet, height, raised
from mockup.render.scenes import Place, read_scene
from mockup.suite.reading import read_suite
from mockup.suite.suite import Piece, Shown
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.menu]\nart = "menu.pdf"\ncard = "A7"\n'
MARK = "0.1 g {x} 250 40 40 re f"


def piece_of(folder: Path, more: str, size_in: tuple[float, float] = (10.25, 7.25)) -> Piece:
    make_pdf(folder / "menu.pdf", size_in, pages=2, content=MARK.format(x=560))
    path = folder / "suite.toml"
    path.write_text(HEAD + more, encoding="utf-8")
    (piece,) = read_suite(path).pieces
    return piece


def left(folder: Path, shown: Shown) -> Piece:
    return piece_of(folder, f'fold = "left"\ninside = {{ page = 2 }}\nshown = "{shown}"\n')


def scene_of(folder: Path, piece: Piece, angle_deg: float = 0.0) -> tuple[LitScene, float]:
    suite = replace(read_suite(folder / "suite.toml"), pieces=(piece,))
    places = {"menu": Place(at=(8, 6), angle_deg=angle_deg)}
    scene = replace(read_scene("limewash", folder), places=places, width_in=16.0)
    shot = Shot(suite, scene, 320)
    return lit_scene(shot, composed(shot))


def corners(sheet: Sheet) -> np.ndarray:
    """The ends of a sheet's fold and of its free edge, and its underside there: (n, 3)."""
    ring = sheet.rings[0]
    return np.column_stack([ring, height(sheet.plane, None, *ring.T.copy())])


def test_from_above_a_panel_is_as_wide_as_the_cosine_of_its_rise(tmp_path: Path) -> None:
    scene, _ = scene_of(tmp_path, left(tmp_path, "half-open"))
    under, front = scene.sheets
    wide = [np.ptp(sheet.rings[0][:, 0]) for sheet in (under, front)]
    assert wide[1] == pytest.approx(wide[0] * math.cos(math.radians(HALF_OPEN_DEG)))
    assert np.ptp(front.rings[0][:, 1]) == pytest.approx(7)


@pytest.mark.parametrize("angle_deg", [0, 25, -140])
def test_a_raised_front_is_a_rigid_panel_hinged_at_the_fold(
    tmp_path: Path, angle_deg: float
) -> None:
    """In space it still has the card's size, and its fold lies on the panel under it."""
    scene, _ = scene_of(tmp_path, left(tmp_path, "half-open"), angle_deg)
    under, front = scene.sheets
    found = corners(front)
    low = found[np.argsort(found[:, 2])]
    sides = [math.dist(low[0], low[1]), math.dist(low[2], low[3])]
    assert sides == pytest.approx([7, 7], abs=1e-6)
    assert min(math.dist(low[0], other) for other in low[2:]) == pytest.approx(5, abs=2e-2)
    ground = height(raised(under), None, *low[:2, :2].T.copy())
    assert low[:2, 2] == pytest.approx(ground, abs=1e-6)
    assert low[2, 2] - low[0, 2] == pytest.approx(5 * math.sin(math.radians(HALF_OPEN_DEG)), 2e-2)


def test_a_tent_stands_on_two_feet_and_meets_in_its_ridge(tmp_path: Path) -> None:
    piece = piece_of(tmp_path, 'fold = "top"\nshown = "standing"\n', (5.25, 14.25))
    scene, _ = scene_of(tmp_path, piece, 10)
    back, front = (corners(sheet) for sheet in scene.sheets)
    high = 7 * math.sin(math.radians(STANDING_DEG))
    for panel in (back, front):
        heights = np.sort(panel[:, 2])
        assert heights[2:] - heights[:2] == pytest.approx([high, high], abs=1e-3)
    ridges = [panel[np.argsort(panel[:, 2])[2:]] for panel in (back, front)]
    assert np.sort(ridges[0], axis=0) == pytest.approx(np.sort(ridges[1], axis=0), abs=1e-3)


def test_every_pose_has_its_outline(tmp_path: Path) -> None:
    areas = {shown: area(pose_of(left(tmp_path, shown)).seen.die.shape)
             for shown in ("closed", "half-open", "inside")}  # fmt: skip
    assert areas == pytest.approx({"closed": 35, "half-open": 35, "inside": 70})
    tent = piece_of(tmp_path, 'fold = "top"\nshown = "standing"\n', (5.25, 14.25))
    low = 70 * math.cos(math.radians(STANDING_DEG))
    assert area(pose_of(tent).seen.die.shape) == pytest.approx(low)


def test_nothing_may_lie_on_a_raised_panel_and_a_back_is_not_kept_clear(tmp_path: Path) -> None:
    marks = [ArtObject("text", Box(1, 1, 2, 2)), ArtObject("text", Box(1, -3, 2, -2))]
    piece = piece_of(tmp_path, 'fold = "top"\n', (5.25, 14.25))
    assert [tuple(box) for box in pose_of(piece).kept_clear(marks)] == [pytest.approx((1, 1, 2, 2))]
    (whole,) = pose_of(left(tmp_path, "half-open")).kept_clear(marks)
    assert np.ptp(np.asarray(whole), axis=0) == pytest.approx((5, 7))


def test_the_fronts_art_is_drawn_in_towards_its_fold(tmp_path: Path) -> None:
    """A mark 2.65 to 3.21 in from the fold is seen as near as the cosine of the rise has it."""
    middles: list[float] = []
    for shown in ("closed", "half-open"):
        scene, ppi = scene_of(tmp_path, left(tmp_path, shown))
        front = scene.sheets[-1]
        assert isinstance(front.art, Picture)
        dark = np.nonzero((front.art.pixels < 120).all(axis=2))[1]
        middles.append((front.art.left_px + dark.mean() + 0.5) / ppi - front.rings[0][:, 0].min())
    assert middles[0] == pytest.approx((560 + 20) / 72 - 5.125, abs=0.06)
    short = math.cos(math.radians(HALF_OPEN_DEG))
    assert middles[1] == pytest.approx(middles[0] * short, abs=0.06)


def test_inside_lies_flat_with_a_soft_valley_at_its_fold(tmp_path: Path) -> None:
    scene, _ = scene_of(tmp_path, left(tmp_path, "inside"))
    (sheet,) = scene.sheets
    (crease,) = sheet.creases
    assert crease.slope < 0
    assert (crease.start[0], crease.end[0]) == pytest.approx((8, 8))
    assert sorted((crease.start[1], crease.end[1])) == pytest.approx((2.5, 9.5))


def test_a_closed_card_is_two_papers_thick(tmp_path: Path) -> None:
    scene, _ = scene_of(tmp_path, left(tmp_path, "closed"))
    under, front = scene.sheets
    assert front.plane.z0_in >= raised(under).z0_in - 1e-9
    assert np.allclose(under.rings[0], front.rings[0])
