"""A suite in millimetres, through the command line: what is cut, and every number it is told in."""

import json
import re
from pathlib import Path

import pytest

from mockup.suite.reading import read_suite
from tests.conftest import make_pdf
from tests.mockup_command import mockup

pytestmark = pytest.mark.usefixtures("plain_cover")

MM = 1 / 25.4
SUITE = """
units = "mm"
title = "Tide Mill Supper"
[pieces.card]
art = "card.pdf"
card = "105 x 148"
die = { shape = "ticket-corner", radius = 6 }
[pieces.menu]
art = "menu.pdf"
card = "110 x 160"
die = { shape = "tag", cut = 8, hole = "5 mm", inset = 9.5 }
[envelopes.outer]
size = "124 x 170"
flap_depth = 70
holds = ["card"]
"""


@pytest.fixture
def metric(tmp_path: Path) -> Path:
    make_pdf(tmp_path / "card.pdf", (111 * MM, 154 * MM))
    make_pdf(tmp_path / "menu.pdf", (116 * MM, 166 * MM))
    path = tmp_path / "suite.toml"
    path.write_text(SUITE, encoding="utf-8")
    return path


def changed(suite: Path, old: str, new: str) -> str:
    text = suite.read_text(encoding="utf-8")
    assert old in text
    suite.write_text(text.replace(old, new), encoding="utf-8")
    answer = mockup("dies", suite)
    assert answer.returncode == 3, answer.stdout
    return answer.stderr


def text_of(path: Path) -> str:
    import pymupdf

    with pymupdf.open(path) as document:
        return "\n".join(page.get_text() for page in document).replace("\u00a0", " ")


def test_bare_numbers_of_a_die_are_in_the_suites_units(metric: Path) -> None:
    card, menu = read_suite(metric).pieces
    assert dict(card.die.parameters)["radius"] == pytest.approx(6 * MM)
    assert dict(menu.die.parameters)["hole"] == pytest.approx(5 * MM)
    assert dict(menu.die.parameters)["inset"] == pytest.approx(9.5 * MM)
    assert (card.die.width_in, card.bleed_in) == pytest.approx((105 * MM, 3 * MM))
    (outer,) = read_suite(metric).envelopes
    assert (outer.spec.width_in, outer.spec.flap_depth_in) == pytest.approx((170 * MM, 70 * MM))


def test_counts_and_angles_stay_as_they_are(metric: Path) -> None:
    make_pdf(metric.parent / "card.pdf", (156 * MM, 156 * MM))
    text = metric.read_text(encoding="utf-8").replace("105 x 148", "150 x 150")
    petal = '{ shape = "petal", petals = 7, depth = 0.2 }'
    text = text.replace('{ shape = "ticket-corner", radius = 6 }', petal)
    metric.write_text(text.replace('holds = ["card"]', ""), encoding="utf-8")
    assert dict(read_suite(metric).piece("card").die.parameters)["petals"] == 7
    assert dict(read_suite(metric).piece("card").die.parameters)["depth"] == 0.2


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("radius = 6", "radius = 80", "at 105 × 148 mm: radius 80 mm is too large; the most is"),
        ("radius = 6", 'radius = "a"', "radius"),
        ("flap_depth = 70", "flap_depth = 150", "flap depth is 150 mm; for this envelope it is"),
        ('"105 x 148"', '"105 x 3"', "height 3 mm is out of range; from 6.35 mm to 5080 mm"),
        ('units = "mm"', 'units = "mm"\nbleed = 90', "90 is too long; write at most 50.8 mm"),
    ],
)
def test_mistakes_are_told_in_millimetres(metric: Path, old: str, new: str, words: str) -> None:
    told = changed(metric, old, new)
    assert words in told
    assert not re.search(r"\d in\b", told), told


def test_the_nearest_value_told_in_millimetres_is_taken(metric: Path) -> None:
    told = changed(metric, "radius = 6", "radius = 80")
    most = re.search(r"the most is ([\d.]+) mm", told)
    assert most is not None
    text = metric.read_text(encoding="utf-8").replace("radius = 80", f"radius = {most[1]}")
    metric.write_text(text, encoding="utf-8")
    assert read_suite(metric).piece("card").die.name == "ticket-corner"


