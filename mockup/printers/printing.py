"""What a printer's press takes, as its catalogue says.

[printing]
thinnest_mil = 8        # stock that is thinner is not fed
thickest_mil = 24
backs = false           # nothing is printed on a back; left out, it is
"""

from __future__ import annotations

from dataclasses import dataclass

from mockup.errors import Mistake
from mockup.printers.cells import Table, Thickness


class PrintingTable(Table):
    """`[printing]`."""

    thinnest_mil: Thickness | None = None
    thickest_mil: Thickness | None = None
    backs: bool = True


@dataclass(frozen=True)
class Printing:
    """The thinnest and the thickest stock that is printed on, thousandths of an inch, None where
    nothing is said; whether backs are printed."""

    thinnest_mil: float | None = None
    thickest_mil: float | None = None
    backs: bool = True

    def feeds(self, caliper_mil: float) -> bool:
        """Returns whether stock of a thickness is printed on."""
        thin = self.thinnest_mil is not None and caliper_mil < self.thinnest_mil
        return not thin and (self.thickest_mil is None or caliper_mil <= self.thickest_mil)


WHATEVER_COMES = Printing()
"""What is taken where a catalogue says nothing of it."""


def printing_of(table: PrintingTable) -> Printing:
    """Returns what a table without mistakes says."""
    ends = (table.thinnest_mil, table.thickest_mil)
    thin, thick = (None if each is None else float(each) for each in ends)
    return Printing(thin, thick, table.backs)


def printing_mistakes(file: str, table: PrintingTable) -> list[Mistake]:
    """Returns what is wrong beyond the form: a press that takes no stock."""
    thin, thick = table.thinnest_mil, table.thickest_mil
    if thin is None or thick is None or thin <= thick:
        return []
    said = f"is more than thickest_mil, {thick}; no stock would be printed on"
    return [Mistake(said, file, "printing.thinnest_mil", str(thin))]
