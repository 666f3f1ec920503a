"""What each finish can hold: the finest line and gap, the smallest type, how near the cut.

No published standard was found for any of these: the printer's own numbers go before them.
"""

from __future__ import annotations

from dataclasses import dataclass

from mockup.trade.finishes import Finish
from mockup.trade.tolerances import COMMON, Limit


@dataclass(frozen=True)
class FinishLimits:
    """The limits of a finish: line and gap and type in points, how far from cut and fold in inches;
    None where the trade asks for nothing."""

    line: Limit
    gap: Limit
    type: Limit | None = None
    reach: Limit | None = None


FINISH_LIMITS: dict[Finish, FinishLimits] = {
    # Ink pressed by a polymer plate: as fine as the plate holds; gaps fill with ink.
    "letterpress": FinishLimits(Limit(0.25, "pt", COMMON), Limit(0.5, "pt", COMMON)),
    # Foil bridges gaps and leaves out what is finer than the die's edge.
    "foil": FinishLimits(
        Limit(0.5, "pt", COMMON),
        Limit(1.0, "pt", COMMON),
        Limit(8, "pt", COMMON),
        Limit(1 / 16, "in", COMMON),
    ),
    # Laid by a screen or in a second pass, off register by as much.
    "varnish": FinishLimits(
        Limit(1.0, "pt", COMMON), Limit(1.0, "pt", COMMON), Limit(8, "pt", COMMON)
    ),
    # Paper has to be pushed into the line: it takes room, and more the thicker it is.
    "deboss": FinishLimits(
        Limit(1.0, "pt", COMMON),
        Limit(1.0, "pt", COMMON),
        Limit(12, "pt", COMMON),
        Limit(1 / 8, "in", COMMON),
    ),
    "emboss": FinishLimits(
        Limit(1.0, "pt", COMMON),
        Limit(2.0, "pt", COMMON),
        Limit(12, "pt", COMMON),
        Limit(1 / 8, "in", COMMON),
    ),
}
"""By finish. White ink is judged as ink is."""

TORN_REACH = Limit(1 / 8, "in", COMMON)
"""How far in from a torn side its edge may wander: art there is torn off."""

EDGE_CALIPER = Limit(15, "mil", COMMON)
"""The thinnest paper whose painted edge is seen at all."""
