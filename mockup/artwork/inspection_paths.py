"""MuPDF's paths as flattened rings, and glyph outlines kept by font for the next time."""

# The library's face numbers its arguments; ours are named after what they are.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.inspection import Ring
from mockup.geometry.affine import IDENTITY, Affine

FLAT_WITHIN_IN = 0.001
_SMALLEST_STEP = 1e-12


class Tracer(mupdf.FzPathWalker2):
    """Collects paths as cubics of eight numbers, lines being cubics without bend, and flattens all
    of them at once: a page has thousands, and numpy is quick only on many numbers together."""

    def __init__(self) -> None:
        super().__init__()
        self.use_virtual_moveto()
        self.use_virtual_lineto()
        self.use_virtual_curveto()
        self.use_virtual_closepath()
        self._cubics: list[tuple[float, ...]] = []
        self._starts: list[int] = []
        self._closed: list[bool] = []
        self._matrices: list[Affine] = []
        self._matrix = IDENTITY
        self._here = self._first = (0.0, 0.0)
        self._begins = True

    def trace(self, path: Any, matrix: Affine) -> range:
        """Returns the numbers of a raw fz_path's sub-paths; `matrix` will map them."""
        before = len(self._starts)
        self._matrix, self._begins = matrix, True
        mupdf.ll_fz_walk_path(path, self.m_internal, self.m_internal)
        return range(before, len(self._starts))

    def flattened(self) -> tuple[list[Ring], list[bool]]:
        """Returns all sub-paths, mapped and flattened to 0.001 units, and which are closed; those
        end where they begin. Lone points are left out."""
        if not self._cubics:
            return [], []
        starts = np.array(self._starts)
        counts = np.diff([*self._starts, len(self._cubics)])
        matrices = np.repeat(np.array(self._matrices), counts, axis=0)
        cubics = np.array(self._cubics)
        a, b, c, d, e, f = (matrices[:, k : k + 1] for k in range(6))
        x, y = cubics[:, 0::2], cubics[:, 1::2]
        placed = np.empty_like(cubics)
        placed[:, 0::2], placed[:, 1::2] = a * x + c * y + e, b * x + d * y + f
        points, first = _flattened(placed, FLAT_WITHIN_IN)
        last = starts + counts
        rings: list[Ring] = []
        for start, end, closed in zip(starts, last, self._closed, strict=True):
            own = points[first[start] : first[end]]
            tail = placed[end - 1 : end, 6:]
            # A closed one comes back to where it began.
            rings.append(np.concatenate([own, tail, own[:1]] if closed else [own, tail]))
        return rings, self._closed

    def moveto(self, _ctx: Any, x: float, y: float) -> None:
        self._here = self._first = (x, y)
        self._begins = True

    def lineto(self, _ctx: Any, x: float, y: float) -> None:
        self._add((*self._here, *self._here, x, y, x, y))

    def curveto(
        self, _ctx: Any, a: float, b: float, c: float, d: float, x: float, y: float
    ) -> None:
        self._add((*self._here, a, b, c, d, x, y))

    def closepath(self, _ctx: Any) -> None:
        if not self._begins:
            self._closed[-1] = True
        self._here = self._first  # what is drawn after closing goes on from the start
        self._begins = True

    def _add(self, cubic: tuple[float, ...]) -> None:
        if self._begins:
            self._starts.append(len(self._cubics))
            self._closed.append(False)
            self._matrices.append(self._matrix)
            self._begins = False
        self._cubics.append(cubic)
        self._here = cubic[6:]  # type: ignore[assignment]


def path_rings(path: Any, matrix: Affine) -> tuple[Ring, ...]:
    """Returns one raw fz_path's sub-paths, mapped and flattened."""
    tracer = Tracer()
    tracer.trace(path, matrix)
    return tuple(tracer.flattened()[0])


def mapped(points: NDArray[np.float64], matrix: Affine) -> NDArray[np.float64]:
    """Returns (n, 2) points under an affine map."""
    a, b, c, d, e, f = matrix
    return points @ np.array([[a, b], [c, d]]) + (e, f)


class Glyphs:
    """Glyph outlines in ems, worked out once a font and glyph."""

    def __init__(self) -> None:
        self._kept: dict[tuple[int, int], tuple[Ring, ...]] = {}
        self._fonts: list[Any] = []  # held, so that no other font takes a kept one's address

    def rings(self, font: Any, gid: int) -> tuple[Ring, ...]:
        """Returns the outline of glyph `gid` of a raw fz_font, ems, y up."""
        key = (int(font.this), gid)
        if key not in self._kept:
            held = mupdf.FzFont(mupdf.ll_fz_keep_font(font))
            self._fonts.append(held)
            self._kept[key] = self._outline(held, gid)
        return self._kept[key]

    def _outline(self, font: Any, gid: int) -> tuple[Ring, ...]:
        try:
            path = mupdf.fz_outline_glyph(font, gid, mupdf.FzMatrix())
        except (RuntimeError, mupdf.FzErrorBase):
            return ()
        if path.m_internal is None:
            return ()
        em_to_in = 0.5  # flattened as if set 36 pt large
        matrix = Affine(em_to_in, 0, 0, em_to_in, 0, 0)
        return tuple(ring / em_to_in for ring in path_rings(path.m_internal, matrix))


def _flattened(
    cubics: NDArray[np.float64], tolerance: float
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Returns the points of (n, 8) cubics without their ends, and where each cubic's begin.

    A chord over a parameter step h is off by h^2/8 of the second derivative.
    """
    p0, p1, p2, p3 = (cubics[:, 2 * k : 2 * k + 2] for k in range(4))
    bend = 6 * np.maximum(
        np.abs(p0 - 2 * p1 + p2).sum(axis=1), np.abs(p1 - 2 * p2 + p3).sum(axis=1)
    )
    straight = (p0 == p1).all(axis=1) & (p2 == p3).all(axis=1)
    counts = np.ceil(np.sqrt(bend / (8 * max(tolerance, _SMALLEST_STEP)))).astype(np.int64)
    counts = np.where(straight, 1, np.clip(counts, 1, 64))
    first = np.concatenate([[0], np.cumsum(counts)])
    which = np.repeat(np.arange(len(cubics)), counts)
    t = ((np.arange(first[-1]) - first[which]) / counts[which])[:, None]
    s = 1 - t
    points = s**3 * p0[which] + 3 * s * s * t * p1[which]
    points += 3 * s * t * t * p2[which] + t**3 * p3[which]
    return points, first
