"""What art asks for that is not drawn: filters, blend modes and more of SVG."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.artwork.art import Art
from mockup.workshop import crew
from mockup.workshop.job import Job

_UNDRAWN = "mockup.foreign.document:undrawn"


def undrawn_features(art: Art) -> tuple[str, ...]:
    """Returns what a file asks for that is not drawn, in words. Raises InputError, LimitError."""
    return undrawn_of_each([art])[0]


def undrawn_of_each(arts: Sequence[Art]) -> list[tuple[str, ...]]:
    """Returns `undrawn_features` of every art, in order."""
    return crew.done(_UNDRAWN, [Job((a,), a.where, a.sha256, a.sha256) for a in arts])
