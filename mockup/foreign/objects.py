"""The marks of a page, read in a worker: each with its kind and its box in card inches."""

from __future__ import annotations

import math

import pymupdf

from mockup.artwork.art import Art
from mockup.artwork.objects import ArtObject
from mockup.artwork.page import Placement, trim_matrix
from mockup.foreign.document import opened_page
from mockup.foreign.page import seen_matrix
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point, box_of

_KINDS = {"text": "text", "path": "path", "image": "image", "imgmask": "image", "shade": "path"}


def art_objects(art: Art, placement: Placement) -> tuple[ArtObject, ...]:
    """Returns every mark a page draws, in drawing order. Raises what opened_page raises."""
    opened = opened_page(art)
    to_seen = seen_matrix(opened.page)
    flat = _unrotated_matrix(opened.page)
    to_card_inches = trim_matrix(placement).inverse() @ to_seen @ flat.inverse()
    return tuple(
        ArtObject(kind, _mapped(bounds, to_card_inches))
        for name, bounds in opened.marks
        if (kind := _kind(name)) is not None and all(map(math.isfinite, bounds))
    )


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
