"""A MuPDF device that notes what a page paints instead of painting it."""

# The methods MuPDF calls have the names and the meaning it gives them.
# ruff: noqa: D102
# The library's face numbers its arguments; ours are named after what they are.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import wraps
from typing import Any, Literal

import numpy as np
from pymupdf import mupdf

from mockup.artwork.inspection import (
    Clip,
    Ink,
    Kind,
    Lettering,
    Painted,
    Pen,
    Placed,
    Ring,
    Space,
)
from mockup.foreign.leaving_out import PAINTING
from mockup.foreign.tracer import Glyphs, Tracer, mapped, path_rings
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point
from mockup.units import PT_PER_INCH

EVERYWHERE = Box(-1e6, -1e6, 1e6, 1e6)
_UNIT_SQUARE = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
_CALLS = (
    *PAINTING,  # each numbers what it paints, so that it can be left out
    "pop_clip",
    *("clip_path", "clip_stroke_path", "clip_text", "clip_stroke_text", "clip_image_mask"),
    *("begin_layer", "end_layer", "begin_tile", "end_tile", "begin_mask", "end_mask"),
)
_LEVEL = 0.02  # judgement: a slope of a degree; a line of type that rises by more is no level one
# enum fz_colorspace_type of MuPDF's fitz/color.h, which its Python face leaves out.
_SPACES: dict[int, Space] = {
    1: "gray",
    2: "rgb",
    3: "rgb",
    4: "cmyk",
    5: "lab",
    6: "rgb",  # indexed: what its base is does not reach us
    7: "spot",
}
_CAPS: dict[int, Literal["butt", "round", "square"]] = {0: "butt", 1: "round", 2: "square"}


