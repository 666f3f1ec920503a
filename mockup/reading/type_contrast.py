"""How type stands out from what is behind it, as printed on the piece's own stock.

Ink and ground are read off the printed picture: inside the letters' own outlines, and round them.
A line is read letter-wide part by part, so that over a photograph each letter has its own ground.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.contrast import contrast, luminance
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import Bytes, View
from mockup.reading.page_facts import PageFacts
from mockup.reading.part import Part
from mockup.reading.sight import Sight
from mockup.reading.type_lines import LetterLine
from mockup.trade.finishes import INKED
from mockup.units import PT_PER_INCH

FINE_PPI = 1200.0  # judgement: the thinnest stem of 5 pt type is four pixels wide
AROUND_EMS = 0.12  # judgement: how far off a letter its ground is looked at
PART_EMS = 1.0  # judgement: so wide a part of a line has its own ground
LEAST_PX = 6  # judgement: fewer pixels of ink or ground say nothing of a part
WORST_PART = 25  # judgement, percentile: where a quarter of a line is lost, it is
SEEN = 1.02  # judgement: under it a line lies behind something, or in its ground's own colour
FINELY = 12  # judgement: lines of a page that are looked at again, the palest

Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class Standing:
    """A line of type: its size, where it is, and its contrast to its ground, 1 to 21, in its worst
    quarter."""

    line: LetterLine
    size_pt: float
    box: Box
    contrast: float


def standing_of(page: PageFacts, enough: float, below_pt: float) -> list[Standing]:
    """Returns the lines of type under a size whose contrast is under `enough`, the least first;
    foil, varnish and embossing are no colour of ink.

    At the page's own pixels thin strokes look paler than they are: what seems pale there is drawn
    again, finer.
    """
    small = [line for line in page.letter_lines if line.em_in * PT_PER_INCH < below_pt]
    lines = [line for line in small if _is_judged(page, line)]
    if not lines:
        return []
    seen = [(line, standing_in(page, line, page.printed)) for line in lines]
    pale = [(line, each) for line, each in seen if each is not None and each.contrast < enough]
    pale.sort(key=lambda pair: pair[1].contrast)
    again = [_again(page, line) for line, _ in pale[:FINELY]]
    found = [each for each in again if each is not None and each.contrast < enough]
    return sorted(found, key=lambda each: each.contrast)


def _is_judged(page: PageFacts, line: LetterLine) -> bool:
    parts = [page.parts.all[k] for k in line.members]
    finishes = {name for name, what in page.finishes if what not in INKED}
    inks = {name for part in parts if part.painted.ink for name in part.painted.ink.names}
    return not inks & finishes and any(part.place != "outside" for part in parts)


def _again(page: PageFacts, line: LetterLine) -> Standing | None:
    box = _box([page.parts.all[k] for k in line.members]).grown(2 * AROUND_EMS * line.em_in)
    view = View(
        box.left, box.top, round(box.width * FINE_PPI), round(box.height * FINE_PPI), FINE_PPI
    )
    (plates,) = rasterise([RasterJob(page.art, page.placement, IDENTITY, view)])
    picture = plates.on(parse_hex(page.piece.stock.colour_hex))
    return standing_in(page, line, Sight(picture, view))


def standing_in(page: PageFacts, line: LetterLine, sight: Sight) -> Standing | None:
    """Returns how a line stands in a picture; None where too little of it is seen, or nothing."""
    parts = [page.parts.all[k] for k in line.members]
    box = _box(parts)
    view = sight.view.within(box.grown(2 * AROUND_EMS * line.em_in))
    if view.width_px < 3 or view.height_px < 3:
        return None
    left, top = view.offset_in(sight.view)
    picture = sight.picture[top : top + view.height_px, left : left + view.width_px]
    letters = _letters(parts, view)
    light = _contrasts(picture, letters, line.em_in * view.ppi)
    if not light or max(light) < SEEN:
        return None
    worst = float(np.percentile(light, WORST_PART))
    return Standing(line, line.em_in * PT_PER_INCH, box, worst)


def _contrasts(picture: Bytes, letters: Mask, em_px: float) -> list[float]:
    """Returns the contrast of each part of a line that has both ink and ground in it."""
    ground = ~_grown(letters, max(1, round(AROUND_EMS * em_px / 2)))
    ground &= _grown(letters, max(2, round(AROUND_EMS * em_px * 2)))
    inner = ~_grown(~letters, 1)
    ink = inner if inner.sum() >= LEAST_PX else letters
    bright = luminance(picture)
    wide = max(3, round(PART_EMS * em_px))
    found: list[float] = []
    for start in range(0, picture.shape[1], wide):
        part = np.s_[:, start : start + wide]
        own, behind = bright[part][ink[part]], bright[part][ground[part]]
        if len(own) < LEAST_PX or len(behind) < LEAST_PX:
            continue
        around = float(np.median(behind))
        # Of strokes a pixel or two wide only the most covered pixels have the ink's own colour.
        most = np.percentile(own, 10 if np.median(own) < around else 90)
        found.append(float(contrast(np.asarray(most), np.asarray(around))))
    return found


def _letters(parts: Sequence[Part], view: View) -> Mask:
    """Returns the pixels inside letters' outlines; what lies in a letter's counter is outside."""
    inside = np.zeros((view.height_px, view.width_px), bool)
    for part in parts:
        points = (part.ring - (view.left_in, view.top_in)) * view.ppi - 0.5
        if len(points) < 3:
            continue
        low = np.floor(points.min(axis=0)).astype(int) - 1
        size = np.ceil(points.max(axis=0)).astype(int) + 2 - low
        rows, columns = (
            _overlap(low[1], size[1], view.height_px),
            _overlap(low[0], size[0], view.width_px),
        )
        if rows is None or columns is None:
            continue
        own = Image.new("1", (int(size[0]), int(size[1])))
        pen = ImageDraw.Draw(own)
        pen.polygon([(float(x), float(y)) for x, y in points - low], fill=1)
        drawn = np.asarray(own)[
            rows.start - low[1] : rows.stop - low[1], columns.start - low[0] : columns.stop - low[0]
        ]
        inside[rows, columns] ^= drawn
    return inside


def _overlap(start: int, length: int, most: int) -> slice | None:
    low, high = max(0, int(start)), min(most, int(start + length))
    return slice(low, high) if low < high else None


def _grown(mask: Mask, by_px: int) -> Mask:
    """Returns a mask grown by so many pixels to every side."""
    grown = mask.copy()
    for axis in (0, 1):
        source = grown.copy()
        for step in range(1, by_px + 1):
            ahead, back = np.roll(source, step, axis), np.roll(source, -step, axis)
            if axis == 0:
                ahead[:step], back[-step:] = False, False
            else:
                ahead[:, :step], back[:, -step:] = False, False
            grown |= ahead | back
    return grown


def _box(parts: Sequence[Part]) -> Box:
    boxes = np.array([part.box for part in parts])
    return Box(*map(float, (*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0))))
