"""A piece in one of its dies, small, lying on the page it is shown on, all in the same light."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageFilter

from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.appearance import appearance
from mockup.colour.srgb import decode, encode, parse_hex
from mockup.geometry.affine import IDENTITY
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Shape
from mockup.pixels import Bytes, Coverage, View, view_around
from mockup.render.coverage import coverage
from mockup.render.cutline import CutLine
from mockup.render.piece import PAPER_WHITE, line_for, located
from mockup.suite.suite import CutLineChoice, Piece

AROUND_IN = 0.3  # of card inches round the trim, for the shadow
# One soft window high on the left: the shadow's fall, its softness and its depth, card inches.
_FALL_IN = (0.03, 0.05)
_SOFT_IN = 0.06
_DEPTH = 0.22
_CONTACT_IN = 0.012
_CONTACT_DEPTH = 0.20


@dataclass(frozen=True)
class Shown:
    """A picture of a piece in a die, (h, w, 3) sRGB on white, its view in card inches, its line."""

    picture: Bytes
    view: View
    line: CutLine


def piece_art(piece: Piece, ppi: float) -> tuple[Bytes, View]:
    """Returns a piece's art on its stock, uncut: (h, w, 3) sRGB at `ppi`, and its view.

    Raises InputError and LimitError for art that cannot be drawn.
    """
    size = (piece.die.width_in, piece.die.height_in)
    view = view_around((0.0, 0.0, *size), ppi, AROUND_IN)
    art, placement = located(piece)
    (plates,) = rasterise([RasterJob(art, placement, IDENTITY, view)])
    return appearance(plates, parse_hex(piece.stock.colour_hex)), view


def shown_in(shape: Shape, art: Bytes, view: View, choice: CutLineChoice) -> Shown:
    """Returns a piece's art cut to a shape and laid on white, with its shadow.

    Blended in linear light by exact coverage; the cut line is chosen, not drawn.
    """
    inside = coverage(rings(shape, 0.02 / view.ppi), view)
    ground = 1 - (1 - _shade(inside, view, _SOFT_IN, _FALL_IN, _DEPTH)) * (
        1 - _shade(inside, view, _CONTACT_IN, (0.0, _CONTACT_IN), _CONTACT_DEPTH)
    )
    share = inside[:, :, None]
    light = decode(art) * share + (1 - ground)[:, :, None] * (1 - share)
    line = line_for(shape, art, view, [PAPER_WHITE], choice)
    return Shown(encode(light.astype(np.float32)), view, line)


def _shade(
    inside: Coverage, view: View, soft_in: float, fall_in: tuple[float, float], depth: float
) -> Coverage:
    """Returns how much light a shape takes from the page, 0 to `depth`."""
    solid = Image.fromarray(np.rint(inside * 255).astype(np.uint8))
    soft = np.asarray(solid.filter(ImageFilter.GaussianBlur(soft_in * view.ppi)), np.float32) / 255
    right, down = (round(fall * view.ppi) for fall in fall_in)
    return (np.roll(soft, (down, right), (0, 1)) * depth).astype(np.float32)