def test_art_of_another_size_is_told_in_millimetres(metric: Path) -> None:
    make_pdf(metric.parent / "card.pdf", (120 * MM, 154 * MM))
    answer = mockup("flatlay", metric, "-o", metric.parent / "out.png", "--width", "300")
    assert answer.returncode == 4
    assert "the page is 120 × 154 mm, the card 105 × 148 mm with 3 mm bleed" in answer.stderr
    assert "+9 mm wide, 0 mm high" in answer.stderr.replace("+0 mm", "0 mm").replace("-0", "0")


def test_millimetres_written_in_a_suite_of_inches_are_guessed(metric: Path) -> None:
    text = metric.read_text(encoding="utf-8").split("[pieces.menu]")[0]
    metric.write_text(text.replace('units = "mm"', "").replace("= 6", '= "6 mm"'), encoding="utf-8")
    answer = mockup("flatlay", metric, "-o", metric.parent / "out.png", "--width", "300")
    assert 'for millimetres write units = "mm", or "105 x 148 mm"' in answer.stderr


def test_the_proof_tells_millimetres_first(metric: Path) -> None:
    to = ("-o", metric.parent / "proof.pdf", "--paper", "a4", "--for", "studio")
    answer = mockup("proof", metric, *to)
    assert answer.returncode == 0, answer.stderr
    told = text_of(metric.parent / "proof.pdf")
    for words in (
        "105 × 148 mm",
        "radius 6 mm",
        "hole 5 mm",
        "70 mm deep",
        "500 µm thick",
        "3 mm of the line",
        "1.6 mm, to any side",
    ):
        assert words in " ".join(told.split()), words
    inches = re.findall(r"[^\n]*\d in\b[^\n]*", told)
    # inches stand only as the second figure: of a size, of a side, of the ruler
    assert all(re.search(r"mm|^[\d.]+ × [\d.]+ in$|\(", line) for line in inches), inches


def test_dies_answer_in_both(metric: Path) -> None:
    told = mockup("dies", metric, "--card", "105 x 148")
    assert "card: ticket-corner at 105 × 148 mm" in told.stdout
    answer = json.loads(mockup("dies", metric, "--card", "105 x 148", "--json").stdout)
    lancet = next(die for die in answer["dies"] if die["name"] == "lancet-arch")
    rise = lancet["parameters"]["rise"]
    assert lancet["parameters_mm"]["rise"] == pytest.approx(rise * 25.4, abs=1e-3)
    assert "side" in lancet["parameters"] and "side" not in lancet["parameters_mm"]


def test_lengths_on_the_command_line_are_in_the_suites_units(metric: Path) -> None:
    answer = mockup("check", metric, "--safe", "60", "--json")
    assert answer.returncode == 2 and "0 mm to 50.8 mm" in answer.stdout
    assert mockup("check", metric, "--safe", "3", "--run", "1", "--json").returncode in (0, 10, 20)


def test_a_metric_suite_keeps_three_millimetres_clear(metric: Path) -> None:
    """3 mm is what European printers ask; 1/8 in is 3.175 mm. The square stands 3.1 mm inside."""
    inside = 72 * (3 + 3.1) / 25.4
    square = f"0.2 g {inside:.4f} {inside:.4f} 40 40 re f 0.6 g 150 200 40 40 re f"
    make_pdf(metric.parent / "menu.pdf", (116 * MM, 166 * MM), square)
    text = metric.read_text(encoding="utf-8")
    cut = text.index('die = { shape = "tag"')
    text = text[:cut] + text[text.index("[envelopes.outer]") :]
    metric.write_text(text, encoding="utf-8")
    rows = {
        safe: [
            row["check"]
            for row in json.loads(
                mockup("check", metric, "--run", "1", "--json", *safe).stdout
            )["findings"]
            if row["piece"] == "menu"
        ]
        for safe in ((), ("--safe", "3.175"))
    }  # fmt: skip
    assert "safe" not in rows[()] and "safe" in rows[("--safe", "3.175")], rows
