"""How a page's drawing leaves the graphics state: what a program that adds to it has to close."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pikepdf

from mockup.errors import InputError
from mockup.foreign.drawings import PATH_PAINTING, TYPE_SHOWING
from mockup.vector.pdf_objects import entry
from mockup.vector.stumbling import asked

_PAINTING = (*PATH_PAINTING, *TYPE_SHOWING, "sh", "Do", "BI", "INLINE IMAGE")
_STATE = (
    *("cm", "w", "J", "j", "M", "d", "ri", "i", "gs", "W", "W*"),
    *("CS", "cs", "SC", "SCN", "sc", "scn", "G", "g", "RG", "rg", "K", "k"),
    *("Tf", "Tc", "Tw", "Tz", "TL", "Tr", "Ts"),
)
_FOLLOWED = " ".join(("q", "Q", "BT", "ET", "BMC", "BDC", "EMC", *_PAINTING[:-2], "BI", *_STATE))
_UNCLEAR = (
    "restores the graphics state more often than it saves it, and draws on, which every program "
    "reads in its own way; save it again as PDF"
)


@dataclass(frozen=True)
class Balance:
    """What a page's drawing leaves open: states saved, states restored that were not saved,
    a text object, marked contents."""

    saved: int = 0
    surplus: int = 0
    in_type: bool = False
    marks: int = 0


def balance_of(page: Any) -> Balance:
    """Returns how a page's drawing ends.

    Raises InputError where it cannot be read, and where it restores a state that was never saved,
    and paints on: programs take that in different ways (MuPDF and Ghostscript begin anew, PDFium
    goes on, poppler stops).
    """
    if entry(page, "/Contents") is None:
        return Balance()
    found = asked(pikepdf.parse_content_stream, pikepdf.Page(page), _FOLLOWED, otherwise=None)
    if found is None:
        raise InputError("is broken (its drawing cannot be read); save it again as PDF")
    run = _Run()
    for each in found:
        run.do(str(each.operator))
    return Balance(run.depth, run.surplus, run.in_type, run.marks)


class _Run:
    """A drawing followed from its beginning."""

    def __init__(self) -> None:
        self.depth = self.surplus = self.marks = 0
        self.in_type = self.changed = self.unclear = False

    def do(self, operator: str) -> None:
        """Follows one operator. Raises InputError where what it paints is not clear."""
        if operator in _PAINTING and self.unclear:
            raise InputError(_UNCLEAR)
        if operator in _STATE and self.depth == 0:
            self.changed = True
        match operator:
            case "q":
                self.depth += 1
            case "Q":
                self._restore()
            case "BT" | "ET":
                self.in_type = operator == "BT"
            case "EMC":
                self.marks = max(0, self.marks - 1)
            case "BMC" | "BDC":
                self.marks += 1
            case _:
                pass

    def _restore(self) -> None:
        if self.depth:
            self.depth -= 1
        else:
            self.surplus += 1
            self.unclear = self.unclear or self.changed
