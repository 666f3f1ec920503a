"""The content of a PDF page read operator by operator: paths painted, through forms and layers.

Only what moves or names a path is followed: the matrix, the colour spaces, marked content, forms.
Operators as ISO 32000-1 tables 51 to 61 and 320 list them.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import pikepdf

from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine
from mockup.geometry.point import Point
from mockup.trade.limits import (
    PDF_DASHES_MAX,
    PDF_FORM_DEPTH_MAX,
    PDF_FORMS_MAX,
    PDF_LAYERS_MAX,
    PDF_OPERATORS_MAX,
    TEMPLATE_SEGMENTS_MAX,
)
from mockup.vector.layer_labels import LayerLabels
from mockup.vector.optional_content import Layers
from mockup.vector.pdf_colour import BLACK, space_of, with_values
from mockup.vector.pdf_objects import dictionary, entry, items_of, number, numbers, word
from mockup.vector.pdf_streams import Unpacked
from mockup.vector.pen import PathPen
from mockup.vector.stumbling import asked
from mockup.vector.template import Colour, TemplatePath

# How a paint operator treats the path: (closes it, strokes, fills).
_PAINTS: dict[str, tuple[bool, bool, bool]] = {
    "S": (False, True, False),
    "s": (True, True, False),
    "f": (False, False, True),
    "F": (False, False, True),
    "f*": (False, False, True),
    "B": (False, True, True),
    "B*": (False, True, True),
    "b": (True, True, True),
    "b*": (True, True, True),
}
_PLAIN_INKS = {
    "G": ("stroke", "DeviceGray", 1),
    "RG": ("stroke", "DeviceRGB", 3),
    "K": ("stroke", "DeviceCMYK", 4),
    "g": ("fill", "DeviceGray", 1),
    "rg": ("fill", "DeviceRGB", 3),
    "k": ("fill", "DeviceCMYK", 4),
}


@dataclass(frozen=True)
class _State:
    affine: Affine
    stroke: Colour = BLACK
    fill: Colour = BLACK
    width: float = 1.0
    dashes: tuple[float, ...] = ()


@dataclass(frozen=True)
class _Layer:
    names: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    hidden: bool = False


class PaintedPaths:
    """Reads content streams and keeps the paths they paint, in the order they are painted.

    What lies on a layer that `layers` does not show is kept as well, and marked as hidden.
    """

    def __init__(self, layers: Layers) -> None:
        self.paths: list[TemplatePath] = []
        self.layers = layers
        self._forms = 0
        self._operators = 0
        self._painted = 0
        self._segments = 0
        self._unpacked = Unpacked()
        self.labels = LayerLabels()

    def read_page(self, page: pikepdf.Page, resources: Any, to_inches: Affine) -> None:
        """Reads a page. Raises InputError for broken content, LimitError for one without end."""
        self._unpacked.take(entry(page.obj, "/Contents"))
        self._read(page, resources, _State(to_inches), _Layer(), 0)

    def read_form(
        self, form: Any, resources: Any, state: _State, layer: _Layer, depth: int
    ) -> None:
        """Reads a form XObject within the state and layer it is drawn in."""
        self._forms += 1
        if depth > PDF_FORM_DEPTH_MAX or self._forms > PDF_FORMS_MAX:
            raise LimitError("draws forms within forms without end; flatten it")
        self._unpacked.take(form)
        told = items_of(entry(form, "/Matrix"))
        own = Affine(*numbers(told, 6, "/Matrix")) if told else Affine(1, 0, 0, 1, 0, 0)
        inside = replace(state, affine=state.affine @ own)
        kept = dictionary(entry(form, "/Resources"))
        self._read(form, resources if kept is None else kept, inside, layer, depth)

    def _read(self, stream: Any, resources: Any, state: _State, layer: _Layer, depth: int) -> None:
        run = _Run(self, resources, state, layer, depth)
        content = asked(pikepdf.parse_content_stream, stream, _FOLLOWED, otherwise=None)
        if content is None:
            raise InputError("is broken (its drawing cannot be read); save it again as PDF")
        for instruction in content:
            self._operators += 1
            if self._operators > PDF_OPERATORS_MAX:
                raise LimitError(f"has over {PDF_OPERATORS_MAX} drawing operators; simplify it")
            nothing: list[Any] = []
            operands = asked(_operands, instruction, otherwise=nothing)
            run.do(asked(_operator, instruction, otherwise=""), operands)

    def keep(self, pen: PathPen, state: _State, layer: _Layer, strokes: bool, fills: bool) -> None:
        """Keeps what a pen gathered, as one paint operator painted it."""
        stroke, fill = state.stroke if strokes else None, state.fill if fills else None
        inks = (*(stroke.names if stroke else ()), *(fill.names if fill else ()))
        scale = math.sqrt(abs(state.affine.determinant)) if strokes else 0.0
        self._painted += 1
        self._segments += sum(len(segments) for segments, _ in pen.runs)
        if self._segments > TEMPLATE_SEGMENTS_MAX:
            raise LimitError(f"draws over {TEMPLATE_SEGMENTS_MAX} lines and curves; simplify it")
        for segments, closed in pen.runs:
            self.paths.append(
                TemplatePath(
                    tuple(segments),
                    closed,
                    fills,
                    self._painted,
                    layer.names,
                    inks,
                    layer.steps,
                    stroke,
                    fill,
                    state.width * scale,
                    tuple(each * scale for each in state.dashes) if strokes else (),
                    layer.hidden,
                )
            )


def _operands(instruction: Any) -> list[Any]:
    return list(instruction.operands)


def _operator(instruction: Any) -> str:
    return str(instruction.operator)


class _Run:
    """One content stream being read: its states, its open path, its open marked content."""

    def __init__(
        self, home: PaintedPaths, resources: Any, state: _State, layer: _Layer, depth: int
    ) -> None:
        self.home = home
        self.resources = resources
        self.state = state
        self.layers = [layer]
        self.depth = depth
        self.saved: list[_State] = []
        self.pen = PathPen(state.affine)

    def do(self, operator: str, operands: list[Any]) -> None:
        """Does one operator; those that neither draw nor name a path do nothing."""
        if operator in _DRAWS:
            count, draw = _DRAWS[operator]
            draw(self.pen, numbers(operands, count, operator))
        elif operator in _PAINTS:
            self._paint(*_PAINTS[operator])
        elif operator == "n":
            self.pen = PathPen(self.state.affine)
        elif operator in _PLAIN_INKS:
            which, space, count = _PLAIN_INKS[operator]
            colour = with_values(space_of(pikepdf.Name(f"/{space}"), None), operands[-count:])
            self.state = replace(self.state, **{which: colour})
        elif operator in _STATES:
            _STATES[operator](self, operands)

    def save(self, _: list[Any]) -> None:
        self.saved.append(self.state)

    def restore(self, _: list[Any]) -> None:
        if self.saved:
            self._enter(self.saved.pop())

    def concat(self, operands: list[Any]) -> None:
        own = Affine(*numbers(operands, 6, "cm"))
        self._enter(replace(self.state, affine=self.state.affine @ own))

    def stroke_space(self, operands: list[Any]) -> None:
        colour = space_of(operands[0] if operands else None, self.resources)
        self.state = replace(self.state, stroke=colour)

    def fill_space(self, operands: list[Any]) -> None:
        colour = space_of(operands[0] if operands else None, self.resources)
        self.state = replace(self.state, fill=colour)

    def stroke_values(self, operands: list[Any]) -> None:
        self.state = replace(self.state, stroke=with_values(self.state.stroke, operands))

    def fill_values(self, operands: list[Any]) -> None:
        self.state = replace(self.state, fill=with_values(self.state.fill, operands))

    def width(self, operands: list[Any]) -> None:
        self.state = replace(self.state, width=abs(numbers(operands, 1, "w")[0]))

    def dashes(self, operands: list[Any]) -> None:
        told = items_of(operands[0]) if operands else []
        lengths = tuple(each for each in map(number, told) if each is not None)
        whole = not lengths or min(lengths) < 0 or not sum(lengths)
        self.state = replace(self.state, dashes=() if whole else lengths[:PDF_DASHES_MAX])

    def graphics(self, operands: list[Any]) -> None:
        held = self._resource("/ExtGState", operands[0]) if operands else None
        width, dashes = number(entry(held, "/LW")), items_of(entry(held, "/D"))
        if width is not None:
            self.state = replace(self.state, width=abs(width))
        if dashes:
            self.dashes(dashes)

    def begin(self, operands: list[Any]) -> None:
        layer = self.layers[-1]
        if len(operands) == 2 and word(operands[0]) == "OC":
            group = operands[1]
            if isinstance(group, pikepdf.Name):
                group = self._resource("/Properties", group)
            layer = self._on(layer, group)
        self.layers.append(layer)

    def end(self, _: list[Any]) -> None:
        if len(self.layers) > 1:
            self.layers.pop()

    def form(self, operands: list[Any]) -> None:
        found = self._resource("/XObject", operands[0]) if operands else None
        if not isinstance(found, pikepdf.Stream) or word(entry(found, "/Subtype")) != "Form":
            return
        layer = self._on(self.layers[-1], entry(found, "/OC"))
        self.home.read_form(found, self.resources, self.state, layer, self.depth + 1)

    def _on(self, layer: _Layer, group: Any) -> _Layer:
        """Returns a layer within a group or membership, hidden where that is not seen."""
        hidden = layer.hidden or not self.home.layers.shows(group)
        found = self.home.labels.of(group)
        names = (*layer.names, *(each for each in found.names if each not in layer.names))
        steps = (*layer.steps, *(each for each in found.steps if each not in layer.steps))
        if len(names) > PDF_LAYERS_MAX:
            said = f"draws on over {PDF_LAYERS_MAX} layers within one another; flatten its layers"
            raise LimitError(said)
        if (len(names), len(steps), hidden) == (len(layer.names), len(layer.steps), layer.hidden):
            return layer
        return _Layer(names, steps, hidden)

    def _enter(self, state: _State) -> None:
        self.state = state
        self.pen.affine = state.affine

    def _paint(self, closes: bool, strokes: bool, fills: bool) -> None:
        if closes:
            self.pen.close()
        self.pen.end()
        self.home.keep(self.pen, self.state, self.layers[-1], strokes, fills)
        self.pen = PathPen(self.state.affine)

    def _resource(self, kind: str, name: Any) -> Any:
        return entry(entry(self.resources, kind), f"/{word(name)}")


_DRAWS: dict[str, tuple[int, Callable[[PathPen, list[float]], None]]] = {
    "m": (2, lambda pen, n: pen.move(Point(n[0], n[1]))),
    "l": (2, lambda pen, n: pen.line(Point(n[0], n[1]))),
    "c": (6, lambda pen, n: pen.cubic(Point(n[0], n[1]), Point(n[2], n[3]), Point(n[4], n[5]))),
    "v": (4, lambda pen, n: pen.cubic(pen.here, Point(n[0], n[1]), Point(n[2], n[3]))),
    "y": (4, lambda pen, n: pen.cubic(Point(n[0], n[1]), Point(n[2], n[3]), Point(n[2], n[3]))),
    "h": (0, lambda pen, _: pen.close()),
    "re": (4, lambda pen, n: _rectangle(pen, *n)),
}
_STATES: dict[str, Callable[[_Run, list[Any]], None]] = {
    "q": _Run.save,
    "Q": _Run.restore,
    "cm": _Run.concat,
    "CS": _Run.stroke_space,
    "cs": _Run.fill_space,
    "SC": _Run.stroke_values,
    "SCN": _Run.stroke_values,
    "sc": _Run.fill_values,
    "scn": _Run.fill_values,
    "w": _Run.width,
    "d": _Run.dashes,
    "gs": _Run.graphics,
    "BDC": _Run.begin,
    "BMC": _Run.begin,
    "EMC": _Run.end,
    "Do": _Run.form,
}


# Everything else is passed over where the library reads it: type and images take most of a page.
_FOLLOWED = " ".join((*_DRAWS, *_PAINTS, "n", *_PLAIN_INKS, *_STATES))


def _rectangle(pen: PathPen, x: float, y: float, width: float, height: float) -> None:
    pen.move(Point(x, y))
    pen.line(Point(x + width, y))
    pen.line(Point(x + width, y + height))
    pen.line(Point(x, y + height))
    pen.close()
