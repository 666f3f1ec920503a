"""Programs that save a drawing as PDF, each in its own way; those that are absent are passed over.

`MOCKUP_PROGRAMS` names a Python that has typst and WeasyPrint, where this one has not.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from benchmarks.ornament.drawing import BLEED_IN, Drawing, reportlab_pdf, svg

_PYTHON = os.environ.get("MOCKUP_PROGRAMS", sys.executable)
SECONDS = 120
_OFFICE_PAGE = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"
 xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0"
 xmlns:svg="urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0"
 xmlns:xlink="http://www.w3.org/1999/xlink" office:version="1.2"
 office:mimetype="application/vnd.oasis.opendocument.graphics">
<office:styles/><office:automatic-styles><style:style style:name="D"
 style:family="drawing-page"/><style:page-layout style:name="P"><style:page-layout-properties
 fo:page-width="{wide}in" fo:page-height="{high}in" fo:margin-top="0in"
 fo:margin-bottom="0in" fo:margin-left="0in" fo:margin-right="0in"
 style:print-orientation="portrait"/></style:page-layout>
</office:automatic-styles>
<office:master-styles><style:master-page style:name="M" style:page-layout-name="P"
 draw:style-name="D"/>
</office:master-styles>
<office:body><office:drawing><draw:page draw:name="1"
 draw:style-name="D" draw:master-page-name="M">
<draw:frame svg:x="0in" svg:y="0in" svg:width="{wide}in" svg:height="{high}in">
<draw:image xlink:href="{art}" xlink:type="simple"/></draw:frame>
</draw:page></office:drawing></office:body></office:document>"""
"""A flat OpenDocument drawing (ODF 1.2) of one page."""


def by_cairo(drawing: Drawing, file: Path) -> Path:
    """Writes a drawing with cairo."""
    import cairosvg

    cairosvg.svg2pdf(bytestring=svg(drawing).encode(), write_to=str(file))
    return file


def by_inkscape(drawing: Drawing, file: Path) -> Path:
    """Writes a drawing with Inkscape."""
    source = _saved(drawing, file)
    _run("inkscape", source, "--export-type=pdf", "-o", file)
    return file


def by_office(drawing: Drawing, file: Path) -> Path:
    """Writes a drawing with LibreOffice Draw, from a page of its own that holds it."""
    source = _saved(drawing, file)
    page = file.with_suffix(".fodg")
    size = {"wide": _wide(drawing), "high": _high(drawing), "art": source.name}
    page.write_text(_OFFICE_PAGE.format(**size))
    home = f"-env:UserInstallation=file://{file.parent / 'office'}"
    _run("soffice", home, "--headless", "--convert-to", "pdf", "--outdir", file.parent, page)
    return file


def by_typst(drawing: Drawing, file: Path) -> Path:
    """Writes a drawing with typst."""
    source = _saved(drawing, file)
    text = f"#set page(width: {_wide(drawing)}in, height: {_high(drawing)}in, margin: 0pt)\n"
    text += f'#image("{source.name}", width: {_wide(drawing)}in)'
    page = file.with_suffix(".typ")
    page.write_text(text)
    _run(_PYTHON, "-c", "import sys, typst; typst.compile(sys.argv[1], output=sys.argv[2])",
         page, file)  # fmt: skip
    return file


def by_weasyprint(drawing: Drawing, file: Path) -> Path:
    """Writes a drawing with WeasyPrint."""
    source = _saved(drawing, file)
    style = f"@page {{ size: {_wide(drawing)}in {_high(drawing)}in; margin: 0 }}"
    page = file.with_suffix(".html")
    image = f'<img style="width:{_wide(drawing)}in;display:block" src="{source.name}">'
    page.write_text(f"<style>{style} body {{ margin: 0 }}</style>{image}")
    _run(_PYTHON, "-m", "weasyprint", page, file)
    return file


PROGRAMS: dict[str, Callable[[Drawing, Path], Path]] = {
    "cairo": by_cairo,
    "reportlab": reportlab_pdf,
    "inkscape": by_inkscape,
    "typst": by_typst,
    "weasyprint": by_weasyprint,
    "office": by_office,
}


def present() -> list[str]:
    """Returns which programs this machine has."""
    found = ["cairo", "reportlab"]
    found += [name for name, tool in (("inkscape", "inkscape"), ("office", "soffice"))
              if shutil.which(tool)]  # fmt: skip
    for name in ("typst", "weasyprint"):
        tried = subprocess.run([_PYTHON, "-c", f"import {name}"], capture_output=True, check=False)
        found += [name] if tried.returncode == 0 else []
    return found


def _saved(drawing: Drawing, file: Path) -> Path:
    source = file.parent / f"{file.stem}-art.svg"
    source.write_text(svg(drawing))
    return source


def _wide(drawing: Drawing) -> float:
    return drawing.width + 2 * BLEED_IN


def _high(drawing: Drawing) -> float:
    return drawing.height + 2 * BLEED_IN


def _run(*command: str | Path) -> None:
    subprocess.run([str(c) for c in command], check=True, capture_output=True, timeout=SECONDS)
