"""Colours side by side: does art nearly match its envelope, or the liner, and so look mistaken?"""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext, owner
from mockup.colour.beside import (
    APART_LIGHTNESS,
    MATCH_DE00,
    PRODUCTION_DE00,
    Lab,
    Verdict,
)
from mockup.colour.mending import Mended, Shift
from mockup.colour.srgb import to_hex
from mockup.reading.beside import Pair, Seen, mended, pairs_of, suite_colours
from mockup.trade.tolerances import Limit

CHECK = "beside"
SOURCE = (
    "judgement: a match to 2, looks missed to 12 unless lightness differs by 10, meant from 15; "
    "Ou and Luo 2006 on lightness, measured presses on what a run keeps"
)
_LIMIT = Limit(MATCH_DE00, "\u0394E00", SOURCE)


def check_beside(context: SuiteContext) -> list[Finding]:
    """Returns what lies beside an envelope or its liner and nearly matches it, what matches the
    envelope, and what may be doubted; nothing of what is clearly another colour, nor of art that
    keeps to the liner's colours."""
    if not context.suite.envelopes:
        return []
    colours = suite_colours(context.suite)
    pairs = [pair for each in context.suite.envelopes for pair in pairs_of(colours, each)]
    findings = [told for pair in _once(pairs) if (told := _finding(pair)) is not None]
    return sorted(findings, key=lambda finding: -finding.severity)


def _once(pairs: list[Pair]) -> list[Pair]:
    """Returns pairs without those whose colours, told in whole numbers, have been told of the same
    thing: a piece that two like envelopes hold."""
    first: dict[object, Pair] = {}
    for pair in pairs:
        colours = (lab_told(pair.first.lab), lab_told(pair.second.lab))
        first.setdefault((_owner(pair), pair.first.kind, pair.second.kind, colours), pair)
    return list(first.values())


def _finding(pair: Pair) -> Finding | None:
    verdict, apart = pair.found.verdict, pair.found.difference
    at = pair.first.art.at if pair.first.art is not None else None
    both = f"{_first_told(pair)} and {second_told(pair)}"
    if verdict is Verdict.NEAR_MISS:
        message = f"{both} nearly match, \u0394E00 {apart:.1f}: it looks like a match that failed"
        fix = mending_told(pair, mended(pair))
        return found(CHECK, Severity.WARN, _owner(pair), message, fix, _LIMIT, apart, at)
    if verdict is Verdict.MATCH and pair.second.is_outside:
        message = f"{both} are a planned match, \u0394E00 {apart:.1f}"
        fix = f"expect up to about {PRODUCTION_DE00:g} in production; approve on a physical swatch"
        return found(CHECK, Severity.NOTE, _owner(pair), message, fix, _LIMIT, apart, at)
    if pair.found.is_doubtful:
        message = f"{both} are neither alike nor clearly apart, \u0394E00 {apart:.1f}"
        fix = "look at them side by side on paper"
        return found(CHECK, Severity.NOTE, _owner(pair), message, fix, _LIMIT, apart, at)
    return None


def _owner(pair: Pair) -> str:
    return owner(pair.envelope) if pair.first.piece is None else pair.first.piece.name


def _first_told(pair: Pair) -> str:
    seen = pair.first
    named = f"{seen.words} ({lab_told(seen.lab)}"
    if seen.art is not None:
        named += f", {seen.art.share * 100:.0f} %"
    return f"{named}) {_OF_FIRST[seen.kind]}"


_OF_FIRST = {
    "art": "in the art",
    "stock": "of the bare stock",
    "liner": "of the liner",
    "liner stock": "of the liner's bare paper",
    "envelope": "of the envelope",
    "envelope art": "on the envelope",
}


def second_told(pair: Pair) -> str:
    """Returns what a colour lies beside: `the dark blue (L* 22 a* 3 b* -20) of envelopes.outer`."""
    seen, name = pair.second, owner(pair.envelope)
    if seen.kind == "envelope art":
        return f"{seen.words} ({lab_told(seen.lab)}) printed on {name}"
    what = {"envelope": name, "liner": f"{name}'s liner"}.get(seen.kind, f"{name}'s bare liner")
    return f"{seen.words} ({lab_told(seen.lab)}) of {what}"


def lab_told(lab: Lab) -> str:
    """Returns `L* 70 a* -12 b* 10`."""
    lightness, a, b = (round(value) for value in lab)
    return f"L* {lightness} a* {a} b* {b}"


def mending_told(pair: Pair, ways: Mended | None) -> str:
    """Returns the ways out of a near miss, in one sentence."""
    told = "do not chase an exact match across machines: "
    if ways is None:
        up, down = pair.first.lab[0] + APART_LIGHTNESS, pair.first.lab[0] - APART_LIGHTNESS
        return f"{told}{_papers(pair.second, up, down)}"
    shifts = [
        f"{way} it to {shift_told(shift)}"
        for way, shift in (("lighten", ways.lighter), ("darken", ways.darker))
        if shift is not None
    ]
    other = "envelope's print" if pair.second.kind == "envelope art" else pair.second.kind
    lacking = [
        f"{word} than the {other} by {APART_LIGHTNESS:g} it cannot be printed"
        for word, shift in (("lighter", ways.lighter), ("darker", ways.darker))
        if shift is None
    ]
    change = _papers(pair.second, ways.envelope_lighter, ways.envelope_darker)
    parts = [" or ".join(shifts) or "leave the colour"]
    if lacking and shifts:
        parts[0] += f" ({lacking[0]})"
    return f"{told}{'; '.join([*parts, f'or {change}'])}"


def shift_told(shift: Shift) -> str:
    """Returns a moved colour as it is printed, looks and is written: `L* 81 a* -12 b* 10 (#b8d0b6
    on screen), C 34 M 7 Y 34 K 1`."""
    return f"{lab_told(shift.lab)} ({to_hex(shift.on_screen)} on screen), {written_told(shift)}"


def written_told(shift: Shift) -> str:
    """Returns what is written in the art: inks in per cent, or an sRGB colour."""
    if shift.inks is not None:
        return " ".join(f"{ink} {share}" for ink, share in zip("CMYK", shift.inks, strict=True))
    return f"RGB {to_hex(shift.art)} in the art" if shift.art is not None else ""


def _papers(second: Seen, lighter: float | None, darker: float | None) -> str:
    ends = [f"L* {each:.0f}" for each in (lighter, darker) if each is not None]
    ways = {"envelope": "take the envelope", "envelope art": "print the envelope"}
    return f"{ways.get(second.kind, 'take the liner')} at {' or '.join(ends)}"
