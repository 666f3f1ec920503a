"""What a suite file says of folded cards: along which side, how they lie."""

from __future__ import annotations

from mockup.dies import Die
from mockup.dies.folding import Fold, unfolded
from mockup.errors import Mistake, SuiteError
from mockup.suite.schema import FoldedLies, PieceTable
from mockup.suite.suite import Shown
from mockup.units import Unit

_NO_BACK = (
    "a folded card's back is on the outside of its flat sheet, beside the front; what is printed "
    "inside is `inside`"
)
_NO_FOLD = 'only a folded card has that; write fold = "left" or fold = "top" as well'
_NO_STAND = 'only a card with fold = "top" stands as a tent; write "half-open", or fold it so'


def read_fold(table: PieceTable, die: Die, units: Unit) -> Fold | None:
    """Returns along which side a card is folded, None where it is flat.

    Raises SuiteError and DieError for what does not go together; the mistake's key is the key of
    the piece's table that is the cause.
    """
    if table.fold is None:
        for key in ("inside", "shown"):
            if getattr(table, key) is not None:
                raise SuiteError(Mistake(_NO_FOLD, key=key))
        return None
    if table.back is not None:
        raise SuiteError(Mistake(_NO_BACK, key="back"))
    if table.shown == "standing" and table.fold != "top":
        raise SuiteError(Mistake(_NO_STAND, key="shown", value=table.shown))
    unfolded(die, table.fold, units)
    return table.fold


def read_shown(table: PieceTable, usual: FoldedLies | None) -> Shown:
    """Returns how a folded card lies: as the piece says, else as the scene does, else closed."""
    return table.shown or usual or "closed"
