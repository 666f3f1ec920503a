"""A thing on a piece: it hides no type, keeps from the cut, turns with the piece, holds an edge."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pytest
import shapely
import shapely.affinity
from shapely.geometry.base import BaseGeometry

from mockup.asks.things import roomless_told
from mockup.errors import SuiteError
from mockup.render.composition import Composition, LaidPiece
from mockup.render.flatlay import Shot, composed, flatlay_picture, lit_scene, plain_picture
from mockup.render.scenes import read_scene
from mockup.render.things.reading import PlacedThing
from mockup.render.things.sheets import mapped
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

CARDS = """
title = "Supper"
[pieces.menu]
art = "menu.pdf"
card = "A7"
[pieces.reply]
art = "reply.pdf"
card = "A7"
"""
BELT = """
[pieces.belt]
art = "belt.pdf"
card = "10.3 x 1.5 in"
stock = "text-80-white"
wraps = { cards = ["menu", "reply"], at = 5 }
"""
VEIL = """
[pieces.veil]
art = "veil.pdf"
card = "4 x 6 in"
stock = "translucent-30-white"
over = "menu"
"""
FIXED = """
width_in = 16
[places.menu]
at = [5, 6]
angle_deg = {angle}
{reply}
"""
DOT = """<svg xmlns="http://www.w3.org/2000/svg" width="1in" height="1in" viewBox="0 0 100 100">
<g data-thickness-in="0.08"><circle cx="50" cy="50" r="40" fill="#8f3b2b"/></g></svg>"""
RADIUS_IN = 0.4

Lay = Callable[..., Shot]


def lettered(path: Path, size_in: tuple[float, float], *words: tuple[float, float, str]) -> None:
    """Writes a page with words of 36 pt, their baselines from its lower left, inches."""
    said = "".join(f"BT /F1 36 Tf {72 * x} {72 * y} Td ({word}) Tj ET " for x, y, word in words)
    path = make_pdf(path, size_in, said or "0.9 g 0 0 9 9 re f")
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        font = b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"
        fonts = pikepdf.Dictionary(F1=pikepdf.Object.parse(font))
        pdf.pages[0].Resources = pikepdf.Dictionary(Font=fonts)
        pdf.save(path)


@pytest.fixture
def lay(tmp_path: Path) -> Lay:
    """Lays two cards of 5 x 7 in at fixed places, HIM in the middle of the menu, and dots."""
    # The word: about 0.85 in wide, 0.36 high; the page has 1/8 in bleed.
    lettered(tmp_path / "menu.pdf", (5.25, 7.25), (2.2, 3.5, "HIM"))
    lettered(tmp_path / "reply.pdf", (5.25, 7.25))
    lettered(tmp_path / "belt.pdf", (10.55, 1.75), (4.0, 0.7, "HIM"))
    lettered(tmp_path / "veil.pdf", (4.25, 6.25))
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "dot.svg").write_text(DOT)

    def laid(
        *things: str,
        suite: str = "",
        angle: float = 0,
        bound: bool = False,
        at_in: float = 11.4,
        fixed: str = "",
    ) -> Shot:
        (tmp_path / "suite.toml").write_text(CARDS + suite)
        reply = "" if bound else f"[places.reply]\nat = [{at_in}, 6]\nlayer = 1"
        text = FIXED.format(angle=angle, reply=reply + fixed)
        text += "".join(f'[[things]]\nsvg = "dot.svg"\nwhere = "on"\n{each}\n' for each in things)
        (tmp_path / "mine" / "scene.toml").write_text(text)
        scene = read_scene("mine", tmp_path)
        return Shot(read_suite(tmp_path / "suite.toml"), scene, 640, things=scene.things)

    return laid


def on_piece(composition: Composition, placed: PlacedThing, name: str) -> BaseGeometry:
    """Returns what a thing covers in the inches of what is seen of a piece."""
    (piece,) = [
        each
        for each in composition.laid
        if isinstance(each, LaidPiece) and each.pose.of.name == name
    ]
    area = mapped(placed.thing.area, piece.placed.to_table.inverse() @ placed.to_table)
    left, top, _, _ = piece.piece.die.shape.outer.box
    return shapely.affinity.translate(area, -left, -top)


def middle(shot: Shot, name: str) -> tuple[float, float]:
    """Returns where the one thing's middle lies on a piece."""
    composition = composed(shot)
    (placed,) = composition.things
    return on_piece(composition, placed, name).centroid.coords[0]


