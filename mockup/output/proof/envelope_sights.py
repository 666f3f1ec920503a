"""What is seen of an envelope on its pages: its address side, its back closed, its back open; each
with the drawings of art it needs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb, parse_hex
from mockup.envelopes.flap import closed_flap, open_flap
from mockup.envelopes.liner import liner_in_envelope
from mockup.envelopes.views import closed_back, face, open_back
from mockup.geometry.affine import Affine, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.output.envelope_drawing import toned
from mockup.output.marked import draw_numbers
from mockup.output.pdf import Pdf
from mockup.output.proof.address import draw_address, draw_type
from mockup.output.proof.card import WATERMARKED_PPI, draw_art
from mockup.output.proof.grid import ART_PPI
from mockup.output.proof.layout import Picture
from mockup.output.proof.plan import Telling
from mockup.pixels import View, view_around
from mockup.reading.envelope_sides import PrintedSide, printed_side
from mockup.reading.envelope_type import type_on
from mockup.render.envelope import liner_art
from mockup.suite.suite import Envelope, Liner

_EDGE_PT = 0.4
_EDGE_TONE = 0.34
_GUM_TONE = 0.07
_PICTURE_MOST_PX = 24e6  # as of a card's art
_FACE = "Address side, with a sample address"
_CLOSED = "Closed, from the back"
_OPEN = "Open, from the back"


@dataclass(frozen=True)
class Sight:
    """One sight of an envelope at true size: its caption, how it is painted from its top left, and
    the drawings of art that painting is given."""

    caption: str
    width_in: float
    height_in: float
    paint: Callable[[Pdf, Point, Sequence[Plates]], None]
    jobs: tuple[RasterJob, ...] = ()

    @property
    def picture(self) -> Picture:
        """The sight as it is laid out."""
        return Picture(self.width_in, self.height_in, _nothing, caption=self.caption)


def face_sight(telling: Telling, envelope: Envelope) -> Sight:
    """Returns the address side with its art and an address. Raises InputError as printed_side."""
    shape = face(envelope.spec)
    art = _art(telling, printed_side(envelope, "face", telling.suite.bleed_in))

    def paint(pdf: Pdf, at: Point, drawn: Sequence[Plates]) -> None:
        to_page = translation(*at)
        _paper(pdf, shape.mapped(to_page), envelope.colour)
        for side, plates in zip(art, drawn, strict=True):
            _lay_art(pdf, envelope, side, plates, to_page, shape)
        draw_address(pdf, telling, envelope, at, toned(envelope.colour, 0.85))
        draw_numbers(pdf, telling.numbered_on(envelope, "front"), at)

    return _sight(envelope, _FACE, paint, [each.job for each in art])


def closed_sight(telling: Telling, envelope: Envelope) -> Sight:
    """Returns the back closed, with the flap's art. Raises InputError as printed_side."""
    back = closed_back(envelope.spec)
    sheets = (back.body, *back.side_flaps, back.bottom_flap, back.flap)
    art = _art(telling, printed_side(envelope, "flap", telling.suite.bleed_in))
    blocks = type_on(telling.suite, envelope, "flap")

    def paint(pdf: Pdf, at: Point, drawn: Sequence[Plates]) -> None:
        to_page = translation(*at)
        for sheet in sheets:
            _paper(pdf, sheet.mapped(to_page), envelope.colour)
        for side, plates in zip(art, drawn, strict=True):
            within = back.body if side.over_pocket else back.flap
            _lay_art(pdf, envelope, side, plates, to_page, within)
            if side.over_pocket:
                beside_flap = Shape(back.body.outer, (back.flap.outer,)).mapped(to_page)
                with pdf.clipped(beside_flap):  # what lies under the flap is not seen
                    _edge_over_art(pdf, back.bottom_flap.mapped(to_page), envelope.colour)
                _edge_over_art(pdf, back.flap.mapped(to_page), envelope.colour)
        draw_type(pdf, blocks, at)
        draw_numbers(pdf, telling.numbered_on(envelope, "back"), at)

    return _sight(envelope, _CLOSED, paint, [each.job for each in art])


