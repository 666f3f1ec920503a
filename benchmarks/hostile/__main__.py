"""Runs the cases, and says which ended otherwise than they should."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from benchmarks.hostile import doors, pdfs, returns, strangers, svgs, systems, tomls
from benchmarks.hostile.case import Case, run
from benchmarks.yardstick import ART

ART_WAYS: dict[str, tuple[str, ...]] = {
    "piece": ("piece", "art{e}", "-o", "o.png", "--card", "A7", "--ppi", "100"),
    "start": ("start", "art{e}", "-o", "o.toml"),
    "flatlay": ("flatlay", "suite.toml", "-o", "o.png", "--width", "400"),
    "check": ("check", "suite.toml"),
    "template": ("piece", "reply.pdf", "--die", "art{e}", "-o", "o.png", "--ppi", "100"),
}
SUITE = 'title = "T"\n[pieces.one]\nart = "art{e}"\ncard = "A7"\n'


def art_case(name: str, make: Callable[[Path], None], ending: str, way: str) -> Case:
    """Returns a case of a foreign file used one way."""

    def lay(folder: Path) -> None:
        (folder / "reply.pdf").write_bytes((ART / "reply.pdf").read_bytes())
        (folder / "suite.toml").write_text(SUITE.replace("{e}", ending))
        make(folder / f"art{ending}")

    arguments = tuple(each.replace("{e}", ending) for each in ART_WAYS[way])
    return Case(f"{name}-{way}", lay, arguments, kept=(f"art{ending}",))


def cases() -> Iterator[Case]:
    """Yields every case."""
    yield from _art()
    yield from _values()
    for name, content in tomls.text_files():
        yield from _texts(name, content)
    for name, text in tomls.CATALOGUES.items():
        yield Case(f"catalogue-{name}", tomls.catalogue(text.encode()), ("dies", "suite.toml"))
    yield from doors.cases()
    yield from strangers.cases()
    yield from systems.cases()
    yield from returns.cases()


def _art() -> Iterator[Case]:
    for name, make in pdfs.CASES.items():
        for way in ART_WAYS:
            yield art_case(f"pdf-{name}", make, ".pdf", way)
    demo = (ART / "reply.pdf").read_bytes()
    for seed in range(60):
        way = list(ART_WAYS)[seed % len(ART_WAYS)]
        yield art_case(f"flip-{seed}", pdfs.flipped(seed, demo), ".pdf", way)
    for name, make in svgs.CASES.items():
        ending = ".svgz" if name.startswith("gzip") else ".svg"
        for way in ART_WAYS:
            yield art_case(f"svg-{name}", make, ending, way)
        yield _thing(name, make)


def _values() -> Iterator[Case]:
    """Yields odd values at every key."""
    for odd, value in tomls.ODD.items():
        for key in tomls.SUITE_KEYS:
            yield Case(f"suite-{key}-{odd}", tomls.suite_with(key, value), ("check", "suite.toml"))
        for key in tomls.SCENE_KEYS:
            lay = tomls.scene_with(key, value)
            yield Case(f"scene-{key}-{odd}", lay, (*doors.FLATLAY, "o.png", "--things"))


def _thing(name: str, make: Callable[[Path], None]) -> Case:
    def lay(folder: Path) -> None:
        tomls.scene_with("things", '[{ svg = "mine.svg" }]')(folder)
        make(folder / "mine" / "mine.svg")

    return Case(f"thing-{name}", lay, (*doors.FLATLAY, "o.png", "--things"))


def _texts(name: str, content: bytes) -> Iterator[Case]:
    def suite(folder: Path) -> None:
        tomls.demo(folder)
        (folder / "suite.toml").write_bytes(content)

    def scene(folder: Path) -> None:
        tomls.scene_with("about", '"x"')(folder)
        (folder / "mine" / "scene.toml").write_bytes(content)

    yield Case(f"text-suite-{name}", suite, ("check", "suite.toml"), seconds=15)
    yield Case(f"text-scene-{name}", scene, (*doors.FLATLAY, "o.png"), seconds=15)
    yield Case(
        f"text-catalogue-{name}", tomls.catalogue(content), ("dies", "suite.toml"), seconds=15
    )


def main() -> None:
    words = sys.argv[1:]
    chosen = [case for case in cases() if not words or any(word in case.name for word in words)]
    failed = 0
    with ThreadPoolExecutor(2) as pool:
        for outcome in pool.map(run, chosen):
            if outcome.fault:
                failed += 1
                said = " | ".join(outcome.said.strip().splitlines()[-2:])[:300]
                print(f"{outcome.case.name}: {outcome.fault}\n    {said!r}", flush=True)
    print(f"{len(chosen)} cases, {failed} ended otherwise than they should")


if __name__ == "__main__":
    main()
