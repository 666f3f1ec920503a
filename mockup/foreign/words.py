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
    nothing: tuple[dict[str, Any], Any] = ({}, None)
    with document:
        told, as_seen = asked(_text_of, document, page_number, otherwise=nothing)
    found: list[TemplateWords] = []
    for block in told.get("blocks", ()):
        for line in block.get("lines", ()):
            found += _labels(line["spans"], as_seen)
    return tuple(found)


def _opened(source: bytes) -> pymupdf.Document:
    return pymupdf.open(stream=source, filetype="pdf")


def _text_of(document: pymupdf.Document, page_number: int) -> tuple[Any, Any]:
    """Returns what the library tells of a page's text, in boxes of the page before it is turned,
    and the map to the page as it is seen."""
    page = document.load_page(page_number - 1)
    return page.get_text("dict"), page.rotation_matrix


def _labels(spans: list[dict[str, Any]], as_seen: pymupdf.Matrix) -> list[TemplateWords]:
    """Returns the spans of a line, those that follow each other closely as one."""
    groups: list[list[dict[str, Any]]] = []
    for span in spans:
        if not span["text"].strip():
            continue
        if groups and span["bbox"][0] - groups[-1][-1]["bbox"][2] < _APART * span["size"]:
            groups[-1].append(span)
        else:
            groups.append([span])
    return [_label(group, as_seen) for group in groups]


def _label(spans: list[dict[str, Any]], as_seen: pymupdf.Matrix) -> TemplateWords:
    words = " ".join(" ".join(span["text"] for span in spans).split())
    whole = pymupdf.Rect()
    for span in spans:
        whole |= pymupdf.Rect(span["bbox"])
    seen: Any = whole * as_seen
    box = Box(*(each / PT_PER_INCH for each in (seen.x0, seen.y0, seen.x1, seen.y1)))
    told = int(spans[0]["color"])
    shares = tuple((told >> shift & 255) / 255 for shift in (16, 8, 0))
    return TemplateWords(words, box, Colour("rgb", shares))
