"""How a suite stands, told: lines for a terminal of any width, and values for a machine."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from mockup.record.status import Ordered, Standing, Status

TITLE_MAX = 26  # letters of a title in its column; judgement: names of pieces are shorter
REST_MIN = 24  # letters of the last column, however narrow the terminal
GONE = "gone"


@dataclass(frozen=True)
class StatusLine:
    """A line of the answer, and the state whose word begins it, empty for one that goes on."""

    text: str
    state: str = ""


def status_head(title: str, status: Status, revision: int | None, following: int) -> str:
    """Returns the line above the table: how many are approved, and which proof is the next."""
    count = sum(each.state == "approved" for each in status.standings)
    told = f"{title}: {count} of {len(status.standings)} approved"
    if revision is None:
        return f"{told}; no proof yet"
    after = "unchanged since" if following == revision else f"the next is revision {following}"
    return f"{told}; last proof revision {revision}, {after}"


def status_told(status: Status, columns: int) -> list[StatusLine]:
    """Returns a table of lines: state, fingerprint, title, and what there is to say."""
    rows = [(each.state, each, _words(each)) for each in status.standings]
    rows += [(GONE, each, _gone_words(each)) for each in status.gone]
    state_width = max(len(state) for state, _, _ in rows)
    title_width = min(TITLE_MAX, max(len(each.item.title) for _, each, _ in rows))
    return [
        line
        for state, each, words in rows
        for line in _row(state, each, words, (state_width, title_width), columns)
    ]


def _row(
    state: str, each: Standing, words: Sequence[str], widths: tuple[int, int], columns: int
) -> list[StatusLine]:
    title = each.item.title
    short = title if len(title) <= TITLE_MAX else f"{title[: TITLE_MAX - 1]}…"
    head = f"{state:<{widths[0]}}  {each.item.fingerprint.short}  {short:<{widths[1]}}  "
    room = max(REST_MIN, columns - len(head))
    lines = [line for text in words for line in textwrap.wrap(text, room, subsequent_indent="  ")]
    first, *more = lines or [""]
    indent = " " * len(head)
    return [
        StatusLine((head + first).rstrip(), state),
        *(StatusLine(indent + line) for line in more),
    ]


def _words(standing: Standing) -> list[str]:
    """Returns what there is to say of a piece, a sentence a line."""
    answered = f"revision {standing.revision}, {standing.date}"
    by = f"{answered}, {standing.by}" if standing.by else answered
    if standing.state in ("approved", "to change"):
        told = [by, *_quoted(standing.comment)]
    elif standing.state == "changed":
        now = f"; revision {standing.proofed} waits for a yes" if standing.proofed else ""
        told = [f"approved at {by}{now}", *_since(standing)]
    else:
        shown = f"{answered}: no answer yet" if standing.state == "waiting" else "as it is now"
        told = [shown, *_since(standing), *_quoted(standing.comment)]
    return [*told, *_ordered_words(standing.ordered)]


def _since(standing: Standing) -> list[str]:
    if not standing.changed:
        return []
    return [f"since revision {standing.since}: {'; '.join(standing.changed)}"]


def _quoted(comment: str) -> list[str]:
    return [f"\u201c{' '.join(comment.split())}\u201d"] if comment.strip() else []


def _ordered_words(ordered: Ordered | None) -> list[str]:
    if ordered is None:
        return []
    printer = f" from {ordered.printer}" if ordered.printer else ""
    told = [f"ordered {ordered.date}{printer}"]
    if ordered.changed:
        told.append(f"changed since the order: {'; '.join(ordered.changed)}")
    if ordered.anyway:
        told.append(f"ordered anyway: {'; '.join(ordered.anyway)}")
    return told


def _gone_words(standing: Standing) -> list[str]:
    return ["on the last proof, no longer in the suite", *_ordered_words(standing.ordered)]


def status_json(status: Status) -> dict[str, Any]:
    """Returns the same for a machine; fields that say nothing are null or empty."""
    return {
        "pieces": [_standing_json(each, each.state) for each in status.standings],
        "gone": [_standing_json(each, GONE) for each in status.gone],
        "record": list(status.told),
    }


def _standing_json(standing: Standing, state: str) -> dict[str, Any]:
    ordered = standing.ordered
    return {
        "name": standing.item.name,
        "title": standing.item.title,
        "fingerprint": standing.item.fingerprint.short,
        "digest": standing.item.fingerprint.digest,
        "state": state,
        "revision": standing.revision,
        "date": standing.date or None,
        "by": standing.by or None,
        "comment": standing.comment or None,
        "proofed": standing.proofed,
        "since": standing.since,
        "changed": list(standing.changed),
        "ordered": None
        if ordered is None
        else {
            "date": ordered.date,
            "printer": ordered.printer,
            "changed": list(ordered.changed),
            "anyway": list(ordered.anyway),
        },
    }
