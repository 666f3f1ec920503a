"""The pages of an envelope at true size: addressed and closed, then open with its liner."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.contrast import luminance
from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb, parse_hex
from mockup.envelopes.flap import open_flap
from mockup.envelopes.liner import liner_in_envelope
from mockup.envelopes.views import closed_back, face, open_back
from mockup.geometry.affine import Affine, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.proof.address import draw_address
from mockup.output.proof.card import WATERMARKED_PPI, draw_art
from mockup.output.proof.grid import ART_PPI, LABEL, RULER_TAIL_IN, draw_check, draw_title
from mockup.output.proof.layout import Layout, Picture, is_folded, laid_out
from mockup.output.proof.notes import Note, draw_notes
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.voices import folded_words, inside_notes, outside_notes
from mockup.output.proof.words import size_told
from mockup.pixels import View, view_around
from mockup.render.envelope import liner_art
from mockup.suite.suite import Envelope

_EDGE_PT = 0.4
_EDGE_TONE = 0.34
_GUM_TONE = 0.07
_BASELINE_IN = 0.2  # from a drawing to its caption's baseline
_PICTURE_MOST_PX = 24e6  # as of a card's art
_OPTICAL_MIDDLE = 0.36
_FACE = "Address side, with a sample address"
_CLOSED = "Closed, from the back"
_OPEN = "Open, from the back"

_NotesOf = Callable[[Telling, Envelope, str], tuple[Note, ...]]


def envelope_pages(telling: Telling, envelope: Envelope) -> list[Page]:
    """Returns the pages of an envelope. Raises what reading its liner's art raises."""
    spec = envelope.spec
    rows = [Picture(spec.width_in, spec.height_in, _face(envelope, telling), caption=_FACE)]
    closed = Picture(spec.width_in, spec.height_in, _closed(envelope), caption=_CLOSED)
    both = _planned(telling, envelope, envelope.title, [*rows, closed], outside_notes)
    inside = [_open_picture(envelope, None, None)]
    if is_folded(telling.suite.paper, both.layout):
        outside = _planned(telling, envelope, envelope.title, rows, outside_notes)
        inside = [closed, *inside]
    else:
        outside = both
    opened = _planned(telling, envelope, f"{envelope.title}, open", inside, inside_notes)
    return [_page(telling, outside, ()), _opened_page(telling, opened)]


@dataclass(frozen=True)
class _Planned:
    envelope: Envelope
    title: str
    pictures: tuple[Picture, ...]
    layout: Layout
    notes: tuple[Note, ...]


def _planned(
    telling: Telling,
    envelope: Envelope,
    title: str,
    pictures: Sequence[Picture],
    notes_of: _NotesOf,
) -> _Planned:
    paper, units = telling.suite.paper, telling.suite.units
    notes = notes_of(telling, envelope, "")
    layout = laid_out(paper, title, pictures, notes, RULER_TAIL_IN)
    if is_folded(paper, layout):
        longer = notes_of(telling, envelope, folded_words(paper, layout, units))
        layout = laid_out(paper, title, pictures, longer, RULER_TAIL_IN)
        notes = notes_of(telling, envelope, folded_words(paper, layout, units))
    layout = layout.lowered(_OPTICAL_MIDDLE * max(0.0, layout.spare.height))
    return _Planned(envelope, title, tuple(pictures), layout, notes)


def _opened_page(telling: Telling, planned: _Planned) -> Page:
    """Returns the page with the envelope open; its liner's art is drawn with it."""
    envelope = planned.envelope
    if envelope.liner is None:
        return _page(telling, planned, ())
    box = liner_in_envelope(envelope.spec).box
    most = WATERMARKED_PPI if telling.watermark else ART_PPI
    ppi = min(most, (_PICTURE_MOST_PX / (box.width * box.height)) ** 0.5)
    view = view_around(box, ppi, 1 / ppi)
    art, placement, to_envelope = liner_art(envelope, envelope.liner, telling.suite.bleed_in)
    return _page(telling, planned, (RasterJob(art, placement, to_envelope, view),))


