"""Systems that run out: limits of a shell, full disks, lost folders, streams and terminals; and paths
of no letters, which scripts give.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from benchmarks.hostile.case import Case
from benchmarks.hostile.doors import FLATLAY
from benchmarks.hostile.tomls import demo

DONE = frozenset({0, 10, 20})
PIECE = ("piece", "reply.pdf", "-o", "o.png", "--ppi", "40")
CHECK = ("check", "suite.toml")
# A module that Python compiles under a limit is cut short and kept: then no later run loads it.
UNKEPT = {"PYTHONDONTWRITEBYTECODE": "1"}
_LIMITS = ("-n 8", "-n 12", "-n 20", "-v 300000", "-v 700000", "-f 0", "-f 4", "-s 256", "-c 0")
_WRITERS: dict[str, tuple[str, ...]] = {
    "liner": ("liner", "A7", "-o", "o.pdf"),
    "sheet": ("dies", "--sheet", "o.pdf"),
    "marked": ("check", "suite.toml", "--marked", "o.pdf"),
    "options": ("options", "suite.toml", "reply", "-o", "o.pdf"),
    "proof": ("proof", "suite.toml", "-o", "o.pdf"),
    "order": ("order", "suite.toml", "-o", "out", "--anyway"),
    "flatlay": (*FLATLAY, "o.png"),
}
_EMPTY: tuple[tuple[str, ...], ...] = (
    ("order", "suite.toml", "-o", ""),
    ("portfolio", "suite.toml", "--output="),
    ("demo", ""),
    ("dies", "--catalogues", ""),
    (*FLATLAY, "o.png", "--things-from", ""),
    ("piece", "reply.pdf", "-o", "o.png", "--press", ""),
)
_FROM_ELSEWHERE: dict[str, tuple[str, ...]] = {
    "dies": ("dies",),
    "check": ("check", "{here}/suite.toml"),
    "piece": ("piece", "{here}/reply.pdf", "-o", "{here}/o.png"),
}
_STREAMS = ("<&-", ">&-", "2>&-", "<&- >&-", "<&- >&- 2>&-")


def cases() -> Iterator[Case]:
    """Yields every case."""
    yield from _limited()
    yield from _streams()
    for k, arguments in enumerate(_EMPTY):
        yield Case(f"empty-path-{k}", demo, arguments, frozenset({2}), "is empty")
    lost = "mkdir gone; cd gone; rmdir ../gone"
    for name, arguments in _FROM_ELSEWHERE.items():
        yield Case(f"lost-{name}", demo, arguments, frozenset({4}), "is gone", shell=lost)
    told = "lies in the suite's record"
    for name in ("proof", "marked", "options"):
        arguments = (*_WRITERS[name][:-1], "suite.record/o.pdf")
        yield Case(f"into-record-{name}", _recorded, arguments, frozenset({5}), told)
    order = ("order", "suite.toml", "-o", "suite.record")
    yield Case("into-record-order", _recorded, order, frozenset({5}), told)


def _limited() -> Iterator[Case]:
    """Yields cases under a shell's limits: whatever ends them, no file is at fault."""
    shorter = {f"{k}-{name}": (f"ulimit {limit}", arguments) for k, limit in enumerate(_LIMITS)
               for name, arguments in {"piece": PIECE, "check": CHECK}.items()}  # fmt: skip
    fuller = {f"full-{blocks}-{name}": (f"ulimit -f {blocks}", arguments) for blocks in (4, 200)
              for name, arguments in _WRITERS.items()}  # fmt: skip
    for name, (shell, arguments) in {**shorter, **fuller}.items():
        ends = DONE | {5, 6, 7}
        yield Case(f"limit-{name}", demo, arguments, ends, environment=UNKEPT, shell=shell)


def _streams() -> Iterator[Case]:
    for k, closed in enumerate(_STREAMS):
        for name, arguments in {"piece": PIECE, "check": CHECK}.items():
            yield Case(f"closed-{k}-{name}", demo, arguments, DONE, shell=f"exec {closed}")
    for columns in ("1", "20", "-5", "wide"):
        narrow = {"COLUMNS": columns}
        yield Case(f"narrow-{columns}", demo, ("dies",), DONE, "scalloped-circle", narrow)


def _recorded(folder: Path) -> None:
    demo(folder)
    (folder / "suite.record").mkdir()
