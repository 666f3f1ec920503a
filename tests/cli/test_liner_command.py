"""`mockup liner`: the template read back by other libraries, and taken as a liner's art."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pikepdf
import pytest

from mockup.envelopes.liner import liner_shape
from mockup.envelopes.liner_template import liner_template
from mockup.envelopes.spec import FLAPS, envelope_spec
from mockup.geometry.measure import area
from mockup.trade.sizes import envelope_size
from tests.conftest import make_pdf
from tests.mockup_command import mockup

SUITE = """
title = "Supper"
units = "mm"
[pieces.card]
art = "card.pdf"
card = "105 x 148"
[envelopes.outer]
size = "C6"
flap = "deep-pointed"
liner = "liner.pdf"
holds = ["card"]
"""


@pytest.mark.parametrize("flap", FLAPS)
@pytest.mark.parametrize("name", ["A7", "C6"])
def test_seen_and_hidden_make_up_the_liner(name: str, flap: str) -> None:
    size = envelope_size(name)
    template = liner_template(envelope_spec(size.width_in, size.height_in, flap), 0.125)
    parts = sum(area(shape) for shape in (*template.seen, *template.hidden))
    assert parts == pytest.approx(area(template.cut), rel=1e-4)
    assert template.cut.box.top < template.fold.start.y < template.cut.box.bottom
    # The liner of an open envelope is seen from the tip down to the throat, a little below the fold.
    lowest = max(shape.box.bottom for shape in template.seen)
    assert template.fold.start.y < lowest < template.fold.start.y + 0.3 * size.height_in
    (bleed,) = template.bleed
    assert bleed.box.width == pytest.approx(template.cut.box.width + 0.25, abs=1e-3)


def test_the_trim_box_of_the_pdf_is_the_liner(tmp_path: Path) -> None:
    answer = mockup("liner", "A7", "--flap", "straight", "-o", tmp_path / "t.pdf", "--json")
    told = json.loads(answer.stdout)
    size = envelope_size("A7")
    box = liner_shape(envelope_spec(size.width_in, size.height_in, "straight")).box
    assert (told["width_in"], told["height_in"]) == pytest.approx((box.width, box.height), abs=1e-4)
    assert told["width_mm"] == pytest.approx(box.width * 25.4, abs=1e-3)
    with pikepdf.open(tmp_path / "t.pdf") as pdf:
        left, bottom, right, top = (float(value) / 72 for value in pdf.pages[0].trimbox)
    assert (right - left, top - bottom) == pytest.approx((box.width, box.height), abs=1e-4)


def test_the_svg_names_its_lines(tmp_path: Path) -> None:
    answer = mockup("liner", "C6", "-o", tmp_path / "t.svg")
    assert "mm, with 3 mm bleed" in answer.stdout
    root = ET.parse(tmp_path / "t.svg").getroot()
    groups = [each.get("id") for each in root if each.get("id")]
    assert groups == ["gum", "seen", "hidden", "bleed", "fold", "cut", "labels"]


def test_a_suites_envelope_and_its_template_as_art(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf", (111 / 25.4, 154 / 25.4))
    make_pdf(tmp_path / "liner.pdf", (10, 10))
    suite = tmp_path / "suite.toml"
    suite.write_text(SUITE, encoding="utf-8")
    template = tmp_path / "template.pdf"
    answer = mockup("liner", suite, "outer", "-o", template)
    assert "C6 envelope, deep-pointed flap" in answer.stdout, answer.stderr
    suite.write_text(SUITE.replace("liner.pdf", "template.pdf"), encoding="utf-8")
    laid = mockup("flatlay", suite, "-o", tmp_path / "f.png", "--width", "300", "--plain")
    assert laid.returncode == 0, laid.stderr


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["A77"], 3, 'did you mean "a7"'),
        (["A7", "--flap", "round"], 2, "straight or pointed or deep-pointed"),
        (["A7", "outer"], 2, "names an envelope of a suite"),
        (["suite.toml", "outr"], 3, 'did you mean "outer"'),
        (["suite.toml", "outer", "--flap", "pointed"], 2, "leave --flap out"),
    ],
)
def test_mistakes_are_told(tmp_path: Path, words: list[str], code: int, told: str) -> None:
    make_pdf(tmp_path / "card.pdf", (111 / 25.4, 154 / 25.4))
    make_pdf(tmp_path / "liner.pdf", (10, 10))
    (tmp_path / "suite.toml").write_text(SUITE, encoding="utf-8")
    answer = mockup("liner", *words, "-o", "t.pdf", cwd=tmp_path)
    assert answer.returncode == code and told in answer.stderr, answer.stderr
    png = mockup("liner", "A7", "-o", "t.png", cwd=tmp_path)
    assert png.returncode == 5 and ".pdf or .svg" in png.stderr
