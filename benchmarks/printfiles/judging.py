"""One page made into print files, and what qpdf, poppler, PDFium and a reader of steps find."""

from __future__ import annotations

import itertools
import math
import os
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
from PIL import Image

from benchmarks.art.plan import Page
from mockup.artwork.art import art_of
from mockup.errors import MockupError, RefusedError
from mockup.output.print_files import PrintFile, print_files
from mockup.printers.files_asked import VARIANTS, FilesAsked
from mockup.suite.suite import CutLineChoice, Piece, SceneChoice, Suite
from tests.ordering.processing_steps import steps_of

PPI = 600
POPPLER_PPI = 200
AROUND_IN = 0.03  # round what was taken out
MEAN_MAX = 0.2


@dataclass(frozen=True)
class Judged:
    """What became of a page: how it was asked for, `made`, `refused` with the reason, or `wrong`;
    the figures of type turned to outlines."""

    page: Page
    asked: str
    outcome: str
    said: str = ""
    letters: int = 0
    mean: float = 0.0


def judge(page: Page, folder: Path, into: Path) -> list[Judged]:
    """Returns what became of a page: as art and with its cut line, then with its type outlined."""
    file = page.file(folder)
    piece = replace(page.scene.case.piece(file), name="card", art=art_of(file))
    return [_judged(page, piece, into, outlined) for outlined in (False, True)]


def _judged(page: Page, piece: Piece, into: Path, outlined: bool) -> Judged:
    asked = "outlined" if outlined else "as it is"
    out = into / f"{page.name}-{asked.replace(' ', '-')}"
    shutil.rmtree(out, ignore_errors=True)
    try:
        made = print_files(_alone(piece), out, FilesAsked(VARIANTS, outlined))
    except RefusedError as error:
        return Judged(page, asked, "wrong", str(error))
    except MockupError as error:
        return Judged(page, asked, "refused", error.mistakes[0].sentence)
    said = [line for each in made for line in _wrong(each, piece)]
    means = [_mean(piece, each) for each in made] if outlined else [0.0]
    if max(means) > MEAN_MAX:
        said.append(f"type looks otherwise: {max(means):.3f}")
    outcome = "wrong" if said else "made"
    return Judged(page, asked, outcome, "; ".join(said), made[0].letters, max(means))


def _alone(piece: Piece) -> Suite:
    line, scene = CutLineChoice(None, 0.5), SceneChoice("", 1, 0)
    alone = (piece,)
    return Suite(piece.art.path, "", None, None, "", piece.bleed_in, alone, (), line, scene, "")


def _wrong(made: PrintFile, piece: Piece) -> list[str]:
    told: list[str] = []
    checked = subprocess.run(["qpdf", "--check", made.path], capture_output=True, text=True)
    if checked.returncode:
        told.append(f"qpdf: {checked.stderr.strip()[:80]}")
    with pikepdf.open(made.path) as pdf:
        told += [f"pikepdf: {each}" for each in pdf.get_warnings()]
    told += _steps(made) if made.variant == "cut-line" else []
    if not made.outlined:
        count = _apart(made, piece)
        told += [f"poppler: {count} pixels differ"] if count else []
    elif _fonts(made.path):
        told.append(f"fonts are left: {_fonts(made.path)[:2]}")
    return told


def _steps(made: PrintFile) -> list[str]:
    try:
        steps = [s for s in steps_of(made.path, _cut_layers(made.path)) if s.kind == "Cutting"]
    except AssertionError as error:
        return [f"steps: {error}"]
    if len(steps) != 1:
        return [f"steps: {len(steps)} on the layer of the cut"]
    (step,) = steps
    if (step.group, step.kind, step.printed) != ("Structural", "Cutting", False):
        return [f"steps: {step.group}/{step.kind}"]
    points = [point for stroke in step.paths for path in stroke.subpaths for point in path]
    xs, ys = zip(*points, strict=True)
    box = (min(xs), min(ys), max(xs), max(ys))
    # Controls of curves may lie outside a card, its ends may not.
    off = max(abs(a - b) for a, b in zip(box, made.boxes.trim, strict=True))
    return [f"steps: the cut is {off:.2f} pt off the TrimBox"] if off > 40 else []


