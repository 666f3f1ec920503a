"""Which plates of a page are no ink but a finish, and which of its marks lie on them."""

# The methods MuPDF calls have the names it gives them; those that paint are made below.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

import pymupdf
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.foreign.document import OpenedPage, opened_page
from mockup.foreign.inks_used import INDEXED, SEPARATION, SPACE_AT
from mockup.foreign.inspecting import layers_of
from mockup.foreign.leaving_out import PAINTING
from mockup.foreign.library import drawing
from mockup.foreign.recorder import ink_of
from mockup.trade.finishes import NOT_TINTED, Finish, finish_named, finish_of_step

_WHOLE_PT = 1.0  # judgement: a ground that ends this near the page's edge covers it
_NO_INK = 0.005  # judgement: half a per cent is no dot on a plate


@dataclass(frozen=True)
class LayerPlate:
    """A layer in ink that is a finish's plate, and its marks: the suite names it, or it is called
    letterpress."""

    name: str
    finish: Finish
    marks: frozenset[int]


@dataclass(frozen=True)
class FinishesUsed:
    """A page's finishes. `names` has each colourant that is one's plate, and whose; `marks` are
    the marks on such plates alone, `over` those that overprint and lay no ink down; `grounds` are
    the marks beneath all others that lay no ink over the whole page: a program's white paper."""

    names: tuple[tuple[str, Finish], ...] = ()
    layers: tuple[LayerPlate, ...] = ()
    marks: frozenset[int] = frozenset()
    over: frozenset[int] = frozenset()
    grounds: frozenset[int] = frozenset()
    count: int = 0
    """How many marks the page has, where it was looked at."""

    def plates_of(self, finish: Finish) -> tuple[str, ...]:
        """Returns the colourants of a finish."""
        return tuple(name for name, what in self.names if what == finish)

    @property
    def quiet(self) -> frozenset[str]:
        """The colourants that are not drawn in what stands for them: white has its own way."""
        return frozenset(name for name, what in self.names if what in NOT_TINTED)

    @property
    def undrawn(self) -> frozenset[int]:
        """The marks that are not drawn in the ink they have: their layers are of such finishes."""
        return _all_of(each.marks for each in self.layers if each.finish in NOT_TINTED)

    @property
    def uninked(self) -> frozenset[int]:
        """The marks on layers that are no ink but a finish."""
        return _all_of(each.marks for each in self.layers if each.finish != "letterpress")


def finishes_of(art: Art) -> FinishesUsed:
    """Returns a page's finishes. A plate is one by the suite's word or its name, or by the layer or
    processing step that all its marks lie in. A page without spots is looked at for a rule of white
    ink, a layer called letterpress, and what the suite says, alone.

    Raises what opened_page raises.
    """
    opened = opened_page(art)
    if art.white.rule == "plate" and not art.finishing and not _has_spots(opened):
        assert opened.page.parent is not None
        if "letterpress" not in _finishes_of_layers(opened.page.parent).values():
            return FinishesUsed()
    key = f"finishes {sorted(art.left_out)} {art.finishing}"
    if key not in opened.known:
        opened.known[key] = _found(opened, art)
    return opened.known[key]


def plates_named(art: Art) -> tuple[tuple[str, Finish], ...]:
    """Returns the colourants and the layers that are a finish's plate, and whose. Raises as
    finishes_of does."""
    found = finishes_of(art)
    return *found.names, *((each.name, each.finish) for each in found.layers)


def _has_spots(opened: OpenedPage) -> bool:
    with drawing():
        return mupdf.fz_page_separations(opened.page.this).m_internal is not None


def _found(opened: OpenedPage, art: Art) -> FinishesUsed:
    page = opened.page
    assert page.parent is not None
    of_suite: dict[str, Finish] = {plain(s.plate): s.finish for s in art.finishing if s.plate}
    layers = _finishes_of_layers(page.parent)
    device = _Marks(of_suite, layers, page.mediabox, art.left_out)
    with drawing():
        pdf_page = mupdf.pdf_page_from_fz_page(page.this)
        mupdf.pdf_run_page_contents_with_usage(
            pdf_page, device, mupdf.FzMatrix(), "Print", mupdf.FzCookie()
        )
        mupdf.fz_close_device(device)
    device.raise_fault()
    names: dict[str, Finish] = {}
    for name, said in device.said.items():
        agreed: set[Finish] = {what for what in said if what is not None}
        if len(agreed) == len(said) == 1:
            names[name] = agreed.pop()
    named = tuple(names.items())
    quiet = FinishesUsed(named).quiet
    own = {number for number, (inks, _) in device.spots.items() if {*inks} <= names.keys()}
    over = [number for number, (inks, op) in device.spots.items() if op and {*inks} <= quiet]
    in_ink = [
        LayerPlate(name, what, frozenset(marks - own))
        for (name, what), marks in device.of_layer.items()
        if marks - own
    ]
    grounds, count = frozenset(device.grounds), device.number + 1
    marks = frozenset(own), frozenset(over), grounds
    return FinishesUsed(named, tuple(in_ink), *marks, count)


