"""`mockup dies` and `mockup options` as typed: answers for machines, tables, and exit codes."""

import json
import subprocess
import sys

import pytest
from typer.testing import CliRunner

from mockup.cli.commands import app

RUN = CliRunner()


def _asked(*words):
    answer = RUN.invoke(app, list(words))
    assert answer.exit_code == 0, answer.output
    return answer.output


def test_dies_answer_in_json_names_parameters_and_who_has_them():
    answer = json.loads(_asked("dies", "--card", "A7", "--json"))
    lancet = next(die for die in answer["dies"] if die["name"] == "lancet-arch")
    assert lancet["parameters"]["rise"] == pytest.approx(4.3301, abs=1e-4)
    assert lancet["available"][0].keys() >= {"printer", "card", "price"}
    assert lancet["available"][0]["card"] == "A7"


def test_dies_are_listed_in_a_table_one_printer_alone():
    text = _asked("dies", "--printer", "weir")
    assert "stadium" in text and "Weir Lane" in text and "Sluice" not in text


def test_a_suite_is_told_who_has_its_dies(tmp_path):
    import pymupdf

    document = pymupdf.open()
    document.new_page(width=5.25 * 72, height=7.25 * 72).draw_rect((20, 20, 99, 99), fill=(1, 0, 0))
    document.save(tmp_path / "a.pdf")
    (tmp_path / "suite.toml").write_text(
        'title = "T"\n[pieces.one]\nart = "a.pdf"\ncard = "A7"\ndie = "trefoil-top"\n'
    )
    text = _asked("dies", str(tmp_path / "suite.toml"))
    assert "nobody has it" in text and "lancet-arch" in text and "made to order" in text
    answer = json.loads(_asked("dies", str(tmp_path / "suite.toml"), "--json"))
    assert "lancet-arch" in answer["pieces"][0]["dies"]
    out = tmp_path / "o.pdf"
    words = ["options", str(tmp_path / "suite.toml"), "one", "--dies", "ellipse,gable", "--json"]
    shown = json.loads(_asked(*words, "-o", str(out)))
    assert [option["die"] for option in shown["options"]] == ["ellipse", "gable"]
    assert out.read_bytes().startswith(b"%PDF")


def test_a_mistake_ends_with_one_line_and_the_suites_exit_code(tmp_path):
    """Exit code 3: a name or value that cannot be."""
    ended = subprocess.run(
        [sys.executable, "-c", "from mockup.cli.app import main; main()", "dies", "--card", "A77"],
        capture_output=True,
        text=True,
    )
    assert ended.returncode == 3
    assert len(ended.stderr.splitlines()) == 1 and 'no card size called "A77"' in ended.stderr
