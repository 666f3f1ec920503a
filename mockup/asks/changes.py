"""What changed since the proof before, for the proof about to be made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from PIL import Image
from PIL.Image import Resampling

from mockup.asks.issuing import Issuing
from mockup.asks.keeping import pictures_shown
from mockup.comparing.comparison import Comparison, compare_cut
from mockup.comparing.wording import Reworded, reworded
from mockup.errors import InputError, LimitError
from mockup.geometry.point import Point
from mockup.output.proof.changes import ChangedItem, change_pages
from mockup.output.proof.pair import Seen
from mockup.output.proof.plan import Page, Telling
from mockup.record.changes import Changed, changed_items
from mockup.record.events import Proof
from mockup.record.pictures import Kept, kept_back, kept_picture, of_back
from mockup.record.reading import Record
from mockup.record.revisions import revision_told
from mockup.suite.audience import Audience

_LOOKS = ("art", "back", "inside", "fold", "size", "die", "stock", "liner", "added", "taken away")
"""How differences begin that a picture shows."""

Reading = Callable[[Record, int, str], Kept | None]
"""What reads a kept picture: of a front, or of a back."""

NOT_KEPT = "no picture is kept of how it was"


@dataclass(frozen=True)
class Since:
    """The proof before, and what has changed since it."""

    revision: str
    items: tuple[ChangedItem, ...]

    @property
    def pages(self) -> Callable[[Telling], Sequence[Page]]:
        """What makes the pages of it."""
        return partial(change_pages, since=self.revision, items=self.items)


def changed_since(issuing: Issuing, written: str) -> Since | None:
    """Returns what changed since the proof before this one, the last a client had if she had one;
    None for a first proof. `written` is what the suite file calls its revision.

    Raises InputError and LimitError for art that cannot be drawn.
    """
    last = _proof_before(issuing)
    if last is None:
        return None
    changed = changed_items(last.items, issuing.issue.items)
    looks = {each.name for each in changed if _is_seen(each)}
    wanted = [each for each in issuing.issue.items if each.name in looks]
    drawn = pictures_shown(issuing.suite, [*wanted, *(of_back(each) for each in wanted)])
    now = {item.name: kept for item, kept in drawn}
    items = [told for each in changed for told in _told(issuing, last, each, now, looks)]
    return Since(revision_told(last.revision, written), tuple(items))


def _told(
    issuing: Issuing, last: Proof, changed: Changed, now: dict[str, Kept], looks: set[str]
) -> list[ChangedItem]:
    """Returns what is told of a piece: of its front, or of all of it, and of its back."""
    back_now = now.get(f"{changed.name}-back")
    front, back = _parted(changed, back_now is not None)
    items = [
        _item(issuing, last, front, now.get(changed.name), kept_picture, looks),
        _item(issuing, last, back, back_now, kept_back, looks),
    ]
    words = (front.words, back.words)
    return [
        item
        for item, own in zip(items, words, strict=True)
        if own or (item.how is not None and item.how.places)
    ]


def _parted(changed: Changed, has_back: bool) -> tuple[Changed, Changed]:
    """Returns what changed of a piece but for its back, and what of its back, told as its art; of
    a folded card, of its outside and its inside."""
    own = tuple(words for words in changed.words if not words.startswith(("back ", "inside ")))
    back = tuple(_as_art(words) for words in changed.words if words not in own)
    one, other = "front", "back"
    if any(words.startswith("inside ") for words in changed.words):
        one, other = "outside", "inside"
    title = f"{changed.title}, {one}" if has_back else changed.title
    rest = Changed(changed.name, f"{changed.title}, {other}", back)
    return Changed(changed.name, title, own), rest


def _as_art(words: str) -> str:
    """Returns what is said of a back as it is said of a piece of its own."""
    told = words.removeprefix("back ").removeprefix("inside ")
    whole = next((each for each in ("added", "taken away") if told.startswith(each)), None)
    return whole or f"art {told}"


def _proof_before(issuing: Issuing) -> Proof | None:
    """Returns the last proof of a lower revision, one for the client before the studio's own."""
    earlier = [each for each in issuing.record.proofs if each.revision < issuing.issue.revision]
    sent = [each for each in earlier if each.audience is Audience.CLIENT]
    return max(sent or earlier, key=lambda each: each.revision, default=None)


def _is_seen(changed: Changed) -> bool:
    return any(words.startswith(_LOOKS) for words in changed.words)


def _item(
    issuing: Issuing,
    last: Proof,
    changed: Changed,
    now: Kept | None,
    reading: Reading,
    looks: set[str],
) -> ChangedItem:
    before = _before(issuing, last, changed.name, reading) if changed.name in looks else None
    how: Comparison | None = None
    said: tuple[tuple[Reworded, ...], ...] = ()
    if before is not None and now is not None:
        ppi = min(before.ppi, now.ppi)
        before, now = _at_resolution(before, ppi), _at_resolution(now, ppi)
        how = compare_cut(before.picture, now.picture, now.ppi)
        said = reworded(how, before.words, now.words, (_middle(before), _middle(now)))
    facts = changed.words
    if before is None and now is not None and "added" not in facts:
        facts = (*facts, NOT_KEPT)
    return ChangedItem(changed.title, facts, _seen(before), _seen(now), how, said)


def _before(issuing: Issuing, last: Proof, name: str, reading: Reading) -> Kept | None:
    """Returns how the proof before showed a piece; None where no picture of it can be read."""
    try:
        return reading(issuing.record, last.revision, name)
    except (InputError, LimitError):
        return None


def _seen(kept: Kept | None) -> Seen | None:
    return None if kept is None else Seen(kept.picture, kept.ppi)


def _middle(kept: Kept) -> Point:
    high, wide = kept.picture.shape[:2]
    return Point(wide / kept.ppi / 2, high / kept.ppi / 2)


def _at_resolution(kept: Kept, ppi: float) -> Kept:
    """Returns a picture at a lower resolution, where it has another."""
    if abs(kept.ppi - ppi) < 0.01 * ppi:
        return kept
    high, wide = (round(side * ppi / kept.ppi) for side in kept.picture.shape[:2])
    resized = Image.fromarray(kept.picture).resize((wide, high), Resampling.BOX)
    return Kept(np.asarray(resized), ppi, kept.words)
