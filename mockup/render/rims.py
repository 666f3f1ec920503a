"""What colour a printed card or envelope has along its edge, where it meets the table."""

from __future__ import annotations

import contextlib
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from mockup.artwork.page import ArtPage, Placement
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.appearance import appearance
from mockup.colour.difference import difference
from mockup.colour.lab import SRGB_TO_XYZ, lab_of_xyz
from mockup.colour.srgb import LINEAR, Rgb, parse_hex
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.flatten import ring
from mockup.pixels import view_around
from mockup.reading.envelope_sides import side_seen
from mockup.render.memory import key_of, remembered
from mockup.render.piece import all_located, located
from mockup.suite.suite import Envelope, Piece, Suite

_PPI = 40.0  # judgement: a flood is seen at that, type is not
_WITHIN_IN = (0.03, 0.14)  # of the cut: past the soft edge, and what an eye takes for it
_ALIKE_DE00 = 3.0  # judgement: one colour, for all its grain
_LEAST_SHARE = 0.5  # judgement: of the edge; of less the rest tells the card from the table


def draw_ahead(pieces: Sequence[Piece]) -> None:
    """Has the workshop draw all cards at once, two at a time; asked for one by one they are then
    there. What cannot be drawn says so when it is asked for. Raises what located raises."""
    with contextlib.suppress(InputError):
        rasterise(
            [_job(each, *found) for each, found in zip(pieces, all_located(pieces), strict=True)]
        )


def rim_of_piece(piece: Piece) -> Rgb | None:
    """Returns the sRGB colour that most of a card's edge has, printed on its stock; None where no
    one colour has half of it, or nothing is printed. Raises what located and rasterise raise."""
    return _rim(piece, *located(piece))


def rim_of_envelope(suite: Suite, envelope: Envelope) -> Rgb | None:
    """Returns the same of the printed side of an envelope that lies up; None where it has none.

    Raises InputError and LimitError for art that cannot be drawn.
    """
    side = side_seen(suite, envelope)
    return None if side is None else _rim(side.piece, side.page, side.placement)


def _rim(piece: Piece, page: ArtPage, placement: Placement) -> Rgb | None:
    job = _job(piece, page, placement)
    key = "rim", key_of((job, piece.die.shape, piece.stock.colour_hex))
    found = remembered(key, lambda: _colours(piece, job))
    return found[0] if found else None


def _job(piece: Piece, page: ArtPage, placement: Placement) -> RasterJob:
    return RasterJob(page, placement, IDENTITY, view_around(piece.die.shape.box, _PPI, 0.0))


def _colours(piece: Piece, job: RasterJob) -> tuple[Rgb, ...]:
    """Returns the one colour of an edge, or nothing."""
    try:
        (plates,) = rasterise([job])
    except InputError as error:
        if "nothing on it" not in str(error):
            raise
        return ()
    picture = appearance(plates, parse_hex(piece.stock.colour_hex))
    view = job.view
    x = view.left_in + (np.arange(view.width_px) + 0.5) / view.ppi
    y = view.top_in + (np.arange(view.height_px) + 0.5) / view.ppi
    whole = Polygon(ring(piece.die.shape.outer))
    near, far = (whole.buffer(-within) for within in _WITHIN_IN)
    edge = shapely.contains_xy(near.difference(far), *np.meshgrid(x, y))
    if not edge.any():
        return ()
    pixels = picture[edge]
    usual = np.rint(np.median(pixels, axis=0)).astype(np.uint8)
    if float((difference(_lab(pixels), _lab(usual)) <= _ALIKE_DE00).mean()) < _LEAST_SHARE:
        return ()
    red, green, blue = (int(value) for value in usual)
    return ((red, green, blue),)


def _lab(pixels: NDArray[np.uint8]) -> NDArray[np.float64]:
    """Returns CIELAB under D50 of sRGB bytes, both (..., 3)."""
    return lab_of_xyz(LINEAR[pixels].astype(np.float64) @ SRGB_TO_XYZ.T)
