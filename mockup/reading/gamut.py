"""How much of a face's art is in colours that no screen shows, or that its press cannot print."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.artwork.inspection import Inspection, Painted, inspect
from mockup.artwork.page import ArtPage, Placement, place_card, read_page
from mockup.artwork.raster import RasterJob, own_colours, rasterise
from mockup.colour.gamut import PRINTED_DE00, SEEN_DE00, beyond_press, beyond_screen
from mockup.colour.plates import Plates, Pressed
from mockup.colour.printed_lab import printing_on
from mockup.colour.runs import distinct
from mockup.colour.srgb import parse_hex
from mockup.envelopes.liner import liner_shape
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.flatten import polygon
from mockup.geometry.outline import Shape
from mockup.geometry.point import Point
from mockup.pixels import View, view_around
from mockup.reading.page import placed
from mockup.suite.suite import Envelope, Piece
from mockup.trade.papers import Stock
from mockup.workshop import crew
from mockup.workshop.job import Job

PPI = 72.0  # judgement: a share of the area needs no finer; a stem of type is a pixel
FEW = 0.8  # judgement: where so much of it lies together, that place is told
NEAR = 0.2  # judgement: together is within so much of the face's longer side
_PIECE = "mockup.reading.gamut:gamut_of_piece"
_LINER = "mockup.reading.gamut:gamut_of_liner"

Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class Beyond:
    """Colours out of reach: their share of the face, the furthest (CIEDE2000), and a place amid
    them in card inches where most lie together."""

    share: float = 0.0
    worst: float = 0.0
    at: Point | None = None


@dataclass(frozen=True)
class Gamut:
    """What of a face lies beyond an sRGB screen as printed, and what of its RGB art beyond its
    press."""

    screen: Beyond = Beyond()
    press: Beyond = Beyond()


def gamut_of_pieces(pieces: Sequence[Piece]) -> list[Gamut]:
    """Returns what of every piece is out of reach, read in workers and remembered.

    Raises InputError and LimitError for art that cannot be read.
    """
    jobs = [Job((each,), each.art.where, each.art.sha256, ("gamut", each)) for each in pieces]
    return crew.done(_PIECE, jobs)


def gamut_of_liners(envelopes: Sequence[Envelope], bleed_in: float) -> list[Gamut]:
    """Returns what of every envelope's liner is out of reach; nothing of one without a liner.

    Raises InputError and LimitError for art that cannot be read.
    """
    lined = [each for each in envelopes if each.liner is not None]
    jobs = [
        Job((each, bleed_in), each.liner.art.where, each.liner.art.sha256, ("gamut", each))
        for each in lined
        if each.liner is not None
    ]
    found = dict(zip((each.name for each in lined), crew.done(_LINER, jobs), strict=True))
    return [found.get(each.name, Gamut()) for each in envelopes]


def gamut_of_piece(piece: Piece) -> Gamut:
    """Returns what of a piece within its die is out of reach, worked out in this process."""
    page, placement, _ = placed(piece)
    return _gamut(page, placement, piece.die.shape, piece.stock)


def gamut_of_liner(envelope: Envelope, bleed_in: float) -> Gamut:
    """Returns what of an envelope's liner is out of reach, worked out in this process; nothing of
    art of another size, which is told elsewhere."""
    assert envelope.liner is not None
    shape = liner_shape(envelope.spec)
    page = read_page(envelope.liner.art)
    try:
        placement = place_card(page, shape.box.width, shape.box.height, bleed_in, envelope.units)
    except InputError:
        return Gamut()
    return _gamut(page, placement, shape, envelope.liner.stock)


def _gamut(page: ArtPage, placement: Placement, shape: Shape, stock: Stock) -> Gamut:
    view = view_around(shape.box, PPI)
    try:
        (plates,) = rasterise([RasterJob(page, placement, IDENTITY, view)])
    except InputError as error:
        if "nothing on it" not in str(error):
            raise
        return Gamut()
    inside = _inside(shape, view)
    screen = _beyond(_off_screen(plates, stock), SEEN_DE00, inside, view)
    off_press = _off_press(page, placement, view, isinstance(plates.drawn, Pressed))
    if off_press is None:
        return Gamut(screen)
    return Gamut(screen, _beyond(off_press, PRINTED_DE00, inside, view))


def _off_screen(plates: Plates, stock: Stock) -> NDArray[np.float64]:
    """Returns how far each pixel as printed is from what a screen shows; RGB art is a screen's."""
    drawn = plates.drawn
    if not isinstance(drawn, Pressed):
        return np.zeros(drawn.shape[:2])
    mixes, cell = _distinct(drawn.process)
    lab = printing_on(drawn.condition, parse_hex(stock.colour_hex)).lab(mixes / 255)
    off = beyond_screen(lab)[cell]
    return off if plates.foil is None else np.where(plates.foil > 0, 0.0, off)  # foil is no ink


