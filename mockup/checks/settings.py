"""What the checks measure against. The printer's own numbers go before these."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.trade.tolerances import CUT_SHIFT, LOOKS_WRONG, SAFE, TURN
from mockup.units import Unit, format_length, format_size


@dataclass(frozen=True)
class Settings:
    """Margins and wander in inches, the turn of a sheet in degrees, and the run that is tried.

    `units` are what findings tell lengths in; `operators_because` says how postal tables that
    nobody named were chosen.
    """

    safe_in: float = SAFE.value
    cut_shift_in: float = CUT_SHIFT.value
    turn_deg: float = TURN.value
    near_in: float = LOOKS_WRONG.value
    run: int = 1000  # judgement: shares to a tenth of a per cent
    seed: int = 1
    operators: tuple[str, ...] = ("us",)
    operators_because: str = ""
    units: Unit = "in"

    def length(self, length_in: float) -> str:
        """Returns a length as a finding tells it, in the suite's unit."""
        return format_length(length_in, self.units)

    def size(self, width_in: float, height_in: float) -> str:
        """Returns a size as a finding tells it, in the suite's unit."""
        return format_size(width_in, height_in, self.units)
