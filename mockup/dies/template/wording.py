"""How an outline of a template is told to its reader, alone and in a list to choose from."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.dies.template.evidence import Candidate
from mockup.units import Unit, format_length, format_size

LISTED_MAX = 8  # judgement: a longer list is not read
NAMES_MAX = 3


def described(candidate: Candidate, unit: Unit) -> str:
    """Returns `a solid magenta outline, 5 × 7 in`."""
    return f"{candidate.ring.look.words} outline, {format_size(*candidate.ring.size_in, unit)}"


def because(candidate: Candidate, unit: Unit, how: str) -> str:
    """Returns why an outline is the cut, to follow "the cut is": what it is, then the reasons.

    `how` is what was asked for, where something was.
    """
    what = f"the {described(candidate, unit)}"
    told = what
    if how:
        told = f"{how}: {what}"
    elif candidate.called is not None and candidate.is_named_cut:
        told = f"{candidate.called.words}: {what}"
    ranked = sorted(candidate.reasons, key=lambda reason: -reason.points)
    reasons = [reason.words for reason in ranked if reason.words and reason.points > 0]
    if not reasons:
        return told
    return f"{told}{'; ' if told != what else ': '}{_argued(reasons)}"


def next_best(candidates: Sequence[Candidate], unit: Unit) -> str:
    """Returns which outlines came next, `the next candidates are the ...`; empty for none."""
    if not candidates:
        return ""
    others = listed([f"the {described(each, unit)}{_said(each)}" for each in candidates[:2]])
    return f"the next candidate{'s are' if len(candidates) > 1 else ' is'} {others}"


def _said(candidate: Candidate) -> str:
    return f" ({candidate.role})" if candidate.role is not None else ""


def _argued(reasons: Sequence[str]) -> str:
    """Returns reasons as one sentence: what the outline itself is and does, then what is said."""
    own = [words.removeprefix("it ") for words in reasons if words.startswith("it ")]
    said = [words for words in reasons if not words.startswith("it ")]
    if not own:
        return ", and ".join(said)
    parts = [*own, *said]
    return f"it {', '.join(parts[:-1])}{', and ' if len(parts) > 1 else ''}{parts[-1]}"


def choices(candidates: Sequence[Candidate], unit: Unit) -> str:
    """Returns candidates by number, each with its size, look and names, for one to be picked."""
    sizes = [format_size(*each.ring.size_in, unit) for each in candidates]
    told = [_choice(each, unit, sizes) for each in candidates[:LISTED_MAX]]
    more = len(candidates) - len(told)
    return "; ".join(told) + (f"; and {more} more" if more > 0 else "")


def listed(words: Sequence[str]) -> str:
    """Returns `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _choice(candidate: Candidate, unit: Unit, sizes: Sequence[str]) -> str:
    size = format_size(*candidate.ring.size_in, unit)
    box = candidate.ring.box
    if sizes.count(size) > 1:  # alike: told apart by their place on the page
        size += f" at {format_length(box.left, unit)}, {format_length(box.top, unit)}"
    parts = [f"{candidate.number}: {size}", candidate.ring.look.words]
    path = candidate.ring.paths[0]
    names = list(dict.fromkeys((*path.layers, *path.inks, *path.steps)))[-NAMES_MAX:]
    if names:
        parts.append(" ".join(f'"{name}"' for name in names))
    if candidate.role is not None and candidate.called is None:
        parts.append(f"said to be {candidate.role}")
    if path.hidden:
        parts.append("switched off")
    return ", ".join(parts)
