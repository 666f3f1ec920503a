"""The Python face as a stranger uses it: a script of her own, without a guard, under spawn too."""

from __future__ import annotations

import inspect
import json
import subprocess
import sys
from pathlib import Path

import pytest

import mockup
from tests.conftest import make_pdf

SCRIPT = """
import sys
import mockup

heavy = {'numpy', 'pymupdf', 'shapely', 'pydantic', 'reportlab', 'typer'} & set(sys.modules)
from mockup import Audience, FlatlayRequest, PieceRequest, RequestError

answer = mockup.lay_flatlay(FlatlayRequest("suite.toml", "flatlay.png", width_px=300))
piece = mockup.cut_piece(PieceRequest("reply.pdf", "reply.png", die="ticket-corner", ppi=72))
try:
    mockup.lay_flatlay(FlatlayRequest("suite.toml", "f.png", width_px=float("nan")))
except RequestError as error:
    told = error.mistakes[0].key
checked = mockup.check_suite(mockup.CheckRequest("suite.toml"))
print(sorted(heavy), answer.width_px, answer.height_px, answer.written, piece.die, told,
      int(checked.exit_code), len(checked.findings) > 0, Audience.CLIENT.value)
"""


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    """A suite of one card, a mark so near its cut that a check has something to say."""
    make_pdf(tmp_path / "reply.pdf", (5.125, 3.75), "0.2 g 12 100 40 40 re f")
    told = 'title = "T"\n[pieces.reply]\nart = "reply.pdf"\ncard = "4.875 x 3.5 in"\n'
    (tmp_path / "suite.toml").write_text(told, encoding="utf-8")
    return tmp_path / "suite.toml"


def test_a_script_without_a_guard_draws_and_is_told_its_mistakes(suite: Path) -> None:
    script = suite.parent / "mine.py"
    script.write_text(SCRIPT)
    ran = subprocess.run(
        [sys.executable, str(script)],
        capture_output=True, text=True, cwd=suite.parent, timeout=120,
    )  # fmt: skip
    assert ran.stderr == ""
    assert ran.stdout.startswith("[] 300 225 flatlay.png ticket-corner width_px ")
    assert ran.stdout.count("\n") == 1  # the script ran once: no worker ran it again


SPAWN = """
import multiprocessing

def draw(name):
    from mockup import PieceRequest, cut_piece
    return cut_piece(PieceRequest("reply.pdf", name, ppi=40)).width_px

if __name__ == "__main__":
    with multiprocessing.get_context("spawn").Pool(2) as pool:
        print(pool.map(draw, ["a.png", "b.png", "c.png"]))
"""


def test_the_face_works_in_processes_that_were_spawned(suite: Path) -> None:
    script = suite.parent / "mine.py"
    script.write_text(SPAWN)
    ran = subprocess.run(
        [sys.executable, str(script)],
        capture_output=True, text=True, cwd=suite.parent, timeout=120,
    )  # fmt: skip
    assert ran.stderr == ""
    widths = json.loads(ran.stdout)
    assert len(set(widths)) == 1 and widths[0] == pytest.approx(4.875 * 40, abs=4)


def test_every_ask_has_a_request_an_answer_and_says_what_it_raises() -> None:
    asks = [name for name in mockup.__all__ if name.islower() and not name.startswith("_")]
    requests = [name for name in mockup.__all__ if name.endswith("Request")]
    assert len(asks) == len(requests) >= 14
    for name in asks:
        ask = getattr(mockup, name)
        assert list(inspect.signature(ask).parameters) == ["request", "progress"]
        assert "Raises" in (ask.__doc__ or "")
    for name in mockup.__all__:
        assert getattr(mockup, name) is not None
    with pytest.raises(AttributeError, match="no attribute 'lay_flat'"):
        mockup.lay_flat  # noqa: B018


def test_types_are_handed_on() -> None:
    assert (Path(mockup.__file__).parent / "py.typed").is_file()
