"""What lies on a page, in card inches, and which parts of it must stay in sight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import box as shapely_box
from shapely import unary_union

from mockup.artwork.page import ArtPage, Placement
from mockup.geometry.offset import polygons_of
from mockup.geometry.point import Box
from mockup.workshop import crew
from mockup.workshop.job import Job

GROUND_SHARE = 0.5  # a path or image over half the card is a ground, not a drawing on it
FRAMED_IN = 0.04  # judgement: unless it ends so far from every edge: a border, or a panel with one
JOIN_IN = (
    0.08  # marks nearer than this are read as one thing: letters of a line, strokes of a motif
)

_OBJECTS = "mockup.foreign.objects:art_objects"


@dataclass(frozen=True)
class ArtObject:
    """One mark on a page: "text", "path" or "image", and its box in card inches."""

    kind: str
    box: Box


def objects_of(pages: Sequence[tuple[ArtPage, Placement]]) -> list[tuple[ArtObject, ...]]:
    """Returns every mark each page draws, in drawing order, boxes in inches from the trim's top
    left; pages are read two at a time. Raises InputError and LimitError for art that cannot be
    read."""
    arts = [(page.art, placement) for page, placement in pages]
    return crew.done(
        _OBJECTS,
        [
            Job((art, placement), art.where, art.sha256, (art.sha256, art.page, placement))
            for art, placement in arts
        ],
    )


def keep_clear(objects: Sequence[ArtObject], width_in: float, height_in: float) -> list[Box]:
    """Returns the boxes of a card's type and drawings, those close together as one.

    Left out: grounds, which cover over half the card up to its edge, and what runs off the card
    (bleeding grounds, patterns). Inches from the trim's top left.
    """
    marks = marks_on(objects, width_in, height_in)
    grown = unary_union([shapely_box(*mark.grown(JOIN_IN / 2)) for mark in marks])
    return [Box(*part.bounds).grown(-JOIN_IN / 2) for part in polygons_of(grown)]


def marks_on(objects: Sequence[ArtObject], width_in: float, height_in: float) -> list[Box]:
    """Returns the boxes of a card's type and drawings, mark by mark: those of `keep_clear`."""
    card = Box(0.0, 0.0, width_in, height_in)
    return [mark.box for mark in objects if _is_mark(mark, card)]


def _is_mark(mark: ArtObject, card: Box) -> bool:
    box = mark.box
    inside = (
        box.left >= card.left
        and box.top >= card.top
        and box.right <= card.right
        and box.bottom <= card.bottom
    )
    if mark.kind == "text":
        return box.right > card.left and box.left < card.right  # type is kept in sight wherever
    inset = min(box.left, box.top, card.right - box.right, card.bottom - box.bottom)
    small = box.width * box.height < GROUND_SHARE * card.width * card.height
    return inside and (small or inset >= FRAMED_IN)
