"""A reader of processing steps written from the standard's clauses, and from nothing of the program.

ISO 19593-1:2018: 6.1 steps are optional content groups; 6.2 each says by GTS_Metadata what it is;
6.3 what lies on them is in a spot colour of its own and overprints. ISO 32000-1: 8.11 optional
content, 8.6.6.4 Separation, 8.6.7 overprint, 8.5 paths.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pikepdf
from pikepdf import Name

STRUCTURAL = {  # ISO 19593-1:2018, table 3, the types of the group Structural
    *("Cutting", "PartialCutting", "ReversePartialCutting", "Creasing", "ReverseCreasing"),
    *("CuttingCreasing", "ReverseCuttingCreasing", "PartialCuttingCreasing"),
    *("ReversePartialCuttingCreasing", "Drilling", "Gluing", "FoilStamping", "ColdFoilStamping"),
    *("Embossing", "Debossing", "Perforating", "Bleed", "VarnishFree", "InkFree"),
    *("InkVarnishFree", "Folding", "Punching", "Stapling"),
}


@dataclass
class Step:
    """One step of a page: its group and type, its layer, and the paths that are painted on it."""

    group: str
    kind: str
    layer: str
    seen: bool
    printed: bool
    paths: list[Stroke] = field(default_factory=list)


@dataclass
class Stroke:
    """A path that is stroked: its subpaths as lists of points (controls included), user space."""

    ink: str
    overprint: bool
    width: float
    subpaths: list[list[tuple[float, float]]]
    closed: list[bool]


def steps_of(file: Path, layers: tuple[str, ...] = ("Cut", "Crease")) -> list[Step]:
    """Returns the steps of a file's one page that lie on some layers. Raises AssertionError for
    what the clauses forbid."""
    with pikepdf.open(file) as pdf:
        (page,) = pdf.pages
        properties = pdf.Root.OCProperties
        default = properties.D
        off = {each.objgen for each in default.get("/OFF", [])}
        found: dict[tuple[int, int], Step] = {}
        for group in properties.OCGs:
            metadata = group.get("/GTS_Metadata")
            if metadata is None or str(group.Name) not in layers:
                continue
            name = str(metadata.GTS_ProcStepsGroup)[1:]
            kind = str(metadata.get("/GTS_ProcStepsType", "/"))[1:]  # White and others have none
            assert name != "Structural" or kind in STRUCTURAL, kind
            seen = group.objgen not in off and default.get("/BaseState", "/ON") != "/OFF"
            found[group.objgen] = Step(name, kind, str(group.Name), seen, _printed(default, group))
        _read(page, found)
        return list(found.values())


def _printed(default: Any, group: Any) -> bool:
    """Whether a group is printed: by its usage, where the configuration applies it (8.11.4.4)."""
    for usage in default.get("/AS", []):
        members = {each.objgen for each in usage.get("/OCGs", [])}
        if (
            usage.Event == Name.Print
            and Name.Print in list(usage.Category)
            and group.objgen in members
        ):
            return group.Usage.Print.PrintState != Name.OFF
    return True


def _read(page: pikepdf.Page, steps: dict[tuple[int, int], Step]) -> None:
    resources = page.obj.Resources
    state: dict[str, Any] = {"ink": None, "overprint": False, "width": 1.0, "dashes": True}
    saved: list[dict[str, Any]] = []
    marks: list[Step | None] = []
    subpaths: list[list[tuple[float, float]]] = []
    closed: list[bool] = []
    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        numbers = [
            float(each) for each in operands if isinstance(each, (int, float)) or _real(each)
        ]
        on = next((each for each in reversed(marks) if each is not None), None)
        if name == "q":
            saved.append(dict(state))
        elif name == "Q" and saved:
            state = saved.pop()
        elif name in ("BDC", "BMC"):
            group = None
            if name == "BDC" and str(operands[0]) == "/OC":
                group = steps.get(resources.Properties[str(operands[1])].objgen)
            marks.append(group)
        elif name == "EMC":
            marks.pop()
        elif name == "gs":
            told = resources.ExtGState[str(operands[0])]
            if "/OP" in told:
                state["overprint"] = bool(told.OP)
        elif name == "CS":
            space = resources.get("/ColorSpace", {}).get(str(operands[0]))
            is_spot = isinstance(space, pikepdf.Array) and str(space[0]) == "/Separation"
            state["ink"] = str(space[1])[1:] if is_spot else None
        elif name == "w":
            state["width"] = numbers[0]
        elif name == "m":
            subpaths.append([(numbers[0], numbers[1])])
            closed.append(False)
        elif name in ("l", "c"):
            pairs = list(zip(numbers[0::2], numbers[1::2], strict=True))
            subpaths[-1] += [subpaths[-1][-1], *pairs[:1], *pairs] if name == "l" else pairs
            if name == "l":  # a line is a cubic of four points in a row
                subpaths[-1][-3:] = [subpaths[-1][-4], pairs[0], pairs[0]]
        elif name == "h":
            closed[-1] = True
        elif name in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n", "Do", "Tj", "TJ", "sh"):
            if on is not None:
                assert name == "S", f"a step is stroked and nothing else, not {name}"
                assert state["ink"] not in (None, "All", "None"), "a step has a spot ink of its own"
                assert state["overprint"], "a step overprints"
                on.paths.append(
                    Stroke(state["ink"], True, state["width"], list(subpaths), list(closed))
                )
            subpaths, closed = [], []
    assert not saved and not marks, "the page is left as it was begun"


def _real(value: Any) -> bool:
    return type(value).__name__ == "Decimal"
