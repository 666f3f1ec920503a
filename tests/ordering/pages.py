"""Small pages written for the tests of print files, and the suites that order them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name

from mockup.output.print_files import PrintFile, print_files
from mockup.printers.files_asked import THE_USUAL, FilesAsked
from mockup.suite.reading import read_suite

CARD_PT = (216, 288)  # 3 x 4 in
PAGE_PT = (234, 306)  # and 1/8 in of bleed
ART = (
    b"0.2 0.4 0.3 rg 0 0 234 306 re f\n"
    b"1 0.9 0.6 rg 60 200 m 120 290 l 190 210 l f\n"
    b"q 0.9 0 0 RG 3 w 40 60 m 90 150 150 20 200 120 c S Q\n"
)
SUITE = """
title = "The Tide Mill Supper"
[pieces.card]
art = "art.pdf"
page = {page}
card = "3 x 4 in"
die = {die}
"""


def page_pdf(
    change: Callable[[pikepdf.Pdf, pikepdf.Object], None] | None = None,
    content: bytes = ART,
    **entries: object,
) -> pikepdf.Pdf:
    """Returns a document of one page of art, with bleed, changed as the test wants it."""
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=PAGE_PT).obj
    page.Contents = pdf.make_stream(content)
    for key, value in entries.items():
        page[f"/{key}"] = value
    if change is not None:
        change(pdf, page)
    return pdf


def ordered(
    folder: Path,
    pdf: pikepdf.Pdf | bytes,
    asked: FilesAsked = THE_USUAL,
    die: str = '"lancet-arch"',
    page: int = 1,
    **save: object,
) -> PrintFile:
    """Returns the one print file made of a page of art, in its folder `out`."""
    art = folder / "art.pdf"
    if isinstance(pdf, bytes):
        art.write_bytes(pdf)
    else:
        pdf.save(art, **save)
    suite = folder / "suite.toml"
    suite.write_text(SUITE.format(page=page, die=die), encoding="utf-8")
    (made,) = print_files(read_suite(suite), folder / "out", asked)
    return made


def add_font(page: pikepdf.Object, name: str = "F1", **font: object) -> None:
    """Gives a page a font that is not embedded."""
    told = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica, **font)
    page.Resources = Dictionary(Font=Dictionary({f"/{name}": told}))


def add_layer(
    pdf: pikepdf.Pdf, page: pikepdf.Object, name: str, off: bool = False, **entries: object
) -> pikepdf.Object:
    """Gives a document a layer, called /L in the page's drawing."""
    layer = pdf.make_indirect(Dictionary(Type=Name.OCG, Name=name, **entries))
    default = Dictionary(Order=Array([layer]), OFF=Array([layer] if off else []))
    pdf.Root.OCProperties = Dictionary(OCGs=Array([layer]), D=default)
    if "/Resources" not in page:
        page.Resources = Dictionary()
    page.Resources.Properties = Dictionary(L=layer)
    return layer
