"""What a client said of each piece, from a form's fields or from ticks and words on paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from mockup.record.events import Choice, Proof, Said
from mockup.record.paper import Look

# Judgement, from pages flattened, printed and ticked with a pen: an empty box shows none of it.
_TICKED = 0.05  # of a box, dark
_CLEARLY = 2.5  # times as dark as the other
_SAID: dict[str, Said] = {"approve": "approve", "change": "change"}


@dataclass(frozen=True)
class Heard:
    """What a page says of one piece: a yes, a change, neither, or both of them ticked."""

    said: Said | None = None
    comment: str = ""
    both: bool = False

    def or_else(self, other: Heard) -> Heard:
        """Returns this answer, each part of it that is missing taken from another."""
        if self.said is None and not self.both:
            return replace(other, comment=self.comment or other.comment)
        return replace(self, comment=self.comment or other.comment)


def of_field(answer: str, comment: str) -> Heard:
    """Returns the answer of a form: the value of the button pressed, and what was written."""
    return Heard(_SAID.get(answer), comment.strip())


def of_looks(approve: Look, change: Look, comment: Look) -> Heard:
    """Returns the answer of a page that was printed or flattened, by the ink in its boxes."""
    yes, no = approve.dark, change.dark
    words = " ".join(comment.words.split())
    if max(yes, no) < _TICKED:
        return Heard(comment=words)
    if min(yes, no) * _CLEARLY > max(yes, no):
        return Heard(comment=words, both=True)
    return Heard("approve" if yes > no else "change", words)


def choices_of(proof: Proof, heard: Mapping[str, Heard]) -> tuple[Choice, ...]:
    """Returns what was chosen, piece by piece, bound to the fingerprints of the proof."""
    return tuple(
        Choice(item.name, item.fingerprint.digest, said, heard[item.name].comment)
        for item in proof.items
        if item.name in heard and (said := heard[item.name].said) is not None
    )


def unclear(proof: Proof, heard: Mapping[str, Heard]) -> Sequence[str]:
    """Returns a line for every piece of which no one thing was said."""
    told: list[str] = []
    for item in proof.items:
        each = heard.get(item.name, Heard())
        if each.both:
            told.append(f"{item.title}: both boxes are ticked; ask which is meant")
        elif each.said is None and each.comment:
            told.append(f'{item.title}: nothing is ticked, but "{each.comment}" is written; ask')
        elif each.said is None:
            told.append(f"{item.title}: not answered")
        elif each.said == "change" and not each.comment:
            told.append(f"{item.title}: a change is asked for, but not which; ask")
    return told