def test_it_lies_where_it_is_told_and_turns_with_its_piece(lay: Lay) -> None:
    """Plane geometry: the card is turned by 30 degrees about its middle, at 5, 6 on the table."""
    shot = lay('on = "menu"\nat = [1, 2]', angle=30)
    (placed,) = composed(shot).things
    turn = math.radians(30)
    away = np.array([1 - 2.5, 2 - 3.5])
    x = 5 + away[0] * math.cos(turn) - away[1] * math.sin(turn)
    y = 6 + away[0] * math.sin(turn) + away[1] * math.cos(turn)
    assert (placed.to_table.e, placed.to_table.f) == pytest.approx((x, y), abs=1e-6)
    assert math.degrees(math.atan2(placed.to_table.b, placed.to_table.a)) == pytest.approx(30)


@pytest.mark.parametrize(
    ("word", "at"),
    [
        ("top", (2.5, RADIUS_IN + 1 / 16)),
        ("right", (5 - RADIUS_IN - 1 / 16, 3.5)),
        ("bottom-left", (RADIUS_IN + 1 / 16, 7 - RADIUS_IN - 1 / 16)),
        ("middle", (2.5, 3.5)),
    ],
)
def test_a_word_lays_it_a_sixteenth_inside_the_cut(
    word: str, at: tuple[float, float], lay: Lay
) -> None:
    assert middle(lay(f'on = "reply"\nplace = "{word}"'), "reply") == pytest.approx(at, abs=0.005)


def test_without_a_place_it_lies_beside_the_type_as_near_the_middle_as_can_be(lay: Lay) -> None:
    """The word stands across the middle, from 2.1 to 2.95 in; the dot clears it by 1/8 in and no
    more than a step of the places that are tried, 1/12 in."""
    shot = lay('on = "menu"')
    composition = composed(shot)
    (placed,) = composition.things
    covered = on_piece(composition, placed, "menu")
    # Its baseline is 3.625 in from the trim's top; capitals are 0.718 em high (from memory).
    word = shapely.box(2.08 + 0.04, 3.625 - 0.718 / 2, 2.08 + 1.833 / 2 - 0.04, 3.625)
    assert 0.12 < covered.distance(word) < 0.125 + 0.1
    assert covered.centroid.distance(shapely.Point(2.5, 3.5)) < 0.4 + 0.36 + 0.125 + 0.1


def test_where_it_would_hide_type_it_is_refused_with_the_type_s_place(lay: Lay) -> None:
    with pytest.raises(SuiteError) as refused:
        composed(lay('on = "reply"\nplace = "top"', 'on = "menu"\nat = [2.5, 3.5]'))
    (mistake,) = refused.value.mistakes
    assert mistake.file.endswith("scene.toml") and mistake.key == "things.2.at"
    assert 'would hide type "HIM"' in mistake.sentence and mistake.sentence.count("\n") == 0
    left, top = mistake.sentence.split("from ")[1].split(" to ")[0].split(", ")
    assert float(left) == pytest.approx(2.11, abs=0.02)
    assert float(top.split(" in")[0]) == pytest.approx(3.625 - 0.718 / 2, abs=0.02)