def _finishes_of_layers(document: pymupdf.Document) -> dict[str, Finish]:
    found: dict[str, Finish] = {}
    for layer in layers_of(document):
        what = finish_of_step(layer.processing_step) or finish_named(layer.name)
        if what is not None:
            found[layer.name] = what
    return found


def plain(name: str) -> str:
    """Returns a name of a plate or layer as names are compared."""
    return " ".join(name.casefold().split())


def _all_of(marks: Iterable[frozenset[int]]) -> frozenset[int]:
    return frozenset[int]().union(*marks)


class _Marks(mupdf.FzDevice2):
    """Notes which marks are painted with spots, and what the suite and their layers say these
    are; and the marks on layers that are plates whatever they are painted in."""

    def __init__(
        self,
        own: dict[str, Finish],
        layers: dict[str, Finish],
        page: pymupdf.Rect,
        left_out: frozenset[int],
    ) -> None:
        super().__init__()
        for call in (*PAINTING, "begin_layer", "end_layer", "begin_tile", "end_tile"):
            getattr(self, f"use_virtual_{call}")()
        self.said: dict[str, set[Finish | None]] = {}
        self.spots: dict[int, tuple[tuple[str, ...], bool]] = {}
        self.of_layer: dict[tuple[str, Finish], set[int]] = {}
        self.grounds: list[int] = []
        self._own = own
        self._of_layer, self._page, self._left_out = layers, page, left_out
        self._layers: list[str] = []
        self._beneath = True
        self.number = -1
        self._fault: Exception | None = None

    def begin_layer(self, _c: Any, name: str) -> None:
        """Begins what lies on a layer."""
        self._layers.append(name)

    def end_layer(self, _c: Any) -> None:
        """Ends what lies on a layer."""
        if self._layers:
            self._layers.pop()

    def begin_tile(self, *_given: Any) -> int:
        """Begins a pattern's cell, run anew each time, as marks are numbered."""
        return 0

    def end_tile(self, _c: Any) -> None:
        """Ends a pattern's cell."""

    def raise_fault(self) -> None:
        """Raises what went wrong in one of the calls: the library would tell it as its own."""
        if self._fault is not None:
            raise self._fault

    def note(self, call: str, given: tuple[Any, ...]) -> None:
        """Notes one painting call, by the library's arguments."""
        self.number += 1
        if self.number in self._left_out:
            return
        try:
            self._note(call, given)
        except Exception as error:
            self._fault = self._fault or error

    def _note(self, call: str, given: tuple[Any, ...]) -> None:
        place = SPACE_AT.get(call)
        space = given[1].colorspace if place is None else given[place]
        names = _spots(space)
        if names:
            self.spots[self.number] = (names, bool(given[-1].op))
        in_layers: list[tuple[str, Finish]] = [
            (each, what) for each in self._layers if (what := self._layer_is(each))
        ]
        for name in names:
            by_name: Finish | None = self._own.get(plain(name)) or finish_named(name)
            what: Finish | None = by_name or (in_layers[-1][1] if in_layers else None)
            self.said.setdefault(name, set()).add(what)
        if in_layers:
            layer, meant = in_layers[-1]
            if plain(layer) in self._own or meant == "letterpress":
                self.of_layer.setdefault((layer, meant), set()).add(self.number)
        self._beneath = self._beneath and call == "fill_path" and self._is_ground(given)
        if self._beneath:
            self.grounds.append(self.number)

    def _layer_is(self, name: str) -> Finish | None:
        return self._own.get(plain(name)) or self._of_layer.get(name)

    def _is_ground(self, given: tuple[Any, ...]) -> bool:
        path, ctm, space, colour = given[1], given[3], given[4], given[5]
        ink = ink_of(space, colour)
        if ink is None or ink.space not in ("gray", "rgb", "cmyk"):
            return False
        bare = 1 - min(ink.values) if ink.space != "cmyk" else max(ink.values)
        box, page = mupdf.ll_fz_bound_path(path, None, ctm), self._page
        return (
            bare <= _NO_INK
            and box.x0 <= _WHOLE_PT
            and box.y0 <= _WHOLE_PT
            and box.x1 >= page.width - _WHOLE_PT
            and box.y1 >= page.height - _WHOLE_PT
        )


def _spots(space: Any) -> tuple[str, ...]:
    """Returns the colourants of a spot's space; nothing for other spaces."""
    if space is None:
        return ()
    if mupdf.ll_fz_colorspace_type(space) == INDEXED:
        space = mupdf.ll_fz_base_colorspace(space)
    if mupdf.ll_fz_colorspace_type(space) != SEPARATION:
        return ()
    count = mupdf.ll_fz_colorspace_n(space)
    return tuple(mupdf.ll_fz_colorspace_colorant(space, k) or "" for k in range(count))


def _painting(call: str) -> Callable[..., None]:
    def paint(self: Any, *given: Any) -> None:
        self.note(call, given)

    return paint


for _call in PAINTING:
    setattr(_Marks, _call, _painting(_call))
