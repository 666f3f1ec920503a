"""Do the tests notice? Plants one breakage at a time in a copy of the tree and runs its tests.

    python -m benchmarks.mutation                 every breakage, first the tests nearest to it
    python -m benchmarks.mutation --only sheets   those whose name or file holds a word
    python -m benchmarks.mutation --near          the nearest tests and the goldens alone

Never touches the checkout. Breakages stand in `breakages.py`. All of them take an hour or more on
two processors; run them in batches, by file.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from benchmarks.breakage import Breakage
from benchmarks.breakages import BREAKAGES

ROOT = Path(__file__).parent.parent
COPIED = ("mockup", "tests", "scenes", "assets_demo", "benchmarks", "pyproject.toml", "README.md")
PATIENCE_S = 900  # judgement: a breakage that makes the tests hang for a quarter hour is noticed
_FAILED = re.compile(r"^(?:FAILED|ERROR) (\S+)", re.M)


@dataclass(frozen=True)
class Outcome:
    """What came of a breakage: "caught", "survived" or "moved", and the test that caught it."""

    breakage: Breakage
    word: str
    test: str = ""


def main() -> None:
    """Runs the breakages asked for, a line each, and fails where under 95 % are caught."""
    asked = _arguments()
    rows = [b for b in BREAKAGES if asked.only in f"{b.file} {b.name}"]
    outcomes: list[Outcome] = []
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder)
        _copy(tree)
        for row in rows:
            start = time.monotonic()
            outcome = tried(row, tree, asked.near, asked.workers)
            outcomes.append(outcome)
            took = f"{time.monotonic() - start:.0f} s"
            print(f"{outcome.word:9}{row.file}: {row.name}  {outcome.test}  {took}", flush=True)
    caught = sum(outcome.word == "caught" for outcome in outcomes)
    print(f"{caught} of {len(outcomes)} breakages caught by the quick tests")
    sys.exit(0 if caught >= 0.95 * len(outcomes) else 1)


def tried(row: Breakage, tree: Path, near_only: bool, workers: int) -> Outcome:
    """Returns whether the quick tests of a tree notice a breakage, planted and taken out again."""
    path = tree / "mockup" / row.file
    whole = path.read_text(encoding="utf-8") if path.exists() else ""
    if whole.count(row.old) != 1:
        return Outcome(row, "moved")
    _write(path, whole.replace(row.old, row.new))
    try:
        for tests in _stages(row, tree, near_only):
            test = first_failing(tree, tests, workers)
            if test is not None:
                return Outcome(row, "caught", test)
        return Outcome(row, "survived")
    finally:
        _write(path, whole)


def _stages(row: Breakage, tree: Path, near_only: bool) -> Iterator[Sequence[str]]:
    """Yields the tests to run, nearest first.

    Those that name the module, those of its folder, the pictures and the commands, then the rest.
    """
    room = row.file.split("/")[0]
    pictures = [] if room == "checks" else ["tests/golden"]
    naming = _naming(row, tree)
    mirrored = [f"tests/{room}"] if (tree / "tests" / room).is_dir() else []
    if room in ("render", "cli", "colour"):  # a picture tells sooner
        stages = [["tests/golden"], naming, [*mirrored, "tests/cli"]]
    else:
        stages = [naming, [*mirrored], [*pictures, "tests/cli"]]
    if not near_only:
        stages.append(["tests", *(f"--ignore={each}" for each in (*mirrored, *pictures))])
    yield from (stage for stage in stages if stage)


def _naming(row: Breakage, tree: Path) -> list[str]:
    """Returns the test files that name a module, as an import or as `tests/.../test_NAME.py`."""
    module = "mockup." + row.file.removesuffix(".py").replace("/", ".")
    stem = Path(row.file).stem
    return [
        str(path.relative_to(tree))
        for path in sorted((tree / "tests").rglob("test_*.py"))
        if path.stem == f"test_{stem}" or module in path.read_text(encoding="utf-8")
    ]


def first_failing(tree: Path, tests: Sequence[str], workers: int) -> str | None:
    """Returns the first quick test that fails in a tree, or None."""
    spread = ("-n", str(workers)) if workers > 1 else ()
    command = [sys.executable, "-m", "pytest", "-x", "-m", "not slow", "-rfE", *spread, *tests]
    env = os.environ | {"PYTHONPATH": str(tree)}
    try:
        answer = subprocess.run(
            command, cwd=tree, env=env, capture_output=True, text=True, timeout=PATIENCE_S,
            check=False,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return f"no end within {PATIENCE_S} s"
    if answer.returncode == 0:
        return None
    if answer.returncode not in (1, 2):  # pytest's own: tests failed, or a test could not be read
        raise RuntimeError(answer.stdout + answer.stderr)
    found = _FAILED.search(answer.stdout)
    return found[1] if found else answer.stdout.strip().splitlines()[-1]


def _write(path: Path, text: str) -> None:
    """Writes a module with a time of its own, or Python might take what it compiled before."""
    before = path.stat().st_mtime
    path.write_text(text, encoding="utf-8")
    os.utime(path, (before + 2, before + 2))


def _copy(tree: Path) -> None:
    skipped = shutil.ignore_patterns("__pycache__", ".*")
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, tree / name, ignore=skipped)
        else:
            shutil.copy(source, tree / name)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", default="", help="a word in a breakage's file or name")
    parser.add_argument("--near", action="store_true", help="the nearest tests alone")
    parser.add_argument("--workers", type=int, default=2, help="pytest's processes")
    return parser.parse_args()


if __name__ == "__main__":
    main()
