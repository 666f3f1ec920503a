"""Finishes in the art that the suite does not tell of, and those it tells of that are not there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mockup.artwork.art import FinishSaid
from mockup.artwork.finishes import plates_named, unknown_plates
from mockup.artwork.inspection import Layer, Painted
from mockup.checks.finding import Finding, Severity
from mockup.checks.page_context import PageContext
from mockup.errors import nearest, quoted
from mockup.geometry.point import Point
from mockup.reading.page_facts import on_card
from mockup.trade.finishes import WITHOUT_COLOUR, Finish, finish_named, finish_of_step, is_kin
from mockup.trade.tolerances import COMMON

LOST = 0.05  # judgement: less is the edge of a plate that is choked
KNOCKS_OUT = "ISO 32000-1 8.6.7: what does not overprint leaves nothing of other inks beneath it"
_CHECK: dict[Finish, str] = {
    "white": "white-ink",
    "foil": "finish",
    "varnish": "finish",
    "letterpress": "finish",
    "deboss": "finish",
    "emboss": "finish",
}


def check_finishes(context: PageContext) -> list[Finding]:
    """Returns plates and layers of finishes the piece is not said to have, finishes it is said to
    have without any, and plates that art knocks out, or that knock out art."""
    return [
        *_unsaid_plates(context),
        *_unsaid_layers(context),
        *_absent(context),
        *_unknown(context),
        *_misfits(context),
        *_white_lost(context),
        *_knocking_out(context),
    ]


def _unsaid_plates(context: PageContext) -> list[Finding]:
    piece = context.page.piece
    painted = on_card(context.page)
    findings: list[Finding] = []
    for name, what in context.page.finishes:
        own = [p for p in painted if p.ink is not None and name in p.ink.names]
        if any(is_kin(what, said) for said in piece.finishes) or not own:
            continue
        if what == "white":
            message = f"spot colour {quoted(name)} prints only where your printer runs white ink"
        else:
            message = (
                f"spot colour {quoted(name)} is named {what}, and the suite says no {what} of it"
            )
        findings.append(_unsaid(context, what, message, own))
    return findings


def _unsaid_layers(context: PageContext) -> list[Finding]:
    """Returns layers that say a finish and hold marks in ink: printed, those are no finish, but
    letterpress."""
    findings: list[Finding] = []
    plates = {name for name, _ in context.page.finishes}
    for layer in context.page.inspection.layers:
        what = finish_of_step(layer.processing_step) or finish_named(layer.name)
        own = [p for p in on_card(context.page) if p.layer == layer.name and not _is_on(p, plates)]
        if what is None or what == "letterpress" or not own:
            continue
        count = "1 mark" if len(own) == 1 else f"{len(own)} marks"
        message = f"{_called(layer)} is for {what}, and {count} on it would print as ordinary ink"
        fix = f"give them a spot colour named {what}, or take the layer out of the print file"
        name = context.page.piece.name
        findings.append(
            Finding(_CHECK[what], Severity.WARN, name, message, fix, _corner(own), source=COMMON)
        )
    return findings


def _called(layer: Layer) -> str:
    if layer.processing_step is None:
        return f"layer {quoted(layer.name)}"
    return f"layer {quoted(layer.name)} (processing step {layer.processing_step})"


def _is_on(painted: Painted, plates: set[str]) -> bool:
    return painted.ink is not None and bool(painted.ink.names) and {*painted.ink.names} <= plates


def _unsaid(context: PageContext, what: Finish, message: str, own: Sequence[Painted]) -> Finding:
    fix = f'if it is meant, ask for {what} and write finish = ["{what}"] of the piece; else '
    fix += "leave the paper bare there" if what == "white" else "give it another name"
    name = context.page.piece.name
    return Finding(_CHECK[what], Severity.WARN, name, message, fix, _corner(own), source=COMMON)


def _absent(context: PageContext) -> list[Finding]:
    """Returns finishes the suite says that no plate of the art is for; of a piece with a back they
    are looked for on both sides, and told on the front."""
    piece = context.page.piece
    if piece.is_second:
        return []
    there = _there(context)
    there.update(said.finish for said in _unknown_of(context))
    findings: list[Finding] = []
    for what in piece.finishes:
        if any(is_kin(what, each) for each in there) or (
            what == "white" and piece.art.white.rule != "plate"
        ):
            continue
        message = f"the suite says {what}, and the art has no spot colour named so"
        fix = f"paint what gets {what} in a spot colour of that name"
        fix += ', or write white = "under-art" or "art-as-white"' if what == "white" else ""
        findings.append(
            Finding(_CHECK[what], Severity.WARN, piece.name, message, fix, source=COMMON)
        )
    return findings


def _there(context: PageContext) -> set[Finish]:
    """Returns the finishes a piece has a plate of, on either side: of its art's, on a page of its
    own, or as the way all inks are printed."""
    piece = context.page.piece
    named = [*context.page.finishes]
    said = list(piece.art.finishing)
    if piece.back is not None:
        named += plates_named([piece.back])[0]
        said += piece.back.finishing
    there: set[Finish] = {what for _, what in named}
    for each in said:
        if each.art is not None or (each.finish == "letterpress" and each.is_of_all):
            there.add(each.finish)
    return there


def _unknown(context: PageContext) -> list[Finding]:
    """Returns plates and layers the suite names that no side of the piece has."""
    piece = context.page.piece
    inks = [name for p in context.page.inspection.painted if p.ink for name in p.ink.names]
    there = dict.fromkeys([*inks, *(layer.name for layer in context.page.inspection.layers)])
    findings: list[Finding] = []
    for said in _unknown_of(context):
        told = ", ".join(quoted(name) for name in there) or "neither"
        message = f"the suite says {said.finish} of plate {quoted(said.plate)}, which the art lacks"
        hint = nearest(said.plate, there) or f"; the art has: {told}"
        fix = f"name a spot colour or a layer of the art{hint}"
        findings.append(
            Finding(_CHECK[said.finish], Severity.WARN, piece.name, message, fix, source=COMMON)
        )
    return findings


def _unknown_of(context: PageContext) -> tuple[FinishSaid, ...]:
    """Returns what is said of plates that neither side has; it is told on the front."""
    piece, named = context.page.piece, [*context.page.finishes]
    if piece.is_second:
        return ()
    said = piece.art.finishing
    if piece.back is not None:
        named += plates_named([piece.back])[0]
        said += piece.back.finishing
    art = replace(piece.art, finishing=tuple(dict.fromkeys(said)))
    return unknown_plates(art, tuple(named))


def _misfits(context: PageContext) -> list[Finding]:
    """Returns the pages of finishes that have not the card's size: their plates lie nowhere."""
    name = context.page.piece.name
    fix = "save it with the boxes the art has"
    return [
        Finding("size", Severity.STOP, name, f"a finish's own page does not fit: {misfit}", fix)
        for misfit in context.page.finish_misfits
    ]


