"""The suite on its table: true relative scale, type in sight, places a scene fixes."""

from dataclasses import replace
from pathlib import Path

import pytest
from shapely import box as shapely_box
from shapely.geometry import Polygon

from mockup.artwork.objects import keep_clear, objects_of
from mockup.dies.making import make_die
from mockup.envelopes.views import ClosedBack, FaceUp, OpenBack
from mockup.errors import LimitError, SuiteError
from mockup.geometry.flatten import polygon, ring
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.render.composition import (
    Composition,
    LaidEnvelope,
    LaidPiece,
    compose,
    cropped,
)
from mockup.render.faces import EnvelopeView
from mockup.render.flatlay import Shot, composed
from mockup.render.folded import pose_of
from mockup.render.items import piece_item
from mockup.render.scenes import Place, read_scene
from mockup.suite.reading import read_suite


def lowest_sheet(back: EnvelopeView) -> Shape:
    assert not isinstance(back, FaceUp)
    return back.back_sheet if isinstance(back, OpenBack) else back.body


def test_a_lined_envelope_lies_open_and_a_plain_one_closed(demo_suite: Path) -> None:
    backs = {
        e.envelope.name: e.back for e in laid_out(demo_suite).laid if isinstance(e, LaidEnvelope)
    }
    assert isinstance(backs["outer"], OpenBack)
    assert isinstance(backs["reply"], ClosedBack)


def laid_out(suite_path: Path, aspect: float = 4 / 3) -> Composition:
    suite = read_suite(suite_path)
    return compose(suite, read_scene("limewash", suite_path.parent), aspect, 1)


@pytest.mark.parametrize("aspect", [16 / 9, 4 / 3, 4 / 5])
def test_no_type_is_hidden_and_nothing_leaves_the_picture(demo_suite: Path, aspect: float) -> None:
    composition = laid_out(demo_suite, aspect)
    frame = shapely_box(0, 0, composition.frame.width_in, composition.frame.height_in)
    above: list[Polygon] = []
    for each in reversed(composition.laid):
        shape = each.piece.die.shape if isinstance(each, LaidPiece) else lowest_sheet(each.back)
        lies = polygon(shape.mapped(each.placed.to_table))
        assert frame.contains(lies)
        if isinstance(each, LaidPiece):
            die = each.piece.die
            marks = keep_clear(
                objects_of([(each.page, each.placement)])[0], die.width_in, die.height_in
            )
            for mark in marks:
                corners = [each.placed.to_table.point(corner) for corner in mark.corners()]
                hidden = sum(Polygon(corners).intersection(sheet).area for sheet in above)
                assert hidden < 1e-3
        above.append(lies)


def test_pieces_keep_their_true_relative_size(demo_suite: Path) -> None:
    for each in laid_out(demo_suite).laid:
        if isinstance(each, LaidPiece):
            assert abs(each.placed.to_table.determinant) == pytest.approx(1.0)


def test_a_scene_may_fix_places(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    scene = read_scene("limewash", demo_suite.parent)
    places = {
        "outer": Place(at=(9, 6), angle_deg=0, layer=0),
        "invitation": Place(at=(4, 5), angle_deg=-3, layer=1),
    }
    fixed = compose(suite, replace(scene, width_in=14.0, places=places), 4 / 3, 1)
    assert fixed.frame.width_in == 14.0
    assert [each.placed.name for each in fixed.laid] == ["envelope/outer", "piece/invitation"]
    outline = ring(suite.piece("invitation").die.shape.outer, 0.01)
    centre = fixed.laid[1].placed.to_table.point(Box(*(0, 0, *outline.max(axis=0))).centre)
    assert centre == pytest.approx((4, 5), abs=0.02)


def test_a_place_for_a_piece_the_suite_has_not(demo_suite: Path) -> None:
    scene = replace(
        read_scene("limewash", demo_suite.parent),
        width_in=14.0,
        places={"invitaton": Place(at=(1, 1))},
    )
    with pytest.raises(SuiteError, match='did you mean "invitation"'):
        compose(read_suite(demo_suite), scene, 4 / 3, 1)


def test_a_crop_stays_inside_the_picture_and_holds_its_point(demo_suite: Path) -> None:
    composition = laid_out(demo_suite)
    point = Point(composition.frame.width_in, 1.0)
    part = cropped(composition, point, 3.0)
    assert part.frame.width_in == 3.0
    before, after = composition.laid[0].placed.to_table, part.laid[0].placed.to_table
    moved = (point.x + after.e - before.e, point.y + after.f - before.f)
    assert moved[0] == pytest.approx(3.0) and 0 <= moved[1] <= part.frame.height_in


def test_a_picture_over_the_limit_is_refused_before_any_work(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    shot = Shot(suite, read_scene("limewash", demo_suite.parent), 12_001)
    with pytest.raises(LimitError, match="12000 px width"):
        composed(shot)


def test_the_scene_says_what_lies_open_and_what_lies_above(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    above = (("reply", "invitation"), ("details", "envelopes.reply"))
    scene = replace(suite.scene, open=("reply",), above=above, main="details")
    composition = compose(replace(suite, scene=scene), read_scene("limewash", Path()), 4 / 3, 1)
    names = [each.placed.name for each in composition.laid]
    assert names.index("piece/reply") > names.index("piece/invitation")
    assert names.index("piece/details") > names.index("envelope/reply")
    backs = {e.envelope.name: e.back for e in composition.laid if isinstance(e, LaidEnvelope)}
    assert isinstance(backs["reply"], OpenBack)
    assert isinstance(backs["outer"], ClosedBack)
    (main,) = (e for e in composition.laid if isinstance(e, LaidPiece) and e.role == "main")
    assert main.piece.name == "details"


def test_a_hole_is_kept_clear(demo_suite: Path) -> None:
    die = make_die("tag", 2.5, 4.25)
    tag = replace(read_suite(demo_suite).piece("reply"), die=die)
    (hole,) = die.shape.holes
    assert piece_item(pose_of(tag), (), "").keep_clear == (pytest.approx(hole.box, abs=0.01),)
