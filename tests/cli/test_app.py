"""The command line as a user meets it: answers, exit codes, one line for a mistake."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from mockup.errors import ExitCode
from tests.conftest import make_pdf
from tests.mockup_command import mockup, mockup_process


def test_help_lists_the_commands_and_imports_nothing_heavy() -> None:
    code = (
        "import sys; sys.argv = ['mockup', '--help']\n"
        "from mockup.cli.app import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "heavy = {'numpy', 'pymupdf', 'shapely', 'pydantic', 'reportlab', 'cairosvg', 'PIL'}\n"
        "print('HEAVY', heavy & set(sys.modules))"
    )
    answer = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert "flatlay" in answer.stdout and "proof" in answer.stdout
    assert "HEAVY set()" in answer.stdout


def test_the_version_names_the_licence() -> None:
    answer = mockup_process("--version")
    assert answer.returncode == 0
    assert "AGPL-3.0-or-later" in answer.stdout


def test_a_piece_is_cut_and_told_in_json(tmp_path: Path, art: Path) -> None:
    out = tmp_path / "card.png"
    answer = mockup(
        "piece", art / "invitation.pdf", "--die", "lancet-arch", "--ppi", "60", "-o", out, "--json"
    )
    assert answer.returncode == 0, answer.stderr
    told = json.loads(answer.stdout)
    with Image.open(out) as picture:
        assert picture.size == (told["width_px"], told["height_px"])
        assert picture.mode == "RGBA"
        assert picture.getpixel((2, 2))[3] == 0


def test_a_first_suite_file_from_a_folder(tmp_path: Path) -> None:
    make_pdf(tmp_path / "invitation.pdf")
    answer = mockup("start", tmp_path, "-o", tmp_path / "suite.toml", "--json")
    assert answer.returncode == 0, answer.stderr
    (piece,) = json.loads(answer.stdout)["pieces"]
    assert (piece["name"], piece["card"], piece["bleed_in"]) == ("invitation", "A7", 0.125)


def test_a_flat_lay_of_a_small_suite(demo_suite: Path) -> None:
    out = demo_suite.parent / "flatlay.png"
    answer = mockup("flatlay", demo_suite, "-o", out, "--width", "400", "--aspect", "4:5")
    assert answer.returncode == 0, answer.stderr
    assert answer.stderr == ""  # no progress in a pipe
    with Image.open(out) as picture:
        assert picture.size == (400, 500)


@pytest.mark.parametrize(
    ("arguments", "code", "told"),
    [
        (("piece", "none.pdf", "-o", "a.png"), ExitCode.INPUT, "none.pdf: no such file"),
        (("piece", "card.pdf", "--die", "elipse", "-o", "a.png"), ExitCode.SUITE, 'did you mean "ellipse"'),
        (("piece", "card.pdf", "--page", "2", "-o", "a.png"), ExitCode.INPUT, "there is no page 2"),
        (("piece", "card.pdf", "--card", "A6", "-o", "a.png"), ExitCode.INPUT, "+0.5 in wide, +0.75 in high"),
        (("piece", "card.pdf", "--stock", "silk", "-o", "a.png"), ExitCode.SUITE, 'no stock called "silk"'),
        (("piece", "card.pdf", "-o", "none/a.png"), ExitCode.OUTPUT, "the folder does not exist"),
        (("piece", "wide.pdf", "--ppi", "2400", "-o", "a.png"), ExitCode.LIMIT, "150 megapixels"),
        (("flatlay", "none.toml", "-o", "a.png"), ExitCode.SUITE, "`mockup start` writes one"),
        (("proof", "none.toml", "-o", "a.pdf"), ExitCode.SUITE, "no such file"),
    ],
)  # fmt: skip
def test_a_mistake_is_one_line_without_a_traceback(
    tmp_path: Path, arguments: tuple[str, ...], code: ExitCode, told: str
) -> None:
    make_pdf(tmp_path / "card.pdf")
    make_pdf(tmp_path / "wide.pdf", (20, 20))
    answer = mockup(*arguments, cwd=tmp_path)
    assert answer.returncode == code
    assert told in answer.stderr
    assert len(answer.stderr.splitlines()) == 1
    assert answer.stdout == ""
    assert not list(tmp_path.glob("a.*")) and not list(tmp_path.glob(".a-*"))


def test_wrong_usage_is_the_parsers_own_code() -> None:
    assert mockup("piece").returncode == ExitCode.USAGE


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("check", "s.toml", "--seed", "x"), "'--seed': write a whole number"),
        (("check", "s.toml", "--turn", "x"), "'--turn': write a number"),
        (
            ("flatlay", "s.toml", "-o", "o.png", "--arrange", "1e9"),
            "'--arrange': write a whole number",
        ),
        (("flatlay", "s.toml", "-o", "o.png", "--arrange", "1_000"), "arrange: 1000 cannot be"),
    ],
)
def test_a_number_that_is_none_is_told_in_our_words(arguments: tuple[str, ...], said: str) -> None:
    answer = mockup(*arguments)
    assert answer.returncode == 2 and said in answer.stderr and answer.stderr.count("\n") == 1
