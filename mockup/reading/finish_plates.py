"""What is read of a page's finish plates: lines and gaps too fine, tints, what is near the cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from mockup.artwork.raster import RasterJob, finish_plates
from mockup.colour.plates import FinishPlate
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box, Point
from mockup.pixels import View, view_around
from mockup.reading.page_facts import PageFacts
from mockup.reading.thin import Mask, thin_spots, wide_spots, width_px
from mockup.trade.limits import PICTURE_MAX_PX
from mockup.units import PT_PER_INCH

PPI = 600.0  # judgement: a quarter of a point is two pixels wide
FINE_PPI = 2400.0  # judgement: lines are told to a twentieth of a point
FINELY = 2  # of the thinnest places of a plate so many are measured finely; judgement
BLOCK_IN = 0.1  # of the grid thin places are looked for in; judgement
WINDOW_IN = 0.12  # that is measured round one
_HALF = 128  # of 255: where an edge is
_TINT = (26, 230)  # judgement: between a tenth and nine tenths; edges are soft as wide as a pixel
_TINT_PX = 5  # judgement: wider than any soft edge


@dataclass(frozen=True)
class Thin:
    """The thinnest line, or gap, of a plate: its width in points, and where it is."""

    width_pt: float
    at: Point


@dataclass(frozen=True)
class FinishSight:
    """The plates of a page's finishes, 600 pixels an inch, and what of the card they show."""

    plates: tuple[FinishPlate, ...]
    view: View


def finish_sight(page: PageFacts) -> FinishSight:
    """Returns the plates of a page's finishes but white, to the end of the bleed, fine enough to
    measure lines on; nothing is drawn of a page that has none. Raises what rasterise raises."""
    card = page.piece.die.shape.box
    view = view_around(card, PPI, page.piece.bleed_in)
    if not page.has_finishes:
        return FinishSight((), view)
    if view.width_px * view.height_px > PICTURE_MAX_PX:
        ppi = PPI * (PICTURE_MAX_PX / (view.width_px * view.height_px)) ** 0.5 * 0.99
        view = view_around(card, ppi, page.piece.bleed_in)
    (plates,) = finish_plates([RasterJob(page.art, page.placement, IDENTITY, view)])
    return FinishSight(plates, view)


def thinnest_line(
    page: PageFacts, sight: FinishSight, plate: FinishPlate, under_pt: float
) -> Thin | None:
    """Returns the thinnest line of a plate that is thinner than so many points, None where none
    is. Raises what rasterise raises."""
    mask = plate.plate >= _HALF
    return _thinnest(page, sight, plate, _Search(mask, under_pt, False))


def narrowest_gap(
    page: PageFacts,
    sight: FinishSight,
    plate: FinishPlate,
    under_pt: float,
    but_in: Sequence[Box] = (),
) -> Thin | None:
    """Returns the narrowest gap in a plate that is narrower than so many points, None where none
    is; `but_in` are places that are not looked at: type is judged by its size."""
    mask = plate.plate < _HALF
    return _thinnest(page, sight, plate, _Search(mask, under_pt, True, tuple(but_in)))


def tinted_at(sight: FinishSight, plate: FinishPlate) -> Point | None:
    """Returns where a plate is neither full nor empty over more than an edge, None if nowhere."""
    low, high = _TINT
    tint = (plate.plate > low) & (plate.plate < high)
    block_px = max(1, round(BLOCK_IN * sight.view.ppi))
    for spot in wide_spots(tint, _TINT_PX, block_px):
        return _place(spot.row, spot.column, sight.view)
    return None


def near(sight: FinishSight, plate: FinishPlate, zone: BaseGeometry) -> Point | None:
    """Returns where a plate lies in a zone of the card, inches; None if nowhere."""
    mask = plate.plate >= _HALF
    rows, columns = np.nonzero(mask)
    if not rows.size or zone.is_empty:
        return None
    x = sight.view.left_in + (columns + 0.5) / sight.view.ppi
    y = sight.view.top_in + (rows + 0.5) / sight.view.ppi
    box = zone.bounds
    likely = (x >= box[0]) & (x <= box[2]) & (y >= box[1]) & (y <= box[3])
    shapely.prepare(zone)
    inside = shapely.contains_xy(zone, x[likely], y[likely])
    if not inside.any():
        return None
    first = int(np.argmax(inside))
    return Point(float(x[likely][first]), float(y[likely][first]))


@dataclass(frozen=True)
class _Search:
    """What is looked through, how thin it has to be, whether it is the plate's gaps, and where it
    is not looked."""

    mask: Mask
    under_pt: float
    of_gaps: bool
    but_in: tuple[Box, ...] = ()

    def looked_at(self, at: Point) -> bool:
        """Returns whether a block round a place is looked at."""
        half = BLOCK_IN / 2
        return not any(
            box.left - half < at.x < box.right + half and box.top - half < at.y < box.bottom + half
            for box in self.but_in
        )


def _thinnest(
    page: PageFacts, sight: FinishSight, plate: FinishPlate, search: _Search
) -> Thin | None:
    """Returns the thinnest place: found on the page's pixels, measured on finer ones."""
    view, most_pt = sight.view, search.under_pt
    block_px = max(1, round(BLOCK_IN * view.ppi))
    widest_px = round(most_pt / PT_PER_INCH * view.ppi)
    # One wider than is looked for, as a pixel is not fine enough to tell; then from the thinnest.
    discs = range(3, widest_px + 3 + (widest_px + 1) % 2, 2)
    spots = [
        spot
        for spot in thin_spots(search.mask, discs[-1], block_px)
        if search.looked_at(_place(spot.row, spot.column, view))
    ]
    seen: set[Point] = set()
    for diameter in discs if spots else ():
        thinner = thin_spots(search.mask, diameter, block_px, spots)
        places = [_place(spot.row, spot.column, view) for spot in thinner[:FINELY]]
        widths = _finely(page, plate, [at for at in places if at not in seen], search)
        seen.update(places)
        if widths:
            return min(widths, key=lambda each: each.width_pt)
    return None


def _finely(
    page: PageFacts, plate: FinishPlate, places: Sequence[Point], search: _Search
) -> list[Thin]:
    """Returns those of some places that are thinner than is looked for, measured."""
    half = (WINDOW_IN / 2 + search.under_pt / PT_PER_INCH) * FINE_PPI
    side = 2 * round(half)
    most_px = round(search.under_pt / PT_PER_INCH * FINE_PPI)
    most_px -= 1 - most_px % 2
    views = [
        View(at.x - half / FINE_PPI, at.y - half / FINE_PPI, side, side, FINE_PPI) for at in places
    ]
    jobs = [RasterJob(page.art, page.placement, IDENTITY, view) for view in views]
    found: list[Thin] = []
    for at, plates in zip(places, finish_plates(jobs) if jobs else [], strict=True):
        own = [p.plate for p in plates if (p.finish, p.metal) == (plate.finish, plate.metal)]
        if not own:
            continue
        mask = np.maximum.reduce(own) >= _HALF
        width = width_px(~mask if search.of_gaps else mask, most_px)
        if width is not None:
            found.append(Thin(width / FINE_PPI * PT_PER_INCH, at))
    return found


def _place(row: float, column: float, view: View) -> Point:
    return Point(view.left_in + column / view.ppi, view.top_in + row / view.ppi)
