"""How a run ends: exit codes, mistakes for a machine, signals, terminals that fail."""

from __future__ import annotations

import importlib.util
import json
import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import pytest

from mockup.asks import dies
from mockup.cli.console import escaped
from mockup.errors import ExitCode
from tests.mockup_command import mockup
from tests.quickly import quickly

START = [sys.executable, "-c", "from mockup.cli.app import main; main()"]
LINUX = pytest.mark.skipif(sys.platform != "linux", reason="needs /dev/full and signals")


def _started(*arguments: str | Path, **settings: object) -> subprocess.Popen[str]:
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **settings}
    return subprocess.Popen([*START, *map(str, arguments)], text=True, **pipes)  # type: ignore[call-overload]


@pytest.mark.parametrize(
    ("arguments", "code", "key"),
    [
        (("flatlay", "none.toml", "-o", "o.png"), ExitCode.SUITE, None),
        (("piece", "none.pdf", "-o", "o.png"), ExitCode.INPUT, None),
        (("dies", "--sheet", "no/o.pdf"), ExitCode.OUTPUT, None),
        (("dies", "--paper", "a5"), ExitCode.USAGE, "paper"),
        (("check", "none.toml", "--turn", "nan"), ExitCode.USAGE, "turn_deg"),
        (("flatlay", "none.toml", "-o", "o.png", "--width", "13000"), ExitCode.LIMIT, "width_px"),
        (("proof", "none.toml", "-o", "o.pdf", "--paper", "a5"), ExitCode.USAGE, "paper"),
        (("piece",), ExitCode.USAGE, None),
        (("flatlay", "x.toml", "-o", "o.png", "--width", "wide"), ExitCode.USAGE, None),
    ],
)
def test_mistakes_are_one_json_document_for_a_machine(
    tmp_path: Path, arguments: tuple[str, ...], code: ExitCode, key: str | None
) -> None:
    answer = mockup(*arguments, "--json", cwd=tmp_path)
    assert answer.returncode == code
    assert answer.stderr == ""
    error = json.loads(answer.stdout)["error"]
    assert error["exit_code"] == code
    (mistake,) = error["mistakes"]
    assert mistake.keys() == {"file", "key", "value", "sentence"} and mistake["sentence"]
    if key is not None:
        assert mistake["key"] == key
    lines = mockup(*arguments, cwd=tmp_path)
    assert (lines.returncode, lines.stdout) == (code, "")
    assert len(lines.stderr.splitlines()) == 1 and lines.stderr.startswith("mockup: ")


def test_a_fault_of_our_own_is_one_line_that_asks_to_report_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(dies, "listed", lambda *_given, **_named: 1 / 0)
    for wanted, lines in (("", 1), ("1", 5)):
        monkeypatch.setenv("MOCKUP_TRACEBACK", wanted)
        ended = mockup("dies")
        assert ended.returncode == ExitCode.FAULT
        assert len(ended.stderr.splitlines()) >= lines
        assert "ZeroDivisionError" in ended.stderr and "please report it" in ended.stderr
        assert "asks/dies.py, line" in ended.stderr
        assert ("Traceback" in ended.stderr) is bool(wanted)


@LINUX
@pytest.mark.parametrize("words", [("envelopes",), ("--version",)])
def test_a_full_standard_output_is_one_line(words: tuple[str, ...]) -> None:
    with Path("/dev/full").open("w") as full:
        ended = _started(*words, stdout=full)
        _, told = ended.communicate()
    assert ended.returncode == ExitCode.OUTPUT
    assert told == (
        "mockup: standard output cannot be written (No space left on device); "
        "a file that was asked for is whole or not there\n"
    )


@LINUX
@pytest.mark.parametrize("words", [("liner", "A7", "-o", "o.pdf"), ("dies", "--sheet", "o.pdf")])
def test_a_full_disk_is_one_line_and_leaves_nothing(words: tuple[str, ...], tmp_path: Path) -> None:
    """The largest size of a file (POSIX, RLIMIT_FSIZE) ends a write as a full disk does."""
    command = ["sh", "-c", 'ulimit -f 4; exec "$0" "$@"', *START, *words]
    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}  # it would be cut as well
    ended = subprocess.run(
        command, capture_output=True, text=True, cwd=tmp_path, env=environment, check=False
    )
    assert ended.stderr == f"mockup: {words[-1]}: cannot be written (File too large)\n"
    assert (ended.returncode, [*tmp_path.iterdir()]) == (ExitCode.OUTPUT, [])


