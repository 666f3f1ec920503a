"""A print file's pixels against those of its art, by two engines: alike, but for what was listed.

One engine is that of the proof, and what it leaves out of a proof is left out of the art here; the
other shares nothing with it, and draws the art whole.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.art import Art
from mockup.artwork.inspection import Painted
from mockup.artwork.page import ArtPage
from mockup.artwork.raster import RasterJob, rasterise
from mockup.artwork.second_engine import drawn_again
from mockup.colour.plates import Plates, Pressed
from mockup.errors import Mistake, RefusedError
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.ordering.drafts import Draft
from mockup.pixels import View

PPI = 300.0  # judgement: a hairline is a pixel wide
OUTLINED_PPI = 600.0  # where a pixel, to which type may be set, is 0.12 pt
PICTURE_PX = 60_000_000  # judgement: what two engines hold twice, well within a worker's memory
BLOCK_PX = 8
# Type drawn as type is set to whole or quarter pixels, and outlines are not; and PDFium rounds
# widths to whole thousandths of an em, so that its long lines drift. Measured on pages of nine
# programs: 19 of 255 by the proof's engine, 26 by PDFium; a lost comma makes over 100.
OUTLINED_MOST, OUTLINED_MOST_AGAIN = 32.0, 80.0
OUTLINED_MEAN_AGAIN = 0.5
_AROUND_IN = 0.02  # judgement: half a hairline and a pixel round what was taken out
_ASK = "nothing is written; save the art again as PDF, or ask for live type"

Picture = NDArray[np.uint8]


def refuse_other_picture(draft: Draft, page: ArtPage) -> list[str]:
    """Returns the checks passed, in words. Raises RefusedError where a picture differs."""
    ppi = _ppi(draft, OUTLINED_PPI if draft.order.outlined else PPI)
    _by_the_first(draft, page, ppi)
    _by_the_second(draft, page.art, ppi)
    alike = "alike" if draft.order.outlined else "pixel for pixel"
    return [f"{alike} as the proof's engine draws it, {ppi:.0f} ppi",
            f"{alike} as a second engine draws it, {ppi:.0f} ppi"]  # fmt: skip


def _by_the_first(draft: Draft, page: ArtPage, ppi: float) -> None:
    sheet, trim, visible = draft.sheet, draft.sheet.placement.trim, draft.sheet.page.visible
    view = View(
        -trim.left, -trim.top, math.ceil(visible.width * ppi), math.ceil(visible.height * ppi), ppi
    )
    # A rule of white ink is the suite's, and in no file: both are drawn by their own plates.
    art = replace(sheet.page, art=replace(sheet.page.art, white=page.art.white))
    source, own = rasterise(
        [RasterJob(each, sheet.placement, IDENTITY, view) for each in (art, page)]
    )
    one, other = _pixels(source), _pixels(own)
    if one.shape != other.shape:
        raise _differs(draft, "it goes to its press another way than the art")
    if not draft.order.outlined:
        _refuse_any(draft, one, other, None, ppi)
    elif (worst := _worst_block(one, other)) > OUTLINED_MOST:
        raise _differs(draft, f"its type looks otherwise by {worst:.0f} of 255 in places")


def _by_the_second(draft: Draft, own: Art, ppi: float) -> None:
    width_px = math.ceil(draft.sheet.page.visible.width * ppi)
    one, other = drawn_again([draft.sheet.art, own], width_px)
    if one.shape != other.shape:
        raise _differs(draft, "a second engine draws its page in another size")
    spared = _spared(draft, one, ppi)
    if not draft.order.outlined:
        _refuse_any(draft, one, other, spared, ppi)
        return
    if spared is not None:
        one, other = np.where(spared[..., None], 0, one), np.where(spared[..., None], 0, other)
    worst = _worst_block(one, other)
    mean = float(np.abs(one.astype(np.int16) - other).mean())
    if worst > OUTLINED_MOST_AGAIN or mean > OUTLINED_MEAN_AGAIN:
        said = f"{worst:.0f} of 255 in places, {mean:.2f} in the mean"
        raise _differs(draft, f"a second engine draws its type otherwise ({said})")


def _refuse_any(
    draft: Draft, one: Picture, other: Picture, spared: NDArray[np.bool_] | None, ppi: float
) -> None:
    differs = (one != other).any(axis=2)
    if spared is not None:
        differs &= ~spared
    count = int(differs.sum())
    if count:
        row, column = (int(each[0]) for each in np.nonzero(differs))
        place = f"{column / ppi:.2f}, {row / ppi:.2f} in from the page's corner"
        raise _differs(draft, f"{count} pixels differ from the art, the first at {place}")


def _spared(draft: Draft, picture: Picture, ppi: float) -> NDArray[np.bool_] | None:
    """Returns where the second engine is not asked: on marks that were taken out."""
    if not draft.sheet.removed:
        return None
    spared = np.zeros(picture.shape[:2], dtype=np.bool_)
    trim = draft.sheet.placement.trim
    for mark in draft.sheet.removed:
        pen = mark.painted.pen
        reach = _AROUND_IN + (pen.width_in if pen is not None else 0.0)
        for box in _boxes(mark.painted, reach):
            rows, columns = (
                slice(max(0, math.floor(a * ppi)), max(0, math.ceil(b * ppi)))
                for a, b in ((trim.top + box.top, trim.top + box.bottom),
                             (trim.left + box.left, trim.left + box.right))
            )  # fmt: skip
            spared[rows, columns] = True
    return spared


def _boxes(mark: Painted, reach: float) -> list[Box]:
    """Returns boxes along a mark's course: of a line round the card the middle is not spared."""
    found = [] if mark.rings else [mark.box.grown(reach)]
    for ring in mark.rings:
        if mark.pen is None:
            (left, top), (right, bottom) = ring.min(axis=0), ring.max(axis=0)
            found.append(Box(left, top, right, bottom).grown(reach))
            continue
        for (x0, y0), (x1, y1) in itertools.pairwise(ring):
            box = Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
            found.append(box.grown(reach))
    return found


def _pixels(plates: Plates) -> Picture:
    drawn = plates.drawn
    return drawn.process if isinstance(drawn, Pressed) else drawn


def _worst_block(one: Picture, other: Picture) -> float:
    """Returns the largest mean difference of 8 x 8 pixels: a glyph set a part of a pixel aside
    evens out, one that is lost does not."""
    high, wide = (side // BLOCK_PX * BLOCK_PX for side in one.shape[:2])
    worst = 0.0
    for top in range(0, high, BLOCK_PX * 32):
        rows = slice(top, min(top + BLOCK_PX * 32, high))
        apart = one[rows, :wide].astype(np.float32) - other[rows, :wide]
        blocks = apart.reshape(-1, BLOCK_PX, wide // BLOCK_PX, BLOCK_PX, apart.shape[2])
        worst = max(worst, float(np.abs(blocks.mean(axis=(1, 3))).max(initial=0.0)))
    return worst


def _ppi(draft: Draft, wanted: float) -> float:
    visible = draft.sheet.page.visible
    return min(wanted, math.sqrt(PICTURE_PX / (visible.width * visible.height)))


def _differs(draft: Draft, what: str) -> RefusedError:
    return RefusedError(Mistake(f"read again, {what}; {_ASK}", draft.file_name))
