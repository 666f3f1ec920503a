"""The content of a PDF page read operator by operator: paths painted, through forms and layers.

Only what moves or names a path is followed: the matrix, the colour spaces, marked content, forms.
Operators as ISO 32000-1 tables 51 to 61 and 320 list them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import pikepdf

from mockup.errors import LimitError
from mockup.geometry.affine import Affine
from mockup.geometry.point import Point
from mockup.vector.pen import PathPen
from mockup.vector.template import TemplatePath

FORM_DEPTH_MAX = 16
FORMS_MAX = 2_000
OPERATORS_MAX = 1_000_000

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
_PLAIN_INKS = {"G": "stroke", "RG": "stroke", "K": "stroke", "g": "fill", "rg": "fill", "k": "fill"}


@dataclass(frozen=True)
class _State:
    affine: Affine
    stroke: tuple[str, ...] = ()
    fill: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Layer:
    names: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()


class PaintedPaths:
    """Reads content streams and keeps the paths they paint, in the order they are painted."""

    def __init__(self, name: str) -> None:
        self.paths: list[TemplatePath] = []
        self._name = name
        self._forms = 0
        self._operators = 0
        self._painted = 0

    def read_page(self, page: pikepdf.Page, to_inches: Affine) -> None:
        """Reads a page. Raises LimitError for one that draws without end."""
        self._read(page, page.resources, _State(to_inches), _Layer(), 0)

    def read_form(
        self, form: Any, resources: Any, state: _State, layer: _Layer, depth: int
    ) -> None:
        """Reads a form XObject within the state and layer it is drawn in."""
        self._forms += 1
        if depth > FORM_DEPTH_MAX or self._forms > FORMS_MAX:
            raise LimitError(f"{self._name}: draws forms within forms without end")
        matrix = form.get("/Matrix")
        own = (
            Affine(*(float(v) for v in matrix)) if matrix is not None else Affine(1, 0, 0, 1, 0, 0)
        )
        inside = replace(state, affine=state.affine @ own)
        self._read(form, form.get("/Resources", resources), inside, layer, depth)

    def _read(self, stream: Any, resources: Any, state: _State, layer: _Layer, depth: int) -> None:
        run = _Run(self, resources, state, layer, depth)
        for operands, operator in pikepdf.parse_content_stream(stream):
            self._operators += 1
            if self._operators > OPERATORS_MAX:
                raise LimitError(f"{self._name}: has over {OPERATORS_MAX} drawing operators")
            run.do(str(operator), list(operands))

    def keep(self, pen: PathPen, state: _State, layer: _Layer, strokes: bool, fills: bool) -> None:
        """Keeps what a pen gathered, as one paint operator painted it."""
        inks = (*(state.stroke if strokes else ()), *(state.fill if fills else ()))
        self._painted += 1
        for segments, closed in pen.runs:
            self.paths.append(
                TemplatePath(
                    tuple(segments), closed, fills, self._painted, layer.names, inks, layer.steps
                )
            )


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
            _DRAWS[operator](self.pen, [float(value) for value in operands])
        elif operator in _PAINTS:
            self._paint(*_PAINTS[operator])
        elif operator == "n":
            self.pen = PathPen(self.state.affine)
        elif operator in _PLAIN_INKS:
            self.state = replace(self.state, **{_PLAIN_INKS[operator]: ()})
        elif operator in _STATES:
            _STATES[operator](self, operands)

    def save(self, _: list[Any]) -> None:
        self.saved.append(self.state)

    def restore(self, _: list[Any]) -> None:
        if self.saved:
            self._enter(self.saved.pop())

    def concat(self, operands: list[Any]) -> None:
        own = Affine(*(float(value) for value in operands))
        self._enter(replace(self.state, affine=self.state.affine @ own))

    def stroke_space(self, operands: list[Any]) -> None:
        self.state = replace(self.state, stroke=self._inks(operands[0]))

    def fill_space(self, operands: list[Any]) -> None:
        self.state = replace(self.state, fill=self._inks(operands[0]))

    def begin(self, operands: list[Any]) -> None:
        layer = self.layers[-1]
        if len(operands) == 2 and str(operands[0]) == "/OC":
            group = operands[1]
            if isinstance(group, pikepdf.Name):
                group = self._resource("/Properties", group)
            layer = _within(layer, group)
        self.layers.append(layer)

    def end(self, _: list[Any]) -> None:
        if len(self.layers) > 1:
            self.layers.pop()

    def form(self, operands: list[Any]) -> None:
        found = self._resource("/XObject", operands[0])
        if found is None or str(found.get("/Subtype")) != "/Form":
            return
        layer = _within(self.layers[-1], found.get("/OC"))
        self.home.read_form(found, self.resources, self.state, layer, self.depth + 1)

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
        table = self.resources.get(kind)
        return table.get(str(name)) if table is not None else None

    def _inks(self, name: Any) -> tuple[str, ...]:
        """Returns the colourants of a Separation or DeviceN space, none for any other."""
        space = self._resource("/ColorSpace", name)
        if not isinstance(space, pikepdf.Array) or len(space) < 2:
            return ()
        kind = str(space[0])
        if kind == "/Separation":
            return (_plain(space[1]),)
        return tuple(_plain(each) for each in space[1]) if kind == "/DeviceN" else ()


_DRAWS: dict[str, Callable[[PathPen, list[float]], None]] = {
    "m": lambda pen, n: pen.move(Point(n[0], n[1])),
    "l": lambda pen, n: pen.line(Point(n[0], n[1])),
    "c": lambda pen, n: pen.cubic(Point(n[0], n[1]), Point(n[2], n[3]), Point(n[4], n[5])),
    "v": lambda pen, n: pen.cubic(pen.here, Point(n[0], n[1]), Point(n[2], n[3])),
    "y": lambda pen, n: pen.cubic(Point(n[0], n[1]), Point(n[2], n[3]), Point(n[2], n[3])),
    "h": lambda pen, _: pen.close(),
    "re": lambda pen, n: _rectangle(pen, *n),
}
_STATES: dict[str, Callable[[_Run, list[Any]], None]] = {
    "q": _Run.save,
    "Q": _Run.restore,
    "cm": _Run.concat,
    "CS": _Run.stroke_space,
    "cs": _Run.fill_space,
    "BDC": _Run.begin,
    "BMC": _Run.begin,
    "EMC": _Run.end,
    "Do": _Run.form,
}


def _rectangle(pen: PathPen, x: float, y: float, width: float, height: float) -> None:
    pen.move(Point(x, y))
    pen.line(Point(x + width, y))
    pen.line(Point(x + width, y + height))
    pen.line(Point(x, y + height))
    pen.close()


def _within(layer: _Layer, group: Any) -> _Layer:
    """Returns a layer with an optional content group, or all groups of a membership, added."""
    if not isinstance(group, pikepdf.Dictionary):
        return layer
    if "/OCGs" in group:  # a membership dictionary, ISO 32000-1 table 99
        groups = group["/OCGs"]
        for each in groups if isinstance(groups, pikepdf.Array) else [groups]:
            layer = _within(layer, each)
        return layer
    names = (*layer.names, str(group["/Name"])) if "/Name" in group else layer.names
    meant = group.get("/GTS_Metadata")
    if meant is None or "/GTS_ProcStepsGroup" not in meant:
        return replace(layer, names=names)
    step = _plain(meant["/GTS_ProcStepsGroup"])
    if "/GTS_ProcStepsType" in meant:
        step = f"{step}/{_plain(meant['/GTS_ProcStepsType'])}"
    return _Layer(names, (*layer.steps, step))


def _plain(name: Any) -> str:
    return str(name).removeprefix("/")
