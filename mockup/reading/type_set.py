"""Type as set on a card: live, or outlined and its size judged by the height of its letters."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mockup.artwork.inspection import Ink, Painted
from mockup.geometry.point import Box
from mockup.reading.page_facts import PageFacts
from mockup.reading.sight import Sight
from mockup.trade.tolerances import SIZE_PER_X_HEIGHT
from mockup.units import PT_PER_INCH

ACROSS, DOWN = 60, 9  # judgement: places a line of type is looked at; some fall on its strokes
ABOVE_IN = 0.03  # judgement: the ground just above a line, clear of its accents' ink
LIGHTER = 40  # judgement: 255ths; less is a tint on a tint, not type out of a ground


@dataclass(frozen=True)
class TypeLine:
    """A run of type: its size in points, where, in what ink, what it says."""

    size_pt: float
    box: Box
    ink: Ink | None
    text: str
    outlined: bool


def type_set(page: PageFacts) -> list[TypeLine]:
    """Returns the runs of live type on the card, then its outlined words."""
    return [*_live(page), *_outlined(page)]


def is_reversed(line: TypeLine, sight: Sight) -> bool:
    """Returns whether type is lighter than its ground: the darkest of its box is round it."""
    box = line.box
    xs = np.linspace(box.left, box.right, ACROSS)
    rows = [np.full(ACROSS, y) for y in np.linspace(box.top, box.bottom, DOWN)]
    within = np.concatenate([np.stack([xs, row], axis=1) for row in rows])
    above = np.stack([xs, np.full(ACROSS, box.top - ABOVE_IN)], axis=1)
    ground = float(np.median(sight.colours_at(above).mean(axis=1)))
    inside = sight.colours_at(within).mean(axis=1)
    lighter, darker = inside.max() - ground, ground - inside.min()
    return bool(lighter > darker and lighter > LIGHTER)


def _live(page: PageFacts) -> list[TypeLine]:
    no_art = {id(painted) for painted in page.template_lines.painted}
    return [
        TypeLine(p.lettering.size_pt, p.box, p.ink, p.lettering.text, False)
        for p in page.inspection.painted
        if p.lettering is not None and p.lettering.text.strip() and _on_card(p, page)
        if id(p) not in no_art
    ]


def _outlined(page: PageFacts) -> list[TypeLine]:
    """Returns outlined words, their size judged by the letters' usual height as an x-height."""
    parts = page.parts.all
    lines: list[TypeLine] = []
    for row in page.parts.letter_rows:
        boxes = np.array([parts[k].box for k in row.members])
        box = Box(*map(float, (*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0))))
        size_pt = row.height_in * PT_PER_INCH * SIZE_PER_X_HEIGHT
        lines.append(TypeLine(size_pt, box, parts[row.members[0]].painted.ink, "", True))
    return lines


def _on_card(painted: Painted, page: PageFacts) -> bool:
    card = page.zones.shape.box
    return painted.box.right > card.left and painted.box.left < card.right
