"""What changed between two proofs, in words: `die changed from ticket corner to lancet arch`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from mockup.record.facts import Fact
from mockup.record.fingerprint import Named

_PARTS = ("liner", "back", "inside", "face art", "flap art", "address", "return address")
"""What a piece or an envelope may have or not: what is said of it comes and goes with it."""

_ARTS = ("art", "back", "inside", "liner", "face art", "flap art")
_BYTES = ("die template", *(f"{art}{of}" for art in _ARTS for of in ("", " press")))
"""Facts whose value is the mark of a file: its bytes changed, and it may have another name."""

_FOLLOWERS = {
    "die": "die ",
    "stock": "stock ",
    "liner stock": "liner stock ",
    "size": "die outline",
}
"""Where a fact changed, those that begin so follow from it, and go unsaid."""

_ENVELOPE_CUT = (
    "seam", "flap depth", "shoulder", "shoulder rise", "shoulder radius", "tip radius",
    "corner radius", "throat", "throat radius", "seam inset", "seam width", "gum offset",
    "gum width", "liner side", "liner inset", "liner bottom",
)  # fmt: skip
"""Measures of an envelope that follow its size and its flap where nobody gives them."""


@dataclass(frozen=True)
class Changed:
    """A piece or an envelope that differs: its name and title now, and each difference in words."""

    name: str
    title: str
    words: tuple[str, ...]


def changed(before: Sequence[Fact], after: Sequence[Fact]) -> tuple[str, ...]:
    """Returns each difference between two lists of facts in words; nothing where they agree."""
    old, new = ({fact.name: fact for fact in facts} for facts in (before, after))
    names = [name for name in dict.fromkeys([*new, *old]) if _differs(old.get(name), new.get(name))]
    for part in _PARTS:
        if part in names and not (part in old and part in new):
            names = [name for name in names if not name.startswith(f"{part} ")]
    follow = set(_following(names))
    told = [_words(name, old.get(name), new.get(name)) for name in names if name not in follow]
    measures = [name for name in names if name in _ENVELOPE_CUT and name in follow]
    if measures:
        told.append(f"with it {_listed(measures)}")
    return tuple(told)


def changed_items(before: Iterable[Named], after: Iterable[Named]) -> tuple[Changed, ...]:
    """Returns every piece and envelope that differs, was added, renamed or taken away.

    One whose name is new and whose fingerprint is that of one taken away was renamed.
    """
    old = {each.name: each for each in before}
    new = {each.name: each for each in after}
    gone = {name: each for name, each in old.items() if name not in new}
    told: list[Changed] = []
    for name, item in new.items():
        if name in old:
            words = changed(old[name].fingerprint.facts, item.fingerprint.facts)
        else:
            was = next((each for each in gone.values() if _same(each, item)), None)
            words = (f"renamed from {was.name}, else unchanged",) if was else ("added",)
            if was is not None:
                del gone[was.name]
        if words:
            told.append(Changed(name, item.title, words))
    return (*told, *(Changed(name, each.title, ("taken away",)) for name, each in gone.items()))


def _same(one: Named, other: Named) -> bool:
    return one.fingerprint.digest == other.fingerprint.digest


def _differs(one: Fact | None, other: Fact | None) -> bool:
    return one is None or other is None or one.value != other.value


def _following(names: Sequence[str]) -> Iterator[str]:
    """Yields names of facts that changed because another did."""
    for cause, begins in _FOLLOWERS.items():
        if cause in names:
            yield from (name for name in names if name.startswith(begins))
    if any(name.startswith("die ") and name != "die outline" for name in names):
        yield "die outline"
    if {"size", "flap"} & set(names):
        yield from _ENVELOPE_CUT


def _words(name: str, old: Fact | None, new: Fact | None) -> str:
    if old is None or new is None:
        here = old or new
        assert here is not None
        verb = "added" if old is None else "taken away"
        return f"{name} {verb}" if here.told == "yes" else f"{name} {verb}: {here.told}"
    if name == "die outline":
        return "die drawn with another outline"
    if name in _BYTES:
        files = "" if old.told == new.told else f", from {old.told} to {new.told}"
        return f"{name} changed{files}"
    if name.endswith(" marks left out"):
        return f"{name}: others"
    return f"{name} changed from {_told(old, new)} to {_told(new, old)}"


def _told(fact: Fact, other: Fact) -> str:
    """Returns how a fact is told; by its value where both are told alike."""
    return fact.value if fact.told == other.told else fact.told


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
