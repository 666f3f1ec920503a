"""A card half drawn out of its envelope: where it lies, what is over and under it, what is refused."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from shapely.geometry import Polygon

from mockup.errors import SuiteError
from mockup.geometry.flatten import polygon
from mockup.render.composition import Composition, LaidEnvelope, LaidPiece, outline_points
from mockup.render.drawn import SHARES
from mockup.render.flatlay import Shot, composed, lit_scene
from mockup.render.light.scene import height, raised
from mockup.render.scenes import Place, read_scene
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "{card}"\n'
OUTER = '[envelopes.outer]\nsize = "{size}"\nholds = ["card"]\ndrawn = "card"\n'


def shot_of(folder: Path, card: str, size_in: tuple[float, float], size: str = "A7") -> Shot:
    wide, high = size_in
    make_pdf(folder / "card.pdf", (wide + 0.25, high + 0.25))
    path = folder / "suite.toml"
    path.write_text(HEAD.format(card=card) + OUTER.format(size=size), encoding="utf-8")
    scene = read_scene("limewash", folder)
    scene = replace(scene, places={"outer": Place(at=(8, 8), angle_deg=0)}, width_in=16.0)
    return Shot(read_suite(path), scene, 320, 1.0)


def laid_of(composition: Composition) -> LaidEnvelope:
    """The envelope, which alone lies there: the card is the one drawn from it."""
    assert not [each for each in composition.laid if isinstance(each, LaidPiece)]
    (laid,) = composition.laid
    assert isinstance(laid, LaidEnvelope)
    return laid


@pytest.mark.parametrize(
    ("card", "size_in"), [("A7 landscape", (7, 5)), ("A7", (5, 7)), ("A2", (4.25, 5.5))]
)
def test_a_drawn_card_lies_upright_and_shows_its_share(
    tmp_path: Path, card: str, size_in: tuple[float, float]
) -> None:
    laid = laid_of(composed(shot_of(tmp_path, card, size_in)))
    drawn = laid.drawn
    assert drawn is not None
    to_table = laid.placed.to_table @ drawn.to_back
    assert (to_table.a, to_table.b) == pytest.approx((1, 0), abs=1e-9)  # its head is up
    face = polygon(laid.back.pocket).envelope  # type: ignore[union-attr]
    on_back = Polygon(drawn.on_back)
    left, _, right, bottom = on_back.bounds
    assert left > 0 and right < laid.envelope.size.width_in
    assert bottom < laid.envelope.size.height_in
    out = 1 - on_back.intersection(face).area / on_back.area
    assert out > 0.1
    long_in = on_back.bounds[3] - on_back.bounds[1]
    wholly_in = laid.envelope.size.height_in - 1 / 16
    share = (wholly_in - bottom) / long_in
    assert SHARES[0] - 1e-9 <= share <= SHARES[1] + 1e-9


def test_it_rests_on_the_inside_and_the_pocket_on_it(tmp_path: Path) -> None:
    """Back, card, two side flaps, bottom flap: each over what is under it, nowhere through it."""
    shot = shot_of(tmp_path, "A7 landscape", (7, 5))
    lit, _ = lit_scene(shot, composed(shot))
    back, card, left, right, bottom = lit.sheets
    assert card.plane.z0_in == pytest.approx(raised(back).z0_in, abs=1e-6)
    for flap in (left, right, bottom):
        both = Polygon(flap.rings[0]).intersection(Polygon(card.rings[0]))
        x, y = np.array(both.exterior.coords).T
        gap = height(flap.plane, None, x.copy(), y.copy()) - height(
            raised(card), None, x.copy(), y.copy()
        )
        assert gap.min() > -1e-4


def test_the_outline_is_of_envelope_and_card(tmp_path: Path) -> None:
    laid = laid_of(composed(shot_of(tmp_path, "A7 landscape", (7, 5))))
    drawn = laid.drawn
    assert drawn is not None
    whole = Polygon(outline_points(laid))
    card = Polygon(outline_points(replace(laid, drawn=None))).union(
        Polygon([laid.placed.to_table.point(point) for point in map(tuple, drawn.on_back)])  # type: ignore[arg-type]
    )
    assert whole.symmetric_difference(card).area < 0.05


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (OUTER.format(size="A2"), r"card, 5 × 7 in, does not go into 5\.75 × 4\.375 in either way"),
        ('[envelopes.outer]\nsize = "A7"\ndrawn = "card"\n', "name it in `holds`"),
        (OUTER.format(size="A7") + OUTER.format(size="A7").replace("outer", "other"), "from another"),
        (OUTER.format(size="A7").replace('drawn = "card"', 'drawn = "crad"'), 'did you mean "card"'),
        (OUTER.format(size="A7").replace('"card"\n', "7\n"), r"envelopes\.outer\.drawn"),
    ],
)  # fmt: skip
def test_what_cannot_be_drawn_is_told_by_its_key(tmp_path: Path, more: str, said: str) -> None:
    make_pdf(tmp_path / "card.pdf")
    path = tmp_path / "suite.toml"
    path.write_text(HEAD.format(card="A7") + more, encoding="utf-8")
    with pytest.raises(SuiteError, match=said):
        read_suite(path)


def test_only_a_closed_card_is_drawn(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf", (10.25, 7.25))
    path = tmp_path / "suite.toml"
    folded = 'fold = "left"\nshown = "half-open"\n'
    path.write_text(HEAD.format(card="A7") + folded + OUTER.format(size="A7"), encoding="utf-8")
    with pytest.raises(SuiteError, match=r'envelopes\.outer\.drawn: .*shown = "closed"'):
        read_suite(path)