@LINUX
@pytest.mark.parametrize("words", [("envelopes",), ("--help",)])
def test_a_reader_who_has_read_enough_ends_it_quietly(words: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    ended = _started(*words, stdout=writing)
    os.close(writing)
    _, told = ended.communicate()
    assert (ended.returncode, told) == (ExitCode.DONE, "")


_NAMED_ODDLY = ("piece", "宴\udc80→.pdf", "-o", "a.png")


@pytest.mark.parametrize(
    ("encoding", "words", "code"),
    [
        ("cp1252", ("envelopes",), ExitCode.DONE),
        ("ascii", ("--help",), ExitCode.DONE),
        ("ascii", _NAMED_ODDLY, ExitCode.INPUT),
    ],
)
def test_any_terminal_gets_its_letters_replaced(
    tmp_path: Path, encoding: str, words: tuple[str, ...], code: ExitCode
) -> None:
    environment = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
    ended = subprocess.run(
        [*START, *words], capture_output=True, env=environment, cwd=tmp_path, check=False
    )
    assert ended.returncode == code
    assert b"Traceback" not in ended.stderr


def test_control_letters_are_shown_and_not_obeyed(tmp_path: Path) -> None:
    assert escaped("a\x1b[31m\x9b\u202e\u2066\nb é 宴 क\u200dष") == (
        "a\\x1b[31m\\x9b\\u202e\\u2066\\x0ab é 宴 क\u200dष"
    )
    ended = mockup("piece", "a\x1b[31m\nb.pdf", "-o", "a.png", cwd=tmp_path)
    assert ended.stderr == "mockup: a\\x1b[31m\\nb.pdf: no such file\n"
    assert "\x1b" not in mockup("fla\x1b[31mt").stderr


def _at_work(run: subprocess.Popen[str]) -> None:
    """Waits until a run has its two workers, which are the first it does, and a moment more."""
    children = Path(f"/proc/{run.pid}/task/{run.pid}/children")
    while run.poll() is None and len(children.read_text().split()) < 2:
        time.sleep(0.02)
    time.sleep(0.8)


def _interrupted(suite: Path, number: int, *more: str) -> tuple[int, str, str, list[str]]:
    """Returns exit code, answers and files after a signal to the whole group, as a terminal does."""
    before = {path.name for path in suite.parent.iterdir()}
    words = ("flatlay", suite, "-o", suite.parent / "o.png", "--width", "12000", *more)
    ended = _started(*words, start_new_session=True)
    _at_work(ended)
    os.killpg(ended.pid, number)
    said, told = ended.communicate(timeout=20)
    left = sorted({path.name for path in suite.parent.iterdir()} - before)
    return ended.returncode, said or "", told or "", left


@LINUX
@pytest.mark.parametrize(
    ("number", "code", "word"),
    [
        (signal.SIGINT, ExitCode.INTERRUPTED, "interrupted"),
        (signal.SIGTERM, ExitCode.TERMINATED, "told to end"),
        pytest.param(  # POSIX: the terminal was closed
            getattr(signal, "SIGHUP", signal.SIGTERM),
            ExitCode.TERMINATED,
            "told to end",
            marks=pytest.mark.slow,
        ),
    ],
)
def test_a_signal_ends_it_with_a_line_and_leaves_nothing(
    demo_suite: Path, number: int, code: ExitCode, word: str
) -> None:
    ended, said, told, left = _interrupted(demo_suite, number)
    assert (ended, said, left) == (code, "", [])
    assert told == f"mockup: {word}; no half-written file is left\n"


@LINUX
def test_an_interrupt_is_told_to_a_machine(demo_suite: Path) -> None:
    ended, said, told, left = _interrupted(demo_suite, signal.SIGINT, "--json")
    assert (ended, told, left) == (ExitCode.INTERRUPTED, "", [])
    assert json.loads(said)["error"]["exit_code"] == ExitCode.INTERRUPTED


@LINUX
def test_an_interrupt_is_told_under_a_progress_bar(demo_suite: Path) -> None:
    out = demo_suite.parent / "o.png"
    terminal, side = os.openpty()
    environment = {**os.environ, "TERM": "xterm"}
    ended = _started("flatlay", demo_suite, "-o", out, stderr=side, env=environment)
    os.close(side)
    told = b""
    while b"Laying the table" not in told:
        told += os.read(terminal, 10_000)
    ended.send_signal(signal.SIGINT)
    with suppress(OSError):  # how a terminal says that its other side is closed
        while more := os.read(terminal, 10_000):
            told += more
    os.close(terminal)
    assert ended.wait(20) == ExitCode.INTERRUPTED
    assert b"mockup: interrupted" in told and b"Traceback" not in told
    assert not out.exists()


@LINUX
def test_an_interrupt_while_loading_is_told() -> None:
    code = (
        "import os, signal, sys\n"
        "class Slow:\n"
        "    def find_spec(self, name, *rest):\n"
        "        if name == 'typer': os.kill(os.getpid(), signal.SIGINT)\n"
        "sys.meta_path.insert(0, Slow())\n"
        "from mockup.cli.app import main; main()"
    )
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert ended.returncode == ExitCode.INTERRUPTED
    assert ended.stderr == "mockup: interrupted; no half-written file is left\n"


@LINUX
def test_an_interrupt_while_a_class_is_made_is_no_fault() -> None:
    """Before Python 3.12 what a `__set_name__` raises becomes a RuntimeError."""
    code = (
        "import os, signal, sys\n"
        "class Named:\n"
        "    def __set_name__(self, owner, name): os.kill(os.getpid(), signal.SIGINT)\n"
        "class Slow:\n"
        "    def find_spec(self, name, *rest):\n"
        "        if name == 'typer': type('Made', (), {'named': Named()})\n"
        "sys.meta_path.insert(0, Slow())\n"
        "from mockup.cli.app import main; main()"
    )
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert ended.returncode == ExitCode.INTERRUPTED
    assert ended.stderr == "mockup: interrupted; no half-written file is left\n"


@pytest.mark.parametrize(
    ("closed", "words", "code"),
    [
        (">&-", "envelopes", 0),
        ("2>&-", "dies no.toml", 3),
        (">&- 2>&-", "--help", 0),
        ("<&- >&- 2>&-", "dies no.toml --json", 3),
    ],
)
def test_streams_that_are_closed_change_nothing_else(closed: str, words: str, code: int) -> None:
    program = "from mockup.cli.app import main; main()"
    command = ["sh", "-c", f'"$0" -c "$1" {words} {closed}', sys.executable, program]
    answer = subprocess.run(command, capture_output=True, text=True, check=False)
    assert answer.returncode == code and "Traceback" not in answer.stderr


@pytest.mark.parametrize("words", [
    ("order", "suite.toml", "-o", ""), ("portfolio", "suite.toml", "--output="), ("demo", ""),
    ("flatlay", "suite.toml", "-o", "o.png", "--things-from", ""), ("dies", "--catalogues", ""),
])  # fmt: skip
def test_a_path_of_no_letters_is_not_this_folder(words: tuple[str, ...], tmp_path: Path) -> None:
    """POSIX, path resolution (4.13): "A null pathname shall not be successfully resolved"."""
    answer = mockup(*words, cwd=tmp_path)
    assert answer.returncode == ExitCode.USAGE
    assert answer.stderr.endswith("is empty; name a file or a folder\n")
    assert not [*tmp_path.iterdir()]


@LINUX
@pytest.mark.parametrize("words", [["dies"], ["check", "{suite}"]])
def test_a_folder_that_was_taken_away_is_told(words: list[str], demo_suite: Path) -> None:
    gone = demo_suite.parent / "gone"
    command = ["sh", "-c", 'mkdir "$1"; cd "$1"; rmdir "$1"; shift; exec "$@"', "sh", str(gone)]
    command += [*START, *(each.format(suite=demo_suite) for each in words)]
    environment = {**os.environ, "PYTHONPATH": str(Path.cwd())}
    ended = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    assert ended.returncode == ExitCode.INPUT
    assert ended.stderr.startswith("mockup: the folder this is run in is gone")


def test_a_mistake_for_a_machine_whose_answers_go_nowhere_is_told_as_a_line() -> None:
    command = ["sh", "-c", '"$@" >&-', "sh", *START, "dies", "no.toml", "--json"]
    answer = subprocess.run(command, capture_output=True, text=True, check=False)
    assert answer.stderr.startswith("mockup: no.toml: no such file")


@pytest.mark.parametrize(("name", "content", "said"), [
    ("typer.py", b"import no_such_library", "No module named 'no_such_library'"),
    # What a full disk leaves of a module that Python has compiled: the head, and half of the code.
    ("rich.pyc", importlib.util.MAGIC_NUMBER + bytes(12) + b"\xe3", "marshal data too short"),
])  # fmt: skip
def test_a_part_that_cannot_be_loaded_is_no_fault_to_report(
    name: str, content: bytes, said: str, tmp_path: Path
) -> None:
    (tmp_path / name).write_bytes(content)
    paths = f"{tmp_path}{os.pathsep}{Path.cwd()}"
    ended = _started("dies", env={**os.environ, "PYTHONPATH": paths}, cwd=tmp_path)
    _, told = ended.communicate()
    sentence = f"a part of this program cannot be loaded ({said}); install it again"
    assert (ended.returncode, told.strip()) == (ExitCode.SYSTEM, f"mockup: {sentence}")


@pytest.mark.parametrize("columns", quickly(["1", "20", "-5", "wide"], lambda n: n == 0))
def test_a_narrow_terminal_loses_no_word_of_a_table(columns: str) -> None:
    wide = _started("dies", env={**os.environ, "COLUMNS": "80"}).communicate()[0]
    assert _started("dies", env={**os.environ, "COLUMNS": columns}).communicate()[0] == wide
    assert "scalloped-circle" in wide and "…" not in wide
