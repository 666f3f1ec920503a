"""The printed sides of an envelope: where their art lies, what is set on them, in which colour."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely

from mockup.checks.post_address import Ground, reader_findings
from mockup.envelopes.flap import closed_flap
from mockup.errors import InputError
from mockup.geometry.flatten import polygon
from mockup.geometry.point import Box, Point
from mockup.reading.envelope_sides import printed_side, printed_sides
from mockup.reading.envelope_type import ink_of, type_on
from mockup.suite.reading import read_suite
from mockup.suite.suite import Envelope, Suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n[envelopes.outer]\nsize = "A7"\n'
FACE = (7.25, 5.25)


def lettered(folder: Path, more: str) -> tuple[Suite, Envelope]:
    make_pdf(folder / "card.pdf")
    (folder / "suite.toml").write_text(HEAD + more, encoding="utf-8")
    suite = read_suite(folder / "suite.toml")
    return suite, suite.envelopes[0]


@pytest.mark.parametrize("bleed", [0.0, 0.125])
def test_a_face_is_the_closed_envelope_with_its_bleed_or_without(
    tmp_path: Path, bleed: float
) -> None:
    make_pdf(tmp_path / "face.pdf", (FACE[0] + 2 * bleed, FACE[1] + 2 * bleed))
    _, envelope = lettered(tmp_path, 'face = "face.pdf"\n')
    (side,) = printed_sides(envelope, 0.125)
    assert side.side == "face" and not side.over_pocket
    assert side.placement.trim == pytest.approx((bleed, bleed, 7.25 + bleed, 5.25 + bleed))
    assert side.piece.bleed_in == pytest.approx(bleed)
    assert side.piece.die.shape.box == pytest.approx((0, 0, *FACE))


def test_a_flaps_art_is_of_its_own_box_or_of_the_whole_back(tmp_path: Path) -> None:
    _, envelope = lettered(tmp_path, "")
    box = closed_flap(envelope.spec).box
    for size, over_pocket in (((box.width, box.height), False), (FACE, True)):
        make_pdf(tmp_path / "flap.pdf", size)
        _, envelope = lettered(tmp_path, 'flap_art = "flap.pdf"\n')
        side = printed_side(envelope, "flap", 0.125)
        assert side is not None and side.over_pocket == over_pocket
        corner = side.to_side.point(Point(0, 0))
        assert corner == pytest.approx((0, 0) if over_pocket else (box.left, box.top))


@pytest.mark.parametrize(
    "size, told",
    [
        ((6, 4), "the art is 6 × 4 in; save it at 7.25 × 5.25 in for the face"),
        ((5.25, 7.25), "it lies on its side: turn it"),
        ((7.4, 5.25), "the art is 7.4 × 5.25 in"),
    ],
)
def test_art_of_another_size_is_told(tmp_path: Path, size: tuple[float, float], told: str) -> None:
    make_pdf(tmp_path / "face.pdf", size)
    _, envelope = lettered(tmp_path, 'face = "face.pdf"\n')
    with pytest.raises(InputError, match=told):
        printed_sides(envelope, 0.125)


def test_an_address_lies_amid_the_area_that_machines_read(tmp_path: Path) -> None:
    """USPS DMM 202.2.1: 1/2 in from either side, 5/8 to 2 3/4 in from the bottom."""
    suite, envelope = lettered(tmp_path, 'address = ["Odile Farthing", "Samphire Hard"]\n')
    (address,) = type_on(suite, envelope, "face")
    area = Box(0.5, 5.25 - 2.75, 7.25 - 0.5, 5.25 - 0.625)
    assert shapely.box(*area).contains(shapely.box(*address.block.box))
    assert address.block.box.centre == pytest.approx(area.centre)
    assert address.block.size_pt == 17.0
    assert not type_on(suite, envelope, "flap")


def test_a_long_address_is_set_smaller_but_not_under_what_the_post_reads(tmp_path: Path) -> None:
    """USPS DMM 202.1: at least 8 pt."""
    many = ["The reed cutters and the millers of the hard and of the reach"] * 12
    suite, envelope = lettered(tmp_path, f"address = {many}\n")
    (address,) = type_on(suite, envelope, "face")
    assert 8.0 <= address.block.size_pt < 12.0


@pytest.mark.parametrize("flap", ["straight", "pointed", "deep-pointed"])
def test_a_senders_lines_lie_on_the_flap(tmp_path: Path, flap: str) -> None:
    suite, envelope = lettered(
        tmp_path, f'flap = "{flap}"\nreturn_address = ["The Tide Mill", "Samphire Hard"]\n'
    )
    (sender,) = type_on(suite, envelope, "flap")
    assert polygon(closed_flap(envelope.spec)).contains(shapely.box(*sender.block.box))
    assert sender.block.box.centre.x == pytest.approx(envelope.spec.width_in / 2)


def test_on_dark_paper_an_address_is_in_white_ink(tmp_path: Path) -> None:
    """As light as the white ink of her art there: one hit, by the contrast told in the checks."""
    for colour, ink in (("#22385a", "white"), ("white", "black"), ("kraft", "black")):
        suite, envelope = lettered(tmp_path, f'colour = "{colour}"\naddress = ["Samphire Hard"]\n')
        (address,) = type_on(suite, envelope, "face")
        assert ink_of(envelope, address.lettering) == ink
        light = sum(address.colour) - sum(envelope.colour)
        assert light > 200 if ink == "white" else light < -200
        told = reader_findings(Ground("", envelope.colour, "it", False))
        assert bool(told) == (ink == "white")
