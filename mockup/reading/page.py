"""Reading a piece's page: inspected once, and drawn where its facts need the picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.finishes import PlatesNamed, plates_named, white_lost
from mockup.artwork.inspection import Ink, Inspection, inspect
from mockup.artwork.own_pages import that_fit
from mockup.artwork.page import ArtPage, Placement, read_page
from mockup.artwork.raster import RasterJob, ink_plates, rasterise
from mockup.artwork.undrawn import undrawn_features
from mockup.colour.plates import InkPlates
from mockup.errors import InputError, LimitError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import view_around
from mockup.reading.left_out import LeftOut, surely_a_templates
from mockup.reading.page_facts import PageFacts, zones_on
from mockup.reading.sight import Inked, Sight
from mockup.reading.template_lines import find_template_lines
from mockup.suite.placing import place_piece
from mockup.suite.suite import Piece
from mockup.trade.limits import PICTURE_MAX_PX
from mockup.trade.tolerances import SAFE, TOTAL_INK
from mockup.workshop import crew
from mockup.workshop.job import Job

_LEFT_OUT = "mockup.reading.page:left_out"
PPI = 300.0  # judgement: a gap of paper of a hairline's width is three pixels wide or more
INK_PPI = 60.0  # judgement: the patch that ink is judged over is nine pixels wide
BEYOND_IN = 0.03  # judgement: past the bleed's end, so that a pixel's step beyond it is on paper


def read_facts(piece: Piece, safe_in: float = SAFE.value) -> PageFacts:
    """Returns what is known of a piece's page, its safe zone drawn at `safe_in` inches; drawn here,
    in this process.

    Raises InputError and LimitError as reading pages does; art that does not fit the card is no
    error here: it is told by `misfit`.
    """
    art, placement, misfit = placed(piece)
    finishing, misfits = that_fit(art.art.finishing, placement, piece.units)
    art = replace(art, art=replace(art.art, finishing=finishing))
    card = (0.0, 0.0, piece.die.width_in, piece.die.height_in)
    view = view_around(card, PPI, piece.bleed_in + BEYOND_IN)
    if view.width_px * view.height_px > PICTURE_MAX_PX:
        raise LimitError(f"{art.where}: is too large to be checked at {PPI:g} ppi")
    (drawn,) = rasterise([RasterJob(art, placement, IDENTITY, view)])
    sight = Sight(drawn.on_white, view)
    inspection = inspect(art.art, placement)
    (named,) = plates_named([art.art])
    inked: Inked | None = None
    if _may_be_heavy(inspection):
        ink_view = view_around(card, INK_PPI)
        (plates,) = ink_plates([RasterJob(art, placement, IDENTITY, ink_view)])
        inked = Inked(_all_inks(plates, named), ink_view)
    has_white = any(what == "white" for _, what in named)
    lost = white_lost(art, placement, view_around(card, INK_PPI)) if has_white else 0.0
    seen = (inspection, sight, inked, drawn, undrawn_features(art.art))
    return PageFacts(piece, safe_in, art, placement, misfit, *seen, named, lost, misfits)


def left_out(piece: Piece) -> tuple[LeftOut, ...]:
    """Returns the marks a client is not shown of a piece's art, in drawing order; nothing is drawn.

    Where the card cannot be found on its page, only layers and inks tell. Raises InputError and
    LimitError as reading pages does.
    """
    art, placement, misfit = placed(piece)
    inspection = inspect(art.art, placement)
    zones = zones_on(art, placement, piece.die, SAFE.value, piece.bleed_in)
    lines = find_template_lines(inspection, zones)
    return surely_a_templates(lines if misfit is None else lines.without_place())


def left_out_of_each(pieces: Sequence[Piece]) -> list[tuple[LeftOut, ...]]:
    """Returns `left_out` of every piece, in order, read in workers and remembered."""
    whole = [piece.whole for piece in pieces]
    jobs = [Job((piece,), piece.art.where, piece.art.sha256, piece) for piece in whole]
    return crew.done(_LEFT_OUT, jobs)


def placed(piece: Piece) -> tuple[ArtPage, Placement, str | None]:
    """Returns a piece's page, where the card lies on it, and why it does not fit, if it does not:
    the card is then taken from the page's middle."""
    art = read_page(piece.art)
    width_in, height_in = piece.die.width_in, piece.die.height_in
    try:
        return art, place_piece(art, piece), None
    except InputError as error:
        return art, centred(art, width_in, height_in), str(error)


def centred(art: ArtPage, width_in: float, height_in: float) -> Placement:
    """Returns a card taken from a page's middle, for art that does not fit it."""
    middle = (art.trim or art.visible).centre
    left, top = middle.x - width_in / 2, middle.y - height_in / 2
    return Placement(
        Box(left, top, left + width_in, top + height_in), 0.0, "it is in the page's middle"
    )


def _all_inks(plates: InkPlates, named: PlatesNamed) -> NDArray[np.uint8]:
    """Returns the plates of process and spot inks together, (h, w, n) uint8; no finish is one."""
    finishes = {name for name, what in named if what != "letterpress"}
    spots = [spot.plate for spot in plates.spots if spot.name not in finishes]
    return np.dstack([plates.process, *spots])


def _may_be_heavy(inspection: Inspection) -> bool:
    """Returns whether inks may add up to more than the limit anywhere.

    Whatever is printed over what, by overprint, through transparency or in a blend, no place has
    more than all colours of the page together; images and shadings may have anything.
    """
    for each in inspection.painted:
        if each.kind == "shade" or (each.image is not None and each.image.space == "cmyk"):
            return True
    totals = {each.ink: _most_ink(each.ink) for each in inspection.painted if each.ink is not None}
    return sum(totals.values()) > TOTAL_INK.value / 100


def _most_ink(ink: Ink) -> float:
    return 1 - ink.values[0] if ink.space == "gray" else ink.total
