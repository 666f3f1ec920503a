"""The press in a suite file: taken for art that names none itself, every mistake with its key."""

import json
import shutil
from pathlib import Path

import pytest

from mockup.artwork.press import presses_of
from mockup.colour.press import COATED, UNCOATED, assumed_press
from mockup.errors import SuiteError
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf
from tests.mockup_command import mockup


def with_press(suite: Path, text: str) -> Path:
    suite.write_text(suite.read_text() + f"\n{text}\n")
    return suite


def test_the_press_is_assumed_by_the_surface_of_the_stock() -> None:
    assert assumed_press(coated=True) == COATED
    assert assumed_press(coated=False) == UNCOATED


def test_a_suite_without_a_press_is_printed_uncoated(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    assert {piece.art.press for piece in suite.pieces} == {UNCOATED}


def test_a_coated_paper_has_a_coated_press(demo_suite: Path) -> None:
    text = demo_suite.read_text().replace(
        'stock = "cotton-110-white"', "stock = { gsm = 300, coated = true }"
    )
    demo_suite.write_text(text)
    pieces = read_suite(demo_suite).pieces
    assert {piece.art.press for piece in pieces if piece.stock.coated} == {COATED}
    assert {piece.art.press for piece in pieces if not piece.stock.coated} == {UNCOATED}


def test_a_suites_press_is_that_of_pieces_and_liners(demo_suite: Path) -> None:
    shutil.copy(COATED.profile, demo_suite.parent / "ours.icc")
    suite = read_suite(with_press(demo_suite, '[press]\nprofile = "ours.icc"'))
    liners = [each.liner.art for each in suite.envelopes if each.liner is not None]
    arts = [*(piece.art for piece in suite.pieces), *liners]
    assert {art.press.profile.name for art in arts} == {"ours.icc"}
    told = {shown.because for shown in presses_of(arts) if shown is not None}
    assert told <= {"the suite's press", "the file's own output intent"}


@pytest.mark.parametrize(
    ("text", "key", "told"),
    [
        ('[press]\nprofile = "none.icc"', "press.profile", "there is no file"),
        ('[press]\nprofile = "reply.pdf"', "press.profile", "no ICC profile"),
        ("[press]\nprofile = 3", "press.profile", ""),
        ("[press]", "press.profile", ""),
        ('[press]\nprofil = "a.icc"', "press.profil", "profile"),
    ],
)
def test_a_mistake_in_the_press_is_told_with_its_key(
    demo_suite: Path, text: str, key: str, told: str
) -> None:
    with pytest.raises(SuiteError) as caught:
        read_suite(with_press(demo_suite, text))
    assert [each.key for each in caught.value.mistakes if each.key == key], caught.value
    assert told in str(caught.value)
    assert str(demo_suite) in str(caught.value)


def test_a_profile_is_never_written_over(demo_suite: Path) -> None:
    profile = demo_suite.parent / "ours.png"
    shutil.copy(COATED.profile, profile)
    art = demo_suite.parent / "reply.pdf"
    answer = mockup("piece", art, "-o", profile, "--press", profile, "--card", "4-bar landscape")
    assert answer.returncode == 5
    assert profile.read_bytes() == COATED.profile.read_bytes()


def test_the_press_asked_for_is_told(demo_suite: Path, tmp_path: Path) -> None:
    """Of a page of ink; one of RGB is shown by its own profiles."""
    light = make_pdf(tmp_path / "details.pdf", content="1 0 0 rg 60 60 100 100 re f")
    asked = ("--press", COATED.profile, "--json", "--ppi", "40")
    answer = mockup("piece", light, "-o", tmp_path / "a.png", *asked)
    assert json.loads(answer.stdout)["colour"] == ["colour of Details: RGB, by its own profiles"]
    ink = mockup("piece", demo_suite.parent / "reply.pdf", "-o", tmp_path / "b.png", *asked)
    assert json.loads(ink.stdout)["colour"] == [
        "colour of Reply: FOGRA39L Coated, the file's own output intent"
    ]
    wrong = mockup("piece", light, "-o", tmp_path / "a.png", "--press", tmp_path)
    assert wrong.returncode == 4
    assert "is a folder" in wrong.stderr
