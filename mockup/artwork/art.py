"""A page of artwork as it stood when the suite was read: file, page, and the mark of its bytes."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.colour.press import UNCOATED, Press
from mockup.colour.white_ink import BY_PLATE, WhiteInk
from mockup.sources import read_whole, sha256_of
from mockup.trade.finishes import Finish
from mockup.trade.limits import FILE_MAX_BYTES
from mockup.trade.metals import Metal
from mockup.trade.swatch import Swatch


@dataclass(frozen=True)
class FinishSaid:
    """A finish of a page, as the suite says it: by a plate or a layer named there, by a page of its
    own, or, of letterpress without either, by all the inks."""

    finish: Finish
    plate: str = ""
    metal: Metal | None = None
    art: Art | None = None
    """The page that is its plate, laid on the same card."""

    @property
    def is_of_all(self) -> bool:
        """Whether it is said of no plate, and has no page of its own."""
        return not self.plate and self.art is None


@dataclass(frozen=True)
class Art:
    """One page of one file, by the SHA-256 of its bytes; `left_out` are marks that are not drawn.

    A file that changes while the program runs is told, not drawn: what is shown and what is
    checked are the same bytes. Marks are numbered as a page paints them, from 0.
    """

    path: Path
    page: int
    sha256: str
    left_out: frozenset[int] = frozenset()
    press: Press = UNCOATED
    """By which its inks are shown, where the file itself names no press."""
    white: WhiteInk = BY_PLATE
    """Where white ink is printed; by itself where the art's own white plate has it."""
    swatch: Swatch | None = None
    """What was measured of its inks on its stock."""
    finishing: tuple[FinishSaid, ...] = ()
    """What the suite says of its finishes, where the names of plates do not say it."""

    @property
    def where(self) -> str:
        """The file and page, as messages name them."""
        return f"{self.path}, page {self.page}"


def art_of(path: Path, page: int = 1, press: Press = UNCOATED) -> Art:
    """Returns a page of a file. Raises InputError and LimitError for one that cannot be read."""
    return Art(path, page, sha256_of(read_whole(path, FILE_MAX_BYTES)), press=press)
