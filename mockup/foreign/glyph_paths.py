"""A font's own outlines as PDF paths: curves stay curves, kept by font and glyph for the next."""

# The methods MuPDF calls have the names and the meaning it gives them.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

from typing import Any

from pymupdf import mupdf

from mockup.foreign.library import drawing
from mockup.foreign.marked_calls import Glyph

_MOVE, _LINE, _CURVE, _CLOSE = "m", "l", "c", "h"
_Step = tuple[str, tuple[float, ...]]


class _Steps(mupdf.FzPathWalker2):
    """Collects the steps of a path."""

    def __init__(self) -> None:
        super().__init__()
        for call in ("moveto", "lineto", "curveto", "closepath"):
            getattr(self, f"use_virtual_{call}")()
        self.found: list[_Step] = []

    def moveto(self, _ctx: Any, x: float, y: float) -> None:
        self.found.append((_MOVE, (x, y)))

    def lineto(self, _ctx: Any, x: float, y: float) -> None:
        self.found.append((_LINE, (x, y)))

    def curveto(
        self, _ctx: Any, a: float, b: float, c: float, d: float, x: float, y: float
    ) -> None:
        self.found.append((_CURVE, (a, b, c, d, x, y)))

    def closepath(self, _ctx: Any) -> None:
        self.found.append((_CLOSE, ()))


class GlyphPaths:
    """Glyphs as path construction operators (ISO 32000-1 table 59)."""

    def __init__(self) -> None:
        self._kept: dict[tuple[int, int], list[_Step]] = {}
        self._fonts: list[Any] = []  # held, so that no other font takes a kept one's address

    def path(self, glyph: Glyph) -> str:
        """Returns a letter's path where it is placed; nothing for a space."""
        a, b, c, d, e, f = glyph.matrix
        lines: list[str] = []
        for operator, numbers in self._steps(glyph):
            points = zip(numbers[0::2], numbers[1::2], strict=True)
            placed = (f"{a * x + c * y + e:.6f} {b * x + d * y + f:.6f} " for x, y in points)
            lines.append(f"{''.join(placed)}{operator}\n")
        return "".join(lines)

    def _steps(self, glyph: Glyph) -> list[_Step]:
        key = (int(glyph.font.m_internal.this), glyph.gid)
        if key not in self._kept:
            self._fonts.append(glyph.font)
            with drawing():
                path = mupdf.fz_outline_glyph(glyph.font, glyph.gid, mupdf.FzMatrix())
            steps = _Steps()
            if path.m_internal is not None:
                mupdf.ll_fz_walk_path(path.m_internal, steps.m_internal, steps.m_internal)
            self._kept[key] = steps.found
        return self._kept[key]
