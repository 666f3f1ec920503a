"""Reading a page for checking: what it paints, its layers, shown or hidden, and its fonts."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

import pymupdf
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.artwork.inspection import Clip, Inspection, Layer, Painted
from mockup.artwork.page import Placement, trim_matrix
from mockup.foreign.document import opened_page
from mockup.foreign.library import drawing, key_of
from mockup.foreign.recorder import Recorder
from mockup.trade.vocabulary import STEPS
from mockup.vector.stumbling import asked

_TYPE3 = "Type3"


def inspect_page(art: Art, placement: Placement) -> Inspection:
    """Returns everything a page paints, in drawing order, in inches from the trim's top left.

    Hidden layers, and those not printed, are read as well and told apart. Raises what opened_page
    raises.
    """
    opened = opened_page(art).page
    document = opened.parent
    assert document is not None
    layers = layers_of(document)
    painted, clips, cut_by = _recorded(opened, placement)
    unseen = {layer.name for layer in layers if not (layer.shown and layer.printed)}
    hidden: tuple[Painted, ...] = ()
    hidden_clips: tuple[Clip, ...] = clips
    if unseen:
        with _all_shown(document) as shown:
            assert opened.number is not None
            everything, hidden_clips, _ = _recorded(shown[opened.number], placement)
        hidden = tuple(each for each in everything if each.layer in unseen)
        painted = tuple(each for each in painted if each.layer not in unseen)
    live, missing = fonts_of(opened)
    needed = {each.lettering.font for each in painted if each.lettering is not None} | cut_by
    unembedded = tuple(name for name in missing if name in needed)
    if unembedded:
        painted = tuple(_told_missing(each, unembedded) for each in painted)
    return Inspection(
        painted, hidden, clips, hidden_clips, layers, document.page_count, unembedded, live
    )


def _recorded(
    opened: pymupdf.Page, placement: Placement
) -> tuple[tuple[Painted, ...], tuple[Clip, ...], frozenset[str]]:
    """Returns what a page paints, the clips it does so in, and the fonts whose letters clip."""
    recorder = Recorder()
    to_card = mupdf.FzMatrix(*trim_matrix(placement).inverse())
    with drawing():
        pdf_page = mupdf.pdf_page_from_fz_page(opened.this)
        mupdf.pdf_run_page_contents_with_usage(
            pdf_page, recorder, to_card, "Print", mupdf.FzCookie()
        )
        mupdf.fz_close_device(recorder)
    recorder.raise_fault()
    return recorder.painted(), tuple(recorder.clips), frozenset(recorder.clipping_fonts)


def layers_of(document: pymupdf.Document) -> tuple[Layer, ...]:
    """Returns a document's layers: when they are seen, and what processing step they hold."""
    layers: list[Layer] = []
    nothing: dict[Any, Any] = {}
    default = asked(document.get_layer, -1, otherwise=nothing) or nothing  # without layers, none
    off, on = set(default.get("off", ())), set(default.get("on", ()))
    all_off = default.get("basestate") == "OFF"
    groups: dict[int, dict[str, Any]] = asked(document.get_ocgs, otherwise=nothing)
    for xref, group in groups.items():
        shown = xref in on if all_off else xref not in off
        printing = key_of(document, xref, "Usage/Print/PrintState")[1]
        step = _processing_step(document, xref)
        layers.append(Layer(group["name"], shown, printing != "/OFF", step))
    return tuple(layers)


def _processing_step(document: pymupdf.Document, xref: int) -> str | None:
    """Returns a layer's step as "Group/Type", or "Group" where the group has no types: White,
    Varnish, Legend, Dimensions and the like (ISO 19593-1:2018)."""
    told = [key_of(document, xref, f"GTS_Metadata/GTS_ProcSteps{key}") for key in ("Group", "Type")]
    group, kind = (text.lstrip("/") if sort == "name" else "" for sort, text in told)
    if kind and not group:  # against the standard; the type says which group it is of
        return next((step for step in STEPS if step.endswith(f"/{kind}")), kind)
    return "/".join(filter(None, (group, kind))) or None


@contextmanager
def _all_shown(document: pymupdf.Document) -> Generator[pymupdf.Document]:
    """Yields a copy in memory with every layer on: which layers show is settled on opening."""
    with drawing():
        copy = pymupdf.open(stream=document.tobytes(), filetype="pdf")
        groups = list(copy.get_ocgs())
        copy.set_layer(-1, on=groups, off=[])
        for xref in groups:
            copy.xref_set_key(xref, "Usage", "null")
        shown = pymupdf.open(stream=copy.tobytes(), filetype="pdf")
    try:
        yield shown
    finally:
        copy.close()
        shown.close()


def _told_missing(painted: Painted, unembedded: tuple[str, ...]) -> Painted:
    """Returns type marked as not embedded where its font is not in the file: the library has its
    own copies of the standard fonts, and does not say so."""
    lettering = painted.lettering
    if lettering is None or lettering.font not in unembedded:
        return painted
    return replace(painted, lettering=replace(lettering, embedded=False))


def fonts_of(opened: pymupdf.Page) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Returns the names of the fonts a page lists, and of those the file does not hold.

    What is listed need not be set in: some programs list a standard font in every file.
    """
    live: list[str] = []
    missing: list[str] = []
    none: list[Any] = []
    for _xref, extension, kind, name, *_ in asked(opened.get_fonts, True, otherwise=none):
        live.append(name)
        if extension == "n/a" and kind != _TYPE3:
            missing.append(name)
    return tuple(dict.fromkeys(live)), tuple(dict.fromkeys(missing))
