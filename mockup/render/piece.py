"""A piece as it leaves the die: its art on its stock, cut to the outline, with a thin cut line."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mockup.artwork.page import ArtPage, Placement, read_pages
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.appearance import appearance
from mockup.colour.srgb import Rgb, decode, encode, linear, parse_hex
from mockup.geometry.affine import IDENTITY
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Shape
from mockup.pixels import Bytes, Coverage, View, view_around
from mockup.render.coverage import coverage
from mockup.render.cutline import (
    CASING_FACTOR,
    CutLine,
    choose_cut_line,
    colours_beside,
    stroke_coverage,
)
from mockup.suite.placing import place_piece
from mockup.suite.suite import CutLineChoice, Piece
from mockup.units import pt_to_in

PAPER_WHITE: Rgb = (255, 255, 255)


def located(piece: Piece) -> tuple[ArtPage, Placement]:
    """Returns a piece's art page, and where the card lies on it.

    Raises what read_page and place_piece raise.
    """
    return all_located([piece])[0]


def all_located(pieces: Sequence[Piece]) -> list[tuple[ArtPage, Placement]]:
    """Returns the art pages of pieces, read two at a time, and where on them the cards lie.

    Raises what read_pages and place_piece raise.
    """
    pages = read_pages([piece.art for piece in pieces])
    return [(page, place_piece(page, piece)) for piece, page in zip(pieces, pages, strict=True)]


def piece_picture(piece: Piece, ppi: float, choice: CutLineChoice | None) -> Bytes:
    """Returns a piece alone: (h, w, 4) uint8 sRGB, straight alpha, at `ppi`, true to size.

    The picture reaches half the line's width beyond the die's box on every side; without a choice
    no line is drawn. Raises InputError and LimitError for art that cannot be drawn.
    """
    view = piece_view(piece.die.shape, ppi, choice.width_pt if choice else 0.0)
    art, placement = located(piece)
    (plates,) = rasterise([RasterJob(art, placement, IDENTITY, view)])
    picture = appearance(plates, parse_hex(piece.stock.colour_hex))
    line = line_for(piece.die.shape, picture, view, [PAPER_WHITE], choice) if choice else None
    return cut_out(picture, piece.die.shape, line, view)


def piece_view(shape: Shape, ppi: float, width_pt: float) -> View:
    """Returns the view that holds a shape and its line's outer half, on a whole-pixel margin."""
    margin_px = int(np.ceil(pt_to_in(width_pt) * CASING_FACTOR / 2 * ppi)) + 1
    return view_around(shape.box, ppi, margin_px / ppi)


def line_for(
    shape: Shape, picture: Bytes, view: View, outside: Sequence[Rgb], choice: CutLineChoice
) -> CutLine:
    """Returns the cut line for a picture cut to `shape` and laid on grounds of colours `outside`.

    The designer's colour where she gave one, else the tone that stays visible on both sides.
    """
    if choice.colour is not None:
        return CutLine(choice.colour, choice.width_pt)
    grounds = np.array(outside, np.uint8)
    beside = colours_beside(shape, (picture, view), grounds, choice.width_pt)
    return choose_cut_line(beside, choice.width_pt)


def cut_out(picture: Bytes, shape: Shape, line: CutLine | None, view: View) -> Bytes:
    """Returns an opaque (h, w, 3) picture cut to a shape, a line over it: (h, w, 4), straight.

    Pixels wholly inside and off the line keep their bytes; those wholly outside are all nought.
    Edges are blended in linear light by exact coverage.
    """
    outline = rings(shape, flat_within(view))
    cut = np.empty((view.height_px, view.width_px, 4), np.uint8)
    for rows, part in view.bands():
        cut[rows, :, :3] = picture[rows]
        cut[rows, :, 3] = np.rint(coverage(outline, part) * 255)
    for colour, width_pt in strokes(line) if line else ():
        for rows, stroke in stroke_coverage(shape, pt_to_in(width_pt), view):
            touched = stroke > 0
            band = cut[rows]
            band[touched] = _over(band[touched], colour, stroke[touched])
    for rows, _ in view.bands():
        cut[rows][cut[rows, :, 3] == 0] = 0
    return cut


def draw_line(picture: Bytes, shape: Shape, line: CutLine, view: View) -> None:
    """Draws a cut line into an opaque (h, w, 3) picture, in place, blended in linear light."""
    for colour, width_pt in strokes(line):
        for rows, stroke in stroke_coverage(shape, pt_to_in(width_pt), view):
            touched = stroke > 0
            share, band = stroke[touched][:, None], picture[rows]
            band[touched] = encode(decode(band[touched]) * (1 - share) + linear(colour) * share)


def strokes(line: CutLine) -> list[tuple[Rgb, float]]:
    """Returns what is stroked, bottom first: (colour, width in points)."""
    casing = [(line.casing, line.width_pt * CASING_FACTOR)] if line.casing else []
    return [*casing, (line.colour, line.width_pt)]


def flat_within(view: View) -> float:
    """Returns how far, in inches, a polygon may lie from its curve at a view's resolution."""
    return 0.02 / view.ppi


def _over(below: Bytes, colour: Rgb, share: Coverage) -> Bytes:
    """Returns straight-alpha pixels (n, 4) with a colour laid over them by `share` (n,)."""
    under = below[:, 3].astype(np.float32) / 255 * (1 - share)
    alpha = share + under
    light = linear(colour) * share[:, None] + decode(below[:, :3]) * under[:, None]
    straight = encode(light / np.maximum(alpha, 1e-6)[:, None])
    return np.column_stack([straight, np.rint(alpha * 255).astype(np.uint8)])
