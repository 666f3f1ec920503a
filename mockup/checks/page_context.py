"""What the checks of one piece share: its die's zones, what its page paints, how that looks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.inspection import Inspection, Painted
from mockup.artwork.page import ArtPage, Placement
from mockup.checks.die_zones import DieZones
from mockup.checks.lettering import Row, outlined_rows
from mockup.checks.parts import Parts, read_parts
from mockup.checks.settings import Settings
from mockup.checks.texture import repeated, texture
from mockup.pixels import Bytes, View
from mockup.suite.suite import Piece

if TYPE_CHECKING:
    from mockup.checks.bleed_edges import ShortBleed
    from mockup.checks.marks import Marks


@dataclass(frozen=True)
class PageContext:
    """One piece being checked. `picture` is the page on white, (h, w, 3) sRGB, as `view` lies.

    `misfit` says why the card cannot be found on the page; the placement is then a guess, centred.
    `inked` is the page's CMYK in 255ths at `inked_view`, where its inks may add up to much.
    """

    piece: Piece
    settings: Settings
    art: ArtPage
    placement: Placement
    misfit: str | None
    inspection: Inspection
    picture: Bytes
    view: View
    inked: NDArray[np.uint8] | None
    inked_view: View

    @cached_property
    def zones(self) -> DieZones:
        """The die's outlines on this page."""
        trim, page = self.placement.trim, self.art.visible
        around = type(page)(
            page.left - trim.left,
            page.top - trim.top,
            page.right - trim.left,
            page.bottom - trim.top,
        )
        return DieZones(self.piece.die.shape, self.settings.safe_in, self.piece.bleed_in, around)

    @cached_property
    def parts(self) -> Parts:
        """Everything painted, sorted by where it lies to the cut."""
        return read_parts(self.inspection, self.zones, self.left_in)

    @cached_property
    def left_in(self) -> list[Painted]:
        """What was left in by mistake: lines and marks that are no art."""
        from mockup.checks.left_in import left_in_objects

        return left_in_objects(self)

    @cached_property
    def marks(self) -> Marks:
        """What has to stay clear of the cut, and the borders along it."""
        from mockup.checks.marks import sort_marks

        return sort_marks(self)

    @cached_property
    def letter_rows(self) -> list[Row]:
        """Rows of outlined letters; their members are indices into `parts.all`."""
        return outlined_rows(self.parts.all)

    @cached_property
    def lettered(self) -> dict[int, Row]:
        """Which parts are outlined letters, and of which row."""
        return {k: row for row in self.letter_rows for k in row.members}

    @cached_property
    def texture(self) -> set[int]:
        """Which parts belong to a texture or a pattern that may be cut anywhere."""
        return texture(self.parts.all, self.lettered)

    @cached_property
    def repeated(self) -> set[int]:
        """Which parts near the cut or beyond it are shapes that the page repeats."""
        return repeated(self.parts.all)

    @cached_property
    def short_ends(self) -> dict[int, ShortBleed]:
        """Which parts end along the cut before the bleed does, and where."""
        from mockup.checks.bleed_edges import short_edges

        return short_edges(self)

    def colours_at(self, points: NDArray[np.float64]) -> NDArray[np.float32]:
        """Returns the (n, 3) sRGB bytes, as float32, of the picture at (n, 2) card inches."""
        return self._pixels_at(points).astype(np.float32)

    def darkest_at(self, points: NDArray[np.float64]) -> NDArray[np.uint8]:
        """Returns the least of the three sRGB bytes of the picture at (n, 2) card inches."""
        red, green, blue = self._pixels_at(points).T
        return np.minimum(np.minimum(red, green), blue)

    def _pixels_at(self, points: NDArray[np.float64]) -> Bytes:
        columns = ((points[:, 0] - self.view.left_in) * self.view.ppi).astype(np.intp)
        rows = ((points[:, 1] - self.view.top_in) * self.view.ppi).astype(np.intp)
        columns = np.clip(columns, 0, self.view.width_px - 1)
        rows = np.clip(rows, 0, self.view.height_px - 1)
        return self.picture.reshape(-1, 3)[rows * self.view.width_px + columns]
