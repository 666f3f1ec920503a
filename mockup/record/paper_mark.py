"""The mark a page of answers bears, for machines to read: which proof and which page it is of."""

from __future__ import annotations

import re
from dataclasses import dataclass

_FORM = re.compile(
    r"PROOF (?P<revision>[1-9][0-9]{0,6}) (?P<mark>[0-9A-HJKMNP-TV-Z]{8}) "
    r"(?P<paper>[A-Z0-9]{1,12}) (?P<layout>[0-9]{1,3}) (?P<page>[0-9]{1,3})"
)


@dataclass(frozen=True)
class PaperMark:
    """What a page of answers says of itself.

    `mark` is the proof's own; `paper` the name of the paper it is set on; `layout` the number of
    the plan its places follow; `page` counts the pages of answers from 1.
    """

    revision: int
    mark: str
    paper: str
    layout: int
    page: int

    @property
    def text(self) -> str:
        """The mark in letters that a QR code packs closely (ISO/IEC 18004, alphanumeric mode)."""
        return f"PROOF {self.revision} {self.mark} {self.paper.upper()} {self.layout} {self.page}"


def paper_mark(text: str) -> PaperMark | None:
    """Returns the mark a text spells, None where it spells none."""
    found = _FORM.fullmatch(text.strip())
    if found is None:
        return None
    return PaperMark(
        int(found["revision"]),
        found["mark"],
        found["paper"].lower(),
        int(found["layout"]),
        int(found["page"]),
    )
