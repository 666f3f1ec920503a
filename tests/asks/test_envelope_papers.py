"""An envelope in the papers it could have: which, in which order, what is drawn and told."""

import json
from pathlib import Path

import numpy as np
import pymupdf
import pytest
from PIL import Image

from mockup.asks.envelope_papers import EnvelopePapersRequest, show_envelope_papers
from mockup.colour.beside import Verdict
from mockup.errors import OutputError, RequestError, SuiteError
from tests.mockup_command import mockup

SAGE = (155, 178, 154)

CATALOGUE = """
name = "Groyne Papers"
[[papers]]
name = "Glasswort"
lab = [66, -9, 12]
condition = "M1"
backing = "white"
[[papers]]
name = "Sluice"
colour = "#1f3350"
[[papers]]
name = "Reed"
lab = [58, -9, 12]
condition = "M0"
backing = "black"
"""


@pytest.fixture
def suite(tmp_path) -> Path:
    document = pymupdf.open()
    page = document.new_page(width=5.25 * 72, height=7.25 * 72)
    page.draw_rect(page.rect, color=None, fill=[part / 255 for part in SAGE])
    document.save(tmp_path / "a.pdf")
    path = tmp_path / "suite.toml"
    path.write_text(
        'title = "S"\n[pieces.card]\nart = "a.pdf"\ncard = "A7"\n'
        'stock = { gsm = 300, colour = "#ffffff" }\n[pieces.outer]\nart = "a.pdf"\ncard = "A7"\n'
        '[envelopes.outer]\nsize = "A7"\ncolour = "#1f3350"\nholds = ["card"]\n'
        '[envelopes.bare]\nsize = "A7"\nholds = []\n',
        encoding="utf-8",
    )
    (tmp_path / "papers").mkdir()
    (tmp_path / "papers" / "groyne.toml").write_text(CATALOGUE, encoding="utf-8")
    return path


def shown(suite, *colours, audience="client", output="o.png", envelope="outer", **more):
    return show_envelope_papers(
        EnvelopePapersRequest(
            suite, envelope, suite.parent / output, colours, audience=audience, width_px=900, **more
        )
    )


def test_the_catalogue_is_shown_the_clearest_first(suite):
    answer = shown(suite)
    assert [paper.name for paper in answer.papers] == ["Sluice", "Reed", "Glasswort"]
    assert [paper.verdict for paper in answer.papers] == [
        Verdict.DELIBERATE, Verdict.BORDERLINE, Verdict.NEAR_MISS,
    ]  # fmt: skip
    assert [paper.present for paper in answer.papers] == [True, False, False]
    assert answer.papers[2].lab == (66, -9, 12) and answer.papers[2].measured.startswith("measured")
    assert answer.advice == ""


def test_colours_are_names_of_the_catalogue_generic_ones_and_hex(suite):
    answer = shown(suite, "glasswort", "Ink Blue", "#9BB29A", "glasswort", "Groyne papers/reed")
    assert {paper.name for paper in answer.papers} == {"Glasswort", "Ink blue", "#9bb29a", "Reed"}
    by_name = {paper.name: paper for paper in answer.papers}
    assert by_name["#9bb29a"].verdict is Verdict.MATCH
    assert by_name["Ink blue"].measured == "unmeasured example"


def test_every_unknown_colour_is_told_at_once(suite):
    with pytest.raises(SuiteError) as told:
        shown(suite, "glaswort", "mauve", "#12345", "kraft")
    assert len(told.value.mistakes) == 3
    assert 'did you mean "glasswort"?' in str(told.value)
    with pytest.raises(RequestError, match="at most 12"):
        shown(suite, *[f"#0000{k:02d}" for k in range(13)])


def test_without_a_catalogue_generic_colours_are_shown_and_said_to_be_examples(suite):
    (suite.parent / "papers" / "groyne.toml").unlink()
    answer = shown(suite, output="o.pdf")
    assert len(answer.papers) == 12 and "papers" in answer.advice
    with pymupdf.open(suite.parent / "o.pdf") as document:
        assert "unmeasured examples" in " ".join(document[0].get_text().split())


def test_the_client_sees_no_figures_and_the_studio_does(suite):
    for audience, seen in (("client", False), ("studio", True)):
        shown(suite, audience=audience, output="o.pdf")
        with pymupdf.open(suite.parent / "o.pdf") as document:
            text = document[0].get_text()
        assert ("\u0394E00" in text) is seen and ("L*" in text) is seen
        assert "Glasswort" in text and "contract" in text


def test_papers_and_art_are_drawn_in_their_colours(suite):
    answer = shown(suite)
    pixels = np.asarray(Image.open(answer.written).convert("RGB")).astype(int)
    for paper in answer.papers:
        colour = [int(paper.colour_hex[k : k + 2], 16) for k in (1, 3, 5)]
        assert (np.abs(pixels - colour).max(axis=2) <= 2).sum() > 2000
    assert (np.abs(pixels - SAGE).max(axis=2) <= 2).sum() > 2000


def test_an_envelope_that_holds_nothing_is_drawn_alone(suite):
    answer = shown(suite, "kraft", envelope="envelopes.bare")
    assert [paper.verdict for paper in answer.papers] in ([None], [Verdict.DELIBERATE])


def test_doors_and_names_are_looked_at_before_anything_is_drawn(suite):
    with pytest.raises(SuiteError, match='no envelope called "outr"; did you mean "outer"'):
        shown(suite, envelope="outr")
    with pytest.raises(OutputError, match="is read for this"):
        show_envelope_papers(
            EnvelopePapersRequest(suite, "outer", suite.parent / "a.pdf", ("kraft",))
        )
    (suite.parent / "papers" / "bad.toml").write_text("name = 3\n", encoding="utf-8")
    with pytest.raises(SuiteError, match=r"bad\.toml"):
        shown(suite)


@pytest.mark.slow
def test_the_command_takes_a_piece_or_an_envelope_of_the_same_name(suite):
    output = suite.parent / "x.png"
    piece = mockup("options", suite, "outer", "-o", output, "--width", "700")
    assert piece.returncode == 0 and "options at" in piece.stdout
    for arguments in (
        ("outer", "--colours", "kraft, Sluice"),
        ("envelopes.outer", "--colours", "kraft,sluice"),
    ):
        told = mockup("options", suite, *arguments, "-o", output, "--width", "700", "--json")
        answer = json.loads(told.stdout)
        assert [row["name"] for row in answer["papers"]] == ["Sluice", "Kraft"]
        assert answer["papers"][0]["verdict"] == "deliberate"
    plain = mockup("options", suite, "bare", "-o", output, "--width", "700")
    assert plain.returncode == 0 and "3 papers at" in plain.stdout
    dies = mockup("options", suite, "bare", "--dies", "ellipse", "-o", output)
    assert dies.returncode == 2 and "no die" in dies.stderr


def test_the_command_tells_colours_in_json(suite):
    told = mockup("colours", suite, "--json")
    answer = json.loads(told.stdout)
    assert told.returncode == 0 and answer["written"] is None
    assert answer["pieces"]["card"]["colours"][0]["share"] == 1
    (pair,) = [row for row in answer["pairs"] if row["envelope"] == "outer"]
    assert pair["verdict"] == "deliberate" and pair["second"]["colour"] == "#1f3350"
