"""What `pick` asks for: outlines by a name, by number, by size or by colour."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NoReturn

from mockup.dies.joining import closed_outlines
from mockup.dies.template.evidence import Candidate
from mockup.dies.template.naming import names_of
from mockup.dies.template.page import Page, same_size
from mockup.dies.template.wording import choices
from mockup.errors import InputError, SuiteError, nearest
from mockup.trade.colour_words import colours_said, is_called
from mockup.units import Unit, parse_size
from mockup.vector.template import TemplatePath

THE_PAGE = "page"
_HEX = re.compile(r"#?([0-9a-f]{6}|[0-9a-f]{3})", re.I)
_NEAR = 0.1  # judgement: a colour read off a screen is as near as that in every channel


@dataclass(frozen=True, eq=False)
class Asked:
    """The candidates that are asked for, and how, in words."""

    candidates: tuple[Candidate, ...]
    how: str


def asked_for(pick: str, page: Page, candidates: Sequence[Candidate], unit: Unit) -> Asked | None:
    """Returns what is asked for; None where there is nothing like it.

    Raises InputError where a name is that of lines which do not close.
    """
    for reading in (_by_name, _by_number, _by_size, _by_colour):
        found = reading(pick.strip(), page, candidates, unit)
        if found is not None:
            return found
    return None


def refuse_unknown(
    name: str, pick: str, paths: Sequence[TemplatePath], candidates: Sequence[Candidate], unit: Unit
) -> NoReturn:
    """Raises InputError: there is no such outline; those there are."""
    names = names_of(paths)
    hint = nearest(pick, sorted(names)) or (f"; there are {', '.join(names[:12])}" if names else "")
    listing = f"; its outlines are {choices(candidates, unit)}" if candidates else ""
    if hint.startswith("; did you mean"):
        listing = ""
    raise InputError(f'{name}: no layer or ink called "{pick}"{hint or "; it names none"}{listing}')


def _by_name(pick: str, page: Page, candidates: Sequence[Candidate], unit: Unit) -> Asked | None:
    wanted = pick.casefold()
    paths = [p for p in page.paths if wanted in {n.casefold() for n in names_of([p])}]
    if not paths:
        return None
    ids = {id(path) for path in paths}
    found = [each for each in candidates if any(id(path) in ids for path in each.ring.paths)]
    if not found:
        closed_outlines(page.template.name, paths)  # raises where they stay open
    return Asked(tuple(found), f'the layer or ink "{pick}", as asked') if found else None


def _by_number(pick: str, page: Page, candidates: Sequence[Candidate], unit: Unit) -> Asked | None:
    found = [each for each in candidates if pick == str(each.number)]
    return Asked(tuple(found), f"outline {pick}, as asked") if found else None


def _by_size(pick: str, page: Page, candidates: Sequence[Candidate], unit: Unit) -> Asked | None:
    try:
        size = parse_size(pick, unit)
    except SuiteError:  # no size: perhaps a colour
        return None
    found = [each for each in candidates if same_size(each.ring.size_in, size)]
    return Asked(tuple(found), f"the outline of {pick}, as asked") if found else None


def _by_colour(pick: str, page: Page, candidates: Sequence[Candidate], unit: Unit) -> Asked | None:
    match = _HEX.fullmatch(pick)
    if match is not None:
        digits = match[1] if len(match[1]) == 6 else "".join(each * 2 for each in match[1])
        shares = [int(digits[k : k + 2], 16) / 255 for k in (0, 2, 4)]
        found = [
            each
            for each in candidates
            if each.ring.look.rgb is not None
            and all(abs(a - b) <= _NEAR for a, b in zip(each.ring.look.rgb, shares, strict=True))
        ]
    else:
        names = colours_said(pick)
        found = [
            each
            for each in candidates
            if (rgb := each.ring.look.rgb) is not None and any(is_called(rgb, n) for n in names)
        ]
        exact = [each for each in found if each.ring.look.words.split()[-1] in names]
        found = exact or found
    return Asked(tuple(found), f'the colour "{pick}", as asked') if found else None