def _fonts(file: Path) -> list[str]:
    listed = subprocess.run(["pdffonts", file], capture_output=True, text=True).stdout
    return listed.splitlines()[2:]


def _apart(made: PrintFile, piece: Piece) -> int:
    """How many pixels poppler draws otherwise than the art's, off the marks that are listed."""
    hidden = made.path.with_suffix(".hidden.pdf")
    source, own = _poppler(piece.art.path, piece.art.page), _poppler(_art_layers(made, hidden), 1)
    if source.shape != own.shape:
        return source.size
    differs = (source != own).any(axis=2)
    for mark in _marks(piece):
        differs[mark] = False
    return int(differs.sum())


def _art_layers(made: PrintFile, hidden: Path) -> Path:
    """The file with our step switched off: poppler draws what is seen, not what is printed."""
    with pikepdf.open(made.path) as pdf:
        if "/OCProperties" in pdf.Root:
            groups = [g for g in pdf.Root.OCProperties.OCGs if _is_cut(g)]
            default = pdf.Root.OCProperties.D
            default.OFF = pikepdf.Array([*default.get("/OFF", []), *groups])
        pdf.save(hidden)
    return hidden


def _cut_layers(file: Path) -> tuple[str, ...]:
    with pikepdf.open(file) as pdf:
        return tuple(str(g.Name) for g in pdf.Root.OCProperties.OCGs if _is_cut(g))


def _is_cut(group: pikepdf.Object) -> bool:
    """Whether a layer is a cut by its metadata (ISO 19593-1), whatever it is called."""
    told = group.get("/GTS_Metadata")
    return told is not None and str(told.get("/GTS_ProcStepsType")) == "/Cutting"


def _marks(piece: Piece) -> list[tuple[slice, slice]]:
    from mockup.artwork.page import place_card, read_page
    from mockup.ordering.sheets import sheets_of

    page = read_page(piece.art)
    trim = place_card(page, piece.die.width_in, piece.die.height_in, piece.bleed_in).trim
    found: list[tuple[slice, slice]] = []
    for mark in sheets_of(_alone(piece))[0].removed:
        for ring in mark.painted.rings:
            spans = itertools.pairwise(ring) if mark.painted.pen else [(
                ring.min(axis=0), ring.max(axis=0))]  # fmt: skip
            for one, other in spans:
                low, high = np.minimum(one, other), np.maximum(one, other)
                found.append(_span(low, high, trim))
    return found


def _span(low: np.ndarray, high: np.ndarray, trim: Sequence[float]) -> tuple[slice, slice]:
    left, top = trim[0], trim[1]
    rows = slice(
        max(0, math.floor((low[1] + top - AROUND_IN) * POPPLER_PPI)),
        max(0, math.ceil((high[1] + top + AROUND_IN) * POPPLER_PPI)),
    )
    columns = slice(
        max(0, math.floor((low[0] + left - AROUND_IN) * POPPLER_PPI)),
        max(0, math.ceil((high[0] + left + AROUND_IN) * POPPLER_PPI)),
    )
    return rows, columns


def _poppler(file: Path, page: int) -> np.ndarray:
    picture = Path(tempfile.gettempdir()) / f"print-file-bench-{os.getpid()}.png"
    subprocess.run(
        ["pdftoppm", "-r", str(POPPLER_PPI), "-f", str(page), "-l", str(page), "-png",
         "-singlefile", "-cropbox", file, picture.with_suffix("")],
        check=True, capture_output=True,
    )  # fmt: skip
    with Image.open(picture) as opened:
        return np.array(opened.convert("RGB"))


def _mean(piece: Piece, made: PrintFile) -> float:
    """The mean difference of 255 by PDFium at 600 ppi, of art whose marks all stay."""
    if made.removed or not made.letters:
        return 0.0
    one = _pdfium(piece.art.path, piece.art.page)
    other = _pdfium(made.path, 1)
    return float(np.abs(one.astype(np.int16) - other).mean())


def _pdfium(file: Path, page: int) -> np.ndarray:
    with pypdfium2.PdfDocument(file) as document:
        drawn = document[page - 1].render(
            scale=PPI / 72, optimize_mode="print", draw_annots=False, may_draw_forms=False
        )
        return drawn.to_numpy().copy()
