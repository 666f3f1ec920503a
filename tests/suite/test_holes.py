"""Holes drilled in cards of any die, and the cord through one."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from mockup.asks.flatlay import FlatlayRequest, lay_flatlay
from mockup.errors import SuiteError
from mockup.geometry.flatten import polygon, ring
from mockup.geometry.measure import area
from mockup.ordering.contradictions import contradictions
from mockup.printers.catalogue import read_printer
from mockup.reading.stack import contents
from mockup.record.fingerprint import piece_fingerprint
from mockup.render.composition import LaidPiece, compose, cords_on, outline_points
from mockup.render.cords import cord_of, loop_of
from mockup.render.scenes import read_scene
from mockup.suite.hole_reading import WEB_IN
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf
from tests.pictures import read

TAG = '[pieces.tag]\nart = "tag.pdf"\ncard = "2 x 3.5 in"\nstock = "cotton-110-white"\nquantity = 30\n'
HOLE = 'hole = "1/4 in"\n'
CORD = 'cord = "#b08d57"\n'


def suite_of(folder: Path, text: str) -> Suite:
    if not (folder / "tag.pdf").exists():
        make_pdf(folder / "tag.pdf", (2.25, 3.75), "0.2 g 40 60 60 40 re f")
    path = folder / "suite.toml"
    path.write_text(f'title = "Supper"\n{text}', encoding="utf-8")
    return read_suite(path)


def test_a_hole_is_drilled_in_the_middle_of_a_side(tmp_path: Path) -> None:
    """Of the area a disc is missing, pi d^2 / 4 (plane geometry)."""
    (piece,) = suite_of(tmp_path, TAG + HOLE).pieces
    (hole,) = piece.die.shape.holes
    assert hole.box.centre == pytest.approx((1.0, 0.375))
    assert area(piece.die.shape) == pytest.approx(7 - math.pi / 4 / 16, abs=1e-6)
    told = 'hole = { diameter = 0.25, side = "left", inset = "1/2 in" }\n'
    (piece,) = suite_of(tmp_path, TAG + told).pieces
    assert piece.die.shape.holes[0].box.centre == pytest.approx((0.5, 1.75))


@given(st.floats(1 / 16, 1.0), st.floats(0.05, 1.7))
def test_paper_stands_round_every_hole_that_is_taken(across_in: float, inset_in: float) -> None:
    from mockup.dies import make_die
    from mockup.suite.hole_reading import drilled
    from mockup.suite.schema import HoleTable, PieceTable

    table = PieceTable(
        art="a.pdf", card="A7", hole=HoleTable(diameter=across_in, inset=inset_in)
    )  # fmt: skip
    plain = make_die("rectangle", 2.0, 3.5)
    stands = min(inset_in, 1.0, 3.5 - inset_in) - across_in / 2
    try:
        die = drilled(plain, table, "in")
    except SuiteError:
        assert stands < WEB_IN + 1e-3
        return
    assert stands >= WEB_IN - 1e-3
    card, whole = polygon(die.shape), polygon(plain.shape)
    assert whole.area - card.area == pytest.approx(math.pi * across_in**2 / 4, rel=0.01)


@pytest.mark.parametrize(
    ("change", "key", "said"),
    [
        (lambda s: s.replace('"1/4 in"', '{ diameter = "1/4 in", inset = "0.1 in" }'), "hole.inset", "must stand"),
        (lambda s: s.replace('"1/4 in"', '"3 in"'), "hole.diameter", "write 0.063 in"),
        (lambda s: s.replace(HOLE, ""), "cord", "no hole to thread"),
        (
            lambda s: s.replace(CORD, 'cord = { colour = "#b08d57", thickness = "1/4 in" }\n'),
            "cord.thickness", "too thick for the hole",
        ),
        (lambda s: s.replace('"#b08d57"', '"blurple"'), "cord.colour", "blurple"),
        (lambda s: s + 'fold = "left"\n', "hole", "folded card"),
    ],
)  # fmt: skip
def test_what_cannot_be_drilled_or_threaded_is_told_at_its_key(
    change: Callable[[str], str], key: str, said: str, tmp_path: Path
) -> None:
    with pytest.raises(SuiteError) as caught:
        suite_of(tmp_path, change(TAG + HOLE + CORD))
    found = [m for m in caught.value.mistakes if m.key == f"pieces.tag.{key}"]
    assert found
    assert said in str(found[0])


def test_a_hole_and_a_cord_are_part_of_what_is_said_yes_to(tmp_path: Path) -> None:
    marks = {
        piece_fingerprint(suite_of(tmp_path, TAG + more).pieces[0]).digest
        for more in ("", HOLE, HOLE.replace("1/4", "1/8"), HOLE + CORD)
    }
    assert len(marks) == 4


def test_the_cord_runs_from_the_hole_over_the_edge_and_back_beneath(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path, TAG + HOLE + CORD).pieces
    loop = loop_of(piece)
    assert loop is not None
    card = Polygon(ring(piece.die.shape.outer, 0.001))
    assert loop.line[0] == pytest.approx((1.0, 0.375))
    assert loop.line[-1] == pytest.approx((1.0, 0.375))
    assert loop.line[:, 1].min() < -1.5
    # On the card one strand is seen, as wide as the cord; beyond it both are.
    over = loop.area.intersection(card).area
    strand = LineString(loop.line[: len(loop.line) // 2]).intersection(card).length
    assert over == pytest.approx(strand * 1 / 16, rel=0.25)
    # No bend is sharper than a cord this thick takes: three thicknesses (by eye).
    step = np.diff(loop.line, axis=0)
    turn = np.abs(np.diff(np.unwrap(np.arctan2(step[:, 1], step[:, 0]))))
    length = np.hypot(*step.T)[1:]
    assert (length / np.maximum(turn, 1e-9))[2:-2].min() > 3 / 16


def test_the_cord_is_within_the_item_and_lies_with_its_card(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, TAG + HOLE + CORD)
    composition = compose(suite, read_scene("limewash", tmp_path), 4 / 3, 1)
    (laid,) = composition.laid
    assert isinstance(laid, LaidPiece)
    (cord,) = cords_on(composition)
    thing = cord_of(suite.pieces[0])
    assert thing is not None
    seen = Polygon([cord.to_table.point(p) for p in _points(thing.area)])  # type: ignore[arg-type]
    rim = Polygon(outline_points(laid)).buffer(0.03)
    assert seen.difference(rim).area < 0.02 * seen.area
    frame = composition.frame
    left, top, right, bottom = seen.bounds
    assert left > 0 and top > 0 and right < frame.width_in and bottom < frame.height_in


def _points(shape: object) -> list[object]:
    from mockup.geometry.point import Point

    rings = shape.exterior.coords if hasattr(shape, "exterior") else []  # type: ignore[attr-defined]
    return [Point(x, y) for x, y in rings]


def test_a_cord_weighs_nothing_in_the_envelope_and_a_hole_takes_its_disc(tmp_path: Path) -> None:
    held = TAG + HOLE + CORD + '[envelopes.outer]\nsize = "A7"\nholds = ["tag"]\n'
    suite = suite_of(tmp_path, held)
    (paper,) = contents(suite, suite.envelopes[0]).papers
    assert paper.area_in2 == pytest.approx(7 - math.pi / 64, abs=1e-4)


def test_a_printer_without_the_drill_is_told_with_the_nearest_they_have(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, TAG + HOLE)
    catalogue = tmp_path / "printer.toml"
    catalogue.write_text(
        'name = "Sluice End"\ncurrency = "USD"\n[drilling]\neach = 0.1\ndrills = ["1/8 in", "3/16 in"]\n'
    )
    printer = read_printer(catalogue)
    (line,) = contradictions(suite, printer)
    assert "a hole of 0.25 in: their drills are 0.125 in, 0.188 in" in line
    assert "drill 0.188 in" in line
    smaller = replace(suite, pieces=suite_of(tmp_path, TAG + HOLE.replace("1/4", "1/8")).pieces)
    assert contradictions(smaller, printer) == []


def test_a_flat_lay_shows_the_cord_beyond_the_card(tmp_path: Path) -> None:
    suite_of(tmp_path, TAG + HOLE + CORD)
    out = tmp_path / "out.png"
    lay_flatlay(FlatlayRequest(tmp_path / "suite.toml", out, 500, plain=True, cut_line=False))
    red, _, blue = np.moveaxis(read(out).astype(int), -1, 0)
    brown = (red - blue > 60).sum()
    assert brown > 200
