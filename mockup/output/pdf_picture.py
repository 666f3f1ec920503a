"""One page drawn as PDF, and kept as PDF or as a picture, by the file's ending."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

from mockup.artwork.art import art_of
from mockup.artwork.page import Placement, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.geometry.affine import IDENTITY
from mockup.output.picture import write_picture
from mockup.pixels import View


def write_page(
    path: Path, draw: Callable[[Path], None], size_in: tuple[float, float], width_px: int
) -> None:
    """Writes the page that `draw` draws to a PDF, of a size in inches: as it is to a .pdf, else as
    a picture `width_px` wide. Raises OutputError where the file cannot be written."""
    if path.suffix.lower() == ".pdf":
        draw(path)
        return
    width_in, height_in = size_in
    with tempfile.TemporaryDirectory() as folder:
        drawn = Path(folder) / "page.pdf"
        draw(drawn)
        ppi = width_px / width_in
        page = read_page(art_of(drawn))
        view = View(0, 0, width_px, round(height_in * ppi), ppi)
        whole = Placement(page.visible, 0.0, "it is the page")
        (plates,) = rasterise([RasterJob(page, whole, IDENTITY, view)])
    write_picture(path, plates.on_white, ppi)
