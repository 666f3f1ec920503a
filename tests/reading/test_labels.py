"""Words that name a template's lines: put together from runs and letters, and nothing more said."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mockup.artwork.inspection import Lettering, Painted
from mockup.geometry.point import Box
from mockup.reading.labels import labels

EM = 7.2 / 72


def run(text: str, left: float, right: float, top: float = 1.0) -> Painted:
    lettering = Lettering(text, "Serif", 7.2, True)
    box = Box(left, top, right, top + 0.07)
    return Painted("type", box, (), (), False, None, 1, None, 0, None, lettering)


def said(*runs: Painted) -> list[tuple[str, str]]:
    return [(label.meaning, label.text) for label in labels(runs)]


@pytest.mark.parametrize(
    ("text", "meaning"),
    [("safe zone", "safe"), ("3 mm bleed", "bleed"), ("Stanzlinie", "cut"), ("fold", "crease")],
)
def test_a_word_of_the_trade_is_a_label(text: str, meaning: str) -> None:
    assert said(run(text, 1, 2)) == [(meaning, text)]


@pytest.mark.parametrize("text", ["We cut the cake at nine", "Safe travels", "Cold cuts", ""])
def test_what_says_more_is_none(text: str) -> None:
    assert said(run(text, 1, 2)) == []


def test_a_heading_names_no_line() -> None:
    heading = run("Guide", 1, 2)
    assert heading.lettering is not None
    large = replace(heading, lettering=replace(heading.lettering, size_pt=18.0))
    assert said(heading) == [("guide", "Guide")]
    assert said(large) == []


def test_letters_that_are_set_singly_are_one_word() -> None:
    letters = [run(c, 1 + 0.05 * k, 1.04 + 0.05 * k) for k, c in enumerate("bleed")]
    assert said(*letters) == [("bleed", "bleed")]


def test_runs_of_one_line_are_read_together() -> None:
    """So "Cut" at the beginning of a sentence is none."""
    assert said(run("Cut", 1, 1.2), run("flowers by Ann", 1.23, 2)) == []
    assert said(run("Cut", 1, 1.2), run("line", 1.23, 1.4)) == [("cut", "Cut line")]


def test_lines_below_one_another_are_apart() -> None:
    assert len(said(run("Cut", 1, 1.2), run("flowers", 1.0, 1.4, top=1.2))) == 1
