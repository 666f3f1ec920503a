"""The outside of an envelope as a suite file says it: art, addresses, which side is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.colour.white_ink import WhiteInk
from mockup.errors import SuiteError
from mockup.geometry.point import Point
from mockup.suite.outside import BARE, Outside
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n[envelopes.outer]\nsize = "A7"\n'


def outside_of(folder: Path, more: str) -> Outside:
    for name in ("card.pdf", "face.pdf"):
        make_pdf(folder / name, pages=3)
    path = folder / "suite.toml"
    path.write_text(HEAD + more, encoding="utf-8")
    (envelope,) = read_suite(path).envelopes
    return envelope.outside


def test_a_bare_envelope_has_nothing_on_it(tmp_path: Path) -> None:
    assert outside_of(tmp_path, "") == BARE


def test_art_of_face_and_flap(tmp_path: Path) -> None:
    outside = outside_of(
        tmp_path,
        'face = "face.pdf"\nflap_art = { art = "face.pdf", page = 2, white = "art-as-white" }\n',
    )
    assert outside.face is not None and outside.flap is not None
    assert (outside.face.page, outside.flap.page) == (1, 2)
    assert outside.flap.white == WhiteInk("art-as-white")
    assert [side for side, _ in outside.arts] == ["face", "flap"]


def test_addresses_are_lines_or_a_table(tmp_path: Path) -> None:
    outside = outside_of(
        tmp_path,
        'address = ["Odile Farthing", "Samphire Hard"]\nshown = "face"\n'
        'return_address = { lines = ["The Tide Mill"], face = "caps", size = 8, ink = "white", '
        'hits = 2, at = ["1 in", 0.5] }\n',
    )
    address, sender = outside.address, outside.return_address
    assert address is not None and sender is not None
    assert address.lines == ("Odile Farthing", "Samphire Hard")
    assert (address.side, address.align, address.ink) == ("face", "left", None)
    assert (sender.side, sender.align, sender.face) == ("flap", "centre", "caps")
    assert sender.size_pt == pytest.approx(8) and sender.at == Point(1.0, 0.5)
    assert (sender.ink, sender.hits, outside.shown) == ("white", 2, "face")


@pytest.mark.parametrize(
    "line, told",
    [
        ('face = "gone.pdf"', r"envelopes\.outer\.face: there is no file"),
        ('face = { art = "gone.pdf" }', r"envelopes\.outer\.face\.art: there is no file"),
        ('flap_art = { art = "face.pdf", page = 0 }', r"envelopes\.outer\.flap_art.*page"),
        ("address = 5", r"envelopes\.outer\.address: 5 is a whole number; write a list or a table"),
        ("address = []", r"envelopes\.outer\.address"),
        (f"address = {['Samphire Hard'] * 40}", r"envelopes\.outer\.address"),
        ('address = ["a\\tb"]', r"envelopes\.outer\.address: .*control character"),
        ('address = ["\\u05d0"]', r"envelopes\.outer\.address: .*right to left"),
        ('address = { lines = ["\\u6c34"] }', r"envelopes\.outer\.address.*has no"),
        ('address = { lines = ["a"], ink = "gold" }', r"address\.ink: an ink is \"black\""),
        ('address = { lines = ["a"], size = 900 }', r"address\.size: type of 900 pt"),
        ('address = { lines = ["a"], size = "0 pt" }', r"address\.size: type of 0 pt"),
        ('address = { lines = ["a"], at = [8, 1] }', r"address\.lines: .*run off the face"),
        ('address = { lines = ["a"], at = [1, 1e9] }', r"address\.at\.2: .*not a length"),
        ('address = { lines = ["a"], side = "flap" }', r"address\.side: an address stands on"),
        ('address = { lines = ["a"], hits = 3 }', r"address\.hits"),
        ('return_address = { lines = ["a"], at = [1, 4.5] }', r"run off the flap"),
        ('shown = "inside"', r"envelopes\.outer\.shown"),
    ],
)
def test_what_cannot_be_is_told_by_its_key_on_a_line(tmp_path: Path, line: str, told: str) -> None:
    with pytest.raises(SuiteError, match=told) as caught:
        outside_of(tmp_path, f"{line}\n")
    assert all(len(str(each).splitlines()) == 1 for each in caught.value.mistakes)
