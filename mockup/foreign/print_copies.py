"""Print files written, in a worker: one page of the art's own file, with right boxes, on wish with
the steps of its die on layers of their own, its type turned to outlines.

What is not asked for is not touched: streams are written back as they were packed.
"""

from __future__ import annotations

import io

import pikepdf
import pymupdf

from mockup.artwork.art import Art
from mockup.artwork.page import trim_matrix
from mockup.artwork.print_copy import CopyOrder, PrintCopy
from mockup.errors import InputError
from mockup.foreign.balance import balance_of
from mockup.foreign.document import is_svg, opened_page
from mockup.foreign.library import drawing
from mockup.foreign.memberships import settled
from mockup.foreign.one_page import keep_one_page, refuse_outside
from mockup.foreign.outlining import forget_fonts, outline_type, refuse_live_type
from mockup.foreign.page import seen_matrix
from mockup.foreign.print_boxes import set_boxes
from mockup.foreign.print_steps import add_steps
from mockup.foreign.taking_out import take_out
from mockup.sources import read_whole, sha256_of
from mockup.trade.limits import FILE_MAX_BYTES

LAYERS_SINCE = "1.5"  # optional content is of PDF 1.5 (ISO 32000-1 8.11)
_SVG = (
    "is an SVG: a print file made of it would be another rendering of it, not your own; save it as "
    "PDF from the program it was made in"
)
_LOCKED = "is protected, and may not be changed; save a copy without protection"


def print_copy(order: CopyOrder) -> PrintCopy:
    """Returns the print file of an order. Raises InputError and LimitError."""
    art = order.art
    content = _source(art)
    page = opened_page(art).page
    to_user = seen_matrix(page).inverse() @ trim_matrix(order.placement)
    with _opened(content) as pdf:
        dropped = keep_one_page(pdf, art.page)
        refuse_outside(pdf)
        balance_of(pdf.pages[0].obj)  # an unclear drawing is refused, though nothing be added
        if art.left_out:
            alone = _written(pdf)
            with drawing():
                source = pymupdf.open(stream=settled(alone), filetype="pdf")[0]
            take_out(pdf, source, alone, art.left_out)
        letters = _outlined(pdf) if order.outlined else 0
        boxes, bleeds = set_boxes(pdf.pages[0].obj, order.placement, order.bleed_in, to_user)
        notes = add_steps(pdf, order.steps, to_user, boxes.unit)
        return PrintCopy(_written(pdf), boxes, bleeds, letters, dropped, notes)


def _source(art: Art) -> bytes:
    content = read_whole(art.path, FILE_MAX_BYTES)
    if sha256_of(content) != art.sha256:
        raise InputError("changed while it was being read; run the command again")
    if is_svg(art.path, content):
        raise InputError(_SVG)
    return content


def _opened(content: bytes) -> pikepdf.Pdf:
    try:
        pdf = pikepdf.open(io.BytesIO(content))
    except pikepdf.PasswordError as error:
        raise InputError(_LOCKED) from error
    except pikepdf.PdfError as error:
        said = " ".join(str(error).split())[-80:]
        raise InputError(f"is broken ({said}); save it again as PDF") from error
    if pdf.is_encrypted:
        raise InputError(_LOCKED)
    return pdf


def _outlined(pdf: pikepdf.Pdf) -> int:
    letters = outline_type(pdf, _written(pdf))
    refuse_live_type(_written(pdf))
    if letters:
        forget_fonts(pdf)
    return letters


def _written(pdf: pikepdf.Pdf) -> bytes:
    """Returns a document's bytes, each stream packed as it was; the same for the same document."""
    file = io.BytesIO()
    with_layers = "/OCProperties" in pdf.Root
    try:
        pdf.save(
            file,
            min_version=LAYERS_SINCE if with_layers else "",
            compress_streams=False,
            stream_decode_level=pikepdf.StreamDecodeLevel.none,
            deterministic_id=True,
        )
    except pikepdf.PdfError as error:
        said = " ".join(str(error).split())[-80:]
        raise InputError(f"is broken ({said}); save it again as PDF") from error
    return file.getvalue()
