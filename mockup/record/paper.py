"""What a proof that came back says: plain values, as workers hand them over."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point


@dataclass(frozen=True)
class Code:
    """A QR code found on a page: the page from 1, its text, its corners clockwise from the top
    left, inches from the page's top left as it is seen."""

    page: int
    text: str
    corners: tuple[Point, Point, Point, Point]
    size: Point
    """The page's width and height, inches."""


@dataclass(frozen=True)
class Returned:
    """A proof that came back.

    `fields` are the names and values of its form's fields, a button's value the one pressed, empty
    where none is; no field at all where it was flattened or printed. `digests` has the SHA-256 of
    what each page draws and of all it draws with, form fields aside; none where the file cannot be
    taken apart.
    """

    fields: tuple[tuple[str, str], ...]
    codes: tuple[Code, ...]
    digests: tuple[str, ...]
    pages: int


@dataclass(frozen=True)
class Look:
    """A place of a page: the share of it that is dark, and the words in it."""

    dark: float
    words: str


@dataclass(frozen=True)
class Places:
    """Boxes to look at on a page of a file: `onto` maps their inches to the page's."""

    page: int
    onto: Affine
    boxes: tuple[Box, ...]
