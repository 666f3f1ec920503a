"""Programs that save a sheet as a template: (sheet, path without ending) -> the files they make.

Each is run as its user would run it. One that is not installed is left out, and named.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from benchmarks.templates.office import office_drawing
from benchmarks.templates.page_layout import page_layout_script
from benchmarks.templates.sheet import INK, Drawn, Sheet, Words, mapped
from benchmarks.templates.svg_text import svg_text
from benchmarks.templates.typst_text import typst_text
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Line

OTHER_PYTHON = os.environ.get("TEMPLATES_PYTHON", sys.executable)
"""A Python that has typst and weasyprint, where the project's own has not."""
SECONDS = 120


def run(*words: str | Path) -> None:
    """Runs a program to its end. Raises where it fails."""
    subprocess.run(
        [str(word) for word in words],
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        timeout=SECONDS,
    )


def svg_plain(sheet: Sheet, stem: Path) -> Path:
    """Inkscape, saved as plain SVG."""
    return _inkscape(sheet, stem, "--export-plain-svg", ".svg")


def svg_own(sheet: Sheet, stem: Path) -> Path:
    """Inkscape, its own SVG."""
    return _inkscape(sheet, stem, "--export-type=svg", ".svg")


def inkscape_pdf(sheet: Sheet, stem: Path) -> Path:
    """Inkscape, saved as PDF."""
    return _inkscape(sheet, stem, "--export-type=pdf", ".pdf")


def inkscape_outlined(sheet: Sheet, stem: Path) -> Path:
    """Inkscape, saved as PDF with its type turned to outlines."""
    return _inkscape(sheet, stem, "--export-text-to-path", ".pdf")


def _inkscape(sheet: Sheet, stem: Path, how: str, ending: str) -> Path:
    source = stem.with_name(stem.name + "-source.svg")
    source.write_text(svg_text(sheet), encoding="utf-8")
    target = stem.with_suffix(ending)
    run("inkscape", source, how, f"--export-filename={target}")
    source.unlink()
    return target


def office_pdf(sheet: Sheet, stem: Path) -> Path:
    """LibreOffice Draw, exported as PDF."""
    return _office(sheet, stem, "pdf")


def office_svg(sheet: Sheet, stem: Path) -> Path:
    """LibreOffice Draw, exported as SVG."""
    return _office(sheet, stem, "svg")


def _office(sheet: Sheet, stem: Path, kind: str) -> Path:
    source = stem.with_suffix(".fodg")
    source.write_text(office_drawing(sheet), encoding="utf-8")
    home = stem.parent / "office-home"
    run(
        *("soffice", f"-env:UserInstallation=file://{home}", "--headless", "--convert-to"),
        *(f"{kind}:draw_{kind}_Export", "--outdir", stem.parent, source),
    )
    source.unlink()
    return stem.with_suffix(f".{kind}")


def scribus_pdf(sheet: Sheet, stem: Path) -> Path:
    """Scribus, exported as PDF 1.5 with its layers."""
    script, target = stem.with_suffix(".py"), stem.with_suffix(".pdf")
    script.write_text(page_layout_script(sheet, target), encoding="utf-8")
    run("xvfb-run", "-a", "scribus", "-g", "-ns", "-py", script)
    script.unlink()
    return target


def typst_pdf(sheet: Sheet, stem: Path) -> Path:
    """typst."""
    source, target = stem.with_suffix(".typ"), stem.with_suffix(".pdf")
    source.write_text(typst_text(sheet), encoding="utf-8")
    code = "import sys, typst; typst.compile(sys.argv[1], output=sys.argv[2])"
    run(OTHER_PYTHON, "-c", code, source, target)
    source.unlink()
    return target


def weasyprint_pdf(sheet: Sheet, stem: Path) -> Path:
    """WeasyPrint, an SVG on a page of its size."""
    source, target = stem.with_suffix(".html"), stem.with_suffix(".pdf")
    size = f"{sheet.width_in}in {sheet.height_in}in"
    source.write_text(
        f"<style>@page {{ size: {size}; margin: 0 }} svg {{ display: block }}</style>"
        f"{svg_text(sheet)}",
        encoding="utf-8",
    )
    code = "import sys, weasyprint; weasyprint.HTML(sys.argv[1]).write_pdf(sys.argv[2])"
    run(OTHER_PYTHON, "-c", code, source, target)
    source.unlink()
    return target


def cairo_pdf(sheet: Sheet, stem: Path) -> Path:
    """cairo, PDF."""
    return _cairo(sheet, stem, "PDF")


def cairo_svg(sheet: Sheet, stem: Path) -> Path:
    """cairo, SVG."""
    return _cairo(sheet, stem, "SVG")


def _cairo(sheet: Sheet, stem: Path, kind: str) -> Path:
    import cairocffi

    target = stem.with_suffix(f".{kind.lower()}")
    make = {"PDF": cairocffi.PDFSurface, "SVG": cairocffi.SVGSurface}[kind]
    surface = make(str(target), sheet.width_in * 72, sheet.height_in * 72)
    context = cairocffi.Context(surface)
    for thing in sheet.things:
        if isinstance(thing, Words):
            context.select_font_face("DejaVu Sans")
            context.set_font_size(thing.size_pt)
            context.set_source_rgb(*INK[thing.colour])
            context.move_to(thing.at.x * 72, thing.at.y * 72)
            context.show_text(thing.text)
        elif not thing.hidden:
            _cairo_drawn(context, thing)
    surface.finish()
    return target


