"""Runs print art saved by real programs through the checks: `python -m benchmarks.ornament_bench`.

`--wrong` tells what came out wrong of the half that may be looked at.
"""

from __future__ import annotations

import sys
import tempfile
import zlib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from benchmarks.ornament.bleeding import BLEEDING
from benchmarks.ornament.drawing import Drawing
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


def seen(name: str) -> bool:
    """Returns whether a page is of the half that may be looked at."""
    return zlib.crc32(name.encode()) % 2 == 0


def piece(name: str, file: Path) -> Piece:
    """Returns the card a page is art for."""
    card = CardSize(name, 5.0, 7.0, "bench")
    die = make_die("rectangle", 5.0, 7.0, {})
    return Piece(name, name, art_of(file), card, die, stock("smooth-120-white"), 100, 0.125)


def saved(folder: Path) -> dict[str, Path]:
    """Returns the file of every drawing by every program here, by name."""
    jobs = [(d, p) for p in present() for d in BLEEDING]

    def save(job: tuple[str, str]) -> tuple[str, Path]:
        design, program = job
        drawing = Drawing()
        BLEEDING[design](drawing)
        place = folder / program
        place.mkdir(exist_ok=True)
        return f"{design}-{program}", PROGRAMS[program](drawing, place / f"{design}.pdf")

    with ThreadPoolExecutor(1) as pool:
        return dict(pool.map(save, jobs))


def alarms(findings: list[Finding]) -> list[Finding]:
    """Returns the warnings and stops that are no truth of every page here."""
    return [f for f in findings if f.severity > Severity.NOTE and f.check not in EXPECTED]


def main() -> None:
    """Prints how many false stops and false warnings there are."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 and not sys.argv[1].startswith("-") else None
    with tempfile.TemporaryDirectory() as made:
        kept = folder or Path(made)
        kept.mkdir(exist_ok=True)
        files = saved(kept) if not list(kept.glob("*/*.pdf")) else {
            f"{f.stem}-{f.parent.name}": f for f in sorted(kept.glob("*/*.pdf"))
        }  # fmt: skip
        findings = check_pieces([piece(n, f) for n, f in files.items()], Settings())
    for half in (True, False):
        names = [n for n in files if seen(n) is half]
        told = {n: alarms([f for f in findings if f.piece == n]) for n in names}
        stops = sum(any(f.severity is Severity.STOP for f in fs) for fs in told.values())
        warns = sum(any(f.severity is Severity.WARN for f in fs) for fs in told.values())
        print(f"{'seen' if half else 'unseen'}: {len(names)} clean pages, {stops} with a false stop, "
              f"{warns} with a false warning")  # fmt: skip
        if half and "--wrong" in sys.argv:
            for name, own in told.items():
                for f in own:
                    print(f"  {name}: {f.severity.word} {f.check} {f.at} {f.message}")


if __name__ == "__main__":
    main()
