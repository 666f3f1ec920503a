"""Runs print art saved by real programs through the checks: ornament that crosses the cut and is no
fault, and faults among it.

`python -m benchmarks.ornament_bench [FOLDER] [--wrong]`; pages are kept in FOLDER. `--wrong` tells
what came out wrong of the half that may be looked at.
"""

from __future__ import annotations

import sys
import tempfile
import zlib
from pathlib import Path

import shapely

from benchmarks.ornament.bleeding import BLEEDING
from benchmarks.ornament.drawing import Drawing
from benchmarks.ornament.faults import FAULTS, Planted
from benchmarks.ornament.programs import PROGRAMS, present
from mockup.artwork.art import art_of
from mockup.checks.finding import Finding, Severity
from mockup.checks.running import check_pieces
from mockup.checks.settings import Settings
from mockup.dies import make_die
from mockup.suite.suite import Piece
from mockup.trade.papers import stock
from mockup.trade.sizes import CardSize

EXPECTED = ("rgb", "live-type")  # SVG has no CMYK: what is said of RGB is true of every page here
PLACE_WITHIN_IN = (
    0.05  # judgement: a finger's breadth on a screen; programs set type a little apart
)


def seen(name: str) -> bool:
    """Returns whether a page is of the half that may be looked at."""
    return zlib.crc32(name.encode()) % 2 == 0


def piece(name: str, file: Path) -> Piece:
    """Returns the card a page is art for."""
    card = CardSize(name, 5.0, 7.0, "bench")
    die = make_die("rectangle", 5.0, 7.0, {})
    return Piece(name, name, art_of(file), card, die, stock("smooth-120-white"), 100, 0.125)


def saved(folder: Path) -> tuple[dict[str, Path], dict[str, Planted]]:
    """Returns the file of every drawing by every program here, by name; and what is planted."""
    files: dict[str, Path] = {}
    planted: dict[str, Planted] = {}
    for program in present():
        place = folder / program
        place.mkdir(parents=True, exist_ok=True)
        for design, draw in {**BLEEDING, **FAULTS}.items():
            drawing, name = Drawing(), f"{design}-{program}"
            fault = draw(drawing)
            file = place / f"{design}.pdf"
            files[name] = file if file.exists() else PROGRAMS[program](drawing, file)
            if fault is not None:
                planted[name] = fault
    return files, planted


def alarms(findings: list[Finding]) -> list[Finding]:
    """Returns the warnings and stops that are no truth of every page here."""
    return [f for f in findings if f.severity > Severity.NOTE and f.check not in EXPECTED]


def hit(findings: list[Finding], fault: Planted) -> bool:
    """Returns whether a fault is told, at its place and with its measure."""
    return any(
        f.check == fault.check
        and f.at is not None
        and shapely.Point(f.at).distance(fault.at) <= PLACE_WITHIN_IN
        and (fault.value is None or abs((f.value or 0.0) - fault.value) <= fault.within)
        for f in alarms(findings)
    )


def main() -> None:
    """Prints how many faults are told, and how many false stops and false warnings there are."""
    kept = next((Path(a) for a in sys.argv[1:] if not a.startswith("-")), None)
    with tempfile.TemporaryDirectory() as made:
        files, planted = saved(kept or Path(made))
        findings = check_pieces([piece(n, f) for n, f in files.items()], Settings())
    told = {name: alarms([f for f in findings if f.piece == name]) for name in files}
    for half in (True, False):
        own = {name: fs for name, fs in told.items() if seen(name) is half}
        found = {name: hit(fs, planted[name]) for name, fs in own.items() if name in planted}
        clean = {name: fs for name, fs in own.items() if name not in planted}
        stops = sum(any(f.severity is Severity.STOP for f in fs) for fs in clean.values())
        warned = sum(any(f.severity is Severity.WARN for f in fs) for fs in clean.values())
        print(
            f"{'looked at' if half else 'only counted'}: {sum(found.values())} of {len(found)} "
            f"faults told; {len(clean)} clean pages, {stops} with a false stop, {warned} with a "
            "false warning"
        )
        if half and "--wrong" in sys.argv:
            wrong = [n for n, fs in own.items() if (not found[n] if n in planted else fs)]
            for name in wrong:
                print(f"  {name}: {planted.get(name, 'clean')}")
                for f in own[name]:
                    print(f"      {f.severity.word} {f.check} {f.at} {f.value} {f.message}")


if __name__ == "__main__":
    main()
