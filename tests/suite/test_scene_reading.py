"""`[scene]`: the main piece, open envelopes, what lies over what; every wrong name told."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.errors import SuiteError
from mockup.suite.reading import read_suite
from mockup.suite.suite import SceneChoice
from tests.conftest import make_pdf

SUITE = """title = "Supper"
[pieces.invitation]
art = "card.pdf"
card = "A7"
[pieces.reply]
art = "card.pdf"
card = "A7"
[envelopes.outer]
size = "A7"
[scene]
"""


def choice(folder: Path, lines: str) -> SceneChoice:
    make_pdf(folder / "card.pdf")
    path = folder / "suite.toml"
    path.write_text(SUITE + lines, encoding="utf-8")
    return read_suite(path).scene


def test_what_is_said_and_what_is_not(tmp_path: Path) -> None:
    assert choice(tmp_path, "") == SceneChoice("limewash", 1, 0)
    said = choice(
        tmp_path,
        'main = "reply"\nopen = []\n'
        'above = ["reply over invitation", "invitation over envelopes.outer"]\n',
    )
    assert (said.main, said.open) == ("reply", ())
    assert said.above == (("reply", "invitation"), ("invitation", "envelopes.outer"))


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('main = "replay"', r'scene\.main: no piece called "replay"; did you mean "reply"'),
        ('open = ["oter"]', r'scene\.open\.1: no envelope called "oter"; did you mean "outer"'),
        ('open = ["reply"]', r"scene\.open\.1: no envelope"),
        ('above = ["reply"]', r'scene\.above\.1: "reply" is not of the form'),
        ('above = ["reply over reply"]', r"scene\.above\.1"),
        (
            'above = ["reply over outer"]',
            r'no piece called "outer"; did you mean "envelopes.outer"',
        ),
        ('above = ["reply over invitation", "invitation over reply"]', r"scene\.above: .* itself"),
        ("above = [1]", r"scene\.above"),
        ("main = 7", r"scene\.main"),
    ],
)
def test_what_cannot_be_is_told_by_its_key(tmp_path: Path, line: str, told: str) -> None:
    with pytest.raises(SuiteError, match=told):
        choice(tmp_path, line)