def _off_press(
    page: ArtPage, placement: Placement, view: View, pressed: bool
) -> NDArray[np.float64] | None:
    """Returns how far each pixel of RGB art is from what its press prints; None without any."""
    found = inspect(page.art, placement)
    others = frozenset(each.number for each in found.painted if not is_rgb(each))
    if len(others) == len({each.number for each in found.painted}):
        return None
    # Beside ink only what is RGB is drawn: no press's ink is held against a screen's numbers.
    art = replace(page.art, left_out=page.art.left_out | others) if pressed else page.art
    job = RasterJob(replace(page, art=art), placement, IDENTITY, view)
    ((picture, profile),) = own_colours([job])
    colours, cell = _distinct(picture)
    off = beyond_press(colours, profile)[cell]
    return off if not pressed else np.where(_uncovered(found, view), off, 0.0)


def is_rgb(painted: Painted) -> bool:
    """Returns whether something is painted in RGB."""
    if painted.image is not None and not painted.image.is_mask:
        return painted.image.space == "rgb"
    return painted.ink is not None and painted.ink.space == "rgb"


def _uncovered(found: Inspection, view: View) -> Mask:
    """Returns where the last thing painted is RGB, by the boxes of plain fills over it."""
    seen = np.zeros((view.height_px, view.width_px), bool)
    for each in found.painted:
        if is_rgb(each):
            seen[_rows_columns(each, view)] = True
        elif each.kind == "path" and each.pen is None and each.alpha > 0.99 and _is_box(each):
            seen[_rows_columns(each, view)] = False
    return seen


def _is_box(painted: Painted) -> bool:
    ring = shapely.Polygon(painted.rings[0]) if len(painted.rings) == 1 else shapely.Polygon()
    return painted.clip == 0 and ring.area >= 0.99 * painted.box.width * painted.box.height


def _rows_columns(painted: Painted, view: View) -> tuple[slice, slice]:
    part = view.within(painted.box)
    left, top = part.offset_in(view)
    return slice(top, top + part.height_px), slice(left, left + part.width_px)


def _inside(shape: Shape, view: View) -> Mask:
    x = view.left_in + (np.arange(view.width_px) + 0.5) / view.ppi
    y = view.top_in + (np.arange(view.height_px) + 0.5) / view.ppi
    return shapely.contains_xy(polygon(shape), *np.meshgrid(x, y))


def _distinct(pixels: NDArray[np.uint8]) -> tuple[NDArray[np.uint8], NDArray[np.intp]]:
    """Returns the different colours, (n, channels), and which of them each pixel has, (h, w)."""
    channels = pixels.shape[2]
    packed = pixels.astype(np.uint32) @ (256 ** np.arange(channels, dtype=np.uint32))
    values, cell = distinct(packed.reshape(-1))
    colours = [(values >> (8 * k)) & 255 for k in range(channels)]
    return np.stack(colours, axis=1).astype(np.uint8), cell.reshape(packed.shape)


def _beyond(off: NDArray[np.float64], most: float, inside: Mask, view: View) -> Beyond:
    out = (off > most) & inside
    if not out.any():
        return Beyond()
    rows, columns = np.nonzero(out)
    share = len(rows) / max(1, int(inside.sum()))
    middle = np.array([np.median(rows), np.median(columns)])
    away = np.hypot(rows - middle[0], columns - middle[1])
    together = (away < NEAR * max(view.width_px, view.height_px)).mean() >= FEW
    nearest = int(away.argmin())
    at = Point(
        view.left_in + (float(columns[nearest]) + 0.5) / view.ppi,
        view.top_in + (float(rows[nearest]) + 0.5) / view.ppi,
    )
    worst = float(off[out].max())
    return Beyond(share, worst, at if together and math.isfinite(worst) else None)
