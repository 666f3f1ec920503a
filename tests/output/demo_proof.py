"""The demo suite's proof, written for tests, and a reader of its pages by pypdfium2."""

from __future__ import annotations

import ctypes
import shutil
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pypdfium2.raw as raw
from fontTools.misc.bezierTools import calcCubicBounds

from mockup.record.fingerprint import fingerprints
from mockup.record.revisions import Issue
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite

ART = Path(__file__).parents[2] / "assets_demo"
FLATLAY = np.full((600, 800, 3), 200, np.uint8)

SUITE = """
title = "Tide Mill Supper"
client = "The Millers of Samphire Hard"
designer = "Eelgrass Press"
revision = "2"

[pieces.invitation]
art = "invitation.pdf"
card = "A7"
die = "lancet-arch"
quantity = 120

[pieces.details]
art = "details.pdf"
card = "A2"
stock = "smooth-120-white"

[pieces.reply]
art = "reply.pdf"
card = "A1 landscape"
die = { shape = "ticket-corner", radius = 0.5 }

[envelopes.outer]
size = "A7"
flap = "deep-pointed"
colour = "ink-blue"
liner = "liner.pdf"
holds = ["invitation", "details", "reply"]
"""


def demo_suite(folder: Path, extra: str = "") -> Suite:
    """Returns the demo suite, its art copied to a folder."""
    for art in ART.glob("*.pdf"):
        shutil.copy(art, folder)
    (folder / "suite.toml").write_text(SUITE + extra, encoding="utf-8")
    return read_suite(folder / "suite.toml")


@dataclass(frozen=True)
class Drawn:
    """A path or picture of a page: its box in points (left, bottom, right, top) and manner."""

    box: tuple[float, float, float, float]
    width_pt: float = 0.0
    segments: int = 0
    filled: bool = False
    stroked: bool = False
    size_px: tuple[int, int] = (0, 0)
    clip: tuple[float, float, float, float] | None = None

    @property
    def size_in(self) -> tuple[float, float]:
        left, bottom, right, top = self.box
        return (right - left) / 72, (top - bottom) / 72


def paths(page: pdfium.PdfPage) -> list[Drawn]:
    """Returns the paths drawn on a page."""
    return [_path(each) for each in page.get_objects([raw.FPDF_PAGEOBJ_PATH])]


def pictures(page: pdfium.PdfPage) -> list[Drawn]:
    """Returns the pictures on a page, with the box of what they are clipped to."""
    return [_picture(each) for each in page.get_objects([raw.FPDF_PAGEOBJ_IMAGE])]


def _path(item: pdfium.PdfObject) -> Drawn:
    count = raw.FPDFPath_CountSegments(item)
    segments = [raw.FPDFPath_GetPathSegment(item, k) for k in range(count)]
    fill, stroke = ctypes.c_int(), ctypes.c_int()
    raw.FPDFPath_GetDrawMode(item, fill, stroke)
    width = ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(item, width)
    box = _box(segments, item.get_matrix())
    return Drawn(box, width.value, count, bool(fill.value), bool(stroke.value))


def _picture(item: pdfium.PdfObject) -> Drawn:
    matrix = item.get_matrix()
    box = (matrix.e, matrix.f, matrix.e + matrix.a, matrix.f + matrix.d)
    clip = raw.FPDFPageObj_GetClipPath(item)
    count = raw.FPDFClipPath_CountPaths(clip) if clip else 0
    boxes = []
    for index in range(max(count, 0)):
        segments = raw.FPDFClipPath_CountPathSegments(clip, index)
        parts = [raw.FPDFClipPath_GetPathSegment(clip, index, k) for k in range(segments)]
        boxes.append(_box(parts, pdfium.PdfMatrix()))
    smallest = min(boxes, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]), default=None)
    return Drawn(box, size_px=item.get_px_size(), clip=smallest)


def _box(segments: list, matrix: pdfium.PdfMatrix) -> tuple[float, float, float, float]:
    """Returns the exact box of a path, its curves bounded by fontTools."""
    boxes: list[tuple[float, float, float, float]] = []
    here, controls = (0.0, 0.0), []
    for segment in segments:
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        point = matrix.on_point(x.value, y.value)
        if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_BEZIERTO:
            controls.append(point)
            if len(controls) == 3:
                boxes.append(calcCubicBounds(here, *controls))
                here, controls = point, []
        else:
            boxes.append((*point, *point))
            here = point
    array = np.array(boxes)
    return (*array[:, :2].min(axis=0).tolist(), *array[:, 2:].max(axis=0).tolist())


def issue_of(suite: Suite) -> Issue:
    """Returns what the first proof of a suite bears, on a day that does not change."""
    return Issue(1, suite.revision, "2026-11-26", fingerprints(suite))
