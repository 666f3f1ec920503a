"""Papers as sheets for the light: every one with its stock's thickness, rim and grain."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.render.composition import LaidPiece
from mockup.render.flatlay import Shot, composed, lit_scene
from mockup.render.light.scene import Picture
from mockup.render.scenes import Place, read_scene
from mockup.suite.reading import read_suite

PLACES = {"details": Place(at=(4, 4), angle_deg=30), "outer": Place(at=(10, 6), angle_deg=-5)}


@pytest.fixture(scope="module")
def shot(art: Path) -> Shot:
    """The details card turned by 30 degrees and the open envelope, apart on a table."""
    scene = replace(read_scene("limewash", art), places=PLACES, width_in=16.0)
    return Shot(read_suite(art / "suite.toml"), scene, 320)


def test_sheets_have_their_stocks_thickness_rim_and_grain(shot: Shot) -> None:
    """A mil is a thousandth of an inch; the rim rounds off a part of the thickness."""
    composition = composed(shot)
    lit, _ = lit_scene(shot, composition)
    (card,) = [laid for laid in composition.laid if isinstance(laid, LaidPiece)]
    stock = card.piece.stock
    (sheet,) = [s for s in lit.sheets if s.angle_deg == 30]
    assert sheet.thickness_in == pytest.approx(stock.caliper_mil / 1000)
    assert sheet.material.grain == stock.grain
    for each in lit.sheets:
        assert 0.1 * each.thickness_in < each.material.bevel_in < 0.5 * each.thickness_in


def test_a_raised_card_stands_off_the_table_by_its_lift(shot: Shot) -> None:
    lift = shot.scene.lift_in["card"]
    lit, _ = lit_scene(shot, composed(shot))
    (sheet,) = [s for s in lit.sheets if s.angle_deg == 30]
    assert sheet.plane.z0_in == pytest.approx(lift, abs=1e-6)
    assert lift > 0


def test_art_lies_where_its_card_lies(shot: Shot) -> None:
    """The card's ink, drawn at the picture's pixels, has the middle of its box at its place."""
    lit, ppi = lit_scene(shot, composed(shot))
    (sheet,) = [s for s in lit.sheets if s.angle_deg == 30]
    assert isinstance(sheet.art, Picture)
    height, width = sheet.art.pixels.shape[:2]
    middle = ((sheet.art.left_px + width / 2) / ppi, (sheet.art.top_px + height / 2) / ppi)
    assert middle == pytest.approx((4, 4), abs=0.6 / ppi)
    left, top = sheet.rings[0].min(axis=0) * ppi
    assert left - 2 <= sheet.art.left_px <= left
    assert top - 2 <= sheet.art.top_px <= top


def test_the_suites_seed_is_the_grains(shot: Shot) -> None:
    """Another seed is other paper; the grain's own stays apart from that of the arrangement."""
    composition = composed(shot)
    scene = replace(shot.suite.scene, seed=shot.suite.scene.seed + 5)
    other = replace(shot, suite=replace(shot.suite, scene=scene))
    first, second = (lit_scene(each, composition)[0].seed for each in (shot, other))
    assert first != second
