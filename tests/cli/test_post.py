"""Whose post is asked, and cards posted bare, through `mockup check`."""

import json
from pathlib import Path

import pytest

from tests.conftest import make_pdf
from tests.mockup_command import mockup

MM = 1 / 25.4
SUITE = """
title = "Supper"
{head}
[pieces.card]
art = "card.pdf"
card = "{size}"
{card}
{envelope}
{tail}
"""
C6 = '[envelopes.outer]\nsize = "C6"\nholds = ["card"]'


def checked(folder: Path, *words: str, **parts: str) -> list[dict[str, str]]:
    """The findings of the post."""
    size = parts.get("size", "ISO A6")
    pages = {"ISO A6": (111 * MM, 154 * MM), "150 x 150 mm": (156 * MM, 156 * MM)}
    make_pdf(folder / "card.pdf", pages.get(size, (5.125, 3.75)))
    usual = {"head": "", "size": size, "card": "", "envelope": C6, "tail": ""}
    (folder / "suite.toml").write_text(SUITE.format(**{**usual, **parts}), encoding="utf-8")
    answer = mockup("check", folder / "suite.toml", "--run", "1", "--json", *words)
    assert answer.returncode in (0, 10, 20), answer.stderr + answer.stdout
    return [row for row in json.loads(answer.stdout)["findings"] if row["check"] == "post"]


@pytest.mark.parametrize(
    ("parts", "words", "country", "guessed"),
    [
        ({"tail": '[post]\nfrom = "germany"'}, (), "Germany", False),
        ({"tail": '[post]\nfrom = "germany"'}, ("--post", "france"), "France", False),
        ({}, (), "United States", True),
        ({"head": 'units = "mm"', "tail": '[proof]\npaper = "a4"'}, (), "United Kingdom", True),
        ({"head": 'units = "mm"'}, (), "Canada", True),
    ],
)
def test_the_post_is_the_suites_or_guessed_and_told(tmp_path, parts, words, country, guessed):
    (note,) = [row for row in checked(tmp_path, *words, **parts) if "(" in row["message"]]
    assert note["message"].startswith(country)
    assert ("[post] from" in note["message"]) == guessed
    assert "Ask your post office" in note["fix"]


def test_none_asks_no_post(tmp_path):
    assert checked(tmp_path, "--post", "none") == []


def test_a_country_without_a_table_is_told(tmp_path):
    make_pdf(tmp_path / "card.pdf", (111 * MM, 154 * MM))
    text = SUITE.format(
        head="", size="ISO A6", card="", envelope=C6, tail='[post]\nfrom = "germny"'
    )
    (tmp_path / "suite.toml").write_text(text)
    answer = mockup("check", tmp_path / "suite.toml")
    assert answer.returncode == 3
    assert "post.from" in answer.stderr and "germany" in answer.stderr
    (tmp_path / "suite.toml").write_text(text.replace("from =", "form ="))
    assert 'did you mean "from"' in mockup("check", tmp_path / "suite.toml").stderr


def test_ounces_in_america_grams_elsewhere(tmp_path):
    (row,) = [row for row in checked(tmp_path) if "step" in row["message"]]
    assert " oz)" in row["message"] and " g)" not in row["message"]
    rows = checked(tmp_path, "--post", "uk")
    assert any("step up to 100 g" in row["message"] for row in rows)


@pytest.mark.parametrize(
    ("parts", "severity", "words"),
    [
        # USPS DMM 101.6: 5 x 3-1/2 to 6 x 4-1/4 in, 0.007 to 0.016 in thick.
        ({"size": "postcard", "card": 'stock = "index-110-white"'}, "note", "bare it is a postcard"),
        ({"size": "postcard"}, "warning", "most thickness 0.0195 in, limit 0.016 in: it goes in a dearer"),
        ({"size": "4-bar landscape", "card": 'title = "Reply postcard"'}, "stop", "least length"),
        ({"size": "4-bar landscape"}, "note", "it cannot be posted bare (least length 4.875 in"),
        ({"size": "150 x 150 mm", "head": 'units = "mm"', "tail": '[post]\nfrom = "germany"'},
         "note", "bare it is a Großbrief (most height 150 mm, limit 125 mm"),
        ({"size": "ISO A6", "card": 'die = "ellipse"', "tail": '[post]\nfrom = "germany"'},
         "note", "it cannot be posted bare (only a rectangle may)"),
        ({"size": "ISO A6", "card": 'title = "Postkarte"\ndie = "ellipse"\nstock = "text-80-white"',
          "tail": '[post]\nfrom = "germany"'}, "warning", "weight of its paper 118.4 g/m², limit 150"),
    ],
)  # fmt: skip
def test_cards_posted_bare_are_classed(tmp_path, parts, severity, words):
    parts = {**parts, "envelope": ""}
    make_pdf(tmp_path / "card.pdf", (6.25, 4.25))
    if parts["size"] == "postcard":
        parts["size"] = "postcard landscape"
    rows = checked(tmp_path, **parts) if "postcard" not in parts["size"] else bare(tmp_path, parts)
    found = [(row["severity"], row["message"]) for row in rows]
    assert any(each == severity and words in message for each, message in found), found
    if severity == "note":
        assert {each for each, _ in found} == {"note"}


def bare(folder: Path, parts: dict[str, str]) -> list[dict[str, str]]:
    """The findings of a 4 x 6 in post card."""
    usual = {"head": "", "card": "", "tail": ""}
    (folder / "suite.toml").write_text(SUITE.format(**{**usual, **parts}), encoding="utf-8")
    answer = mockup("check", folder / "suite.toml", "--run", "1", "--json")
    return [row for row in json.loads(answer.stdout)["findings"] if row["check"] == "post"]