class Recorder(mupdf.FzDevice2):
    """Notes every object painted, with its clip and layer. The page is run with a matrix that maps
    to card inches, so every number noted is in inches."""

    def __init__(self) -> None:
        super().__init__()
        for call in _CALLS:
            getattr(self, f"use_virtual_{call}")()
        self._fault: Exception | None = None
        self._noted: list[tuple[Painted, range]] = []
        self._tracer = Tracer()
        self.clips: list[Clip] = [Clip((), False, EVERYWHERE, 0)]
        self.clipping_fonts: set[str] = set()
        """The fonts of letters that are used as a clip: the page needs them as well."""
        self._clip_stack: list[int] = [0]
        self._layers: list[str | None] = []
        self._tiles = 0
        self._masks = 0
        self._number = -1
        self._overprint = False
        self._glyphs = Glyphs()

    def raise_fault(self) -> None:
        """Raises what went wrong in one of the calls: the library would tell it as its own."""
        if self._fault is not None:
            raise self._fault

    # Painting.

    def fill_path(
        self,
        _c: Any,
        path: Any,
        even_odd: int,
        ctm: Any,
        space: Any,
        colour: Any,
        alpha: float,
        how: Any,
    ) -> None:
        self._number += 1
        self._overprint = _overprints(space, how)
        traced = self._tracer.trace(path, _affine(ctm))
        self._note("path", bool(even_odd), ink_of(space, colour), alpha, traced=traced)

    def stroke_path(
        self,
        _c: Any,
        path: Any,
        stroke: Any,
        ctm: Any,
        space: Any,
        colour: Any,
        alpha: float,
        how: Any,
    ) -> None:
        self._number += 1
        self._overprint = _overprints(space, how)
        matrix = _affine(ctm)
        traced = self._tracer.trace(path, matrix)
        pen = _pen(stroke, matrix)
        self._note("path", False, ink_of(space, colour), alpha, traced=traced, pen=pen)

    def fill_text(
        self, _c: Any, text: Any, ctm: Any, space: Any, colour: Any, alpha: float, how: Any
    ) -> None:
        self._number += 1
        self._overprint = _overprints(space, how)
        self._type(text, _affine(ctm), ink_of(space, colour), alpha, None)

    def stroke_text(
        self,
        _c: Any,
        text: Any,
        stroke: Any,
        ctm: Any,
        space: Any,
        colour: Any,
        alpha: float,
        how: Any,
    ) -> None:
        self._number += 1
        self._overprint = _overprints(space, how)
        matrix = _affine(ctm)
        self._type(text, matrix, ink_of(space, colour), alpha, _pen(stroke, matrix))

    def fill_shade(self, _c: Any, shade: Any, ctm: Any, alpha: float, _p: Any) -> None:
        self._number += 1
        self._overprint = False
        rect = mupdf.ll_fz_bound_shade(shade, ctm)
        box = Box(rect.x0, rect.y0, rect.x1, rect.y1)
        self._note("shade", False, None, alpha, rings=(np.array(box.corners()),))

    def fill_image(self, _c: Any, image: Any, ctm: Any, alpha: float, _p: Any) -> None:
        self._number += 1
        self._overprint = False
        self._image(image, _affine(ctm), None, alpha)

    def fill_image_mask(
        self, _c: Any, image: Any, ctm: Any, space: Any, colour: Any, alpha: float, how: Any
    ) -> None:
        self._number += 1
        self._overprint = _overprints(space, how)
        self._image(image, _affine(ctm), ink_of(space, colour), alpha)

    # Clips, layers, patterns.

    def clip_path(self, _c: Any, path: Any, even_odd: int, ctm: Any, _scissor: Any) -> None:
        self._push(path_rings(path, _affine(ctm)), bool(even_odd))

    def clip_stroke_path(self, _c: Any, path: Any, stroke: Any, ctm: Any, _scissor: Any) -> None:
        rect = mupdf.ll_fz_bound_path(path, stroke, ctm)
        self._push_box(rect)

    def clip_text(self, _c: Any, text: Any, ctm: Any, _scissor: Any) -> None:
        self._note_fonts(text)
        self._push_box(mupdf.ll_fz_bound_text(text, None, ctm))

    def clip_stroke_text(self, _c: Any, text: Any, stroke: Any, ctm: Any, _scissor: Any) -> None:
        self._note_fonts(text)
        self._push_box(mupdf.ll_fz_bound_text(text, stroke, ctm))

    def clip_image_mask(self, _c: Any, _image: Any, ctm: Any, _scissor: Any) -> None:
        self._push((mapped(_UNIT_SQUARE, _affine(ctm)),), False)

    def pop_clip(self, _c: Any) -> None:
        if len(self._clip_stack) > 1:
            self._clip_stack.pop()

    def begin_mask(self, _c: Any, area: Any, *_rest: Any) -> None:
        self._masks += 1
        self._pending_mask = area

    def end_mask(self, _c: Any, *_rest: Any) -> None:
        # What was painted since begin_mask was the mask; it now clips, until pop_clip.
        self._masks -= 1
        self._push_box(self._pending_mask)

    def begin_layer(self, _c: Any, name: str) -> None:
        self._layers.append(name)

    def end_layer(self, _c: Any) -> None:
        if self._layers:
            self._layers.pop()

    def begin_tile(self, *_everything: Any) -> int:
        self._tiles += 1
        return 0

    def end_tile(self, _c: Any) -> None:
        self._tiles -= 1

    # Noting.

    def painted(self) -> tuple[Painted, ...]:
        """Returns everything noted, in drawing order, less what its clip leaves nothing of."""
        traced_rings = self._tracer.flattened()
        found: list[Painted] = []
        for noted, traced in self._noted:
            own = [traced_rings[k] for k in traced if k in traced_rings]
            own += [(ring, True) for ring in noted.rings]
            if not own:
                continue
            box = _box([ring for ring, _ in own])
            grown = box.grown(noted.pen.width_in / 2 if noted.pen else 0.0)
            met = _meet(grown, self.clips[noted.clip].box)
            if met.width >= 0 and met.height >= 0:
                rings, closed = zip(*own, strict=True)
                found.append(replace(noted, box=met, rings=rings, closed=closed))
        return tuple(found)

    def _note(
        self,
        kind: Kind,
        even_odd: bool,
        ink: Ink | None,
        alpha: float,
        traced: range = range(0),
        rings: tuple[Ring, ...] = (),
        pen: Pen | None = None,
        lettering: Lettering | None = None,
        image: Placed | None = None,
        glyphs: tuple[int, ...] = (),
    ) -> None:
        if self._masks:
            return
        layer = self._layers[-1] if self._layers else None
        clip, tiled = self._clip_stack[-1], self._tiles > 0
        noted = Painted(
            kind, EVERYWHERE, rings, (), even_odd, ink, alpha, layer, clip, pen, lettering,
            image, glyphs, tiled, self._number, self._overprint,
        )  # fmt: skip
        self._noted.append((noted, traced))

    def _type(
        self, text: Any, matrix: Affine, ink: Ink | None, alpha: float, pen: Pen | None
    ) -> None:
        span = text.head
        while span:
            self._span(span, matrix, ink, alpha, pen)
            span = span.next

    def _note_fonts(self, text: Any) -> None:
        span = text.head
        while span:
            self.clipping_fonts.add(mupdf.ll_fz_font_name(span.font))
            span = span.next

    def _span(
        self, span: Any, matrix: Affine, ink: Ink | None, alpha: float, pen: Pen | None
    ) -> None:
        whole = mupdf.FzTextSpan(span)
        trm = span.trm
        em = Affine(trm.a, trm.b, trm.c, trm.d, 0, 0)
        rings: list[Ring] = []
        counts: list[int] = []
        letters: list[str] = []
        glyph_of: list[int] = []
        for k in range(span.len):
            item = whole.items(k)
            if item.gid >= 0:
                outline = self._glyphs.rings(span.font, item.gid)
                place = matrix @ Affine(em.a, em.b, em.c, em.d, item.x, item.y)
                rings += [mapped(ring, place) for ring in outline]
                counts.append(len(outline))
            if item.ucs > 0:
                letters.append(chr(item.ucs))
                glyph_of.append(len(counts) - 1)
        along, up = (matrix.vector(Point(*each)) for each in ((trm.a, trm.b), (trm.c, trm.d)))
        flags = mupdf.ll_fz_font_flags(span.font)
        lettering = Lettering(
            "".join(letters),
            mupdf.ll_fz_font_name(span.font),
            math.hypot(*up) * PT_PER_INCH,
            not flags.ft_substitute,
            tuple(glyph_of),
            not span.wmode and up[1] < 0 < along[0] and abs(along[1]) < _LEVEL * along[0],
        )
        self._note(
            "type", False, ink, alpha,
            rings=tuple(rings), pen=pen, lettering=lettering, glyphs=tuple(counts),
        )  # fmt: skip

    def _image(self, image: Any, matrix: Affine, ink: Ink | None, alpha: float) -> None:
        width_in = math.hypot(matrix.a, matrix.b)
        height_in = math.hypot(matrix.c, matrix.d)
        if width_in == 0 or height_in == 0:
            return
        space, calibrated = _space(image.colorspace)
        placed = Placed(
            image.w, image.h, image.bpc, min(image.w / width_in, image.h / height_in),
            space, calibrated, ink is not None,
        )  # fmt: skip
        rings = (mapped(_UNIT_SQUARE, matrix),)
        self._note("image", False, ink, alpha, rings=rings, image=placed)

    def _push(self, rings: tuple[Ring, ...], even_odd: bool) -> None:
        parent = self._clip_stack[-1]
        box = _meet(_box(rings) if rings else Box(0, 0, -1, -1), self.clips[parent].box)
        self._clip_stack.append(len(self.clips))
        self.clips.append(Clip(rings, even_odd, box, parent))

    def _push_box(self, rect: Any) -> None:
        corners = np.array(Box(rect.x0, rect.y0, rect.x1, rect.y1).corners())
        self._push((corners,), False)


