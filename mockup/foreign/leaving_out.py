"""A MuPDF device that hands a page on to another device, less the marks that are to be left out."""

# The methods MuPDF calls are made from the table below; they have the names it gives them.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pymupdf import mupdf

PAINTING = (
    *("fill_path", "stroke_path", "fill_text", "stroke_text"),
    *("fill_shade", "fill_image", "fill_image_mask"),
)
"""The calls that paint. Marks are numbered by them, in drawing order, those of masks and patterns
included."""

_OTHERS = (
    *("clip_path", "clip_stroke_path", "clip_text", "clip_stroke_text", "clip_image_mask"),
    *("pop_clip", "begin_mask", "end_mask", "begin_group", "end_group", "end_tile"),
    *("set_default_colorspaces", "render_flags"),
)
_LOWER = {"end_mask": "end_mask_tr"}  # the plain one drops the mask's transfer function


class LeavingOut(mupdf.FzDevice2):
    """Draws on `device` all but the marks whose numbers are in `numbers`."""

    def __init__(self, device: mupdf.FzDevice, numbers: frozenset[int]) -> None:
        super().__init__()
        for call in (*PAINTING, *_OTHERS, "begin_tile"):
            getattr(self, f"use_virtual_{call}")()
        self._device = device  # kept alive as long as this one
        self._numbers = numbers
        self._painted = 0

    def begin_tile(
        self, _c: Any, area: Any, view: Any, xstep: float, ystep: float, ctm: Any, *_id: Any
    ) -> int:
        """Begins a pattern's cell, drawn anew each time: a kept cell would not be numbered."""
        own = self._device.m_internal
        return _raw("begin_tile_id")(own, area, view, xstep, ystep, ctm, 0)


def _raw(call: str) -> Callable[..., Any]:
    # The face over these calls wants colours as tuples; beneath it they pass as they came.
    return getattr(getattr(mupdf, "_mupdf"), f"ll_fz_{_LOWER.get(call, call)}")  # noqa: B009


def _painting(call: str) -> Callable[..., None]:
    raw = _raw(call)

    def paint(self: Any, _c: Any, *given: Any) -> None:
        number, self._painted = self._painted, self._painted + 1
        if number not in self._numbers:
            raw(self._device.m_internal, *given)

    return paint


def _handed_on(call: str) -> Callable[..., Any]:
    raw = _raw(call)

    def hand_on(self: Any, _c: Any, *given: Any) -> Any:
        return raw(self._device.m_internal, *given)

    return hand_on


for _call in PAINTING:
    setattr(LeavingOut, _call, _painting(_call))
for _call in _OTHERS:
    setattr(LeavingOut, _call, _handed_on(_call))
