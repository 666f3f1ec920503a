"""What is said of finishes, of painted edges and torn sides, in the words of facts: value, told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.artwork.art import FinishSaid
from mockup.suite.suite import Edge


def finishes_said(finishing: Sequence[FinishSaid]) -> Iterator[tuple[str, str]]:
    """Yields every finish said of a page's plates: to the bytes of a page of its own; then as a
    reader is told it. In an order that the file's own order does not change."""
    for said in sorted(finishing, key=_value):
        of = f" by {said.plate}" if said.plate else ""
        if said.art is not None:
            of = f" by {said.art.path.name}, page {said.art.page}"
        metal = f", {said.metal}" if said.metal else ""
        yield _value(said), f"{said.finish}{metal}{of}"


def edge_said(edge: Edge | None) -> str:
    """Returns the metal or the colour of a card's edges; nothing where they are bare."""
    if edge is None:
        return ""
    red, green, blue = edge.colour
    return edge.metal or f"#{red:02x}{green:02x}{blue:02x}"


def _value(said: FinishSaid) -> str:
    page = "" if said.art is None else f"{said.art.sha256} {said.art.page}"
    parts = (said.finish, said.plate, said.metal or "", page)
    return "; ".join(part for part in parts if part)
