"""What lies on a page, in card inches, and which parts of it must stay in sight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pymupdf
from shapely import box as shapely_box
from shapely import unary_union

from mockup.artwork.document import open_page
from mockup.artwork.page import ArtPage, Placement, seen_matrix, trim_matrix
from mockup.geometry.affine import Affine
from mockup.geometry.offset import polygons_of
from mockup.geometry.point import Box, Point, box_of

GROUND_SHARE = 0.5  # a path or image over half the card is a ground, not a drawing on it
JOIN_IN = (
    0.08  # marks nearer than this are read as one thing: letters of a line, strokes of a motif
)

_KINDS = {"text": "text", "path": "path", "image": "image", "imgmask": "image", "shade": "path"}


@dataclass(frozen=True)
class ArtObject:
    """One mark on a page: "text", "path" or "image", and its box in card inches."""

    kind: str
    box: Box


def art_objects(page: ArtPage, placement: Placement) -> tuple[ArtObject, ...]:
    """Returns every mark a page draws, in drawing order, boxes in inches from the trim's top left.

    Raises what open_page raises.
    """
    to_card = trim_matrix(placement).inverse()
    with open_page(page.path, page.number) as opened:
        to_seen = seen_matrix(opened)
        flat = _unrotated_matrix(opened)
        boxes = opened.get_bboxlog()
    to_card_inches = to_card @ to_seen @ flat.inverse()
    return tuple(
        ArtObject(kind, _mapped(bounds, to_card_inches))
        for name, bounds in boxes
        if (kind := _kind(name)) is not None
    )


def keep_clear(objects: Sequence[ArtObject], width_in: float, height_in: float) -> list[Box]:
    """Returns the boxes of a card's type and drawings, those close together as one.

    Left out: what covers over half the card, and what runs off the card (bleeding grounds,
    patterns). Inches from the trim's top left.
    """
    card = Box(0.0, 0.0, width_in, height_in)
    marks = [mark.box for mark in objects if _is_mark(mark, card)]
    grown = unary_union([shapely_box(*mark.grown(JOIN_IN / 2)) for mark in marks])
    return [Box(*part.bounds).grown(-JOIN_IN / 2) for part in polygons_of(grown)]


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
    return inside and box.width * box.height < GROUND_SHARE * card.width * card.height


def _kind(name: str) -> str | None:
    verb, _, what = name.partition("-")
    return _KINDS.get(what) if verb in ("fill", "stroke") else None


def _unrotated_matrix(page: pymupdf.Page) -> Affine:
    rotation = page.rotation
    page.set_rotation(0)  # in memory: get_bboxlog measures the page so
    matrix = seen_matrix(page)
    page.set_rotation(rotation)
    return matrix


def _mapped(bounds: tuple[float, float, float, float], affine: Affine) -> Box:
    corners = Box(*bounds).corners()
    return box_of(affine.point(Point(*corner)) for corner in corners)
