"""What of a side's embossing lies under the art of the other side, where it shows in relief."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mockup.artwork.raster import RasterJob, finish_plates, rasterise
from mockup.dies.mirroring import mirrored
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Point
from mockup.pixels import view_around
from mockup.reading.page import placed
from mockup.suite.suite import Piece
from mockup.trade.finishes import Finish

PPI = 100.0  # judgement: a stroke of 7 pt type is a pixel wide
_HALF = 128
_SEEN = 30  # judgement: of 255; paler is a ground, which relief does no harm to
_LEAST_PX = 12  # judgement: less is an edge that meets an edge


def under_other_side(piece: Piece, finish: Finish) -> Point | None:
    """Returns where a side's plates of a finish lie under the art of the other side, as this side
    sees it; None where nowhere, or where nothing is printed there. A ground that covers the card
    counts for nothing. Raises what rasterise raises."""
    if not piece.side or piece.back is None:
        return None
    view = view_around(piece.die.shape.box, PPI, 0.0)
    own, placement, misfit = placed(piece)
    die = piece.die if piece.fold is not None else mirrored(piece.die)
    other, its_place, its_misfit = placed(replace(piece, art=piece.back, die=die))
    if misfit is not None or its_misfit is not None:
        return None
    (plates,) = finish_plates([RasterJob(own, placement, IDENTITY, view)])
    masks = [each.plate >= _HALF for each in plates if each.finish == finish]
    if not masks:
        return None
    (drawn,) = rasterise([RasterJob(other, its_place, IDENTITY, view)])
    # A sheet that folds at its top is turned over its top, any other like a page of a book.
    turned = drawn.on_white[::-1] if piece.fold == "top" else drawn.on_white[:, ::-1]
    look = turned.astype(np.int16)
    ground = np.median(look.reshape(-1, 3), axis=0)
    marks = np.abs(look - ground).max(axis=2) > _SEEN
    both = np.logical_or.reduce(masks) & marks
    if both.sum() < _LEAST_PX:
        return None
    rows, columns = np.nonzero(both)
    return Point(
        view.left_in + (float(columns[0]) + 0.5) / view.ppi,
        view.top_in + (float(rows[0]) + 0.5) / view.ppi,
    )
