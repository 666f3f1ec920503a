"""A page of the proof for one envelope: open with its liner, closed, and its address side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.contrast import luminance
from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb, parse_hex
from mockup.envelopes.flap import open_flap
from mockup.envelopes.liner import liner_in_envelope, liner_shape
from mockup.envelopes.views import closed_back, face, open_back
from mockup.geometry.affine import Affine, scaling, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.card import draw_art
from mockup.output.proof.grid import ART_PPI, LABEL, Fitted, landscape
from mockup.output.proof.notes import Note, Notes, draw_notes
from mockup.output.proof.words import (
    art_words,
    fingerprint,
    held_by,
    press_notes,
    scale_words,
    sentence,
    size_name,
    size_told,
    size_told_otherwise,
    stock_words,
    unbroken,
)
from mockup.pixels import View, view_around
from mockup.render.envelope import liner_art
from mockup.suite.suite import Envelope, Suite
from mockup.units import format_length

_RATIOS = (1.5, 2.0, 3.0, 4.0, 5.0, 10.0, 20.0)
_EDGE_PT = 0.4
_EDGE_TONE = 0.34
_GUM_TONE = 0.07
_BETWEEN_IN = 0.4  # from one drawing to the next
_CAPTION_IN = 0.2  # from a drawing to its caption's baseline


@dataclass(frozen=True)
class EnvelopePage:
    """One envelope's page: the envelope, its scale, and the view its liner's art is drawn in."""

    envelope: Envelope
    place: Fitted
    view: View


def plan_envelope(envelope: Envelope, paper: str) -> EnvelopePage:
    """Returns the page of an envelope, at the largest round scale that has room."""
    place = Fitted(landscape(paper), _ratio(envelope, landscape(paper).field))
    ppi = ART_PPI / place.ratio
    view = view_around(liner_in_envelope(envelope.spec).box, ppi, 1 / ppi)
    return EnvelopePage(envelope, place, view)


def liner_job(page: EnvelopePage, bleed_in: float) -> RasterJob | None:
    """Returns the drawing of the liner's art, or None for an envelope without one.

    Raises what liner_art raises.
    """
    liner = page.envelope.liner
    if liner is None:
        return None
    art, placement, to_envelope = liner_art(page.envelope, liner, bleed_in)
    return RasterJob(art, placement, to_envelope, page.view)


def draw_envelope(pdf: Pdf, suite: Suite, page: EnvelopePage, drawn: Plates | None) -> None:
    """Draws an envelope's page; `drawn` is its liner's art on white, in the page's view."""
    spec, frame, ratio = page.envelope.spec, page.place.frame, page.place.ratio
    field, scale = frame.field, 1 / page.place.ratio
    right = field.left + spec.width_in * scale + _BETWEEN_IN
    lower = field.top + spec.height_in * scale + _CAPTION_IN + _BETWEEN_IN
    fold = field.top - open_flap(spec).box.top * scale
    _draw_open(pdf, page, drawn, _at(field.left, fold, ratio))
    _draw_closed(pdf, page, _at(right, field.top, ratio))
    _draw_face(pdf, page, _at(right, lower, ratio))
    draw_notes(pdf, frame.columns, _notes(suite, page))


def toned(colour: Rgb, share: float) -> Rgb:
    """Returns a paper's colour moved by a share to black, or to white where it is dark."""
    towards = 0 if float(luminance(np.array(colour, np.uint8))) > 0.18 else 255
    red, green, blue = (round(part + (towards - part) * share) for part in colour)
    return red, green, blue


def _ratio(envelope: Envelope, field: Box) -> float:
    """Returns the scale, 1 to this, at which the three drawings have room."""
    spec = envelope.spec
    for ratio in _RATIOS:
        wide = 2 * spec.width_in / ratio + _BETWEEN_IN
        left_high = (spec.height_in + spec.flap_depth_in) / ratio
        right_high = 2 * spec.height_in / ratio + _BETWEEN_IN + _CAPTION_IN
        if wide <= field.width and max(left_high, right_high) <= field.height:
            return ratio
    return _RATIOS[-1]


