"""Every option of the commands is heard: what is asked for is what is drawn and told."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pikepdf
import pytest

from mockup.errors import ExitCode
from tests.conftest import make_pdf
from tests.mockup_command import made, mockup
from tests.pictures import read
from tests.quickly import quickly

pytestmark = pytest.mark.usefixtures("plain_cover")

GROUND = "0.9 g -1 -1 400 600 re f 0.2 g 150 200 80 60 re f "
CUT = "1 0 1 RG 0.5 w 9 9 360 504 re S"
NEAR = "0.1 g 12 250 4 4 re f 0.1 g 12 256 4 4 re f"  # a mark 3/64 in inside the cut
SUITE = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "A7"
stock = "smooth-120-white"
"""


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    """One card with a die's line left in its art."""
    make_pdf(tmp_path / "card.pdf", content=GROUND + CUT)
    path = tmp_path / "suite.toml"
    path.write_text(SUITE)
    return path


@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595.276, 841.89))])
def test_a_proof_hides_the_dies_lines_tells_so_and_keeps_to_its_paper(
    suite: Path, paper: str, size: tuple[float, float]
) -> None:
    """ANSI/ASME Y14.1 letter; ISO 216 A4. The left-in line is magenta, and nothing else is."""
    proof = suite.parent / "proof.pdf"
    answer = mockup("proof", suite, "-o", proof, "--paper", paper, "--json")
    assert answer.returncode == ExitCode.DONE, answer.stderr
    told = json.loads(answer.stdout)
    assert (told["pages"], told["paper"]) == (4, paper)
    assert len(told["left_out"]) == 1 and "1 mark" in told["left_out"][0]
    with pikepdf.open(proof) as pdf:
        assert [float(v) for v in pdf.pages[0].mediabox[2:]] == pytest.approx(size, abs=0.01)
        (picture, *_) = pdf.pages[1].images.values()
        pixels = np.asarray(pikepdf.PdfImage(picture).as_pil_image().convert("RGB")).astype(int)
    assert not (pixels[..., 0] - pixels[..., 1] > 60).any()


def test_pages_asked_for_are_added_and_others_refused(suite: Path) -> None:
    proof = suite.parent / "proof.pdf"
    words = ("--with", "options, colours", "--json")
    told = json.loads(mockup("proof", suite, "-o", proof, *words).stdout)
    assert told["pages"] == 6
    with pikepdf.open(proof) as pdf, pdf.open_outline() as outline:
        titles = [str(item.title) for item in outline.root]
    assert [each for each in titles if each == "Colours" or each.endswith(", options")] == titles[
        2:4
    ]
    refused = mockup("proof", suite, "-o", suite.parent / "b.pdf", "--with", "prices")
    assert refused.returncode == ExitCode.USAGE and "colours" in refused.stderr


def test_check_ends_with_a_stop_for_a_line_left_in(suite: Path) -> None:
    answer = mockup("check", suite, "--json")
    assert answer.returncode == ExitCode.STOPS
    found = json.loads(answer.stdout)["findings"]
    assert {"left-in"} <= {row["check"] for row in found if row["severity"] == "stop"}


def test_another_seed_is_another_run(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf", content="1 g 0 0 378 522 re f " + NEAR)
    (tmp_path / "suite.toml").write_text(SUITE)

    def shift(seed: int) -> str:
        answer = mockup(
            "check", tmp_path / "suite.toml", "--json", "--seed", str(seed), "--run", "500"
        )
        rows = json.loads(answer.stdout)["findings"]
        return next(row["message"] for row in rows if row["check"] == "shift")

    assert shift(1) != shift(2)


def test_a_piece_is_the_page_asked_for_and_limits_have_their_code(tmp_path: Path) -> None:
    art = make_pdf(tmp_path / "two.pdf", content="1 0 0 rg 0 0 378 522 re f", pages=2)
    with pikepdf.open(art, allow_overwriting_input=True) as pdf:
        pdf.pages[1].Contents = pdf.make_stream(b"0 0 1 rg 0 0 378 522 re f")
        pdf.save(art)
    first, second = (
        read(made(tmp_path / f"{n}.png", "piece", art, "--page", n, "--ppi", "20")) for n in "12"
    )
    assert first[70, 50, 0] > first[70, 50, 2] + 100
    assert second[70, 50, 2] > second[70, 50, 0] + 100
    refused = mockup("piece", art, "--ppi", "2400", "-o", tmp_path / "large.png")
    assert refused.returncode == 7, refused.stderr  # README: 7 limit


@pytest.mark.parametrize("ending", quickly([".toml", ".PDF"], lambda n: n == 0))
def test_options_are_refused_or_written_by_their_ending(suite: Path, ending: str) -> None:
    out = suite.parent / f"options{ending}"
    answer = mockup("options", suite, "card", "-o", out, "--dies", "rectangle")
    if ending == ".PDF":
        assert answer.returncode == ExitCode.DONE, answer.stderr
        assert out.read_bytes().startswith(b"%PDF")
    else:
        assert answer.returncode == ExitCode.OUTPUT
        assert not out.exists()
