"""`python -m benchmarks.killed [FOLDER] [--moments 20]`: proof and order, killed at many moments.

Every other moment is a share of a run's time, the others come as soon as the run has given a name
in the suite's folder (its record, its output) for the first, the second, the third time. After each
the record has all it had, whatever bears the name of an output is whole, no process is left, and
the next run is done.
"""

from __future__ import annotations

import argparse
import os
import signal
import subprocess
import sys
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path

import pikepdf

from mockup.errors import MockupError
from mockup.record.reading import Record, read_record

FOLDER = Path("build/killed")
PROGRAM = (sys.executable, "-c", "from mockup.cli.app import main; main()")
LOOK_S, LEFT_S = 0.002, 10.0
SUITE = """
title = "Harvest Supper"
[pieces.invitation]
art = "card.pdf"
card = "A7"
die = "lancet-arch"
quantity = {quantity}
[pieces.reply]
art = "card.pdf"
card = "A7"
quantity = 100
"""
ASKS = {"proof": ("proof", "suite.toml"), "order": ("order", "suite.toml", "-o", "out", "--anyway")}


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", nargs="?", type=Path, default=FOLDER)
    asked.add_argument("--moments", type=int, default=20)
    given = asked.parse_args()
    for name, words in ASKS.items():
        folder = given.folder / name
        folder.mkdir(parents=True, exist_ok=True)
        counts: Counter[str] = Counter()
        write_suite(folder, 99)
        begun = time.perf_counter()
        subprocess.run([*PROGRAM, *words], cwd=folder, check=True, stdout=subprocess.DEVNULL)
        whole_s = time.perf_counter() - begun
        for moment in range(given.moments):
            write_suite(folder, 100 + moment)
            before = read_record(folder / "suite.toml")
            turn = moment // 2 + 1
            share = (turn - 0.5) / ((given.moments + 1) // 2)
            when = killed_at(words, folder, whole_s * share if moment % 2 else None, turn)
            told = [*faults(folder, before), *next_run(words, folder)]
            counts["whole" if not told else "broken"] += 1
            print(f"{name} {moment + 1}: killed {when}: {'; '.join(told) or 'whole'}", flush=True)
        hidden = [each for each in folder.rglob(".*") if each.is_file() or each.is_dir()]
        print(f"{name}: {dict(counts)}; {len(hidden)} unnamed files of killed runs are left")


def write_suite(folder: Path, quantity: int) -> None:
    """Writes a suite of two cards; every quantity makes it another revision."""
    (folder / "suite.toml").write_text(SUITE.format(quantity=quantity), encoding="utf-8")
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(5.25 * 72, 7.25 * 72))
    page.Contents = pdf.make_stream(b"0.2 0.1 0 0.3 k 60 60 100 100 re f")
    pdf.save(folder / "card.pdf", deterministic_id=True)


def killed_at(words: tuple[str, ...], folder: Path, after_s: float | None, names: int) -> str:
    """Returns when a run was killed: after a time, or once it has given so many names."""
    run = subprocess.Popen(
        [*PROGRAM, *words], cwd=folder, start_new_session=True, stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )  # fmt: skip
    begun, seen, changes = time.perf_counter(), named(folder), 0
    while run.poll() is None and changes < names:
        time.sleep(LOOK_S)
        if after_s is not None and time.perf_counter() - begun > after_s:
            break
        now = named(folder)
        changes += after_s is None and now != seen
        seen = now
    spent = time.perf_counter() - begun
    ended = run.poll() is not None
    os.kill(run.pid, signal.SIGKILL) if not ended else None
    run.wait()
    how = f"after {changes} names" if after_s is None else "by the clock"
    left = "" if none_left(run.pid) else ", LEAVING PROCESSES"
    return f"{how}, {spent:.2f} s{', when it had ended' if ended else ''}{left}"


def named(folder: Path) -> frozenset[tuple[str, int]]:
    """Returns every name below a folder, with the file it stands for."""
    found: set[tuple[str, int]] = set()
    for place, _, files in os.walk(folder):
        for file in (Path(place) / each for each in files):
            with suppress(FileNotFoundError):
                found.add((str(file), file.stat().st_ino))
    return frozenset(found)


def none_left(group: int) -> bool:
    """Returns whether all processes of a killed run end by themselves."""
    until = time.perf_counter() + LEFT_S
    while time.perf_counter() < until:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False


def faults(folder: Path, before: Record) -> list[str]:
    """Returns what a killed run has broken: of the record, or of what bears an output's name."""
    told: list[str] = []
    try:
        after = read_record(folder / "suite.toml")
    except MockupError as error:
        return [f"the record cannot be read: {error}"]
    if not {each.mark for each in before.entries} <= {each.mark for each in after.entries}:
        told.append("the record has lost an event")
    if after.told:
        told.append(f"the record tells {after.told}")
    for file in folder.rglob("[!.]*.pdf"):
        if any(part.startswith(".") for part in file.relative_to(folder).parts):
            continue
        try:
            with pikepdf.open(file) as pdf:
                wrong = pdf.check_pdf_syntax()
                told += [f"{file.name}: {each}" for each in wrong]
        except pikepdf.PdfError as error:
            told.append(f"{file.name} is not whole: {error}")
    return told


def next_run(words: tuple[str, ...], folder: Path) -> list[str]:
    """Returns what the next run says, where it is not done."""
    done = subprocess.run([*PROGRAM, *words], cwd=folder, capture_output=True, text=True)
    return [] if done.returncode == 0 else [f"the next run ended {done.returncode}: {done.stderr}"]


if __name__ == "__main__":
    main()
