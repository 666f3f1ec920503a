"""What the checks measure against. The printer's own numbers go before these."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.trade.tolerances import CUT_SHIFT, SAFE


@dataclass(frozen=True)
class Settings:
    """Margins and wander in inches, the turn of a sheet in degrees, and the run that is tried."""

    safe_in: float = SAFE.value
    cut_shift_in: float = CUT_SHIFT.value
    turn_deg: float = 0.25  # common practice, no source: 0.03 in over the length of an A7 card
    near_in: float = 1 / 32  # a piece whose type is nearer the cut than this looks wrong
    run: int = 1000
    seed: int = 1
    operators: tuple[str, ...] = ("us",)
    ppi: float = 300.0
