"""Type turned to outlines, against the same type drawn by PDFium, which draws large type as paths.

Operators and render modes: ISO 32000-1 9.3, 9.4, tables 103 to 109.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.errors import InputError
from mockup.printers.files_asked import FilesAsked
from tests.ordering.pages import ART, add_font, ordered, page_pdf
from tests.ordering.type_pages import embedded, typed
from tests.quickly import quickly

OUTLINED = FilesAsked(("art-alone",), outlined=True)
BOTH_WAYS = FilesAsked(("cut-line",), outlined=True)

SETTINGS = {
    "plain": b"BT /F1 18 Tf 30 60 Td (The tide mill) Tj ET",
    "spaced": b"BT /F1 14 Tf 2 Tc 5 Tw 30 60 Td (The tide mill) Tj ET",
    "wide and narrow": b"BT /F1 18 Tf 60 Tz 30 60 Td (The tide) Tj 140 Tz 0 40 Td (mill) Tj ET",
    "raised": b"BT /F1 18 Tf 30 60 Td (The) Tj 7 Ts (tide) Tj -7 Ts (mill) Tj ET",
    "kerned": b"BT /F1 18 Tf 30 60 Td [(T) 120 (he) -400 (ti) 30 (de)] TJ ET",
    "lines": b"BT /F1 14 Tf 16 TL 30 120 Td (The) Tj T* (tide) Tj (mill) ' 2 1 (supper) \" ET",
    "turned": b"q .9 .1 -.2 1.1 4 4 cm BT .8 .6 -.6 .8 60 40 Tm /F1 20 Tf (tide) Tj ET Q",
    "size in the matrix": b"BT /F1 1 Tf 22 0 0 22 30 60 Tm (tide) Tj 0 2 Td (mill) Tj ET",
    "mirrored": b"BT /F1 20 Tf -1 0 0 1 180 60 Tm (tide) Tj ET",
    "stroked": b"1 0 0 RG 0.6 w BT /F1 40 Tf 1 Tr 30 60 Td (tide) Tj ET",
    "filled and stroked": b"1 0 0 RG 1 1 0 rg 1.5 w BT /F1 40 Tf 2 Tr 30 60 Td (tide) Tj ET",
    "invisible": b"BT /F1 40 Tf 3 Tr 30 60 Td (tide) Tj 0 Tr 0 50 Td (mill) Tj ET",
    "clipping": b"q BT /F1 60 Tf 7 Tr 30 60 Td (ti) Tj (de) Tj ET 1 0 0 rg 0 70 234 20 re f Q",
    "filled and clipping": b"q BT /F1 60 Tf 4 Tr 30 60 Td (tide) Tj ET "
    b"1 0 0 rg 0 70 234 20 re f Q 10 10 20 20 re f",
    "mode kept over states": b"1 Tr q 0 Tr BT /F1 30 Tf 30 60 Td (tide) Tj ET Q "
    b"BT /F1 30 Tf 30 100 Td (mill) Tj ET",
    "colour within": b"BT /F1 30 Tf 30 60 Td 1 0 0 rg (ti) Tj 0 0 1 rg (de) Tj ET",
    "state left open": b"q BT /F1 30 Tf 30 60 Td (tide) Tj ET",
}


@pytest.mark.parametrize("name", quickly(SETTINGS, lambda n: n % 6 == 0))
def test_letters_lie_and_look_as_the_type_did(name, tmp_path):
    made = ordered(tmp_path, typed(SETTINGS[name]), OUTLINED)
    assert made.outlined and made.letters > 3
    one, other = (large(file) for file in (tmp_path / "art.pdf", made.path))
    apart = difference(one, other)
    assert np.abs(apart).mean() < 0.2
    assert blocks_apart(apart) < 8
    assert not fonts_in(made.path)


@pytest.mark.slow
def test_ten_sizes_of_type_by_the_other_engine_of_the_machine(art, tmp_path):
    """The demo's details: CID fonts, Identity-H, kerned by TJ (ISO 32000-1 9.7)."""
    from dataclasses import replace

    from mockup.output.print_files import print_files
    from mockup.suite.reading import read_suite

    suite = read_suite(art / "suite.toml")
    alone = replace(suite, pieces=(suite.piece("details"),), envelopes=())
    (made,) = print_files(alone, tmp_path / "out", BOTH_WAYS)
    assert made.letters == 383 and not fonts_in(made.path)
    apart = np.abs(difference(large(art / "details.pdf"), large(made.path)))
    assert apart.mean() < 0.05 and apart.max() < 32


