"""The colours of a suite's art as they will be printed, each face on its own stock."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from mockup.artwork.page import ArtPage, Placement, place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.beside import SPEAKING_SHARE, Lab
from mockup.colour.palette import Dominant, Mask, Numbers, dominant
from mockup.colour.plates import Plates, Pressed
from mockup.colour.printed_lab import Printing, lab_of_rgb, printed_lab, printing_on
from mockup.colour.srgb import parse_hex
from mockup.envelopes.liner_template import liner_template
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Shape
from mockup.geometry.point import Point, box_of
from mockup.pixels import View, view_around
from mockup.reading.page import centred, placed
from mockup.suite.suite import Envelope, Piece
from mockup.trade.papers import Stock
from mockup.workshop import crew
from mockup.workshop.job import Job

PPI_MOST, PIXELS_MOST = 200.0, 800_000  # judgement: a stem of type is two pixels wide
BARE_LAB = 2.0  # judgement: of CIELAB; what is nearer to the stock's colour is seen as the stock
_AROUND_PX = 2
_NEAR_PX = 20
_PIECE = "mockup.reading.art_colours:colours_of_piece"
_LINER = "mockup.reading.art_colours:colours_of_liner"


@dataclass(frozen=True)
class ArtColour:
    """A dominant colour of a face: CIELAB as printed, its share of the face and of the ink there,
    whether it is one solid colour, a place amid it in card inches, and what is drawn there: four
    bytes of C, M, Y, K, or three of sRGB where the art goes to no press."""

    lab: Lab
    share: float
    of_ink: float
    solid: bool
    at: Point
    drawn: tuple[int, ...]

    @property
    def inks(self) -> tuple[float, ...] | None:
        """C, M, Y, K in shares, 0 to 1; None for art that goes to no press."""
        return tuple(each / 255 for each in self.drawn) if len(self.drawn) == 4 else None

    @property
    def speaks(self) -> bool:
        """Whether it is large and plain enough to be held against an envelope."""
        return self.solid and self.share >= SPEAKING_SHARE


@dataclass(frozen=True, eq=False)
class FaceColours:
    """The dominant colours of a piece or a liner, the largest first; its stock, as CIELAB, and the
    share of the face where it is bare; the press on that stock, None for art in RGB alone."""

    colours: tuple[ArtColour, ...]
    stock: Stock
    stock_lab: Lab
    bare: float
    printing: Printing | None


def colours_of_pieces(pieces: Sequence[Piece]) -> list[FaceColours]:
    """Returns the colours of every piece, in order, read in workers and remembered.

    Raises InputError and LimitError for art that cannot be read.
    """
    jobs = [Job((each,), each.art.where, each.art.sha256, ("colours", each)) for each in pieces]
    return crew.done(_PIECE, jobs)


def colours_of_liners(envelopes: Sequence[Envelope], bleed_in: float) -> list[FaceColours | None]:
    """Returns the colours of what is seen of every envelope's liner; None for one without.

    Raises InputError and LimitError for art that cannot be read.
    """
    lined = [each for each in envelopes if each.liner is not None]
    jobs = [
        Job((each, bleed_in), each.liner.art.where, each.liner.art.sha256, ("colours", each))
        for each in lined
        if each.liner is not None
    ]
    found = dict(zip((each.name for each in lined), crew.done(_LINER, jobs), strict=True))
    return [found.get(each.name) for each in envelopes]


def colours_of_piece(piece: Piece) -> FaceColours:
    """Returns a piece's colours within its die, worked out in this process."""
    page, placement, _ = placed(piece)
    return _face(page, placement, (piece.die.shape,), piece.stock)


def colours_of_liner(envelope: Envelope, bleed_in: float) -> FaceColours:
    """Returns the colours of what an open envelope shows of its liner, worked out in this process;
    art of another size is taken from its middle."""
    assert envelope.liner is not None
    template = liner_template(envelope.spec, bleed_in)
    box = template.cut.box
    page = read_page(envelope.liner.art)
    try:
        placement = place_card(page, box.width, box.height, bleed_in, envelope.units)
    except InputError:
        placement = centred(page, box.width, box.height)
    return _face(page, placement, template.seen, envelope.liner.stock)


def _face(
    page: ArtPage, placement: Placement, shapes: tuple[Shape, ...], stock: Stock
) -> FaceColours:
    """Returns the colours of a page within shapes, card inches."""
    box = box_of(corner for shape in shapes for corner in shape.box.corners())
    ppi = min(PPI_MOST, math.sqrt(PIXELS_MOST / max(box.width * box.height, 1e-6)))
    view = view_around(box, ppi, _AROUND_PX / ppi)
    paper = parse_hex(stock.colour_hex)
    bare_lab = lab_of_rgb(paper)
    own: Lab = (float(bare_lab[0]), float(bare_lab[1]), float(bare_lab[2]))
    plates = _drawn(page, placement, view)
    if plates is None:
        return FaceColours((), stock, own, 1.0, None)
    lab = printed_lab(plates, paper)
    inside = _inside(shapes, view)
    bare = np.linalg.norm(lab - bare_lab, axis=2) < BARE_LAB
    colours = tuple(_art_colour(each, plates, lab, view) for each in dominant(lab, inside, bare))
    share = float((bare & inside).sum() / max(1, inside.sum()))
    pressed = plates.drawn if isinstance(plates.drawn, Pressed) else None
    printing = None if pressed is None else printing_on(pressed.condition, paper, pressed.swatch)
    return FaceColours(colours, stock, own, share, printing)


def _drawn(page: ArtPage, placement: Placement, view: View) -> Plates | None:
    """Returns a page drawn; None for one with nothing on it."""
    try:
        return rasterise([RasterJob(page, placement, IDENTITY, view)])[0]
    except InputError as error:
        if "nothing on it" not in str(error):
            raise
        return None


def _inside(shapes: Sequence[Shape], view: View) -> Mask:
    """Returns the pixels within shapes, holes left out, an edge's own left out as well."""
    picture = Image.new("L", (view.width_px, view.height_px))
    pen = ImageDraw.Draw(picture)
    for shape in shapes:
        outer, *holes = (_in_pixels(ring, view) for ring in rings(shape, 0.1 / view.ppi))
        pen.polygon(outer, fill=1, outline=0)
        for hole in holes:
            pen.polygon(hole, fill=0, outline=0)
    return np.asarray(picture, bool)


def _in_pixels(ring: NDArray[np.float64], view: View) -> list[tuple[float, float]]:
    places = (ring - (view.left_in, view.top_in)) * view.ppi - 0.5
    return [(float(x), float(y)) for x, y in places]


def _art_colour(colour: Dominant, plates: Plates, lab: Numbers, view: View) -> ArtColour:
    row, column = colour.at
    at = Point(view.left_in + (column + 0.5) / view.ppi, view.top_in + (row + 0.5) / view.ppi)
    # What the art has where it looks most like the colour: a mean of mixes is none of them.
    around = np.s_[
        max(0, row - _NEAR_PX) : row + _NEAR_PX, max(0, column - _NEAR_PX) : column + _NEAR_PX
    ]
    near = np.linalg.norm(lab[around] - np.array(colour.lab), axis=2)
    pixels = plates.drawn.process if isinstance(plates.drawn, Pressed) else plates.drawn
    nearest = pixels[around].reshape(-1, pixels.shape[2])[int(near.argmin())]
    drawn = tuple(int(each) for each in nearest)
    return ArtColour(colour.lab, colour.share, colour.of_ink, colour.solid, at, drawn)
