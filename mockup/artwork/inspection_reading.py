"""Reading a page for checking: what it paints, its layers, shown or hidden, and its fonts."""

from __future__ import annotations

import pymupdf
from pymupdf import mupdf

from mockup.artwork.inspection import Clip, Inspection, Layer, Painted
from mockup.artwork.inspection_device import Recorder
from mockup.artwork.page import ArtPage, Placement, trim_matrix

_TYPE3 = "Type3"


def inspect_page(opened: pymupdf.Page, page: ArtPage, placement: Placement) -> Inspection:
    """Returns everything a page paints, in drawing order, in inches from the trim's top left.

    `opened` is the page itself, so that one opening serves the raster too. Hidden layers, and those
    not printed, are read as well and told apart.
    """
    document = opened.parent
    layers = _layers(document)
    painted, clips = _recorded(opened, placement)
    unseen = {layer.name for layer in layers if not (layer.shown and layer.printed)}
    hidden: tuple[Painted, ...] = ()
    hidden_clips: tuple[Clip, ...] = clips
    if unseen:
        _show_all(document)
        everything, hidden_clips = _recorded(opened, placement)
        hidden = tuple(each for each in everything if each.layer in unseen)
        painted = tuple(each for each in painted if each.layer not in unseen)
    live, unembedded = _fonts(opened)
    return Inspection(
        painted, hidden, clips, hidden_clips, layers, document.page_count, unembedded, live
    )


def _recorded(
    opened: pymupdf.Page, placement: Placement
) -> tuple[tuple[Painted, ...], tuple[Clip, ...]]:
    recorder = Recorder()
    to_card = mupdf.FzMatrix(*trim_matrix(placement).inverse())
    pdf_page = mupdf.pdf_page_from_fz_page(opened.this)
    mupdf.pdf_run_page_contents_with_usage(pdf_page, recorder, to_card, "Print", mupdf.FzCookie())
    mupdf.fz_close_device(recorder)
    return tuple(recorder.painted), tuple(recorder.clips)


def _layers(document: pymupdf.Document) -> tuple[Layer, ...]:
    layers: list[Layer] = []
    for xref, group in document.get_ocgs().items():
        printing = document.xref_get_key(xref, "Usage/Print/PrintState")[1]
        step = document.xref_get_key(xref, "GTS_Metadata/GTS_ProcStepsType")
        step_name = step[1].lstrip("/") if step[0] == "name" else None
        layers.append(Layer(group["name"], bool(group["on"]), printing != "/OFF", step_name))
    return tuple(layers)


def _show_all(document: pymupdf.Document) -> None:
    """Turns every layer on, in memory only."""
    groups = list(document.get_ocgs())
    document.set_layer(-1, on=groups, off=[])
    for xref in groups:
        if document.xref_get_key(xref, "Usage/Print/PrintState")[1] == "/OFF":
            document.xref_set_key(xref, "Usage/Print/PrintState", "/ON")


def _fonts(opened: pymupdf.Page) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Returns the names of a page's fonts, and of those the file does not hold."""
    live: list[str] = []
    missing: list[str] = []
    for _xref, extension, kind, name, *_ in opened.get_fonts(full=True):
        live.append(name)
        if extension == "n/a" and kind != _TYPE3:
            missing.append(name)
    return tuple(dict.fromkeys(live)), tuple(dict.fromkeys(missing))
