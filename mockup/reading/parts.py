"""All that a page paints as art, sub-path by sub-path: which are letters, texture, repeated."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from mockup.reading.lettering import Row, outlined_rows
from mockup.reading.part import Part
from mockup.reading.texture import repeated, texture


@dataclass(frozen=True)
class Parts:
    """The parts of a page, in drawing order; the sets hold indices into `all`."""

    all: tuple[Part, ...]

    @cached_property
    def letter_rows(self) -> list[Row]:
        """Rows of outlined letters; their members are indices into `all`."""
        return outlined_rows(self.all)

    @cached_property
    def lettered(self) -> dict[int, Row]:
        """Which parts are outlined letters, and of which row."""
        return {k: row for row in self.letter_rows for k in row.members}

    @cached_property
    def texture(self) -> set[int]:
        """Which parts belong to a texture or a pattern that may be cut anywhere."""
        return texture(self.all, self.lettered)

    @cached_property
    def repeated(self) -> set[int]:
        """Which parts near the cut or beyond it are shapes that the page repeats."""
        return repeated(self.all)
