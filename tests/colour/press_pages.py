"""Small print pages with known inks: fields of 20 pt in a row, with an output intent or without."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pikepdf
from numpy.typing import NDArray
from pikepdf import Array, Dictionary, Name

from mockup.artwork.art import art_of
from mockup.artwork.page import Placement, read_page
from mockup.artwork.raster import RasterJob, ink_plates, rasterise
from mockup.colour.plates import InkPlates, Plates
from mockup.colour.press import UNCOATED, Press
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import View

FIELD_PT = 20
SIDE_PT = 120


@dataclass(frozen=True)
class Page:
    """A page 120 pt square: its content, its resources, the profile of its output intent."""

    content: str
    resources: dict[str, object] = field(default_factory=dict)
    intent: bytes | None = None
    intent_inks: int = 4


def field_at(number: int) -> str:
    """Returns the path of a field, from the left in the bottom row."""
    return f"{number * FIELD_PT} 0 {FIELD_PT} {FIELD_PT} re"


def write(path: Path, page: Page) -> Path:
    """Writes a page; an intent's profile is embedded."""
    pdf = pikepdf.new()
    made = pdf.add_blank_page(page_size=(SIDE_PT, SIDE_PT))
    made.Resources = Dictionary({f"/{key}": value for key, value in page.resources.items()})
    made.Contents = pdf.make_stream(page.content.encode())
    if page.intent is not None:
        profile = pdf.make_stream(page.intent, N=page.intent_inks)
        intent = Dictionary(
            Type=Name.OutputIntent,
            S=Name.GTS_PDFX,
            OutputConditionIdentifier="Custom",
            DestOutputProfile=profile,
        )
        pdf.Root.OutputIntents = Array([intent])
    pdf.save(path)
    return path


def _job(path: Path, press: Press) -> RasterJob:
    page = read_page(art_of(path, press=press))
    placement = Placement(Box(0, 0, SIDE_PT / 72, SIDE_PT / 72), 0.0, "it is the page")
    pixels = SIDE_PT // 2
    return RasterJob(page, placement, IDENTITY, View(0, 0, pixels, pixels, 36))


def drawn(path: Path, press: Press = UNCOATED) -> Plates:
    """Returns a page as it is drawn, half a pixel a point."""
    (plates,) = rasterise([_job(path, press)])
    return plates


def inks(path: Path, press: Press = UNCOATED) -> InkPlates:
    """Returns a page's inks."""
    (plates,) = ink_plates([_job(path, press)])
    return plates


def at(pixels: NDArray[np.uint8], number: int) -> list[int]:
    """Returns the middle of a field of the bottom row."""
    column, row = (number * FIELD_PT + FIELD_PT // 2) // 2, (SIDE_PT - FIELD_PT // 2) // 2
    return pixels[row, column].tolist()