@pytest.mark.parametrize(
    ("thing", "suite", "key", "said"),
    [
        ('on = "mneu"', "", "on", 'no piece called "mneu"; did you mean "menu"?'),
        ('on = "reply"', BELT, "on", '"reply" lies under "menu" in its band'),
        ('on = "belt"', BELT.replace("at = 5", 'shown = "apart"'), "on", "its cards lie apart"),
        ('on = "menu"\nat = [0.3, 2]', "", "at", "does not lie 0.063 in within menu"),
        ('on = "menu"\nat = [0.43, 2]', "", "at", "does not lie 0.063 in within menu"),
        ('on = "menu"\nat = [80, -90]', "", "at", "does not lie 0.063 in within menu"),
        ('on = "menu"\nplace = "top-edge"', "", "place", "does not reach far enough past its top edge"),
        ('on = "belt"\nplace = "left-edge"', BELT, "place", "does not reach far enough past its left edge"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_at_its_key(
    thing: str, suite: str, key: str, said: str, lay: Lay
) -> None:
    shot = lay(thing, suite=suite, bound=suite == BELT)
    with pytest.raises(SuiteError) as refused:
        composed(shot)
    (mistake,) = refused.value.mistakes
    assert mistake.key == f"things.1.{key}" and said in mistake.sentence


def test_on_a_band_it_keeps_from_the_band_s_type_and_not_from_what_is_under_it(lay: Lay) -> None:
    """The strip's word stands from 3.91 in along it, of which 2.64 in are not seen."""
    shot = lay('on = "belt"', suite=BELT.replace("at = 5", "at = 3.5"), bound=True)
    x, y = middle(shot, "belt")
    word = shapely.box(1.27, 0.57, 2.11, 0.92)
    assert shapely.Point(x, y).buffer(RADIUS_IN).distance(word) > 0.1
    assert abs(x - 2.5) < 0.4 and RADIUS_IN + 0.06 <= y <= 1.5 - RADIUS_IN - 0.06
    # Of the bound card the band hides the word in its middle: it may lie there, on the band.
    assert middle(lay('on = "menu"\nat = [3.3, 3.5]', suite=BELT.replace("at = 5", "at = 3.5"),
                      bound=True), "menu") == pytest.approx((3.3, 3.5))  # fmt: skip


def test_it_lies_wholly_on_a_band_or_wholly_beside_it(lay: Lay, tmp_path: Path) -> None:
    """The card, without type, has its middle at 3.5 in, and the band's edge at 3.55 in."""
    lettered(tmp_path / "menu.pdf", (5.25, 7.25))
    belt = BELT.replace("at = 5", "at = 4.3")
    x, y = middle(lay('on = "menu"', suite=belt, bound=True), "menu")
    edges = (4.3 - 0.75, 4.3 + 0.75)
    assert all(abs(y - edge) > RADIUS_IN + 0.03 for edge in edges), (x, y)


def test_it_holds_the_edge_of_a_band_and_of_a_sheet_to_the_card(lay: Lay) -> None:
    """Its middle lies on the edge: of the band at 5 less 0.75 in, of the sheet 1/2 in down."""
    belt = lay('on = "belt"\nplace = "top-edge"', suite=BELT, bound=True)
    assert middle(belt, "menu") == pytest.approx((2.5, 4.25), abs=0.002)
    veil = lay('on = "veil"\nplace = "bottom-edge"', suite=VEIL)
    assert middle(veil, "menu") == pytest.approx((2.5, 6.5), abs=0.002)


def test_one_larger_than_a_band_holds_both_its_edges_to_the_card(lay: Lay, tmp_path: Path) -> None:
    """A seal 0.8 in across on a bare band of half an inch."""
    narrow = BELT.replace("10.3 x 1.5 in", "10.3 x 0.5 in").replace("belt.pdf", "narrow.pdf")
    lettered(tmp_path / "narrow.pdf", (10.55, 0.75))
    composition = composed(lay('on = "belt"', suite=narrow, bound=True))
    covered = on_piece(composition, composition.things[0], "belt")
    left, top, right, bottom = covered.bounds
    assert (top + bottom) / 2 == pytest.approx(0.25, abs=0.01)
    assert (left + right) / 2 == pytest.approx(2.5, abs=0.1)
    assert top < 0 and bottom > 0.5


def test_through_a_sheet_type_is_read_and_not_hidden(lay: Lay) -> None:
    with pytest.raises(SuiteError, match='would hide type "HIM" of menu'):
        composed(lay('on = "veil"\nplace = "middle"', suite=VEIL))


def test_where_other_paper_lies_over_its_place_it_is_left_out_and_told(lay: Lay) -> None:
    """The reply's left side lies 2 in over the menu's right."""
    shot = lay('on = "menu"\nplace = "right"', at_in=8)
    assert composed(shot).things == ()
    (line,) = roomless_told(shot)
    assert line.startswith("dot is not laid: other paper")
    x, _ = middle(lay('on = "menu"', at_in=8), "menu")
    assert x < 3 - RADIUS_IN


def test_it_rests_on_the_band_over_all_and_casts_a_shadow_on_it(lay: Lay) -> None:
    """The scene's window stands at the upper left where it says nothing: the shadow falls to the
    lower right. 0.08 in of wax stand over the strip, as the drawing has it."""
    things = 'on = "belt"\nat = [4.2, 0.75]'
    shot, bare = (lay(each, suite=BELT, bound=True) for each in (things, things))
    composition = composed(shot)
    (placed,) = composition.things
    x, y = placed.to_table.e, placed.to_table.f
    sheets = lit_scene(shot, composition)[0].sheets
    *papers, seal = sheets
    tops = [p.plane.z0_in + p.plane.gx * x + p.plane.gy * y + p.thickness_in for p in papers]
    under = seal.plane.z0_in + seal.plane.gx * x + seal.plane.gy * y
    assert under == pytest.approx(max(tops), abs=0.01) and seal.thickness_in == 0.08

    picture = flatlay_picture(shot).astype(float)
    without = flatlay_picture(replace(bare, things=())).astype(float)
    ppi = 640 / 16

    def light(of: np.ndarray, turn_deg: float) -> float:
        away = RADIUS_IN + 1.5 / ppi
        column = int((x + away * math.cos(math.radians(turn_deg))) * ppi)
        row = int((y + away * math.sin(math.radians(turn_deg))) * ppi)
        return float(of[row, column].mean())

    assert light(picture, 45) < 0.95 * light(without, 45)
    assert light(picture, 225) > 0.97 * light(without, 225)
    row, column = int(y * ppi), int(x * ppi)
    assert picture[row, column, 0] > 1.5 * picture[row, column, 2]
    plain = plain_picture(shot)
    assert plain[row, column].tolist() == pytest.approx([0x8F, 0x3B, 0x2B], abs=2)


def test_a_piece_that_stands_half_open_or_lies_in_its_envelope_bears_nothing(lay: Lay) -> None:
    folded = 'fold = "left"\nshown = "half-open"\n'
    half_open = VEIL.replace('over = "menu"\n', folded).replace("4 x 6", "2.1 x 6.25")
    with pytest.raises(SuiteError, match="is shown half-open: nothing lies on paper that stands"):
        composed(lay('on = "veil"', suite=half_open))
    drawn = '[envelopes.outer]\nsize = "A7"\nholds = ["reply"]\ndrawn = "reply"\n'
    with pytest.raises(SuiteError, match='"reply" is half in its envelope'):
        composed(lay('on = "reply"', suite=drawn))


@pytest.mark.parametrize(
    ("thing", "key", "said"),
    [
        ("", "on", "needs the piece it lies on"),
        ('on = "menu"\nplace = "top"\nat = [1, 1]', "place", "leave one of the two out"),
        ('on = "menu"\nplace = "topp"', "place", '"top"'),
        ('on = "menu"\nat = [1, 900]', "at.2", "at most 200"),
    ],
)
def test_a_scene_file_s_mistakes_are_told_at_their_keys(
    thing: str, key: str, said: str, lay: Lay
) -> None:
    with pytest.raises(SuiteError) as refused:
        lay(thing)
    (mistake,) = refused.value.mistakes
    assert mistake.key == f"things.1.{key}" and said in mistake.sentence


def test_keys_of_another_place_are_told(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    text = '[[things]]\nsvg = "twine"\non = "menu"\nplace = "top"\nat = [0.5, 6]\n'
    (tmp_path / "mine" / "scene.toml").write_text(text)
    with pytest.raises(SuiteError) as refused:
        read_scene("mine", tmp_path)
    keys = [each.key for each in refused.value.mistakes]
    assert keys == ["things.1.on", "things.1.place", "things.1.at"]


@pytest.mark.parametrize(("shown", "at"), [("closed", "[2.5, 3.5]"), ("inside", "[7.5, 3.5]")])
def test_of_a_folded_card_the_type_of_what_is_seen_is_kept_in_sight(
    shown: str, at: str, lay: Lay, tmp_path: Path
) -> None:
    """The front is the right half of the flat sheet, 10 x 7 in: its word stands 7.1 in from the
    sheet's left, and 2.1 in from the closed card's."""
    lettered(tmp_path / "leaf.pdf", (10.25, 7.25), (7.2, 3.5, "HIM"))
    folded = BELT.partition("card")[0].replace("belt.pdf", "leaf.pdf").replace("belt", "leaf")
    folded += f'card = "A7"\nfold = "left"\nshown = "{shown}"\n'
    folded += 'inside = { art = "leaf.pdf", page = 1 }\n' if shown == "inside" else ""
    fixed = "\n[places.leaf]\nat = [5, 6]\nlayer = 2\n"
    with pytest.raises(SuiteError, match='would hide type "HIM", which stands') as refused:
        composed(lay(f'on = "leaf"\nat = {at}', suite=folded, fixed=fixed))
    left = float(refused.value.mistakes[0].sentence.split("from ")[1].split(",")[0])
    assert left == pytest.approx(2.11 if shown == "closed" else 7.11, abs=0.02)


def test_it_spares_a_drawing_where_there_is_room_and_lies_on_it_where_there_is_none(
    lay: Lay, tmp_path: Path
) -> None:
    """A square inch is drawn in the card's middle, in a border; then bars all over it, 1/4 in apart."""
    make_pdf(tmp_path / "reply.pdf", content="0.3 g 153 225 72 72 re f 27 27 324 468 re s")
    x, y = middle(lay('on = "reply"'), "reply")
    drawn = shapely.box(2, 3, 3, 4)
    assert 0 <= shapely.Point(x, y).distance(drawn) - RADIUS_IN < 0.1
    bars = " ".join(f"27 {18 + 18 * k} 324 4 re f" for k in range(27))
    make_pdf(tmp_path / "reply.pdf", content=f"0.3 g {bars}")
    assert middle(lay('on = "reply"'), "reply") == pytest.approx((2.5, 3.5))


def test_a_cord_s_place_is_taken(lay: Lay) -> None:
    """Of a hole of 1/4 in, 1.5 in from the head, the cord goes over the card and past its head."""
    holed = 'hole = { diameter = "1/4 in", side = "top", inset = "1.5 in" }\ncord = "#b08d57"\n'
    tag = BELT.partition("card")[0].replace("belt.pdf", "veil.pdf").replace("belt", "tag")
    tag += f'card = "4 x 6 in"\n{holed}'
    fixed = "\n[places.tag]\nat = [5, 6]\nlayer = 2\n"
    shot = lay('on = "tag"\nat = [2, 0.7]', suite=tag, fixed=fixed)
    free = lay('on = "tag"\nat = [2, 4]', suite=tag, fixed=fixed)
    assert "dot" not in {each.thing.name for each in composed(shot).things}
    assert "dot" in {each.thing.name for each in composed(free).things}