def _at(left: float, top: float, ratio: float) -> Affine:
    return translation(left, top) @ scaling(1 / ratio)


def _draw_open(pdf: Pdf, page: EnvelopePage, drawn: Plates | None, to_page: Affine) -> None:
    envelope = page.envelope
    back, edge = open_back(envelope.spec), toned(envelope.colour, _EDGE_TONE)
    _paper(pdf, back.back_sheet.mapped(to_page), envelope.colour)
    pdf.fill(back.gum.mapped(to_page), toned(envelope.colour, _GUM_TONE))
    if envelope.liner is not None and drawn is not None:
        art = appearance(drawn, parse_hex(envelope.liner.stock.colour_hex))
        draw_art(pdf, art, page.view, to_page, back.liner.mapped(to_page))
    for flap in (*back.side_flaps, back.bottom_flap):
        _paper(pdf, flap.mapped(to_page), envelope.colour)
    pdf.stroke(back.back_sheet.mapped(to_page), edge, _EDGE_PT)
    _caption(pdf, envelope, to_page, "Open, from the back")


def _draw_closed(pdf: Pdf, page: EnvelopePage, to_page: Affine) -> None:
    envelope = page.envelope
    back = closed_back(envelope.spec)
    for sheet in (back.body, *back.side_flaps, back.bottom_flap, back.flap):
        _paper(pdf, sheet.mapped(to_page), envelope.colour)
    _caption(pdf, envelope, to_page, "Closed, from the back")


def _draw_face(pdf: Pdf, page: EnvelopePage, to_page: Affine) -> None:
    _paper(pdf, face(page.envelope.spec).mapped(to_page), page.envelope.colour)
    _caption(pdf, page.envelope, to_page, "Address side")


def _paper(pdf: Pdf, sheet: Shape, colour: Rgb) -> None:
    pdf.fill(sheet, colour)
    pdf.stroke(sheet, toned(colour, _EDGE_TONE), _EDGE_PT)


def _caption(pdf: Pdf, envelope: Envelope, to_page: Affine, text: str) -> None:
    corner = to_page.point(Point(0.0, envelope.spec.height_in))
    pdf.text(Point(corner.x, corner.y + _CAPTION_IN), text, LABEL)


def _notes(suite: Suite, page: EnvelopePage) -> Notes:
    envelope, spec = page.envelope, page.envelope.spec
    wide, high = spec.width_in, spec.height_in
    name = size_name(envelope.size.name)
    units = suite.units
    first = size_told(wide, high, units) + (f", {name}" if name else "")
    size = (first, size_told_otherwise(wide, high, units))
    flap = sentence(spec.flap.replace("-", " "))
    notes = [
        Note("Scale", (scale_words(page.place.ratio),)),
        Note("Size", size),
        Note("Flap", (f"{flap}, {unbroken(f'{format_length(spec.flap_depth_in, units)} deep')}",)),
        Note("Colour", (_colour_words(envelope.colour_name),)),
        Note("Stock", (stock_words(envelope.stock, units),)),
    ]
    notes += _liner_notes(envelope)
    held = held_by(suite, envelope)
    if held:
        notes.append(Note("Holds", (held,)))
    if envelope.quantity is not None:
        notes.append(Note("Quantity", (f"{envelope.quantity:,}",)))
    told = "Makers cut and fold each their own way. Hold a real one before you order"
    told += ", and measure it before liners are cut." if envelope.liner else "."
    return Notes(envelope.title, (*notes, Note("Please note", (told,))))


def _colour_words(name: str) -> str:
    return f"As drawn, {name}" if name.startswith("#") else sentence(name.replace("-", " "))


def _liner_notes(envelope: Envelope) -> list[Note]:
    liner = envelope.liner
    if liner is None:
        return []
    box = liner_shape(envelope.spec).box
    told = (
        size_told(box.width, box.height, envelope.units),
        art_words(liner.art),
        f"fingerprint {fingerprint(liner.art)}",
    )
    inks = press_notes(liner.art, liner.stock)
    return [Note("Liner", told), *([Note("Its inks shown as", inks)] if inks else [])]
