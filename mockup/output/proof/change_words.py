"""What changed of a piece, in words: to the client what she sees, to the studio every number."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from mockup.colour.lab import lab_of_xyz, xyz_of_rgb
from mockup.colour.naming import colour_words
from mockup.colour.srgb import parse_hex
from mockup.comparing.comparison import Comparison
from mockup.comparing.kinds import Kind
from mockup.comparing.places import Place
from mockup.comparing.wording import Reworded
from mockup.errors import one_line
from mockup.geometry.point import Point
from mockup.output.proof.grid import BODY
from mockup.output.proof.words import sentence
from mockup.output.typography import lacking
from mockup.suite.audience import Audience
from mockup.units import Unit, format_length

NOTHING_SEEN = "Nothing you can see has changed."
SAME_LOOK = "The file was saved again; it looks the same."

_FOR_THE_STUDIO = (
    "art ", "bleed", "liner changed", "liner page", "liner press", "liner bleed", "liner marks",
    "face art page", "face art press", "face art marks", "flap art page", "flap art press",
    "flap art marks", "liner stock weight", "liner stock thickness", "liner stock surface",
    "die outline", "die template", "stock weight", "stock thickness", "stock surface",
    "stock coated", "stock translucency", "with it ",
)  # fmt: skip
"""How facts begin that a client does not see, or sees in the pictures."""

_QUOTED_MOST = 32  # judgement: letters of words that are quoted
_REWORDED_MOST = 2  # judgement: of one place; more is seen at once, and long to read

_NUMBER = re.compile(r"#[0-9a-f]{6}\b")
_SAME_WORDS = re.compile(r" from (.+) to \1$")

_KINDS: dict[Kind, str] = {
    Kind.APPEARED: "new",
    Kind.VANISHED: "gone",
    Kind.MOVED: "moved",
    Kind.RECOLOURED: "another colour",
    Kind.CHANGED: "changed",
}


def change_lines(
    audience: Audience, facts: Sequence[str], how: Comparison | None, units: Unit
) -> tuple[str, ...]:
    """Returns what changed of one thing, a line each: what is seen first, then its facts."""
    seen = () if how is None else _seen(audience, how, units)
    told = _FACTS[audience](facts)
    if how is not None and how.same and any(each.startswith("art ") for each in facts):
        seen = (SAME_LOOK,)
    lines = (*seen, *(f"{sentence(each)}." for each in told))
    return lines or (NOTHING_SEEN,)


def place_words(
    audience: Audience, place: Place, units: Unit, said: Sequence[Reworded] = ()
) -> str:
    """Returns what happened at a place: `Gone`, `Moved to the right`; where its words are known,
    what they became, as many as are soon read: `“7 o’clock” became “8 o’clock”`."""
    words = _KINDS[place.kind]
    if place.kind is Kind.MOVED:
        words = f"{words} {_WAY[audience](place.moved_in, units)}"
    told = [each for each in map(_reworded, said) if each]
    if len(told) > _REWORDED_MOST:
        more = len(told) - _REWORDED_MOST
        told = [*told[:_REWORDED_MOST], f"and {more} more"]
    if place.kind is Kind.MOVED or not told:  # a longer word moves its whole line
        told.append(f"the rest {words}" if told else words)
    return sentence("; ".join(told))


def _reworded(each: Reworded) -> str:
    """Returns what words became; nothing where they cannot be set in our type, or where so much of
    them as there is room for is the same."""
    if lacking(each.old + each.new, BODY):
        return ""
    old, new = (_quote(text) for text in (each.old, each.new))
    if old == new:
        return ""
    if not each.old:
        return f"new: {new}"
    return f"{old} became {new}" if each.new else f"gone: {old}"


def _quote(text: str) -> str:
    short = text if len(text) <= _QUOTED_MOST else f"{text[: _QUOTED_MOST - 1].rstrip()}\u2026"
    return f"\u201c{one_line(short)}\u201d"


def _client_facts(facts: Sequence[str]) -> list[str]:
    """Returns the facts a client is told, without the numbers of a shape or a colour."""
    told = [each for each in facts if not each.startswith(_FOR_THE_STUDIO)]
    plain = [_NUMBER.sub(lambda found: _in_words(found[0]), each) for each in told]
    plain = [_SAME_WORDS.sub(" a little", each) for each in plain]
    shaped = ["its shape changed a little" if _measures(each) else each for each in plain]
    return list(dict.fromkeys(shaped))


def _in_words(number: str) -> str:
    """Returns the words an eye has for a colour: `dark blue` of `#22385a`."""
    lightness, a, b = (float(each) for each in lab_of_xyz(xyz_of_rgb(parse_hex(number))))
    return colour_words((lightness, a, b))


def _measures(fact: str) -> bool:
    """Returns whether a fact is a measure of the same die."""
    return fact.startswith("die ") and not fact.startswith("die changed")


def _seen(audience: Audience, how: Comparison, units: Unit) -> tuple[str, ...]:
    told = [*_THROUGHOUT[audience](how, units)]
    if how.redrawn:
        told.append("Most of it is drawn anew.")
    if how.places:
        count = len(how.places)
        places = "1 place" if count == 1 else f"{count} places"
        told.append(f"{sentence(places)} ringed." if not told else f"Besides, {places} ringed.")
    return tuple(told)


def _client_throughout(how: Comparison, units: Unit) -> list[str]:
    told: list[str] = []
    if how.scaled != 1:
        told.append(f"All of it is a little {'larger' if how.scaled > 1 else 'smaller'}.")
    if how.moved_in != Point(0, 0):
        told.append(f"All of it is moved {_client_way(how.moved_in, units)}.")
    if how.recoloured:
        told.append("Its colours changed throughout.")
    return told


def _studio_throughout(how: Comparison, units: Unit) -> list[str]:
    told: list[str] = []
    if how.scaled != 1:
        share = abs(how.scaled - 1) * 100
        told.append(f"All of it {share:.1f} % {'larger' if how.scaled > 1 else 'smaller'}.")
    if how.moved_in != Point(0, 0):
        told.append(f"All of it moved {_studio_way(how.moved_in, units)}.")
    if how.recoloured:
        told.append(f"Colours changed throughout, by \u0394E00 {how.recoloured:.1f} on the median.")
    return told


def _client_way(far: Point, units: Unit) -> str:
    return " and ".join(way for _, way in _ways(far, 0.4))


def _studio_way(far: Point, units: Unit) -> str:
    ways = _ways(far, 0.0)
    return " and ".join(f"{format_length(round(by, 3), units)} {way}" for by, way in ways)


def _ways(far: Point, least: float) -> list[tuple[float, str]]:
    """Returns how far something moved along each axis, and which way; what is less than a share of
    the other is left out."""
    across = (abs(far.x), "to the right" if far.x > 0 else "to the left")
    down = (abs(far.y), "down" if far.y > 0 else "up")
    most = max(across[0], down[0])
    return [each for each in (across, down) if each[0] > max(least * most, 0.0005)]


_FACTS: dict[Audience, Callable[[Sequence[str]], list[str]]] = {
    Audience.CLIENT: _client_facts,
    Audience.STUDIO: list,
}
_WAY: dict[Audience, Callable[[Point, Unit], str]] = {
    Audience.CLIENT: _client_way,
    Audience.STUDIO: _studio_way,
}
_THROUGHOUT: dict[Audience, Callable[[Comparison, Unit], list[str]]] = {
    Audience.CLIENT: _client_throughout,
    Audience.STUDIO: _studio_throughout,
}
