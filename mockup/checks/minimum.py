"""The quantity ordered against the least that printers who have the die cut."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext
from mockup.printers.choosing import customs_of, offers_of
from mockup.suite.suite import Piece
from mockup.trade.tolerances import Limit

CHECK = "minimum"
UNCUT = "rectangle"  # trimmed on the guillotine: no die, no minimum of one


def check_minimum(context: SuiteContext) -> list[Finding]:
    """Returns the pieces of which fewer are ordered than any of the printers cuts."""
    return [
        finding
        for piece in context.suite.pieces
        if piece.quantity is not None and piece.die.name != UNCUT
        and (finding := _too_few(context, piece, piece.quantity)) is not None
    ]  # fmt: skip


def _too_few(context: SuiteContext, piece: Piece, quantity: int) -> Finding | None:
    """Returns a warning where every printer asks for more; those who have the die go first."""
    thick = piece.stock.caliper_mil
    asked = [(o.terms.minimum, o.printer) for o in offers_of(context.printers, piece.die, thick)]
    how = "cuts this die"
    if not asked:
        made = customs_of(context.printers, thick)
        asked = [(custom.terms.minimum, custom.printer) for custom in made]
        how = "cuts a die made for you"
    if not asked:
        return None
    least, printer = min(asked)
    if quantity >= least:
        return None
    message = f"{quantity} are ordered; {printer} {how} from {least} copies on"
    fix = f"order {least}, or ask the printer"
    limit = Limit(least, "pieces", f"the catalogue of {printer}")
    return found(CHECK, Severity.WARN, piece.name, message, fix, limit, quantity)
