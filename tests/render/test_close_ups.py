"""Close-ups: about what they are of, no word cut by the picture's edge."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from shapely import box as shapely_box
from shapely.geometry import Polygon

from mockup.artwork.objects import keep_clear, objects_of
from mockup.dies.making import make_die
from mockup.geometry.flatten import polygon
from mockup.render.close_ups import Subject, close_up, subjects_of
from mockup.render.composition import Composition, LaidEnvelope, LaidPiece, compose, is_main
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite

LINE_IN = 0.6  # as high as the lines of the demo's titles


@pytest.fixture
def suite(demo_suite: Path) -> Suite:
    """The demo with its details card on a tag."""
    read = read_suite(demo_suite)
    pieces = [
        replace(piece, die=make_die("tag", 4.25, 5.5)) if piece.name == "details" else piece
        for piece in read.pieces
    ]
    return replace(read, pieces=tuple(pieces))


def taken(suite: Suite, subject: Subject, aspect: float = 1.5) -> Composition:
    composition = compose(suite, read_scene("limewash", Path()), aspect, 1)
    return close_up(composition, subject, 3.5, 135.0)


@pytest.mark.parametrize("subject", ["edge", "liner", "hole"])
def test_a_close_up_is_of_its_subject_and_cuts_no_line_of_type(
    suite: Suite, subject: Subject
) -> None:
    part = taken(suite, subject)
    assert 2.8 <= part.frame.width_in <= 4.9
    assert part.frame.width_in / part.frame.height_in == pytest.approx(1.5)
    window = shapely_box(0, 0, part.frame.width_in, part.frame.height_in)
    lines = [shape for shape in type_of(part) if window.intersects(shape)]
    assert all(window.contains(shape) for shape in lines)
    assert subject == "liner" or lines
    assert any(window.intersects(shape) for shape in subjects(part, subject))


def type_of(composition: Composition) -> list[Polygon]:
    laid = [each for each in composition.laid if isinstance(each, LaidPiece)]
    found = objects_of([(each.page, each.placement) for each in laid])
    shapes: list[Polygon] = []
    for each, marks in zip(laid, found, strict=True):
        die = each.piece.die
        for box in keep_clear(marks, die.width_in, die.height_in):
            if box.height < LINE_IN:
                shapes.append(Polygon([each.placed.to_table.point(c) for c in box.corners()]))
    return shapes


def subjects(composition: Composition, subject: Subject) -> list[object]:
    shapes: list[object] = []
    for each in composition.laid:
        if subject == "edge" and is_main(each) and isinstance(each, LaidPiece):
            shapes.append(polygon(each.piece.die.shape.mapped(each.placed.to_table)).exterior)
        if subject == "hole" and isinstance(each, LaidPiece):
            shapes += [
                polygon(hole_shape.mapped(each.placed.to_table))
                for hole in each.piece.die.shape.holes
                for hole_shape in [type(each.piece.die.shape)(hole)]
            ]
        if subject == "liner" and isinstance(each, LaidEnvelope) and hasattr(each.back, "liner"):
            shapes.append(polygon(each.back.liner.mapped(each.placed.to_table)))
    return shapes


def test_what_a_suite_has_close_ups_of(suite: Suite, demo_suite: Path) -> None:
    assert subjects_of(suite) == ("edge", "liner", "hole")
    assert subjects_of(read_suite(demo_suite)) == ("edge", "liner")
    closed = replace(suite, scene=replace(suite.scene, open=()))
    assert subjects_of(closed) == ("edge", "hole")
