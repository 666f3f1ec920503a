"""The live type of a template saved as PDF: what is seen of it, line by line, with its place."""

from __future__ import annotations

from typing import Any

import pymupdf

from mockup.foreign.memberships import settled
from mockup.geometry.point import Box
from mockup.units import PT_PER_INCH
from mockup.vector.stumbling import asked
from mockup.vector.template import Colour, TemplateWords

_APART = 0.8  # judgement: a gap this wide, over the size of the type, parts two labels of a line


def read_template_words(source: bytes, page_number: int = 1) -> tuple[TemplateWords, ...]:
    """Returns a page's words as it is seen, inches from its top left; none where they cannot be
    read: what is drawn is read elsewhere, and complained of there."""
    document = asked(_opened, settled(source), otherwise=None)
    if document is None or document.needs_pass:
        return ()
    if not 1 <= page_number <= asked(lambda: int(document.page_count), otherwise=0):
        return ()
    nothing: dict[str, Any] = {}
    with document:
        told = asked(_text_of, document, page_number, otherwise=nothing)
    found: list[TemplateWords] = []
    for block in told.get("blocks", ()):
        for line in block.get("lines", ()):
            found += _labels(line["spans"])
    return tuple(found)


def _opened(source: bytes) -> pymupdf.Document:
    return pymupdf.open(stream=source, filetype="pdf")


def _text_of(document: pymupdf.Document, page_number: int) -> dict[str, Any]:
    told: Any = document.load_page(page_number - 1).get_text("dict")
    return told


def _labels(spans: list[dict[str, Any]]) -> list[TemplateWords]:
    """Returns the spans of a line, those that follow each other closely as one."""
    groups: list[list[dict[str, Any]]] = []
    for span in spans:
        if not span["text"].strip():
            continue
        if groups and span["bbox"][0] - groups[-1][-1]["bbox"][2] < _APART * span["size"]:
            groups[-1].append(span)
        else:
            groups.append([span])
    return [_label(group) for group in groups]


def _label(spans: list[dict[str, Any]]) -> TemplateWords:
    words = " ".join(" ".join(span["text"] for span in spans).split())
    boxes = [span["bbox"] for span in spans]
    left, top = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, bottom = max(box[2] for box in boxes), max(box[3] for box in boxes)
    box = Box(*(each / PT_PER_INCH for each in (left, top, right, bottom)))
    told = int(spans[0]["color"])
    shares = tuple((told >> shift & 255) / 255 for shift in (16, 8, 0))
    return TemplateWords(words, box, Colour("rgb", shares))
