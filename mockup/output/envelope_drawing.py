"""An envelope drawn on a page, in any paper: open with its liner, closed from the back."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.appearance import appearance
from mockup.colour.contrast import luminance
from mockup.colour.srgb import Rgb, parse_hex
from mockup.envelopes.liner import liner_in_envelope
from mockup.envelopes.spec import EnvelopeSpec
from mockup.envelopes.views import closed_back, open_back
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Shape
from mockup.geometry.point import Point, box_of
from mockup.output.pdf import Pdf
from mockup.pixels import Bytes, View, view_around
from mockup.render.envelope import liner_art
from mockup.suite.suite import Envelope

_EDGE_PT = 0.3
_EDGE_TONE = 0.28
_GUM_TONE = 0.07


@dataclass(frozen=True)
class Lining:
    """A liner's art on its own stock, (h, w, 3) sRGB, and the view of the envelope it lies in."""

    picture: Bytes
    view: View


def lining_of(envelope: Envelope, bleed_in: float, ppi: float) -> Lining | None:
    """Returns an envelope's liner drawn, None for one without.

    Raises InputError and LimitError for art that cannot be drawn.
    """
    if envelope.liner is None:
        return None
    page, placement, to_envelope = liner_art(envelope, envelope.liner, bleed_in)
    view = view_around(liner_in_envelope(envelope.spec).box, ppi, 1 / ppi)
    (plates,) = rasterise([RasterJob(page, placement, to_envelope, view)])
    return Lining(appearance(plates, parse_hex(envelope.liner.stock.colour_hex)), view)


def draw_open(
    pdf: Pdf, spec: EnvelopeSpec, paper: Rgb, lining: Lining | None, to_page: Affine
) -> None:
    """Draws an envelope open from the back; the map is from the inches of its back."""
    back = open_back(spec)
    _sheet(pdf, back.back_sheet.mapped(to_page), paper)
    pdf.fill(back.gum.mapped(to_page), toned(paper, _GUM_TONE))
    if lining is not None:
        view = lining.view
        corners = (
            Point(view.left_in, view.top_in),
            Point(view.left_in + view.width_in, view.top_in + view.height_in),
        )
        box = box_of(to_page.point(corner) for corner in corners)
        pdf.picture(lining.picture, box, back.liner.mapped(to_page))
    for flap in (*back.side_flaps, back.bottom_flap):
        _sheet(pdf, flap.mapped(to_page), paper)
    pdf.stroke(back.back_sheet.mapped(to_page), toned(paper, _EDGE_TONE), _EDGE_PT)


def draw_closed(pdf: Pdf, spec: EnvelopeSpec, paper: Rgb, to_page: Affine) -> None:
    """Draws an envelope closed from the back; the map is from the inches of its back."""
    back = closed_back(spec)
    for sheet in (back.body, *back.side_flaps, back.bottom_flap, back.flap):
        _sheet(pdf, sheet.mapped(to_page), paper)


def toned(colour: Rgb, share: float) -> Rgb:
    """Returns a paper's colour moved by a share to black, or to white where it is dark."""
    towards = 0 if float(luminance(np.array(colour, np.uint8))) > 0.18 else 255
    red, green, blue = (round(part + (towards - part) * share) for part in colour)
    return red, green, blue


def _sheet(pdf: Pdf, sheet: Shape, paper: Rgb) -> None:
    pdf.fill(sheet, paper)
    pdf.stroke(sheet, toned(paper, _EDGE_TONE), _EDGE_PT)
