"""MuPDF's paths as flattened rings, and glyph outlines kept by font for the next time."""

# The library's face numbers its arguments; ours are named after what they are.
# The methods MuPDF calls have the names and the meaning it gives them.
# pyright: reportIncompatibleMethodOverride=false
# ruff: noqa: D102
from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.inspection import Ring
from mockup.geometry.affine import IDENTITY, Affine

FLAT_WITHIN_IN = 0.001  # judgement: a tenth of what a die's place is known to
FARTHEST_IN = 1e6  # judgement: beyond any page, and far from where floats lose count
_SMALLEST_STEP = 1e-12
_NAN = float("nan")


class Tracer(mupdf.FzPathWalker2):
    """Collects paths as MuPDF walks them, and flattens all of them at once: a page has thousands of
    pieces, and numpy is quick only on many numbers together."""

    def __init__(self) -> None:
        super().__init__()
        self.use_virtual_moveto()
        self.use_virtual_lineto()
        self.use_virtual_curveto()
        self.use_virtual_closepath()
        self._steps: list[tuple[float, ...]] = []
        """Two control points and an end; of a line, the controls are no numbers."""
        self._moves: list[tuple[int, float, float]] = []
        """Where each sub-path begins: with which step, at which point."""
        self._closed: set[int] = set()
        self._matrices: list[Affine] = []
        self._matrix = IDENTITY

    def trace(self, path: Any, matrix: Affine) -> range:
        """Returns the numbers of a raw fz_path's sub-paths; `matrix` will map them."""
        before = len(self._moves)
        self._matrix = matrix
        mupdf.ll_fz_walk_path(path, self.m_internal, self.m_internal)
        return range(before, len(self._moves))

    def flattened(self) -> dict[int, tuple[Ring, bool]]:
        """Returns the sub-paths by number, mapped and flattened to 0.001 units, and whether each is
        closed; those end where they begin. Lone points are left out."""
        if not self._steps:
            return {}
        first = np.array([move[0] for move in self._moves])
        counts = np.diff([*first, len(self._steps)])
        cubics = self._cubics(first, counts)
        matrices = np.repeat(np.array(self._matrices), counts, axis=0)
        a, b, c, d, e, f = (matrices[:, k : k + 1] for k in range(6))
        x, y = cubics[:, 0::2], cubics[:, 1::2]
        placed = np.empty_like(cubics)
        placed[:, 0::2], placed[:, 1::2] = a * x + c * y + e, b * x + d * y + f
        placed = _within_reach(placed)
        points, begins = _flattened(placed, FLAT_WITHIN_IN)
        found: dict[int, tuple[Ring, bool]] = {}
        for number in np.flatnonzero(counts):
            start, end = first[number], first[number] + counts[number]
            own, tail = points[begins[start] : begins[end]], placed[end - 1 : end, 6:]
            closed = int(number) in self._closed
            # A closed one comes back to where it began.
            ring = np.concatenate([own, tail, own[:1]] if closed else [own, tail])
            found[int(number)] = ring, closed
        return found

    def _cubics(self, first: NDArray[np.int64], counts: NDArray[np.int64]) -> NDArray[np.float64]:
        """Returns all steps as cubics of eight numbers, lines being cubics without bend."""
        steps = np.array(self._steps)
        cubics = np.empty((len(steps), 8))
        cubics[1:, :2] = steps[:-1, 4:]
        held = counts > 0
        cubics[first[held], :2] = np.array([move[1:] for move in self._moves])[held]
        cubics[:, 2:] = steps
        straight = np.isnan(steps[:, 0])
        cubics[straight, 2:4], cubics[straight, 4:6] = cubics[straight, :2], cubics[straight, 6:]
        return cubics

    def moveto(self, _ctx: Any, x: float, y: float) -> None:
        self._moves.append((len(self._steps), x, y))
        self._matrices.append(self._matrix)

    def lineto(self, _ctx: Any, x: float, y: float) -> None:
        self._steps.append((_NAN, _NAN, _NAN, _NAN, x, y))

    def curveto(
        self, _ctx: Any, a: float, b: float, c: float, d: float, x: float, y: float
    ) -> None:
        self._steps.append((a, b, c, d, x, y))

    def closepath(self, ctx: Any) -> None:
        self._closed.add(len(self._moves) - 1)
        _, x, y = self._moves[-1]
        self.moveto(ctx, x, y)  # what is drawn after closing goes on from the start


def path_rings(path: Any, matrix: Affine) -> tuple[Ring, ...]:
    """Returns one raw fz_path's sub-paths, mapped and flattened."""
    tracer = Tracer()
    tracer.trace(path, matrix)
    return tuple(ring for ring, _ in tracer.flattened().values())


def mapped(points: NDArray[np.float64], matrix: Affine) -> NDArray[np.float64]:
    """Returns (n, 2) points under an affine map."""
    a, b, c, d, e, f = matrix
    x, y = points[:, 0], points[:, 1]
    # Not a matrix product: those start threads, which two busy workers have no cores for.
    return _within_reach(np.stack([a * x + c * y + e, b * x + d * y + f], axis=1))


def _within_reach(places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns coordinates that can be reckoned with: a file may hold infinite ones."""
    return np.clip(np.nan_to_num(places), -FARTHEST_IN, FARTHEST_IN)


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
