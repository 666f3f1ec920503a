"""A printer's template through the commands: which path was taken, picked, and measured by."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from mockup.errors import ExitCode
from tests.conftest import make_pdf
from tests.mockup_command import mockup

pytestmark = pytest.mark.usefixtures("plain_cover")

GROUND = "0.9 g -1 -1 400 600 re f 0.2 g 150 200 80 60 re f "
MARK = "0.1 g 20 250 4 4 re f"  # 0.153 in inside the cut
SUITE = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "A7"
stock = "smooth-120-white"
die = { file = "leaf.svg"PICK }
"""
LEAF = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="9in" viewBox="0 0 8 9">'
    '<g fill="none" stroke-width=".01">'
    '<rect x=".875" y=".875" width="5.25" height="7.25" stroke="#00f"/>'
    '<rect x="1" y="1" width="5" height="7" stroke="#f0f"/>'
    '<rect x="1.1875" y="1.1875" width="4.625" height="6.625" stroke="#0a0"/></g></svg>'
)


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    make_pdf(tmp_path / "card.pdf", content=GROUND + MARK)
    (tmp_path / "leaf.svg").write_text(LEAF)
    path = tmp_path / "suite.toml"
    path.write_text(SUITE.replace("PICK", ""))
    return path


def test_check_says_which_path_it_took_and_measures_by_the_templates_safe_zone(suite: Path) -> None:
    answer = json.loads(mockup("check", suite, "--json").stdout)
    assert answer["cuts"][0].startswith("card: the cut is the solid magenta outline, 5 × 7 in")
    (near,) = [each for each in answer["findings"] if each["check"] == "safe"]
    assert near["limit"] == pytest.approx(0.1875)
    assert near["value"] == pytest.approx(0.153, abs=0.002)
    wider = json.loads(mockup("check", suite, "--safe", "0.25 in", "--json").stdout)
    (near,) = [each for each in wider["findings"] if each["check"] == "safe"]
    assert near["limit"] == pytest.approx(0.25)


def test_the_proof_tells_the_template_its_fingerprint_and_its_cut(suite: Path) -> None:
    proof = suite.parent / "proof.pdf"
    answer = mockup("proof", suite, "-o", proof, "--json")
    assert answer.returncode == ExitCode.DONE, answer.stderr
    assert "solid magenta outline" in json.loads(answer.stdout)["cuts"][0]
    client = " ".join(pdfium.PdfDocument(proof)[1].get_textpage().get_text_range().split())
    mockup("proof", suite, "-o", proof, "--for", "studio")
    words = " ".join(pdfium.PdfDocument(proof)[1].get_textpage().get_text_range().split())
    mark = hashlib.sha256((suite.parent / "leaf.svg").read_bytes()).hexdigest()[:8]
    told = json.loads(answer.stdout)["fingerprints"]["card"]  # covers art and template
    assert f"Fingerprint {told}" in client.replace("\xa0", " ") and "magenta" not in client
    assert f"fingerprint {mark}" in words
    assert "The cut is the solid magenta" in words
    assert "bleed 0.125 in, safe zone 0.188 in" in words.replace("\xa0", " ")


def test_pick_is_heard_in_the_suite_file_and_on_the_command_line(suite: Path) -> None:
    suite.write_text(SUITE.replace("PICK", ", pick = 2"))
    told = json.loads(mockup("check", suite, "--json").stdout)["cuts"]
    assert "outline 2, as asked" in told[0]
    suite.write_text(SUITE.replace("PICK", ", pick = true"))
    assert mockup("check", suite).returncode == ExitCode.SUITE
    piece = ("piece", suite.parent / "card.pdf", "-o", suite.parent / "card.png")
    asked = (*piece, "--die", suite.parent / "leaf.svg", "--json", "--pick")
    said = json.loads(mockup(*asked, "magenta").stdout)
    assert said["because"].startswith('the colour "magenta", as asked: the solid magenta outline')
    assert said["others"].startswith("the next candidates are")
    refused = mockup(*asked, "blue")
    assert refused.returncode == ExitCode.SUITE
    (mistake,) = json.loads(refused.stdout)["error"]["mistakes"]
    assert "5.25 × 7.25 in, has not the card's size" in mistake["sentence"]
    assert "2: 5 × 7 in, solid magenta, has it" in mistake["sentence"]
    alone = mockup(*piece, "--die", "rectangle", "--pick", "2")
    assert "is no template to pick from" in alone.stderr
