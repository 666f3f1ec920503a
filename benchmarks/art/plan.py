"""Which pages there are: every kind once or more in each half, each by a program that can draw it.

Half A may be looked at; of half B only counts are told, so that it measures what A did not teach.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from pathlib import Path
from random import Random

from benchmarks.art.faults_lines import LINES
from benchmarks.art.faults_print import PRINT
from benchmarks.art.kinds import CLEAN
from benchmarks.art.scene import Scene
from tests.checks.bench.case import Fault

Half = str
HALVES: tuple[Half, Half] = ("A", "B")
PROGRAMS = (
    *("cairo", "reportlab", "fpdf", "matplotlib", "typst", "weasyprint", "inkscape"),
    *("libreoffice", "scribus", "svg"),
)
INKS = ("reportlab", "typst", "scribus")
"""Programs that save the colours of a press; the others save RGB, and `check` rightly says so."""
_TWICE = ("border-solid", "border-double", "border-arch", "border-cyan-dashed", "border-rounded")


@dataclass(frozen=True)
class Page:
    """One page of the bench: its kind, the program that saves it, and what is wrong with it."""

    name: str
    half: Half
    program: str
    scene: Scene
    faults: tuple[Fault, ...]

    def file(self, folder: Path) -> Path:
        """Where the page is saved: a page drawn otherwise has another name."""
        drawn = hashlib.sha256(json.dumps(self.scene.told()).encode()).hexdigest()[:8]
        return folder / f"{self.name}-{drawn}.{'svg' if self.program == 'svg' else 'pdf'}"


def pages(halves: tuple[Half, ...] = HALVES) -> list[Page]:
    """Returns all pages of both halves, always the same ones; of other names, other pages."""
    found: list[Page] = []
    for half in halves:
        for kind, clean in CLEAN.items():
            for number in range(2 if kind in _TWICE else 1):
                random = Random(f"{half}/{kind}/{number}")
                scene = clean(random)
                found.append(_page(half, f"clean-{kind}-{number}", random, scene, ()))
        for kind, faulty in {**LINES, **PRINT}.items():
            random = Random(f"{half}/{kind}")
            scene, faults = faulty(random)
            found.append(_page(half, f"fault-{kind}", random, scene, tuple(faults)))
    return found


def _page(half: Half, name: str, random: Random, scene: Scene, faults: tuple[Fault, ...]) -> Page:
    program = random.choice(able(scene))
    return Page(f"{half}-{name}-{program}", half, program, scene, faults)


def able(scene: Scene) -> list[str]:
    """Returns the programs that can save what a page holds."""
    able = set(PROGRAMS)
    marks = scene.marks
    if any("spot" in (mark.get(k) or {}) for mark in marks for k in ("fill", "stroke")):
        able &= {"reportlab", "scribus"}
    if any(mark.get("font") == "standard" for mark in marks):
        able &= {"reportlab", "fpdf"}
    if scene.slug:
        able &= {"reportlab"}
    if scene.layers:
        told = [about for about in scene.layers.values() if about]
        able &= {"reportlab"} if told and told != [{"state": "on"}] else {"reportlab", "scribus"}
    if any(
        mark.get("fill") and str(mark["steps"]).count("M") > 1
        for mark in marks
        if mark["kind"] == "path"
    ):
        able -= {"scribus"}  # its script draws no path of several outlines
    if any(mark.get("cap") == "round" for mark in marks):
        able -= {"libreoffice", "scribus"}  # they have no dots of no length
    return [program for program in PROGRAMS if program in able]
