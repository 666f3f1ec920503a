"""One hostile case: what is laid out, what is asked, and what may come of it."""

from __future__ import annotations

import contextlib
import hashlib
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

SECONDS = 45.0  # a page's limit of 30 s, the start, and what lies round it
MEMORY_MB = 2600  # 2 GB and the libraries
DONE = {0, 10, 20}
KNOWN = frozenset({*DONE, 2, 3, 4, 5, 6, 7})
PROGRAM = "from mockup.cli.app import main; main()"
MARK = "@@ended@@"
LIBRARIES = (
    "cairo returned",
    "CAIRO_",
    "object at 0x",
    "code=",
    "Errno",
    "Value error",
    "PosixPath",
)
# A small process of its own reads the peak of the command and its workers.
PROBE = (
    "import resource, subprocess, sys\n"
    "ended = subprocess.run(sys.argv[1:])\n"
    "peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss\n"
    f"sys.stderr.write(f'{MARK}{{ended.returncode}} {{peak}}')\n"
)


@dataclass(frozen=True)
class Case:
    """`lay` writes files into a folder; `arguments` are the command's, with {name} for a file's path
    in it. `ends` are the exit codes that will do; `wrote` whether an output must be there."""

    name: str
    lay: Callable[[Path], None]
    arguments: tuple[str, ...]
    ends: frozenset[int] = KNOWN
    says: str = ""
    environment: Mapping[str, str] = field(default_factory=dict)
    stdout: str = "pipe"
    shell: str = ""
    """What a shell does before it runs the command: a limit set, a folder taken away."""
    kept: tuple[str, ...] = ()
    """Files that must be byte for byte what they were."""
    seconds: float = SECONDS
    written: tuple[str, ...] = ()
    """Files that may be there though the command did not end well: whole, and only not told of."""


@dataclass(frozen=True)
class Outcome:
    """What came of a case; no fault where it went as it should."""

    case: Case
    fault: str
    said: str


@dataclass(frozen=True)
class _Ended:
    """How a command ended, what it said, how long and how large it was."""

    code: int
    said: str
    seconds: float
    peak_mb: float

    @property
    def is_done(self) -> bool:
        return self.code in DONE


def run(case: Case) -> Outcome:
    """Runs a case in a folder of its own."""
    with tempfile.TemporaryDirectory(prefix="hostile-") as place:
        folder = Path(place)
        case.lay(folder)
        before = {path: _mark(path) for path in folder.rglob("*")}
        ended = _ended(case, folder)
        if ended is None:
            return Outcome(case, "hangs", "")
        fault = next((each for each in _faults(case, folder, before, ended) if each), "")
        return Outcome(case, fault, ended.said)


def _ended(case: Case, folder: Path) -> _Ended | None:
    before = ["sh", "-c", f'{case.shell}; exec "$@"', "sh"] if case.shell else []
    command = [sys.executable, "-c", PROBE, *before, sys.executable, "-c", PROGRAM]
    command += [each.format(here=folder) for each in case.arguments]
    environment = {**os.environ, "PYTHONPATH": str(Path.cwd()), **case.environment}
    start = time.monotonic()
    with contextlib.ExitStack() as stack:
        full = case.stdout == "full"
        sink = stack.enter_context(Path("/dev/full").open("wb")) if full else subprocess.PIPE
        process = subprocess.Popen(
            command,
            cwd=folder,
            env=environment,
            stdout=sink,
            stderr=subprocess.PIPE,
            stdin=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            out, err = process.communicate(timeout=case.seconds + 15)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, 9)
            process.communicate()
            return None
    said, _, figures = ((out or b"") + err).decode("utf-8", "replace").rpartition(MARK)
    code, peak_kb = figures.split()
    return _Ended(int(code), said, time.monotonic() - start, int(peak_kb) / 1024)


def _faults(
    case: Case, folder: Path, before: dict[Path, str], ended: _Ended
) -> Iterator[str | None]:
    code, said = ended.code, ended.said
    yield "traceback" if "Traceback (most" in said else None
    yield next((f"says {word}" for word in LIBRARIES if word in said), None)
    yield f"exit {code}, not {sorted(case.ends)}" if code not in case.ends else None
    yield "not a word" if not ended.is_done and not said.strip() else None
    yield "control characters are told" if any(map(_is_control, said)) else None
    yield f"does not say {case.says!r}" if case.says not in said else None
    yield f"late: {ended.seconds:.0f} s" if ended.seconds > case.seconds else None
    yield f"large: {ended.peak_mb:.0f} MB" if ended.peak_mb > MEMORY_MB else None
    for path, mark in before.items():
        changed = mark != _mark(path) and (not ended.is_done or path.name in case.kept)
        yield f"changed {path.name}" if changed else None
    after = [path for path in folder.rglob("*") if path not in before]
    for path in after:
        yield f"left behind {path.name}" if path.name.startswith(".") else None
        unasked = not ended.is_done and path.is_file() and path.name not in case.written
        yield f"wrote {path.name} all the same" if unasked else None


def _is_control(letter: str) -> bool:
    return (ord(letter) < 32 and letter not in "\n\t") or letter == "\x7f"


def _mark(path: Path) -> str:
    if path.is_symlink():
        return f"link {path.readlink()}"
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else "other"
