"""Things beside the paper: read true to size, modelled as they are drawn, never on the paper."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from shapely import Polygon, box, unary_union

from mockup.envelopes.views import FaceUp, face_up
from mockup.errors import InputError, LimitError, SuiteError
from mockup.geometry.affine import IDENTITY, rotation, translation
from mockup.pixels import View
from mockup.render.composition import Composition, LaidEnvelope, outline_points
from mockup.render.flatlay import Shot, composed, lit_scene
from mockup.render.light.scene import Picture, Plane, height
from mockup.render.scenes import Wish, read_scene, scene_names
from mockup.render.things.places import place_things
from mockup.render.things.reading import PlacedThing, Thing, read_thing
from mockup.render.things.sheets import footprint, mapped, sheets_of
from mockup.suite.reading import read_suite
from mockup.suite.scene_file import thing_names

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="2in" height="1in" viewBox="0 0 200 100">'
VIEW = View(0.0, 0.0, 400, 400, 100.0)


def drawn(folder: Path, inside: str) -> Thing:
    (folder / "mine.svg").write_text(f"{HEAD}{inside}</svg>")
    return read_thing("mine.svg", folder)


@pytest.mark.parametrize("name", thing_names())
def test_every_shipped_thing_is_read_at_its_size(name: str) -> None:
    thing = read_thing(name, Path())
    left, top, right, bottom = thing.area.bounds
    assert thing.area.area > 0.1
    assert max(abs(left), abs(right)) < thing.width_in / 2 + 0.3
    assert max(abs(top), abs(bottom)) < thing.height_in / 2 + 0.6


def test_a_circle_is_as_large_as_a_circle(tmp_path: Path) -> None:
    """Area pi r^2, perimeter 2 pi r (closed forms), about the middle of the drawing."""
    thing = drawn(tmp_path, '<circle cx="100" cy="50" r="40" fill="#804030"/>')
    assert thing.area.area == pytest.approx(np.pi * 0.16, rel=2e-3)
    assert thing.area.length == pytest.approx(2 * np.pi * 0.4, rel=2e-3)
    assert thing.area.centroid.coords[0] == pytest.approx((0, 0), abs=1e-6)


def test_a_stroke_is_a_part_as_wide_as_it_is_drawn(tmp_path: Path) -> None:
    thing = drawn(tmp_path, '<path d="M20 50H180" fill="none" stroke="#aa9977" stroke-width="10"/>')
    assert thing.area.area == pytest.approx(1.6 * 0.1)
    assert thing.parts[0].spine is not None


def test_holes_are_cut_and_groups_hand_down_their_measures(tmp_path: Path) -> None:
    thing = drawn(
        tmp_path,
        '<g data-thickness-in="0.03" data-lift-in="0.1 0.4" fill="#ffffff">'
        '<rect x="20" y="20" width="160" height="60"/>'
        '<rect x="80" y="40" width="40" height="20" data-cut="yes"/></g>',
    )
    (part,) = thing.parts
    assert part.area.area == pytest.approx(1.6 * 0.6 - 0.4 * 0.2)
    assert part.thickness_in == 0.03
    assert part.lift_in == (0.1, 0.4)


def test_colours_may_be_written_as_drawing_programs_write_them(tmp_path: Path) -> None:
    """SVG 1.1 11.3: black where no fill is said; 6.4: a style attribute wins over the others."""
    shapes = '<circle r="9"/><circle r="9" fill="#aabbcc" style="fill: #fa3"/>'
    assert [part.rgb for part in drawn(tmp_path, shapes).parts] == [(0, 0, 0), (255, 170, 51)]


def test_what_nonzero_fills(tmp_path: Path) -> None:
    """SVG 1.1 11.3: a loop the other way round is a hole by nonzero; evenodd looks at no way."""
    hole = "M20 20H180V80H20Z M80 40V60H120V40Z"
    same = "M20 20H180V80H20Z M80 40H120V60H80Z"
    whole, less = 1.6 * 0.6, 1.6 * 0.6 - 0.4 * 0.2
    for path, rule, area in (
        (hole, "nonzero", less),
        (same, "nonzero", whole),
        (same, "evenodd", less),
    ):
        shape = f'<path d="{path}" fill="#ffffff" fill-rule="{rule}"/>'
        assert drawn(tmp_path, shape).area.area == pytest.approx(area)


def test_a_leaf_leans_from_its_foot_to_its_tip(tmp_path: Path) -> None:
    leaf = '<path d="M50 50L150 45V55Z" fill="#8e9c86" data-lift-in="0.1 0.5"/>'
    thing = drawn(tmp_path, leaf)
    at = translation(2, 2) @ rotation(90)
    (sheet,) = sheets_of(PlacedThing(thing, at), VIEW, Plane(0.25))
    foot, tip = (2.0, 2.0 - 0.5), (2.0 - 0.05, 2.0 + 0.5)
    heights = [sheet.plane.z0_in + sheet.plane.gx * x + sheet.plane.gy * y for x, y in (foot, tip)]
    assert heights == pytest.approx([0.35, 0.75], abs=0.002)


def test_a_round_edge_faces_outward_and_a_hollow_is_darker(tmp_path: Path) -> None:
    thing = drawn(
        tmp_path,
        '<g data-thickness-in="0.1"><circle cx="100" cy="50" r="45" fill="#8f3b2b" '
        'data-round-in="0.12"/><circle cx="100" cy="50" r="20" fill="#8f3b2b" '
        'data-rise-in="-0.05" data-round-in="0.04"/></g>',
    )
    (sheet,) = sheets_of(PlacedThing(thing, translation(2, 2)), VIEW, Plane())
    assert sheet.relief is not None and isinstance(sheet.art, Picture)
    nx, ny, share = sheet.relief.values
    row, column = 200 - sheet.relief.top_px, 200 - sheet.relief.left_px
    assert nx[row, column + 42] > 0.3 > -0.3 > nx[row, column - 42]
    assert ny[row + 42, column] > 0.3 > -0.3 > ny[row - 42, column]
    assert abs(nx[row, column]) < 0.01
    assert share[row, column + 18] < 0.8 < share[row, column]


def test_a_thing_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    with pytest.raises(SuiteError, match='no thing called "twien"; did you mean "twine"'):
        read_thing("twien", tmp_path)
    with pytest.raises(InputError, match="mine.svg: nothing is drawn in it"):
        drawn(tmp_path, "<text>seal</text>")
    with pytest.raises(InputError, match='mine.svg: <circle>: data-lift-in: "high" is no number'):
        drawn(tmp_path, '<circle r="9" data-lift-in="high"/>')
    with pytest.raises(InputError, match='mine.svg: <circle>: fill: "#nope" is not a plain colour'):
        drawn(tmp_path, '<circle r="9" fill="#nope"/>')
    with pytest.raises(InputError, match="reaches outside itself"):
        drawn(tmp_path, '<image href="http://example.org/a.png"/>')


@pytest.fixture(scope="module")
def laid(art: Path) -> Composition:
    suite = read_suite(art / "suite.toml")
    return composed(Shot(suite, read_scene("limewash", art), 400, 4 / 3))


def placed_on(laid: Composition, art: Path, **wish: object) -> tuple[PlacedThing, ...]:
    scene = read_scene("limewash", art)
    found = place_things((Wish.model_validate(wish),), scene, laid)
    return tuple(each for each in found if each is not None)


def papers(laid: Composition) -> list[Polygon]:
    return [Polygon(outline_points(each)) for each in laid.laid]


def test_a_thing_of_very_many_lines_is_refused(tmp_path: Path) -> None:
    lines = "".join(f"L{k % 97} {k % 89}" for k in range(25_000))
    (tmp_path / "knot.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="1in" height="1in" viewBox="0 0 99 99">'
        f'<path d="M0 0{lines}Z"/></svg>',
        encoding="utf-8",
    )
    with pytest.raises(LimitError, match="knot.svg: draws over 20000 lines"):
        read_thing("knot.svg", tmp_path)


def test_no_thing_lies_beside_the_paper_unless_asked_for(laid: Composition) -> None:
    assert laid.things == ()


def test_a_thing_on_the_table_touches_no_paper(laid: Composition, art: Path) -> None:
    (placed,) = placed_on(laid, art, svg=str(art / "things" / "seal.svg"), where="empty")
    area = mapped(placed.thing.area, placed.to_table)
    frame = box(0, 0, laid.frame.width_in, laid.frame.height_in)
    assert not area.intersects(unary_union(papers(laid)))
    assert frame.contains(area)


def test_a_tucked_sprig_lies_under_paper_and_shows_in_one_piece(
    laid: Composition, art: Path
) -> None:
    (placed,) = placed_on(laid, art, svg="purslane", where="under", run_out=0.35)
    area = mapped(placed.thing.area, placed.to_table)
    hidden = area.intersection(unary_union(papers(laid))).area / area.area
    assert placed.under
    assert 0.1 < hidden < 0.42


def test_a_seal_closes_the_flap_of_a_closed_envelope(laid: Composition, art: Path) -> None:
    (placed,) = placed_on(laid, art, svg=str(art / "things" / "seal.svg"), where="flap")
    area = mapped(placed.thing.area, placed.to_table)
    on = [k for k, paper in enumerate(papers(laid)) if paper.intersects(area)]
    assert [isinstance(laid.laid[k], LaidEnvelope) for k in on] == [True]


def test_stamps_lie_in_the_corner_of_an_address_side_and_on_no_back(
    laid: Composition, art: Path, demo_suite: Path
) -> None:
    stamps = str(art / "things" / "stamps.svg")
    assert placed_on(laid, art, svg=stamps, where="envelope") == ()
    said = demo_suite.read_text().replace('size = "4-bar"', 'size = "4-bar"\nshown = "face"')
    demo_suite.write_text(said)
    scene = read_scene("limewash", art)
    faced = composed(Shot(read_suite(demo_suite), scene, 400, 4 / 3))
    (placed,) = placed_on(faced, art, svg=stamps, where="envelope")
    (envelope,) = [each for each in faced.laid if isinstance(getattr(each, "back", None), FaceUp)]
    to_envelope = envelope.placed.to_table.inverse() @ placed.to_table
    left, top, right, bottom = mapped(placed.thing.area, to_envelope).bounds
    # 4-bar, 5.125 x 3.625: the upper right quarter, where a carrier looks (USPS DMM 102.1.1)
    assert left > 5.125 / 2 and right < 5.125 and top > 0 and bottom < 3.625 / 2


def test_no_seal_is_laid_on_an_address(laid: Composition, art: Path) -> None:
    faces = tuple(
        replace(each, back=face_up(each.envelope.spec)) if isinstance(each, LaidEnvelope) else each
        for each in laid.laid
    )
    seal = str(art / "things" / "seal.svg")
    assert not placed_on(replace(laid, laid=faces), art, svg=seal, where="flap")


def test_leaves_outside_the_picture_stay_outside_and_hang_towards_the_window(
    laid: Composition, art: Path
) -> None:
    (placed,) = placed_on(laid, art, svg="branch", where="outside", at=(0.05, 0.05))
    frame = box(0, 0, laid.frame.width_in, laid.frame.height_in)
    area = mapped(placed.thing.area, placed.to_table)
    assert not area.intersects(frame)
    assert placed.lift_in >= 1
    assert area.centroid.x < 0 or area.centroid.y < 0  # limewash's window stands at the upper left


def test_things_are_the_same_again(laid: Composition, art: Path) -> None:
    twice = [placed_on(laid, art, svg="twine", where="empty", run_out=0.3) for _ in range(2)]
    assert twice[0][0].to_table == twice[1][0].to_table


def test_a_thing_without_room_is_left_out(laid: Composition, art: Path) -> None:
    assert placed_on(laid, art, svg="branch", where="empty") == ()


@pytest.mark.parametrize("name", scene_names())
def test_every_thing_a_shipped_scene_wants_exists(name: str, art: Path) -> None:
    scene = read_scene(name, art)
    assert {wish.svg for wish in scene.things} <= set(thing_names())


def test_a_footprint_holds_the_whole_thing(art: Path) -> None:
    thing = read_thing("things/stamps.svg", art)
    print_ = footprint(PlacedThing(thing, IDENTITY))
    assert Polygon(print_.rings[0]).buffer(1e-6).contains(thing.area)
    assert replace(print_, plane=Plane()) == print_


def test_paper_rests_on_what_is_tucked_under_it(art: Path) -> None:
    """The path tracer draws what is higher; a sheet must never dip into a sprig under it."""
    scene = read_scene("limewash", art)
    shot = Shot(read_suite(art / "suite.toml"), scene, 300, things=scene.things)
    laid = composed(shot)
    sheets = lit_scene(shot, laid)[0].sheets
    thing = next(each for each in laid.things if each.under)
    parts, papers = sheets[: len(thing.thing.parts)], sheets[len(thing.thing.parts) :]
    met = 0
    for part in parts:
        for paper in papers:
            shared = Polygon(part.rings[0]).buffer(0).intersection(Polygon(paper.rings[0]))
            for x, y in [] if shared.is_empty else [shared.representative_point().coords[0]]:
                here = np.array([x]), np.array([y])
                highest = height(part.plane, part.bow, *here)[0] + part.thickness_in
                assert height(paper.plane, paper.bow, *here)[0] > highest - 0.004
                met += 1
    assert met
