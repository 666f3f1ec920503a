"""The same composition under even light: no shadow, no grain, no shine, for approval of colour.

Folded paper that is not printed on, an envelope's, is edged with a thin darker line: without
shadows its flap and seams would be lost, being of one colour with what they lie on.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon

from mockup.colour.srgb import LINEAR
from mockup.geometry.offset import polygons_of
from mockup.pixels import View
from mockup.render.coverage import coverage
from mockup.render.light import grain, prepare, srgb
from mockup.render.light.lattice import Field
from mockup.render.light.scene import Flat, LitScene, Material, Sheet, bounds
from mockup.render.light.shade import placed
from mockup.render.light.surface import Block, ground

_SEAM_IN, _SEAM = 0.012, 0.22  # how wide, and how much darker; judgement, by eye


def plain(scene: LitScene, ppi: float) -> NDArray[np.uint8]:
    """Returns the scene in its own colours, (h, w, 3) uint8 sRGB: each byte of art as it came in.

    Edges are mixed in linear light. Raises SuiteError for a surface that does not exist.
    """
    view = prepare.view_of(scene, ppi)
    table = ground(scene, ppi, _own)
    out = np.empty((view.height_px, view.width_px, 3), np.uint8)
    for block in prepare.blocks(view):
        (y0, y1), (x0, x1) = block
        out[y0:y1, x0:x1] = srgb.to_bytes(table.look(block)[0]).transpose(1, 2, 0)
    for sheet in scene.sheets:
        covered, top, left = prepare.covered(sheet, view)
        for y in range(0, covered.shape[0], grain.BLOCK[0]):
            part = covered[y : y + grain.BLOCK[0]].astype(np.float32) / np.float32(255)
            rows = (top + y, top + y + len(part))
            here = out[rows[0] : rows[1], left : left + part.shape[1]]
            here[:] = _over(here, sheet, part, (rows, (left, left + part.shape[1])))
        if sheet.folded:
            _edged(out, sheet, view)
    return out


def _edged(out: NDArray[np.uint8], sheet: Sheet, view: View) -> None:
    """Darkens a line along a sheet's edge, inside it, in place."""
    area = Polygon(sheet.rings[0], sheet.rings[1:])
    line = area.difference(area.buffer(-max(_SEAM_IN, 1 / view.ppi), join_style="mitre"))
    own = view.within(bounds(sheet.rings), 1)
    left, top = own.offset_in(view)
    for rows, band in own.bands():
        total = np.zeros((band.height_px, band.width_px), np.float32)
        for polygon in polygons_of(line):
            edges = (polygon.exterior, *polygon.interiors)
            total += coverage([np.asarray(edge.coords)[:-1, :2] for edge in edges], band)
        here = out[top + rows.start : top + rows.stop, left : left + band.width_px]
        drawn = total > 0
        share = 1 - np.float32(_SEAM) * np.minimum(total[drawn], 1)[:, None]
        here[drawn] = srgb.to_bytes(LINEAR[here[drawn]] * share)


def _own(material: Material) -> Field:
    """Returns linear light per sRGB byte: under even light a colour is just itself."""
    del material
    return LINEAR


def _over(
    under: NDArray[np.uint8], sheet: Sheet, covered: Field, block: Block
) -> NDArray[np.uint8]:
    if isinstance(sheet.art, Flat):
        art = np.broadcast_to(np.array(sheet.art.rgb, np.uint8), under.shape)
    else:
        art = placed(sheet.art, block)
    below, own = LINEAR[under], LINEAR[art]
    film = sheet.material.film
    if film is not None:
        own = film.over(own, below)
    mixed = srgb.to_bytes(below + (own - below) * covered[..., None])
    # Whole pixels of opaque art pass untouched, to the byte.
    whole = (covered == 1)[..., None] & (film is None)
    return np.where(whole, art, mixed)