def _cairo_drawn(context, thing: Drawn) -> None:
    for course in thing.courses:
        parts = mapped(course, Affine(72, 0, 0, 72, 0, 0))
        context.move_to(*parts[0].start)
        for part in parts:
            if isinstance(part, Line):
                context.line_to(*part.end)
            else:
                context.curve_to(*part.control1, *part.control2, *part.end)
        if thing.closed:
            context.close_path()
    if thing.fill:
        context.set_source_rgb(*INK[thing.fill])
        (context.fill_preserve if thing.stroke else context.fill)()
    if thing.stroke:
        context.set_source_rgb(*INK[thing.stroke])
        context.set_line_width(thing.width_pt)
        context.set_dash(list(thing.dashes_pt))
        context.stroke()


def reportlab_pdf(sheet: Sheet, stem: Path) -> Path:
    """ReportLab; spot inks where the sheet has them."""
    from reportlab.pdfgen.canvas import Canvas

    target = stem.with_suffix(".pdf")
    high = sheet.height_in * 72
    canvas = Canvas(str(target), pagesize=(sheet.width_in * 72, high), invariant=1)
    if sheet.trim is not None:
        left, top, right, bottom = (each * 72 for each in sheet.trim)
        canvas.setTrimBox((left, high - bottom, right, high - top))
    for thing in sheet.things:
        if isinstance(thing, Words):
            canvas.setFillColor(_ink(thing.colour, None))
            canvas.setFont("Helvetica", thing.size_pt)
            canvas.drawString(thing.at.x * 72, high - thing.at.y * 72, thing.text)
        elif not thing.hidden:
            _reportlab_drawn(canvas, thing, high)
    canvas.save()
    return target


def _reportlab_drawn(canvas: Any, thing: Drawn, high: float) -> None:
    path = canvas.beginPath()
    for course in thing.courses:
        parts = mapped(course, Affine(72, 0, 0, -72, 0, high))
        path.moveTo(*parts[0].start)
        for part in parts:
            if isinstance(part, Line):
                path.lineTo(*part.end)
            else:
                path.curveTo(*part.control1, *part.control2, *part.end)
        if thing.closed:
            path.close()
    if thing.stroke:
        canvas.setStrokeColor(_ink(thing.stroke, thing.spot))
        canvas.setLineWidth(thing.width_pt)
        canvas.setDash(list(thing.dashes_pt) or [])
    if thing.fill:
        canvas.setFillColor(_ink(thing.fill, thing.spot))
    canvas.drawPath(path, stroke=int(bool(thing.stroke)), fill=int(bool(thing.fill)))


def _ink(name: str, spot: str | None) -> Any:
    from reportlab.lib.colors import CMYKColorSep, Color

    red, green, blue = INK[name]
    if spot is None:
        return Color(red, green, blue)
    return CMYKColorSep(1 - red, 1 - green, 1 - blue, 0, spotName=spot)


def redistilled_pdf(sheet: Sheet, stem: Path) -> Path:
    """Ghostscript, of ReportLab's PDF."""
    first = reportlab_pdf(sheet, stem.with_name(stem.name + "-first"))
    target = stem.with_suffix(".pdf")
    run("gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=pdfwrite", f"-sOutputFile={target}", first)
    first.unlink()
    return target


def poppler_svg(sheet: Sheet, stem: Path) -> Path:
    """Poppler's pdftocairo, SVG of cairo's PDF."""
    first = cairo_pdf(sheet, stem.with_name(stem.name + "-first"))
    target = stem.with_suffix(".svg")
    run("pdftocairo", "-svg", first, target)
    first.unlink()
    return target


PROGRAMS: dict[str, Callable[[Sheet, Path], Path]] = {
    "inkscape-plain": svg_plain,
    "inkscape-own": svg_own,
    "inkscape-pdf": inkscape_pdf,
    "inkscape-outlined": inkscape_outlined,
    "office-pdf": office_pdf,
    "office-svg": office_svg,
    "scribus": scribus_pdf,
    "typst": typst_pdf,
    "weasyprint": weasyprint_pdf,
    "cairo-pdf": cairo_pdf,
    "cairo-svg": cairo_svg,
    "reportlab": reportlab_pdf,
    "ghostscript": redistilled_pdf,
    "poppler-svg": poppler_svg,
}
KEEPS_LAYERS = ("inkscape-plain", "inkscape-own", "scribus", "office-svg")
KEEPS_SPOTS = ("reportlab", "ghostscript")
WRITES_BOXES = ("reportlab",)
_NEEDS = {
    "inkscape": "inkscape",
    "office": "soffice",
    "scribus": "scribus",
    "ghostscript": "gs",
    "poppler": "pdftocairo",
}


def missing() -> list[str]:
    """Returns the programs that are not on this machine."""
    gone = [
        name
        for name in PROGRAMS
        for word, command in _NEEDS.items()
        if name.startswith(word) and shutil.which(command) is None
    ]
    for library in ("typst", "weasyprint"):
        tried = subprocess.run([OTHER_PYTHON, "-c", f"import {library}"], capture_output=True)
        if tried.returncode:
            gone.append(library)
    return gone