def open_sight(telling: Telling, envelope: Envelope) -> Sight:
    """Returns the back open, with the liner's art, and what the pocket has of the back's. Raises
    what reading the art raises."""
    spec = envelope.spec
    back = open_back(spec)
    over = -open_flap(spec).box.top
    lining = [] if envelope.liner is None else [_lining(telling, envelope, envelope.liner)]
    art = _art(telling, printed_side(envelope, "flap", telling.suite.bleed_in))
    art = [each for each in art if each.over_pocket]

    def paint(pdf: Pdf, at: Point, drawn: Sequence[Plates]) -> None:
        to_page = translation(at.x, at.y + over)
        _paper(pdf, back.back_sheet.mapped(to_page), envelope.colour)
        pdf.fill(back.gum.mapped(to_page), toned(envelope.colour, _GUM_TONE))
        if envelope.liner is not None:
            seen = appearance(drawn[0], parse_hex(envelope.liner.stock.colour_hex))
            draw_art(pdf, seen, lining[0].view, to_page, back.liner.mapped(to_page))
        for flap in (*back.side_flaps, back.bottom_flap):
            _paper(pdf, flap.mapped(to_page), envelope.colour)
        for side, plates in zip(art, drawn[len(lining) :], strict=True):
            _lay_art(pdf, envelope, side, plates, to_page, back.pocket)
            with pdf.clipped(back.pocket.mapped(to_page)):  # where the flap lay, nothing printed
                pdf.fill(closed_flap(spec).mapped(to_page), envelope.colour)
            _edge_over_art(pdf, back.bottom_flap.mapped(to_page), envelope.colour)
        _edge(pdf, back.back_sheet.mapped(to_page), envelope.colour)

    jobs = [*lining, *(each.job for each in art)]
    return _sight(envelope, _OPEN, paint, jobs, over)


@dataclass(frozen=True)
class _SideArt:
    """The art of a side: what is drawn, and whether it is of the whole back."""

    job: RasterJob
    over_pocket: bool


def _art(telling: Telling, printed: PrintedSide | None) -> list[_SideArt]:
    if printed is None:
        return []
    box = printed.piece.die.shape.mapped(printed.to_side).box
    view = _view(telling, box)
    job = RasterJob(printed.page, printed.placement, printed.to_side, view)
    return [_SideArt(job, printed.over_pocket)]


def _lining(telling: Telling, envelope: Envelope, liner: Liner) -> RasterJob:
    view = _view(telling, liner_in_envelope(envelope.spec).box)
    art, placement, to_envelope = liner_art(envelope, liner, telling.suite.bleed_in)
    return RasterJob(art, placement, to_envelope, view)


def _view(telling: Telling, box: Box) -> View:
    most = WATERMARKED_PPI if telling.watermark else ART_PPI
    ppi = min(most, (_PICTURE_MOST_PX / (box.width * box.height)) ** 0.5)
    return view_around(box, ppi, 1 / ppi)


def _lay_art(
    pdf: Pdf, envelope: Envelope, side: _SideArt, plates: Plates, to_page: Affine, within: Shape
) -> None:
    seen = appearance(plates, envelope.colour)
    draw_art(pdf, seen, side.job.view, to_page, within.mapped(to_page))
    _edge(pdf, within.mapped(to_page), envelope.colour)


def _sight(
    envelope: Envelope,
    caption: str,
    paint: Callable[[Pdf, Point, Sequence[Plates]], None],
    jobs: Sequence[RasterJob],
    over_in: float = 0.0,
) -> Sight:
    spec = envelope.spec
    return Sight(caption, spec.width_in, spec.height_in + over_in, paint, tuple(jobs))


def _nothing(_pdf: Pdf, _at: Point) -> None:
    """Draws nothing: a sight is painted with its drawings."""


def _paper(pdf: Pdf, sheet: Shape, colour: Rgb) -> None:
    pdf.fill(sheet, colour)
    _edge(pdf, sheet, colour)


def _edge(pdf: Pdf, sheet: Shape, colour: Rgb) -> None:
    pdf.stroke(sheet, toned(colour, _EDGE_TONE), _EDGE_PT)


def _edge_over_art(pdf: Pdf, sheet: Shape, colour: Rgb) -> None:
    """Strokes an edge that is seen on whatever is printed there: its paper's line in a darker."""
    pdf.stroke(sheet, toned(colour, _EDGE_TONE), 2 * _EDGE_PT)
    pdf.stroke(sheet, colour, _EDGE_PT)
