"""Sizes, viewBoxes and transforms of an SVG: from its user units to the page (SVG 1.1 7)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from xml.etree.ElementTree import Element

from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine, scaling, translation
from mockup.trade.limits import PAGE_SIDE_MAX_PT
from mockup.units import PT_PER_INCH
from mockup.vector.svg_shapes import SvgValueError, numbers, svg_length, transform

PX_PER_INCH = 96.0  # CSS 2.1 4.3.2

_SHARES = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}
_PLACES = {"left": "0%", "top": "0%", "center": "50%", "right": "100%", "bottom": "100%"}


@dataclass(frozen=True)
class View:
    """The map from user units to inches, and the size of the view, user units."""

    affine: Affine
    width: float
    height: float


@dataclass(frozen=True)
class PageSize:
    """A drawing's size in CSS pixels, 96 to the inch; `told` where its width and height say it."""

    width_px: float
    height_px: float
    told: bool


def page_size(root: Element) -> PageSize:
    """Returns a drawing's size: its width and height, or its viewBox in pixels where they are
    missing or percentages. Raises InputError where it has none, LimitError for one too large."""
    try:
        box = _view_box(root)
        sides = [_side(root.get(key)) for key in ("width", "height")]
    except SvgValueError as error:
        raise InputError(f"<svg>: {error}") from error
    told = None not in sides
    if not told and box is None:
        raise InputError("has neither a size nor a viewBox; give it width and height")
    width, height = sides
    if box is not None:
        if width is None and height is None:
            width, height = box[2], box[3]
        # One side alone: the other follows from the viewBox (CSS Images 3, 4.3).
        elif width is None and height is not None:
            width = height * box[2] / box[3]
        elif height is None and width is not None:
            height = width * box[3] / box[2]
    assert width is not None and height is not None
    if width <= 0 or height <= 0:
        raise InputError("has no size; give it width and height")
    most_px = PAGE_SIDE_MAX_PT / PT_PER_INCH * PX_PER_INCH
    if max(width, height) > most_px:
        raise LimitError(
            f"is {width / PX_PER_INCH:.4g} x {height / PX_PER_INCH:.4g} in; sides up to "
            f"{PAGE_SIDE_MAX_PT / PT_PER_INCH:.0f} in are taken"
        )
    return PageSize(width, height, told)


def viewed(element: Element, view: View) -> View:
    """Returns the view inside an element's viewBox (7.7, 7.8: met in the middle unless said)."""
    box = _view_box(element)
    if box is None:
        return view
    left, top, width, height = box
    sx, sy = view.width / width, view.height / height
    words = element.get("preserveAspectRatio", "").split() or ["xMidYMid"]
    dx = dy = 0.0
    if words[0] != "none":
        scale = max(sx, sy) if "slice" in words else min(sx, sy)
        dx = (view.width - width * scale) * _SHARES.get(words[0][1:4], 0.5)
        dy = (view.height - height * scale) * _SHARES.get(words[0][5:8], 0.5)
        sx = sy = scale
    fitted = translation(dx, dy) @ scaling(sx, sy) @ translation(-left, -top)
    return View(view.affine @ fitted, width, height)


def own_transform(element: Element, view: View) -> View:
    """Returns the view moved by an element's own transform. Raises SvgValueError."""
    told = element.get("transform", "")
    if not told:
        return view
    own = transform(told)
    origin = element.get("transform-origin", "").split()
    if origin:
        x, y = ([_PLACES.get(each, each) for each in origin] + ["50%"])[:2]
        dx, dy = svg_length(x, view.width), svg_length(y, view.height)
        own = translation(dx, dy) @ own @ translation(-dx, -dy)
    return replace(view, affine=view.affine @ own)


def _side(text: str | None) -> float | None:
    """Returns a side in pixels; None for one that is missing, a percentage or left to the page."""
    if text is None or text.strip().endswith("%") or text.strip() in ("", "auto"):
        return None
    return svg_length(text, 0.0)


def _view_box(element: Element) -> tuple[float, float, float, float] | None:
    text = element.get("viewBox")
    if text is None or not text.strip():
        return None
    values = numbers(text)
    if len(values) != 4:
        raise SvgValueError(f'viewBox: "{text[:40]}" is not four numbers')
    if values[2] <= 0 or values[3] <= 0:
        raise SvgValueError(f'viewBox: "{text[:40]}" has no size')
    return values[0], values[1], values[2], values[3]
