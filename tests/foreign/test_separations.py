"""Plates of finishes against Ghostscript's separations (tiffsep), which shares nothing with ours."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from pikepdf import Dictionary
from PIL import Image

from mockup.artwork.art import art_of
from mockup.artwork.page import Placement, read_page
from mockup.artwork.raster import RasterJob, finish_plates
from mockup.geometry.affine import IDENTITY
from mockup.geometry.point import Box
from mockup.pixels import View
from tests.checks.bench.sheet import BLACK, CREAM, INK, Sheet

PPI = 600  # Ghostscript fattens thin strokes by up to a pixel: here that is little
SIDE_IN = 2.25  # of the page, bleed and all


def page(sheet: Sheet) -> None:
    """A card as designers make them: a ground, type in foil, a ring, a plate that overprints."""
    sheet.flood(CREAM)
    sheet.outlined(0.3, 0.6, "Tide Mill", 22, "Gold foil")
    sheet.outlined(0.3, 0.9, "Supper", 18, BLACK)
    sheet.line([(0.2, 1.1), (1.8, 1.3)], 1.5, "Gold foil")
    sheet.rect(0.3, 1.45, 0.6, 0.3, INK)
    sheet.circle(0.5, 1.6, 0.12, "Gold foil")
    sheet.resources.ExtGState = Dictionary(Over=Dictionary(OP=True, op=True, OPM=1))
    sheet.ops.append("/Over gs")
    sheet.circle(1.4, 1.6, 0.2, "Blind deboss")


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("gs") is None, reason="Ghostscript is not installed")
@pytest.mark.parametrize("finish", ["foil", "deboss"])
def test_a_plate_is_as_ghostscript_separates_it(tmp_path: Path, finish: str) -> None:
    sheet = Sheet(width=2, height=2)
    page(sheet)
    path = sheet.save(tmp_path / "art.pdf")
    command = ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", f"-r{PPI}"]
    command += ["-dTextAlphaBits=4", "-dGraphicsAlphaBits=4"]
    subprocess.run([*command, f"-sOutputFile={tmp_path / 'sep'}.tif", str(path)], check=True)
    name = {"foil": "Gold foil", "deboss": "Blind deboss"}[finish]
    (file,) = tmp_path.glob(f"*({name})*.tif")
    theirs = 255 - np.array(Image.open(file).convert("L")).astype(int)

    side = round(SIDE_IN * PPI)
    placement = Placement(Box(0, 0, SIDE_IN, SIDE_IN), 0.0, "it is the page")
    view = View(0, 0, side, side, PPI)
    (plates,) = finish_plates([RasterJob(read_page(art_of(path)), placement, IDENTITY, view)])
    (ours,) = (each.plate.astype(int) for each in plates if each.finish == finish)
    high, wide = (min(pair) for pair in zip(ours.shape, theirs.shape, strict=True))
    ours, theirs = ours[:high, :wide], theirs[:high, :wide]
    assert (theirs > 200).mean() > 0.01
    # What counts: as much in all, and no pixel full in one that is empty in the other, but for
    # half a pixel by which two programs place an edge.
    assert ours.sum() == pytest.approx(theirs.sum(), rel=0.03)
    full, empty = (ours > 250, ours < 5), (theirs < 5, theirs > 250)
    apart = (full[0] & empty[0]) | (full[1] & empty[1])
    assert apart.mean() < 0.0005
