"""Saves the pages of the bench, each by its program, all pages of a program in one run."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name

from benchmarks.art.plan import Page

ROOT = Path(__file__).parents[2]
MODULES = {"svg": "as_svg"}
LONGEST_S = 900


def draw_pages(pages: Sequence[Page], folder: Path, python: str) -> list[str]:
    """Saves pages in a folder; returns a line for every program that could not.

    `python` is an interpreter with the libraries that draw; the other programs are called by name.
    """
    told: list[str] = []
    for program in dict.fromkeys(page.program for page in pages):
        own = [p for p in pages if p.program == program and not p.file(folder).exists()]
        if not own:
            continue
        tasks = folder / f"{program}.json"
        rows = [{"scene": p.scene.told(), "out": str(p.file(folder))} for p in own]
        tasks.write_text(json.dumps(rows))
        module = f"benchmarks.art.programs.{MODULES.get(program, f'with_{program}')}"
        runner = sys.executable if program == "scribus" else python
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "ignore"}
        done = subprocess.run([runner, "-m", module, str(tasks)], cwd=ROOT, env=environment,
                              capture_output=True, text=True, timeout=LONGEST_S)  # fmt: skip
        missing = [p for p in own if not p.file(folder).exists()]
        if missing:
            last = done.stderr.strip().splitlines()[-1:] or ["it said nothing"]
            told.append(f"{program}: {len(missing)} of {len(own)} pages not saved: {last[0]}")
        for page in own:
            if page.program == "reportlab" and page.scene.layers and page not in missing:
                _tie_layers(page, page.file(folder))
    return told


def _tie_layers(page: Page, file: Path) -> None:
    """Gives the marked content of a page its groups: the library writes none."""
    with pikepdf.open(file, allow_overwriting_input=True) as pdf:
        groups, hidden = [], []
        for name, about in page.scene.layers.items():
            group = Dictionary(Type=Name.OCG, Name=name)
            if about.get("group"):
                group.GTS_Metadata = Dictionary(GTS_ProcStepsGroup=Name("/" + about["group"]))
                if about["type"]:
                    group.GTS_Metadata.GTS_ProcStepsType = Name("/" + about["type"])
            groups.append(pdf.make_indirect(group))
            if about.get("state") == "hidden":
                hidden.append(groups[-1])
        named = {f"/L{k}": group for k, group in enumerate(groups)}
        pdf.pages[0].obj.Resources.Properties = Dictionary(named)
        pdf.Root.OCProperties = Dictionary(
            OCGs=Array(groups), D=Dictionary(Order=Array(groups), OFF=Array(hidden))
        )
        pdf.save(file)
