"""Small print pages with known inks: fields of 20 pt in a row, with an output intent or without."""

from __future__ import annotations

import struct
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pikepdf
from numpy.typing import NDArray
from pikepdf import Array, Dictionary, Name

from mockup.artwork.art import art_of
from mockup.artwork.page import Placement, read_page
from mockup.artwork.raster import RasterJob, ink_plates, rasterise
from mockup.colour.lab import D50, WIDE_TO_XYZ
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


def with_intents(path: Path, *intents: tuple[str, bytes, int]) -> Path:
    """Gives a page several output intents: their kind, profile and how many inks it has."""
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        pdf.Root.OutputIntents = Array(
            [
                Dictionary(
                    Type=Name.OutputIntent,
                    S=Name(f"/{kind}"),
                    OutputConditionIdentifier="Custom",
                    DestOutputProfile=pdf.make_stream(profile, N=count),
                )
                for kind, profile, count in intents
            ]
        )
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


def light_profile(gamma: float = 1.8) -> bytes:
    """Returns an RGB profile of the wide primaries of Rec. 2020 with a plain gamma, as PDF/A may
    have one for its output intent (ICC.1:2001-04)."""

    def xyz(values: NDArray[np.float64]) -> bytes:
        return b"XYZ " + bytes(4) + struct.pack(">3i", *(round(v * 65536) for v in values))

    curve = b"curv" + bytes(4) + struct.pack(">IH", 1, round(gamma * 256))
    named = b"desc" + bytes(4) + struct.pack(">I", 5) + b"wide\0" + bytes(78)
    tags = [(b"desc", named), (b"cprt", b"text" + bytes(4) + b"none\0"), (b"wtpt", xyz(D50))]
    tags += [
        (letter + b"XYZ", xyz(WIDE_TO_XYZ[:, k])) for k, letter in enumerate((b"r", b"g", b"b"))
    ]
    tags += [(letter + b"TRC", curve) for letter in (b"r", b"g", b"b")]
    rows, body, start = b"", b"", 128 + 4 + 12 * len(tags)
    for key, content in tags:
        rows += struct.pack(">4sII", key, start + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    kinds = (0x02400000, b"mntr", b"RGB ", b"XYZ ", 2026, 1, 1, 0, 0, 0, b"acsp")
    head = struct.pack(">I4xI4s4s4s6H4s", start + len(body), *kinds).ljust(64, b"\0")
    head += bytes(4) + struct.pack(">3i", *(round(v * 65536) for v in D50))
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + rows + body
