"""A template file opened: what a page of it draws and says, and the fingerprint of the file."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from mockup.errors import InputError
from mockup.geometry.point import box_of
from mockup.sources import read_whole, sha256_of
from mockup.trade.limits import FARTHEST_IN, FILE_MAX_BYTES
from mockup.vector.template import Template
from mockup.workshop import crew
from mockup.workshop.job import Job

_PDF = "mockup.vector.pdf_page:read_pdf_template"
_WORDS = "mockup.foreign.words:read_template_words"
_SVG = "mockup.vector.svg_reading:read_svg_template"


def open_template(path: Path, page: int) -> tuple[Template, str]:
    """Returns a page of a template, and the SHA-256 of its file.

    Raises InputError where it cannot be read, draws nothing, or draws beyond any page.
    """
    source = read_whole(path, FILE_MAX_BYTES)
    mark = sha256_of(source)
    template = _read(path, source, page, mark)
    if not template.paths:
        raise InputError(f"{template.name}: draws no path; is the outline an image?")
    _refuse_far(template)
    return template, mark


def _read(path: Path, source: bytes, page: int, mark: str) -> Template:
    name, head = str(path), source[:1024]
    if b"%PDF-" in head:
        job = Job((name, source, page), name, mark, (name, mark, page))
        template: Template = crew.done(_PDF, [job])[0]
        if not template.paths:
            return template
        told = Job((source, page), name, mark, (name, mark, page, "words"))
        return replace(template, words=crew.done(_WORDS, [told])[0])
    if path.suffix.lower() in (".svg", ".svgz") or b"<svg" in head:
        job = Job((name, source), name, mark, (name, mark))
        return crew.done(_SVG, [job])[0]
    raise InputError(f"{path}: is neither SVG nor PDF; save the template as one of them")


def _refuse_far(template: Template) -> None:
    for path in template.paths:
        box = box_of(point for segment in path.segments for point in segment.extremes())
        if not max(map(abs, box)) <= FARTHEST_IN:  # false for nan as well
            raise InputError(f"{template.name}: draws beyond any page; save it again")
