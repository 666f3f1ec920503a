"""From ink to light: a page of process inks as it looks printed on a stock.

The press's table says what every mix looks like on the press's own paper; the stock is worked into
that table, and LittleCMS takes the pixels through it.
"""

from __future__ import annotations

import io
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms

from mockup.colour.difference import difference
from mockup.colour.icc_reading import Condition
from mockup.colour.icc_writing import encoded_lab, press_profile, table_tag
from mockup.colour.ink import on_paper
from mockup.colour.lab import D50, WIDE_TO_XYZ, lab_of_xyz, xyz_of_lab, xyz_of_rgb
from mockup.colour.measured import mended
from mockup.colour.runs import run_lengths, run_starts
from mockup.colour.srgb import Rgb
from mockup.pixels import BAND_ROWS, Bytes
from mockup.trade.swatch import Swatch

ALIKE_DE00 = 2.0  # ISO 15339-1:2015, 4.6: papers no further apart need no correction
UNSURE_DE00 = 5.0  # the same clause: beyond it no correction is vouched for
_KEPT = 64  # judgement: the stocks of a suite, on the presses of its files
_XYZ_TO_WIDE = np.linalg.inv(WIDE_TO_XYZ)

# Without the first LittleCMS turns the paper white. By the second it works every colour out as it
# comes; by the third it first makes a fine table, which takes a tenth of a second and then a fifth
# of the time.
_FLAGS = ImageCms.Flags.NOWHITEONWHITEFIXUP
_AS_IT_COMES, _TABLED = _FLAGS | ImageCms.Flags.NOOPTIMIZE, _FLAGS | ImageCms.Flags.HIGHRESPRECALC
_MANY = 100_000  # runs of equal pixels, measured: of more a table pays beside other work


def printed(
    process: NDArray[np.uint8], condition: Condition, stock: Rgb, swatch: Swatch | None = None
) -> Bytes:
    """Returns inks on a stock, (h, w, 3) uint8 sRGB, from (h, w, 4) uint8 C, M, Y, K, 255 full.

    A measured swatch of that stock goes before what is predicted of it.

    What is seen is the measured colour, of the paper too: nothing is stretched to the screen's
    white or black; what a screen cannot show is clipped.
    """
    inks = np.ascontiguousarray(process).reshape(-1, 4).view(np.uint32)[:, 0]
    many = int(np.count_nonzero(inks[1:] != inks[:-1])) > _MANY
    through = _transform(condition, stock, swatch, _TABLED if many else _AS_IT_COMES)
    out = np.empty((*process.shape[:2], 3), np.uint8)
    for top in range(0, len(process), BAND_ROWS):
        band = out[top : top + BAND_ROWS]
        band[:] = _through(process[top : top + BAND_ROWS], through).reshape(band.shape)
    return out


def _through(band: NDArray[np.uint8], through: ImageCms.ImageCmsTransform) -> Bytes:
    """Returns the pixels of a band as they look, (n, 3): of a run of equal ones the first is taken
    through and the rest follow it, for most of a page is bare paper."""
    inks = np.ascontiguousarray(band).reshape(-1, 4).view(np.uint32)[:, 0]
    starts = run_starts(inks)
    picture = Image.frombuffer("CMYK", (len(starts), 1), inks[starts], "raw", "CMYK", 0, 1)
    seen = np.asarray(ImageCms.applyTransform(picture, through))[0]
    return np.repeat(seen, run_lengths(starts, len(inks)), axis=0)


def paper_difference(paper: NDArray[np.float64], stock: Rgb) -> float:
    """Returns CIEDE2000 between a press's own paper, XYZ under D50, and a stock."""
    return float(difference(lab_of_xyz(paper), lab_of_xyz(xyz_of_rgb(stock))))


def table_on(condition: Condition, stock: Rgb, swatch: Swatch | None = None) -> NDArray[np.float64]:
    """Returns XYZ under D50 of every node of a press's table, printed on a stock.

    Transparent ink multiplies the paper's reflectance, over a floor, in linear Rec. 2020. On paper
    like the press's own inks are left as they were measured, and only the bare paper is the
    stock's. A swatch's paper is the stock then, and its solids are what they were measured as.
    """
    if swatch is not None:
        paper = xyz_of_lab(np.array(swatch.paper, np.float64))
        return mended(_on_paper(condition, paper), swatch)
    paper = xyz_of_rgb(stock)
    if paper_difference(condition.paper, stock) < ALIKE_DE00:
        table = condition.table.copy()
        table[0, 0, 0, 0] = paper
        return table
    return _on_paper(condition, paper)


def _on_paper(condition: Condition, paper: NDArray[np.float64]) -> NDArray[np.float64]:
    wide, own, other = (each @ _XYZ_TO_WIDE.T for each in (condition.table, condition.paper, paper))
    return on_paper(wide, own, other) @ WIDE_TO_XYZ.T


def press_on(condition: Condition, stock: Rgb, swatch: Swatch | None = None) -> bytes:
    """Returns an ICC profile of a press printing on a stock, its white that of the light: taken
    relative, it shows the paper."""
    table = encoded_lab(lab_of_xyz(np.maximum(table_on(condition, stock, swatch), 0)))
    return press_profile(
        "ink on stock", "made as it is needed", D50, table_tag(condition.curves, table)
    )


@lru_cache(maxsize=_KEPT)
def _transform(
    condition: Condition, stock: Rgb, swatch: Swatch | None, flags: ImageCms.Flags
) -> ImageCms.ImageCmsTransform:
    profile = ImageCms.ImageCmsProfile(io.BytesIO(press_on(condition, stock, swatch)))
    screen = ImageCms.createProfile("sRGB")
    intent = ImageCms.Intent.RELATIVE_COLORIMETRIC
    return ImageCms.buildTransform(profile, screen, "CMYK", "RGB", intent, flags)