def _white_lost(context: PageContext) -> list[Finding]:
    lost = context.page.white_lost
    if lost <= LOST:
        return []
    message = f"art painted over the white plate knocks out {100 * lost:.0f} % of it"
    fix = "lay the white plate uppermost and set it to overprint: none lies beneath the art now"
    name = context.page.piece.name
    value, limit = round(100 * lost, 1), 100 * LOST
    return [
        Finding("overprint", Severity.WARN, name, message, fix, None, value, limit, "%", KNOCKS_OUT)
    ]


def _knocking_out(context: PageContext) -> list[Finding]:
    """Returns plates without colour that do not overprint: they leave a hole in the ink below."""
    findings: list[Finding] = []
    painted = on_card(context.page)
    for name, what in context.page.finishes:
        own = [p for p in painted if p.ink is not None and name in p.ink.names and not p.overprint]
        if what not in WITHOUT_COLOUR or not any(_lies_on_ink(p, painted) for p in own):
            continue
        message = f"{what} {quoted(name)} does not overprint: it knocks out the ink beneath it"
        fix = "set everything in that colour to overprint"
        at, piece = _corner(own), context.page.piece.name
        findings.append(
            Finding("overprint", Severity.WARN, piece, message, fix, at, source=KNOCKS_OUT)
        )
    return findings


def _lies_on_ink(upper: Painted, painted: Sequence[Painted]) -> bool:
    return any(
        lower.number < upper.number
        and lower.ink != upper.ink
        and lower.box.left < upper.box.right
        and upper.box.left < lower.box.right
        and lower.box.top < upper.box.bottom
        and upper.box.top < lower.box.bottom
        for lower in painted
    )


def _corner(own: Sequence[Painted]) -> Point:
    return Point(min(p.box.left for p in own), min(p.box.top for p in own))
