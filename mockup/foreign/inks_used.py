"""Which kinds of ink a page is painted with: whether plates are made of it as it stands."""

# The methods MuPDF calls have the names it gives them; those that paint are made below.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pymupdf import mupdf

from mockup.foreign.leaving_out import PAINTING
from mockup.trade.vocabulary import is_template

# enum fz_colorspace_type of MuPDF's fitz/color.h, which its Python face leaves out.
_GREY, _RGB, _BGR, _CMYK, _LAB, INDEXED, SEPARATION = 1, 2, 3, 4, 5, 6, 7
_LIGHT_WORDS = ("RGB", "Lab")
SPACE_AT = {
    "fill_path": 4,
    "stroke_path": 4,
    "fill_text": 3,
    "stroke_text": 4,
    "fill_image_mask": 3,
}
"""Which of its arguments is a call's colour space; images and shadings carry their own."""


class InksUsed(mupdf.FzDevice2):
    """Notes whether a page paints with process inks, spots over them, and colours of light; marks
    whose numbers are in `left_out`, and masks, do not count."""

    def __init__(self, left_out: frozenset[int]) -> None:
        super().__init__()
        for call in (*PAINTING, "begin_mask", "end_mask", "begin_tile", "end_tile"):
            getattr(self, f"use_virtual_{call}")()
        self.process = self.spots = self.grey = self.light = False
        self._left_out = left_out
        self._fault: Exception | None = None
        self._number = -1
        self._masks = 0

    @property
    def for_press(self) -> bool:
        """Whether plates are made of the page as it is: grey goes on the plate of black, but of
        grey or a spot beside RGB alone none are made."""
        return self.process or ((self.spots or self.grey) and not self.light)

    def begin_mask(self, *_given: Any) -> None:
        """Begins a mask."""
        self._masks += 1

    def end_mask(self, *_given: Any) -> None:
        """Ends a mask."""
        self._masks -= 1

    def begin_tile(self, *_given: Any) -> int:
        """Begins a pattern's cell, run anew each time, as marks are numbered."""
        return 0

    def end_tile(self, _c: Any) -> None:
        """Ends a pattern's cell."""

    def raise_fault(self) -> None:
        """Raises what went wrong in one of the calls: the library would tell it as its own."""
        if self._fault is not None:
            raise self._fault

    def note(self, space: Any) -> None:
        """Notes the colour space of one painting call; None for what has none."""
        self._number += 1
        try:
            self._note(space)
        except Exception as error:
            self._fault = self._fault or error

    def _note(self, space: Any) -> None:
        if space is None or self._masks or self._number in self._left_out:
            return
        kind = mupdf.ll_fz_colorspace_type(space)
        if kind == INDEXED:
            space = mupdf.ll_fz_base_colorspace(space)
            kind = mupdf.ll_fz_colorspace_type(space)
        if kind == _CMYK:
            self.process = True
        elif kind == _GREY:
            self.grey = True
        elif kind in (_RGB, _BGR, _LAB):
            self.light = True
        elif kind == SEPARATION:
            self._note_spots(space)

    def _note_spots(self, space: Any) -> None:
        count = mupdf.ll_fz_colorspace_n(space)
        names = [mupdf.ll_fz_colorspace_colorant(space, k) or "" for k in range(count)]
        if all(is_template(name) for name in names):
            return
        # Its name, "Separation(DeviceCMYK,Gold)", is all the library tells of what stands for it.
        told = (mupdf.ll_fz_colorspace_name(space) or "").partition("(")[2].split(",")[0]
        if any(word in told for word in _LIGHT_WORDS):
            self.light = True
        else:
            self.spots = True


def _painting(call: str) -> Callable[..., None]:
    place = SPACE_AT.get(call)

    def paint(self: Any, *given: Any) -> None:
        self.note(given[1].colorspace if place is None else given[place])

    return paint


for _call in PAINTING:
    setattr(InksUsed, _call, _painting(_call))
