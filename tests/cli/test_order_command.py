"""`mockup order`: the files it writes, what it says of them, and what a printer's catalogue asks."""

import hashlib
import json
from pathlib import Path

import pikepdf
import pytest

from tests.conftest import make_pdf
from tests.mockup_command import mockup

SHEETS = ("order.pdf", "order.csv", "order.json")
SUITE = """
title = "Supper"
units = "mm"
[pieces.card]
art = "card.pdf"
card = "105 x 148"
die = "lancet-arch"
"""
PRINTER = """
name = "Groyne Cutters"
currency = "EUR"
units = "mm"
[custom]
tool = 100
each = 0.3
[files]
variant = "both"
bleed = 2
cut_name = "Knife line"
"""


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    """A suite of one card of 105 x 148 mm with 3 mm of bleed, and a printer beside it."""
    make_pdf(tmp_path / "card.pdf", (111 / 25.4, 154 / 25.4), "0.2 g 0 0 400 500 re f")
    (tmp_path / "printers").mkdir()
    (tmp_path / "printers" / "groyne.toml").write_text(PRINTER, encoding="utf-8")
    path = tmp_path / "suite.toml"
    path.write_text(SUITE, encoding="utf-8")
    return path


def test_the_usual_is_the_art_with_its_cut_line(suite: Path, tmp_path: Path) -> None:
    answer = mockup("order", "--anyway", suite, "-o", tmp_path / "out")
    assert answer.returncode == 0, answer.stderr
    assert {each.name for each in (tmp_path / "out").iterdir()} == {"card-cut-line.pdf", *SHEETS}
    assert "bleed 3 mm" in answer.stdout and "found the same" in answer.stdout


def test_a_printer_says_what_its_files_are(suite: Path, tmp_path: Path) -> None:
    answer = mockup(
        "order", "--anyway", suite, "-o", tmp_path / "out", "--printer", "groyne", "--json"
    )
    told = json.loads(answer.stdout)
    assert told["printer"] == "Groyne Cutters"
    assert [each["variant"] for each in told["written"]] == ["art-alone", "cut-line"]
    for each in told["written"]:
        file = Path(each["written"])
        assert each["sha256"] == hashlib.sha256(file.read_bytes()).hexdigest()
        with pikepdf.open(file) as pdf:
            box = [float(value) for value in pdf.pages[0].obj.BleedBox]
        assert (box[2] - box[0]) / 72 * 25.4 == pytest.approx(109, abs=0.01)
        assert each["bleeds_mm"] == pytest.approx([2] * 4, abs=0.01)
    assert told["written"][1]["steps"] == ["Knife line"]


def test_what_is_asked_goes_before_the_printer(suite: Path, tmp_path: Path) -> None:
    words = ("--printer", "groyne", "--variant", "art-alone", "--outlines")
    answer = mockup("order", "--anyway", suite, "-o", tmp_path / "out", *words)
    assert answer.returncode == 0, answer.stderr
    assert {each.name for each in (tmp_path / "out").iterdir()} == {"card-art.pdf", *SHEETS}


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--printer", "nobody"), 3, 'no printer called "nobody"'),
        (("--variant", "die"), 2, "art-alone or cut-line or both"),
    ],
)
def test_what_cannot_be_asked_is_told(suite, tmp_path, words, code, said) -> None:
    answer = mockup("order", "--anyway", suite, "-o", tmp_path / "out", *words)
    assert answer.returncode == code and said in answer.stderr
    assert not (tmp_path / "out").exists()


def test_a_folder_that_is_a_file_and_art_that_is_a_file_to_be_written(suite, tmp_path) -> None:
    assert mockup("order", suite, "-o", suite).returncode == 5
    (tmp_path / "card-cut-line.pdf").hardlink_to(tmp_path / "card.pdf")
    answer = mockup("order", "--anyway", suite, "-o", tmp_path)
    assert answer.returncode == 5 and "is read for this" in answer.stderr


def test_what_stands_against_an_order_is_told_at_once_and_nothing_is_written(suite, tmp_path):
    answer = mockup("order", suite, "-o", tmp_path / "out", "--printer", "groyne")
    assert answer.returncode == 20
    assert "card: no yes: not proofed as it is now" in answer.stderr
    assert "card: no quantity is said" in answer.stderr
    assert not (tmp_path / "out").exists() and not (tmp_path / "suite.record").exists()


def test_what_was_waived_is_on_the_sheet_and_in_the_record(suite, tmp_path) -> None:
    words = ("--printer", "groyne", "--date", "2026-11-26", "--anyway", "--json")
    told = json.loads(mockup("order", suite, "-o", tmp_path / "out", *words).stdout)
    sheet = json.loads((tmp_path / "out" / "order.json").read_text(encoding="utf-8"))
    assert sheet["against"][0]["lines"] == told["anyway"] != []
    (event,) = (tmp_path / "suite.record").glob("*-order-*.toml")
    assert all(line.split(":")[0] in event.read_text("utf-8") for line in told["anyway"])
    assert told["written"][0]["sha256"] in event.read_text("utf-8")
    before = {each.name: each.read_bytes() for each in (tmp_path / "out").iterdir()}
    mockup("order", suite, "-o", tmp_path / "again", *words)
    assert before == {each.name: each.read_bytes() for each in (tmp_path / "again").iterdir()}


def test_two_printers_are_compared_and_nothing_is_ordered(suite, tmp_path) -> None:
    other = PRINTER.replace("Groyne Cutters", "Weir Cutters").replace("100", "80")
    (tmp_path / "printers" / "weir.toml").write_text(other, encoding="utf-8")
    words = ("--printer", "groyne", "--printer", "weir")
    answer = mockup("order", suite, "-o", tmp_path / "out", *words)
    assert answer.returncode == 0, answer.stderr
    assert {each.name for each in (tmp_path / "out").iterdir()} == set(SHEETS)
    assert not (tmp_path / "suite.record").exists()


def test_a_print_file_changed_or_gone_after_the_order_is_told(suite, tmp_path) -> None:
    mockup("order", suite, "-o", tmp_path / "out", "--anyway")
    assert json.loads(mockup("status", suite, "--json").stdout)["files"] == []
    file = tmp_path / "out" / "card-cut-line.pdf"
    file.write_bytes(file.read_bytes() + b"\n")
    answer = mockup("status", suite)
    assert answer.returncode == 20
    assert "out/card-cut-line.pdf: changed since it was ordered" in answer.stderr
    file.unlink()
    assert "no longer there" in mockup("status", suite).stderr


def test_a_back_has_a_file_of_its_own(suite: Path, tmp_path: Path) -> None:
    make_pdf(tmp_path / "back.pdf", (111 / 25.4, 154 / 25.4), "0.4 g 0 0 400 500 re f")
    text = SUITE.replace('art = "card.pdf"', 'art = "card.pdf"\nback = "back.pdf"')
    suite.write_text(text, encoding="utf-8")
    answer = mockup("order", "--anyway", suite, "-o", tmp_path / "out")
    assert answer.returncode == 0, answer.stderr
    names = {"card-cut-line.pdf", "card-back-cut-line.pdf", *SHEETS}
    assert {each.name for each in (tmp_path / "out").iterdir()} == names
    row = (tmp_path / "out" / "order.csv").read_text(encoding="utf-8").splitlines()[1]
    assert "both sides" in row and "card-back-cut-line.pdf" in row
