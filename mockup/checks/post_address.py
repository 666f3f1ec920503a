"""Whether an address can be read on its paper: by a sorting machine, and, apart, by people.

Judged for black ink as it prints on that paper; nobody says where or how she will address it.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

import numpy as np

from mockup.checks.finding import Finding, Severity, found
from mockup.colour.contrast import contrast
from mockup.colour.icc_reading import Condition, read_condition
from mockup.colour.lab import lab_of_xyz, xyz_of_rgb
from mockup.colour.press import COATED, UNCOATED, Press
from mockup.colour.reflectance import (
    ALMOST,
    Reflectance,
    of_black,
    of_paper,
    of_white_ink,
)
from mockup.colour.srgb import Rgb
from mockup.trade.postal import ADVICE
from mockup.trade.postal_tables import PostalOperator
from mockup.trade.tolerances import CONTRAST_SMALL, Limit

POST, READ = "post", "contrast"
# Red is judged: hues from crimson to brick, and stronger than blush or a terracotta tint.
_RED_HUES, _RED_CHROMA = (-20.0, 50.0), 45.0


class Ground(NamedTuple):
    """Paper an address will stand on: whose it is, its colour and what that is called, and
    whether it is coated; how the ink of her own address looks on it, None for black."""

    owner: str
    colour: Rgb
    called: str
    coated: bool
    ink: Rgb | None = None
    ink_called: str = "black"


class _Verdict(NamedTuple):
    """One rule on a ground: what is measured, in words, and what is asked."""

    told: str
    value: float
    limit: Limit

    @property
    def short_by(self) -> float:
        return self.limit.value - self.value


def machine_findings(operator: PostalOperator, ground: Ground) -> list[Finding]:
    """Returns what an operator's rules of reflectance say of a black address: a warning where one
    is not met, a note where a meter has to be asked."""
    if _is_reversed(ground) and (limit := operator.limits.get("reversed_address")) is not None:
        return [_reversed(operator, ground, limit)]
    short = [each for each in _verdicts(operator, ground) if each.short_by > -ALMOST]
    if not short:
        return []
    short.sort(key=lambda each: -each.short_by)
    told = "; ".join(each.told for each in short)
    failed = short[0].short_by > ALMOST
    message = f"{operator.title}: {_article(ground)} address on {ground.called} {told}"
    if failed:
        if "reversed_address" in operator.limits:
            message += "; light type on dark paper is not read by machine either"
        fix = f"address it on a light label or a belly band, or allow for sorting by hand. {ADVICE}"
    else:
        message += ": too near to tell from a colour"
        fix = f"have a sample of the paper metered. {ADVICE}"
    severity = Severity.WARN if failed else Severity.NOTE
    value = round(max(short[0].value, 0.0), 3)
    return [found(POST, severity, ground.owner, message, fix, short[0].limit, value)]


def reader_findings(ground: Ground) -> list[Finding]:
    """Returns a note where people would not read black on a ground easily, and whether they would
    read white ink; the post's machines are another matter."""
    if ground.ink is not None:
        return _own_ink(ground, ground.ink)
    paper, black = of_paper(ground.colour), _ink(ground)
    in_black = _contrast(paper, black)
    if in_black >= CONTRAST_SMALL.value:
        return []
    in_white = _contrast(paper, of_white_ink(ground.colour))
    message = f"an address in black on {ground.called} has a contrast of {in_black:.1f} to 1"
    message += f"; in white ink, one hit of it, {in_white:.1f} to 1"
    fix = "address it in white or pale ink" if in_white > in_black else "choose a paler paper"
    if max(in_black, in_white) < CONTRAST_SMALL.value:
        fix = "address it on a label or a belly band"
    value = round(in_black, 2)
    return [found(READ, Severity.NOTE, ground.owner, message, fix, CONTRAST_SMALL, value)]


def _verdicts(operator: PostalOperator, ground: Ground) -> Iterator[_Verdict]:
    """Yields every rule an operator has, as measured."""
    limits, paper, black = operator.limits, of_paper(ground.colour), _ink(ground)
    red, green = paper.red - black.red, paper.green - black.green
    if (limit := limits.get("background_reflectance")) is not None:
        said = f"stands on paper that reflects about {_per_cent(paper.red)}"
        yield _Verdict(f"{said} in red, {_per_cent(limit.value)} is asked", paper.red, limit)
    if (limit := limits.get("reflectance_difference")) is not None:
        said = f"differs from it by about {_per_cent(red)} of reflectance in red"
        said += f" and {_per_cent(green)} in green, {_per_cent(limit.value)} is asked"
        yield _Verdict(said, min(red, green), limit)
    if (limit := limits.get("red_reflectance_difference")) is not None:
        said = f"differs from it by about {_per_cent(red)} of reflectance in red"
        yield _Verdict(f"{said}, {_per_cent(limit.value)} is asked", red, limit)
    if (limit := limits.get("print_contrast")) is not None and paper.red > 0:
        share = red / paper.red
        said = f"has a print contrast of {_per_cent(share)}, {_per_cent(limit.value)} is asked"
        yield _Verdict(said, share, limit)
    if (limit := limits.get("red_envelope")) is not None and _is_red(ground.colour):
        yield _Verdict("stands on red, which is not taken", limit.value - 1, limit)


def _own_ink(ground: Ground, ink: Rgb) -> list[Finding]:
    """Returns a note where people would not easily read the ink an address is shown in."""
    seen = _contrast(of_paper(ground.colour), of_paper(ink))
    if seen >= CONTRAST_SMALL.value:
        return []
    ink_told = ground.ink_called.replace("-", " ")
    message = f"the address in {ink_told} on {ground.called} has a contrast of {seen:.1f} to 1"
    fix = "take another ink: black on pale paper, white ink on dark"
    value = round(seen, 2)
    return [found(READ, Severity.NOTE, ground.owner, message, fix, CONTRAST_SMALL, value)]


def _is_reversed(ground: Ground) -> bool:
    """Returns whether her own ink is lighter than the paper."""
    return ground.ink is not None and _ink(ground).luminance > of_paper(ground.colour).luminance


def _reversed(operator: PostalOperator, ground: Ground, limit: Limit) -> Finding:
    message = (
        f"{operator.title}: {_article(ground)} address on {ground.called} is lighter than its "
    )
    message += "paper, which machines do not read"
    fix = f"address it on a light label or a belly band, or allow for sorting by hand. {ADVICE}"
    return found(POST, Severity.WARN, ground.owner, message, fix, limit, 1.0)


def _article(ground: Ground) -> str:
    return "a black" if ground.ink is None else f"the {ground.ink_called}"


def _ink(ground: Ground) -> Reflectance:
    if ground.ink is not None:
        return of_paper(ground.ink)
    return of_black(_condition(COATED if ground.coated else UNCOATED), ground.colour)


@cache
def _condition(press: Press) -> Condition:
    return read_condition(press.profile.read_bytes())  # one that comes with the program


def _contrast(first: Reflectance, second: Reflectance) -> float:
    return float(contrast(np.array(first.luminance), np.array(second.luminance)))


def _is_red(colour: Rgb) -> bool:
    _, a, b = lab_of_xyz(xyz_of_rgb(colour))
    hue = float(np.degrees(np.arctan2(b, a)))
    return _RED_HUES[0] <= hue <= _RED_HUES[1] and float(np.hypot(a, b)) >= _RED_CHROMA


def _per_cent(share: float) -> str:
    return f"{max(share, 0.0) * 100:.0f} %"
