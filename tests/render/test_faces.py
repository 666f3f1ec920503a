"""Envelopes on the table with what is on them: the side that lies up, art, letters, bare paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from mockup.envelopes.views import ClosedBack, FaceUp, OpenBack
from mockup.geometry.affine import Affine
from mockup.geometry.outline import polygon_outline
from mockup.geometry.point import Box
from mockup.pixels import View
from mockup.reading.envelope_type import type_on
from mockup.render.composition import LaidEnvelope, compose, outline_points
from mockup.render.faces import Laid, kept_in_sight, lay, view_of
from mockup.render.flatlay import Shot, composed, plain_picture
from mockup.render.scenes import Place, Scene, read_scene
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf

HEAD = (
    'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n'
    '[envelopes.outer]\nsize = "A7"\ncolour = "#22385a"\n'
)
PPI = 40


def suite_of(folder: Path, more: str) -> Suite:
    make_pdf(folder / "card.pdf")
    (folder / "suite.toml").write_text(HEAD + more, encoding="utf-8")
    return read_suite(folder / "suite.toml")


def scene_of(folder: Path, at: tuple[float, float] = (6, 4), angle_deg: float = 0) -> Scene:
    places = {"outer": Place(at=at, angle_deg=angle_deg)}
    return replace(read_scene("limewash", folder), places=places, width_in=12.0)


def shown(suite: Suite) -> tuple[NDArray[np.uint8], Affine]:
    shot = Shot(suite, scene_of(suite.path.parent), 12 * PPI)
    (laid,) = composed(shot).laid
    return plain_picture(shot), laid.placed.to_table


def tone(picture: NDArray[np.uint8], box: Box, to_table: Affine) -> float:
    """Returns the mean of the green within a box of the envelope."""
    start, end = (to_table.point(each) for each in (box.corners()[0], box.corners()[2]))
    rows, columns = (
        slice(round(min(a, b) * PPI), round(max(a, b) * PPI))
        for a, b in ((start.y, end.y), (start.x, end.x))
    )
    return float(picture[rows, columns, 1].mean())


@pytest.mark.parametrize(
    "more, kind",
    [
        ("", ClosedBack),
        ('liner = "card.pdf"\n', OpenBack),
        ('liner = "card.pdf"\nshown = "closed"\n', ClosedBack),
        ('shown = "open"\n', OpenBack),
        ('liner = "card.pdf"\nshown = "face"\n', FaceUp),
    ],
)
def test_the_suite_says_which_side_lies_up(tmp_path: Path, more: str, kind: type) -> None:
    (envelope,) = suite_of(tmp_path, more).envelopes
    assert isinstance(view_of(envelope), kind)


def test_an_address_in_white_ink_is_where_it_is_set(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, 'shown = "face"\naddress = { lines = ["HHHHHHHH"], size = 40 }\n')
    (address,) = type_on(suite, suite.envelopes[0], "face")
    bare = Box(0.5, 0.5, 3.0, 2.0)
    picture, to_table = shown(suite)
    assert tone(picture, address.block.box, to_table) > tone(picture, bare, to_table) + 20
    without, _ = shown(suite_of(tmp_path, 'shown = "face"\n'))
    assert tone(without, address.block.box, to_table) == pytest.approx(
        tone(without, bare, to_table), abs=2
    )


def test_a_faces_art_lies_as_it_is_drawn(tmp_path: Path) -> None:
    """A black square in the upper left of the art, an inch wide, an inch from both edges."""
    make_pdf(tmp_path / "face.pdf", (7.25, 5.25), "0 g 72 234 72 72 re f")
    suite = suite_of(tmp_path, 'shown = "face"\nface = "face.pdf"\n')
    picture, to_table = shown(suite)
    square, mirrored = Box(1.1, 1.1, 1.9, 1.9), Box(5.35, 1.1, 6.15, 1.9)
    assert tone(picture, square, to_table) < tone(picture, mirrored, to_table) - 10


def test_a_flaps_art_is_read_on_the_closed_back(tmp_path: Path) -> None:
    """The whole back's art goes over flap and pocket; where the flap lay, an open pocket is bare."""
    more = 'flap_art = { art = "back.pdf", white = "art-as-white" }\n'
    make_pdf(tmp_path / "back.pdf", (7.25, 5.25), "0 g 0 0 522 378 re f")
    under_flap, on_pocket = Box(3.4, 1.6, 3.8, 2.0), Box(3.4, 4.4, 3.8, 4.8)
    closed, to_table = shown(suite_of(tmp_path, more + 'shown = "closed"\n'))
    assert tone(closed, under_flap, to_table) > 120 and tone(closed, on_pocket, to_table) > 120
    opened, to_table = shown(suite_of(tmp_path, more + 'shown = "open"\n'))
    assert tone(opened, under_flap, to_table) < 100 < tone(opened, on_pocket, to_table)


def test_nothing_may_hide_an_address_or_the_stamps_corner(tmp_path: Path) -> None:
    make_pdf(tmp_path / "face.pdf", (7.25, 5.25), "0 g 36 306 36 36 re f")
    more = 'shown = "face"\nface = "face.pdf"\naddress = ["Samphire Hard"]\n'
    suite = suite_of(tmp_path, more)
    (envelope,) = suite.envelopes
    kept = kept_in_sight(suite, envelope, view_of(envelope))
    address, drawn, corner = kept
    assert corner.right == 7.25 and corner.top == 0 and address.width > 0.5
    assert drawn == pytest.approx((0.5, 0.5, 1.0, 1.0), abs=0.01)
    laid = compose(suite, read_scene("limewash", tmp_path), 4 / 3, 1).laid
    number = next(k for k, each in enumerate(laid) if isinstance(each, LaidEnvelope))
    above = shapely.union_all([shapely.Polygon(outline_points(e)) for e in laid[number + 1 :]])
    for box in kept:
        corners = [laid[number].placed.to_table.point(corner) for corner in box.corners()]
        assert shapely.Polygon(corners).intersection(above).area < 1e-3


def test_flat_colours_cover_pixels_by_their_share() -> None:
    """A square of 1.5 pixels a side covers four pixels by 1, 1/2, 1/2 and 1/4, in linear light."""
    picture = np.zeros((4, 4, 3), np.uint8)
    square = polygon_outline((0, 0), (1.5, 0), (1.5, 1.5), (0, 1.5))
    lay(picture, View(0, 0, 4, 4, 1.0), [Laid((square,), (255, 255, 255))])
    assert picture[0, 0, 0] == 255
    assert picture[0, 1, 0] == pytest.approx(188, abs=1)  # sRGB of 1/2
    assert picture[1, 1, 0] == pytest.approx(137, abs=1)  # sRGB of 1/4
    assert not picture[2:].any()
    hole = polygon_outline((0.5, 0.5), (1, 0.5), (1, 1), (0.5, 1))
    ring = Laid((square, hole), (255, 255, 255)).mapped(Affine(2, 0, 0, 2, 0, 0))
    assert ring.box == pytest.approx((0, 0, 3, 3))
    picture = np.zeros((4, 4, 3), np.uint8)
    lay(picture, View(0, 0, 4, 4, 1.0), [ring])
    assert picture[1, 1, 0] == 0 and picture[0, 0, 0] == 255
