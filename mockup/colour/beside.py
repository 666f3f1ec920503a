"""Two colours that lie side by side: a match, a miss, or meant to differ; and what would mend it.

All thresholds are here. They are judgements; nobody has tried them on people. What they lean on:
what a press run keeps to, what eyes take for the same, and that most of the liking for two colours
side by side comes with a difference in lightness of 10, nearly all of it by 15.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from mockup.colour.difference import terms

Lab = tuple[float, float, float]
"""CIELAB under D50: L*, a*, b*."""

MATCH_DE00 = 2.0
"""Up to this it is a planned match. Judgement; reviews of eyes' limits have 0.8 to 1.7 for what is
seen and 1.8 to 3.7 for what is minded."""

PRODUCTION_DE00 = 5.0
"""What a planned match may come to in production. Judgement, from measured presses: the same inks
on two coated presses differ by 1.3 to 2.9, on coated and uncoated paper by 6 to 7 (means)."""

NEAR_DE00 = 12.0
"""Below this, without a reason, it looks like a match that was missed. Judgement."""

NEAR_LIGHTNESS = 10.0
"""|dL*|: nearer than this lightness is no reason. Half the effect of a difference in lightness on
how well two colours go together is had here (Ou and Luo 2006, H of dL)."""

APART_LIGHTNESS = 15.0
"""|dL*| from which it looks meant: NEAR_LIGHTNESS and PRODUCTION_DE00. Most of the effect is had
(Ou and Luo 2006)."""

APART_HUE = 12.0
"""|dH'/(kH SH)| from which two colours are of two hues. Judgement."""

COLOURFUL = 15.0
"""C*: below it a colour's hue is not seen well enough to be a reason. Judgement."""

APART_CHROMA = 25.0
"""|dC'/(kC SC)| from which one is a grey and the other a colour. Judgement."""

SPEAKING_SHARE = 0.05
"""The least share of a face a colour takes before it is judged beside another. Judgement: a line of
type or a small mark is not held against an envelope."""


DOUBTED_DE00 = 15.0
"""A borderline pair further apart than this is not taken for a match by anybody. Judgement."""


class Verdict(StrEnum):
    """What two colours side by side are taken for."""

    MATCH = "planned match"
    NEAR_MISS = "near miss"
    BORDERLINE = "borderline"
    DELIBERATE = "deliberate"


@dataclass(frozen=True)
class Beside:
    """Two colours compared: CIEDE2000, how much the first is lighter and more colourful (L*, C*),
    how far apart in hue (CIEDE2000's own term, signless), what they are taken for, by which of
    "lightness", "hue" and "chroma" they look meant to differ, if they do, and how clearly: 1 is
    just so."""

    verdict: Verdict
    difference: float
    lightness: float
    chroma: float
    hue: float
    because: str
    clearly: float

    @property
    def is_near_miss(self) -> bool:
        """Whether it looks like a match that failed."""
        return self.verdict is Verdict.NEAR_MISS

    @property
    def is_doubtful(self) -> bool:
        """Whether somebody may take it for a match that failed, surely or perhaps."""
        perhaps = self.verdict is Verdict.BORDERLINE and self.difference < DOUBTED_DE00
        return perhaps or self.is_near_miss


def compared(first: Lab, second: Lab, same_ink: bool = False) -> Beside:
    """Returns what two colours side by side are taken for.

    `same_ink` says that both are printed from the same numbers: a match, whatever paper makes of
    it.
    """
    one, other = np.array(first, np.float64), np.array(second, np.float64)
    parts = terms(other, one)
    total = float(parts.total)
    lightness = first[0] - second[0]
    chromas = _chroma(one), _chroma(other)
    hue = abs(float(parts.hue))
    reasons = {
        "lightness": abs(lightness) / APART_LIGHTNESS,
        "hue": hue / APART_HUE if min(chromas) >= COLOURFUL else 0.0,
        "chroma": abs(float(parts.chroma)) / APART_CHROMA,
    }
    because = next((name for name, clearly in reasons.items() if clearly >= 1), "")
    verdict = _verdict(total, abs(lightness), because)
    if same_ink and verdict is not Verdict.DELIBERATE:
        verdict = Verdict.MATCH
    reason = because if verdict is Verdict.DELIBERATE else ""
    clearly = max(reasons.values())
    return Beside(verdict, total, lightness, chromas[0] - chromas[1], hue, reason, clearly)


def _chroma(lab: NDArray[np.float64]) -> float:
    return float(np.hypot(lab[1], lab[2]))


def _verdict(total: float, lightness: float, because: str) -> Verdict:
    if total <= MATCH_DE00:
        return Verdict.MATCH
    if because:
        return Verdict.DELIBERATE
    near = lightness < NEAR_LIGHTNESS and total < NEAR_DE00
    return Verdict.NEAR_MISS if near else Verdict.BORDERLINE