def _page(telling: Telling, planned: _Planned, jobs: tuple[RasterJob, ...]) -> Page:
    layout, envelope = planned.layout, planned.envelope

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, planned.title)
        for picture, place in zip(planned.pictures, layout.places, strict=True):
            shown = picture
            if drawn and picture.caption == _OPEN:
                shown = _open_picture(envelope, drawn[0], jobs[0].view)
            with pdf.element("Figure", _alt(telling, envelope, picture.caption)):
                shown.draw(pdf, place)
            with pdf.element("Caption"):
                y = place.y + picture.height_in + _BASELINE_IN
                pdf.text(Point(place.x, y), picture.caption, LABEL)
        draw_notes(pdf, layout.columns, planned.notes)
        draw_check(pdf, telling.suite.units)

    return Page(planned.title, layout.width_in, layout.height_in, draw, jobs, envelope)


def toned(colour: Rgb, share: float) -> Rgb:
    """Returns a paper's colour moved by a share to black, or to white where it is dark."""
    towards = 0 if float(luminance(np.array(colour, np.uint8))) > 0.18 else 255
    red, green, blue = (round(part + (towards - part) * share) for part in colour)
    return red, green, blue


def _face(envelope: Envelope, telling: Telling) -> Callable[[Pdf, Point], None]:
    def draw(pdf: Pdf, at: Point) -> None:
        _paper(pdf, face(envelope.spec).mapped(translation(*at)), envelope.colour)
        draw_address(pdf, telling, envelope, at, toned(envelope.colour, 0.85))

    return draw


def _closed(envelope: Envelope) -> Callable[[Pdf, Point], None]:
    def draw(pdf: Pdf, at: Point) -> None:
        back = closed_back(envelope.spec)
        for sheet in (back.body, *back.side_flaps, back.bottom_flap, back.flap):
            _paper(pdf, sheet.mapped(translation(*at)), envelope.colour)

    return draw


def _open_picture(envelope: Envelope, drawn: Plates | None, view: View | None) -> Picture:
    spec = envelope.spec
    over = -open_flap(spec).box.top

    def draw(pdf: Pdf, at: Point) -> None:
        _draw_open(pdf, envelope, drawn, view, translation(at.x, at.y + over))

    return Picture(spec.width_in, spec.height_in + over, draw, caption=_OPEN)


def _draw_open(
    pdf: Pdf, envelope: Envelope, drawn: Plates | None, view: View | None, to_page: Affine
) -> None:
    back, edge = open_back(envelope.spec), toned(envelope.colour, _EDGE_TONE)
    _paper(pdf, back.back_sheet.mapped(to_page), envelope.colour)
    pdf.fill(back.gum.mapped(to_page), toned(envelope.colour, _GUM_TONE))
    if envelope.liner is not None and drawn is not None and view is not None:
        art = appearance(drawn, parse_hex(envelope.liner.stock.colour_hex))
        draw_art(pdf, art, view, to_page, back.liner.mapped(to_page))
    for flap in (*back.side_flaps, back.bottom_flap):
        _paper(pdf, flap.mapped(to_page), envelope.colour)
    pdf.stroke(back.back_sheet.mapped(to_page), edge, _EDGE_PT)


def _paper(pdf: Pdf, sheet: Shape, colour: Rgb) -> None:
    pdf.fill(sheet, colour)
    pdf.stroke(sheet, toned(colour, _EDGE_TONE), _EDGE_PT)


def _alt(telling: Telling, envelope: Envelope, caption: str) -> str:
    size = size_told(envelope.spec.width_in, envelope.spec.height_in, telling.suite.units)
    return f"{envelope.title} at true size, {size}: {caption[:1].lower()}{caption[1:]}"