def ink_of(space: Any, colour: Any) -> Ink | None:
    """Returns a colour from a raw fz_colorspace and its float array."""
    if space is None:
        return None
    kind, calibrated = _space(space)
    count = mupdf.ll_fz_colorspace_n(space)
    values = tuple(float(mupdf.floats_getitem(colour, k)) for k in range(count))
    names: tuple[str, ...] = ()
    if kind == "spot":
        names = tuple(mupdf.ll_fz_colorspace_colorant(space, k) or "" for k in range(count))
    return Ink(kind, values, names, calibrated)


def _space(space: Any) -> tuple[Space, bool]:
    if space is None:
        return "other", False
    kind = _SPACES.get(mupdf.ll_fz_colorspace_type(space), "other")
    name = mupdf.ll_fz_colorspace_name(space) or ""
    calibrated = kind == "lab" or not name.startswith("Device")
    return kind, calibrated


def _overprints(space: Any, how: Any) -> bool:
    """Returns whether a colour paints over: of DeviceCMYK only where the mode lets its noughts."""
    kind, _ = _space(space)
    return bool(how.op) and (kind in ("spot", "gray") or (kind == "cmyk" and bool(how.opm)))


def _pen(stroke: Any, matrix: Affine) -> Pen:
    scale = math.sqrt(abs(matrix.determinant))
    dashes = tuple(
        float(mupdf.floats_getitem(stroke.dash_list, k)) * scale for k in range(stroke.dash_len)
    ) if stroke.dash_len else ()  # fmt: skip
    return Pen(stroke.linewidth * scale, dashes, _CAPS.get(stroke.start_cap, "butt"))


def _affine(ctm: Any) -> Affine:
    return Affine(ctm.a, ctm.b, ctm.c, ctm.d, ctm.e, ctm.f)


def _box(rings: Sequence[Ring]) -> Box:
    x, y = (rings[0] if len(rings) == 1 else np.concatenate(rings)).T
    return Box(float(x.min()), float(y.min()), float(x.max()), float(y.max()))


def _meet(first: Box, second: Box) -> Box:
    return Box(
        max(first.left, second.left),
        max(first.top, second.top),
        min(first.right, second.right),
        min(first.bottom, second.bottom),
    )


def _watched(call: Callable[..., Any]) -> Callable[..., Any]:
    @wraps(call)
    def watch(self: Any, *given: Any) -> Any:
        try:
            return call(self, *given)
        except Exception as error:
            self._fault = self._fault or error
            return 0

    return watch


for _call in _CALLS:
    setattr(Recorder, _call, _watched(getattr(Recorder, _call)))
