"""Reading one piece for its checks: its page opened once, inspected and drawn once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.inspection import Inspection, inspect
from mockup.artwork.page import ArtPage, Placement, place_card, read_page
from mockup.artwork.raster import RasterJob, ink_plates, rasterise
from mockup.checks.page_context import PageContext
from mockup.checks.settings import Settings
from mockup.colour.plates import InkPlates
from mockup.errors import InputError, LimitError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import view_around
from mockup.suite.suite import Piece
from mockup.trade.limits import PICTURE_MAX_PX
from mockup.trade.tolerances import TOTAL_INK

INK_PPI = 60.0
BEYOND_IN = 0.03  # the picture shows a little more than the bleed


def read_context(piece: Piece, settings: Settings) -> PageContext:
    """Returns what a piece's checks share. Raises InputError and LimitError as reading pages does;
    art that does not fit the card is no error here: it is told by `misfit`."""
    art, placement, misfit = placed(piece)
    width_in, height_in = piece.die.width_in, piece.die.height_in
    margin_in = piece.bleed_in + BEYOND_IN
    view = view_around((0, 0, width_in, height_in), settings.ppi, margin_in)
    inked_view = view_around((0, 0, width_in, height_in), INK_PPI)
    if view.width_px * view.height_px > PICTURE_MAX_PX:
        raise LimitError(f"{art.where}: is too large to be checked at {settings.ppi:g} ppi")
    picture = rasterise([RasterJob(art, placement, IDENTITY, view)])[0].on_white
    inspection = inspect(art.art, placement)
    inked: NDArray[np.uint8] | None = None
    if _may_be_heavy(inspection):
        inked = _all_inks(ink_plates([RasterJob(art, placement, IDENTITY, inked_view)])[0])
    return PageContext(
        piece, settings, art, placement, misfit, inspection, picture, view, inked, inked_view
    )


def placed(piece: Piece) -> tuple[ArtPage, Placement, str | None]:
    """Returns a piece's page, where the card lies on it, and why it does not fit, if it does not:
    the card is then taken from the page's middle."""
    art = read_page(piece.art)
    width_in, height_in = piece.die.width_in, piece.die.height_in
    try:
        return art, place_card(art, width_in, height_in, piece.bleed_in), None
    except InputError as error:
        return art, _centred(art, width_in, height_in), str(error)


def _centred(art: ArtPage, width_in: float, height_in: float) -> Placement:
    middle = (art.trim or art.visible).centre
    left, top = middle.x - width_in / 2, middle.y - height_in / 2
    return Placement(
        Box(left, top, left + width_in, top + height_in), 0.0, "it is in the page's middle"
    )


def _all_inks(plates: InkPlates) -> NDArray[np.uint8]:
    """Returns the plates of process and spot inks together, (h, w, n) uint8."""
    return np.dstack([plates.process, *(spot.plate for spot in plates.spots)])


def _may_be_heavy(inspection: Inspection) -> bool:
    """Returns whether inks may add up to more than the limit anywhere.

    One opaque colour paints over another; more than its own sum comes only of images, shadings and
    what is seen through.
    """
    for each in inspection.painted:
        if each.image is not None and each.image.space == "cmyk":
            return True
        if each.ink is not None and each.ink.total > TOTAL_INK.value / 100:
            return True
        if each.ink is not None and each.ink.space == "cmyk" and each.alpha < 1:
            return True
    return any(each.kind == "shade" for each in inspection.painted)