def difference(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """One picture less another, int16: of twenty million pixels, so no wider than needed."""
    return np.subtract(one, other, dtype=np.int16)


def blocks_apart(apart: np.ndarray) -> float:
    """The largest difference of 8 x 8 pixels in the mean: a lost stroke of 6/1000 in is over 100."""
    high, wide = (side // 8 * 8 for side in apart.shape[:2])
    summed = apart[:high, :wide].sum(axis=2, dtype=np.int16)
    blocks = summed.reshape(high // 8, 8, wide // 8, 8).sum(axis=(1, 3), dtype=np.int32)
    return float(np.abs(blocks).max() / (64 * apart.shape[2]))


def large(file: Path) -> np.ndarray:
    """A page by PDFium at 1200 ppi, where it draws type of 3 pt and more as paths."""
    with pypdfium2.PdfDocument(file) as document:
        return document[0].render(scale=1200 / 72, optimize_mode="print").to_numpy().copy()


def fonts_in(file: Path) -> list[str]:
    """What fonts a file holds, reached by any way."""
    with pikepdf.open(file) as pdf:
        dictionaries = [each for each in pdf.objects if isinstance(each, Dictionary)]
        return [str(each) for each in dictionaries if each.get("/Type") == Name.Font]


def test_type_in_a_form_drawn_twice_is_turned_once(tmp_path):
    def change(pdf, page):
        form = pdf.make_stream(
            b"BT /F1 20 Tf 0 0 Td (tide) Tj ET", Type=Name.XObject, Subtype=Name.Form,
            BBox=[-50, -50, 200, 100], Resources=Dictionary(Font=Dictionary(F1=embedded(pdf))),
        )  # fmt: skip
        page.Resources = Dictionary(XObject=Dictionary(X=form))
        drawn = b" q 1 0 0 1 30 60 cm /X Do Q q .5 .5 -.5 .5 120 120 cm /X Do Q"
        page.Contents = pdf.make_stream(ART + drawn)

    made = ordered(tmp_path, page_pdf(change), OUTLINED)
    assert made.letters == 4 and not fonts_in(made.path)
    apart = difference(large(tmp_path / "art.pdf"), large(made.path))
    assert np.abs(apart).mean() < 0.2


def test_art_without_type_is_not_touched(tmp_path):
    made = ordered(tmp_path, page_pdf(), OUTLINED)
    assert not made.outlined and "byte for byte" in " ".join(made.checks)


def test_fonts_that_are_not_in_the_file_are_refused(tmp_path):
    def change(pdf, page):
        add_font(page)
        page.Contents = pdf.make_stream(ART + b"BT /F1 12 Tf 40 40 Td (tide) Tj ET")

    with pytest.raises(InputError, match='"Helvetica" is not embedded'):
        ordered(tmp_path, page_pdf(change), OUTLINED)


def type3(pdf):
    glyph = pdf.make_stream(b"1000 0 0 0 750 750 d1 0 0 750 750 re f")
    return Dictionary(
        Type=Name.Font, Subtype=Name.Type3, FontBBox=[0, 0, 750, 750],
        FontMatrix=[0.001, 0, 0, 0.001, 0, 0], CharProcs=Dictionary(square=glyph),
        Encoding=Dictionary(Type=Name.Encoding, Differences=Array([97, Name.square])),
        FirstChar=97, LastChar=97, Widths=Array([1000]), Resources=Dictionary(),
    )  # fmt: skip


def test_letters_that_are_drawings_are_refused(tmp_path):
    """Type 3 fonts, ISO 32000-1 9.6.5."""

    def change(pdf, page):
        page.Resources = Dictionary(Font=Dictionary(F1=type3(pdf)))
        page.Contents = pdf.make_stream(ART + b"BT /F1 12 Tf 40 40 Td (aa) Tj ET")

    with pytest.raises(InputError, match="drawings themselves"):
        ordered(tmp_path, page_pdf(change), OUTLINED)


@pytest.mark.parametrize("place", ["pattern", "mask"])
def test_type_in_patterns_and_masks_is_refused(place, tmp_path):
    """Tiling patterns, ISO 32000-1 8.7.3; soft masks, 11.6.5.2."""
    letters = b"BT /F1 20 Tf 2 5 Td (t) Tj ET"

    def change(pdf, page):
        fonts = Dictionary(Font=Dictionary(F1=embedded(pdf)))
        pattern = pdf.make_stream(
            b"1 0 0 rg " + letters, Type=Name.Pattern, PatternType=1, PaintType=1, TilingType=1,
            BBox=[0, 0, 30, 30], XStep=30, YStep=30, Resources=fonts,
        )  # fmt: skip
        group = pdf.make_stream(
            b"1 g " + letters, Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, 234, 306],
            Resources=fonts, Group=Dictionary(S=Name.Transparency, CS=Name.DeviceGray),
        )  # fmt: skip
        mask = Dictionary(SMask=Dictionary(S=Name.Luminosity, G=group))
        page.Resources = Dictionary(
            Pattern=Dictionary(P=pattern), ExtGState=Dictionary(G=mask), Font=fonts.Font
        )
        drawn = {"pattern": b"/Pattern cs /P scn", "mask": b"/G gs 1 0 0 rg"}[place]
        shown = b" 20 20 150 150 re f"
        page.Contents = pdf.make_stream(ART + b" q " + drawn + shown + b" Q")

    with pytest.raises(InputError, match="in a pattern or a mask"):
        ordered(tmp_path, page_pdf(change), OUTLINED)
