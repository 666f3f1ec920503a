"""What `[scene]` says of the arrangement: main piece, open envelopes, what lies over what."""

from __future__ import annotations

from collections.abc import Callable, Collection

from mockup.errors import quoted
from mockup.suite.schema import SceneTable
from mockup.suite.suite import SceneChoice
from mockup.tables.wording import told

OVER = " over "
ENVELOPES = "envelopes."

Note = Callable[[str, str, object], None]
"""Notes a mistake: its key, the sentence, the value."""


def scene_choice(
    table: SceneTable, pieces: Collection[str], envelopes: Collection[str], note: Note
) -> SceneChoice:
    """Returns what a suite says of its scene, after noting every name in it that is none."""
    if table.main is not None and table.main not in pieces:
        note("scene.main", told(table.main, "piece", pieces), table.main)
    for number, name in enumerate(table.open or (), 1):
        if name not in envelopes:
            note(f"scene.open.{number}", told(name, "envelope", envelopes), name)
    owners = [*pieces, *(f"{ENVELOPES}{name}" for name in envelopes)]
    above: list[tuple[str, str]] = []
    for number, line in enumerate(table.above, 1):
        high, over, low = (part.strip() for part in line.partition(OVER))
        key = f"scene.above.{number}"
        if not (high and over and low) or high == low:
            note(key, f'{quoted(line)} is not of the form "reply over details"', line)
            continue
        wrong = [name for name in (high, low) if name not in owners]
        for name in wrong:
            note(key, told(name, "piece", owners), name)
        if not wrong:
            above.append((high, low))
    if (circle := _circle(above)) is not None:
        note("scene.above", f"{quoted(circle)} lies over itself, by way of others", circle)
    return SceneChoice(table.name, table.arrange, table.seed, table.main, table.open, tuple(above))


def _circle(above: Collection[tuple[str, str]]) -> str | None:
    """Returns a name that lies over itself, or None."""
    names = sorted({name for pair in above for name in pair})
    left = set(names)
    while left:
        lowest = {name for name in left if not any(h == name and w in left for h, w in above)}
        if not lowest:
            return min(left)
        left -= lowest
    return None
