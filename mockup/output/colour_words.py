"""What is said of two colours side by side: words for the client, figures for the studio."""

from __future__ import annotations

from mockup.colour.beside import PRODUCTION_DE00, Lab, Verdict
from mockup.colour.mending import Mended, Shift
from mockup.colour.srgb import to_hex
from mockup.output.proof.words import unbroken
from mockup.reading.beside import Seen

LABELS = {
    Verdict.MATCH: "A planned match",
    Verdict.NEAR_MISS: "Nearly a match",
    Verdict.BORDERLINE: "In between",
    Verdict.DELIBERATE: "Clearly apart",
}
"""A verdict as the head of what is said of it."""

CLIENT = {
    Verdict.MATCH: "they will never be quite the same: approve it on a real swatch",
    Verdict.NEAR_MISS: "it may look like a match that failed; clearly lighter or darker would not",
    Verdict.BORDERLINE: "look at it on paper",
    Verdict.DELIBERATE: "it looks meant",
}
"""What a verdict means, without figures."""

_STUDIO = {
    Verdict.MATCH: f"expect up to about {PRODUCTION_DE00:g} in production; approve on a physical "
    "swatch",
    Verdict.NEAR_MISS: "do not chase an exact match across machines",
    Verdict.BORDERLINE: "look at it on paper",
    Verdict.DELIBERATE: "",
}

NO_CONTRACT = (
    "A screen is no contract proof: it is lit, paper is not, and yours is not calibrated for this "
    "page. Judge colour on a printed swatch, by daylight."
)


def verdict_told(verdict: Verdict, difference: float, because: str) -> str:
    """Returns what the studio is told under a verdict's label: `ΔE00 4.5; do not chase ...`."""
    parts = [f"\u0394E00 {difference:.1f}{f', by {because}' if because else ''}", _STUDIO[verdict]]
    return "; ".join(part for part in parts if part)


def lab_told(lab: Lab) -> str:
    """Returns `L* 70 a* -12 b* 10`, its minus signs of the length of a figure."""
    lightness, a, b = (f"{round(value)}".replace("-", "\u2212") for value in lab)
    return unbroken(f"L* {lightness} a* {a} b* {b}")


def inks_told(inks: tuple[float, ...]) -> str:
    """Returns inks in shares as `C 46 M 19 Y 45 K 2`."""
    shares = (f"{ink} {share * 100:.0f}" for ink, share in zip("CMYK", inks, strict=True))
    return unbroken(" ".join(shares))


def written_told(seen: Seen) -> str:
    """Returns what the art has for a colour: inks in per cent, or an sRGB colour."""
    if seen.art is None:
        return ""
    if seen.art.inks is not None:
        return inks_told(seen.art.inks)
    red, green, blue = seen.art.drawn[:3]
    return f"RGB {to_hex((red, green, blue))}"


def shift_told(way: str, shift: Shift) -> str:
    """Returns `lighter: L* 81 a* -12 b* 10, C 34 M 7 Y 34 K 1`."""
    inks = shift.inks and inks_told(tuple(each / 100 for each in shift.inks))
    art = f"RGB {to_hex(shift.art)}" if shift.art is not None else ""
    return f"{way}: {lab_told(shift.lab)}, {inks or art}"


def ways_told(ways: Mended, what: str) -> tuple[str, ...]:
    """Returns the ways out of a near miss, a line each; `what` could be of another colour."""
    lines = [
        shift_told(way, shift) if shift is not None else f"{way}: cannot be printed"
        for way, shift in (("lighter", ways.lighter), ("darker", ways.darker))
    ]
    ends = [
        f"L* {each:.0f}"
        for each in (ways.envelope_lighter, ways.envelope_darker)
        if each is not None
    ]
    return (*lines, *([f"or {what} at {' or '.join(ends)}"] if ends else []))


def share_told(share: float) -> str:
    """Returns a share of a face in words: `nearly all`, `about half`, `a little`."""
    return next(words for most, words in _SHARES if share < most)


_SHARES = (
    (0.02, "a trace"), (0.08, "a little"), (0.18, "some"), (0.29, "a quarter"), (0.4, "a third"),
    (0.6, "about half"), (0.85, "mostly"), (1.01, "nearly all"),
)  # fmt: skip
