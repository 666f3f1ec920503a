"""A print file read again, before it is let go: as a printer's programs will read it.

Its page, boxes, layers, inks and content by the libraries; its pixels by two engines that share
nothing, against the art's own; its steps by the reader of templates, against the die.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

from mockup.artwork.art import Art, art_of
from mockup.artwork.inspection import Inspection, Painted, Space, inspect
from mockup.artwork.page import ArtPage, page_count, read_page
from mockup.artwork.print_copy import lost_streams
from mockup.errors import Mistake, RefusedError
from mockup.ordering.drafts import Draft
from mockup.ordering.same_picture import refuse_other_picture
from mockup.ordering.same_steps import refuse_other_steps
from mockup.units import format_size

_BOX_WITHIN_IN = 0.001  # judgement: a thirtieth of what a cutter keeps to
_ASK = "nothing is written; save the art again as PDF, or ask for art alone"

_CALLED: dict[Space, str] = {
    "gray": "grey",
    "rgb": "RGB",
    "cmyk": "CMYK",
    "lab": "Lab",
    "spot": "a spot ink",
    "other": "another space",
}


@dataclass(frozen=True)
class Seen:
    """What was found in a file that passed: the inks that print, and the checks in words."""

    inks: tuple[str, ...]
    checks: tuple[str, ...]


@dataclass(frozen=True)
class _Pair:
    """A file that was written, beside the art it was written from."""

    draft: Draft
    own: Inspection
    source: Inspection


def read_back(draft: Draft, path: Path) -> Seen:
    """Returns what was found in a file that was written, every check passed.

    Raises RefusedError, with the file's own name, at the first that does not.
    """
    sheet = draft.sheet
    art = art_of(path, 1, sheet.art.press)
    page = _one_page(draft, art)
    pair = _Pair(draft, inspect(art, sheet.placement), inspect(sheet.art, sheet.placement))
    checks = ["one page, the card and the bleed in its boxes"]
    _refuse_layers(pair)
    inks = _inks(pair)
    checks.append("inks and layers as in the art")
    if not draft.order.outlined and not sheet.art.left_out:
        if lost := lost_streams(sheet.art, art):
            raise refused(draft, f"{lost} streams of the art are not in it byte for byte")
        checks.append("every stream of the art byte for byte")
    checks += refuse_other_picture(draft, page)
    checks += refuse_other_steps(draft, art, pair.own)
    return Seen(inks, tuple(checks))


def refused(draft: Draft, what: str) -> RefusedError:
    """Returns the error for a file that is not what it was to be."""
    return RefusedError(Mistake(f"read again, {what}; {_ASK}", draft.file_name))


def _one_page(draft: Draft, art: Art) -> ArtPage:
    """Returns the page of a file. Raises RefusedError unless it is one, with the card where the art
    has it."""
    page, trim = read_page(art), draft.sheet.placement.trim
    if page_count(art) != 1:
        raise refused(draft, f"it has {page_count(art)} pages, not one")
    if (
        page.trim is None
        or not _same(page.trim, trim)
        or not _same(page.visible, draft.sheet.page.visible)
    ):
        found = page.trim or page.visible
        size = format_size(found.width, found.height, draft.sheet.units)
        raise refused(draft, f"its card is {size}, or does not lie where it lies in the art")
    if page.bleed is None or max(
        abs(one - other)
        for one, other in zip(trim.margins_in(page.bleed), _bleeds(draft, page), strict=True)
    ) > _BOX_WITHIN_IN:  # fmt: skip
        raise refused(draft, "its BleedBox is not the bleed that was asked for")
    return page


def _bleeds(draft: Draft, page: ArtPage) -> tuple[float, ...]:
    """Returns the bleed a file should have: what was asked, where the page has that much."""
    there = draft.sheet.placement.trim.margins_in(page.visible)
    return tuple(min(draft.order.bleed_in, each) for each in there)


def _same(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return all(math.isclose(a, b, abs_tol=_BOX_WITHIN_IN) for a, b in zip(one, other, strict=True))


def _refuse_layers(pair: _Pair) -> None:
    told = [(each.name, each.shown, each.printed, each.processing_step) for each in pair.own.layers]
    kept = [
        (each.name, each.shown, each.printed, each.processing_step) for each in pair.source.layers
    ]
    steps = [(each.layer, True, False, each.step) for each in pair.draft.order.steps]
    if sorted(told, key=str) != sorted([*kept, *steps], key=str):
        raise refused(pair.draft, "its layers are not those of the art and of the die")


def _inks(pair: _Pair) -> tuple[str, ...]:
    """Returns the inks a file prints in. Raises RefusedError where they are not the art's own, or
    where it does not paint as many things as the art, less what was taken out."""
    gone = pair.draft.sheet.art.left_out
    kept = [each for each in pair.source.painted if each.number not in gone]
    inks = _inks_of(pair.own.painted)
    if inks != _inks_of(kept):
        said = ", ".join(sorted(inks ^ _inks_of(kept)))
        raise refused(pair.draft, f"its inks are not those of the art ({said})")
    if not pair.draft.order.outlined and not gone and len(kept) != len(pair.own.painted):
        said = f"it paints {len(pair.own.painted)} things where the art paints {len(kept)}"
        raise refused(pair.draft, said)
    return tuple(sorted(inks))


def _inks_of(painted: tuple[Painted, ...] | list[Painted]) -> set[str]:
    """Returns the inks things are painted in: of spots their names, of others their space."""
    found: set[str] = set()
    for each in painted:
        if each.ink is not None:
            found |= set(each.ink.names) or {_CALLED[each.ink.space]}
        if each.image is not None and not each.image.is_mask:
            found.add(_CALLED[each.image.space])
    return found
