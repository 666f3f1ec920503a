"""What a reader finds on a template: painted paths in inches, and what is said of them."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.geometry.outline import Segment


@dataclass(frozen=True)
class TemplatePath:
    """One run of segments without a gap, inches from the top left of the page, y down.

    `painted` numbers the paint operator or element it was drawn by: parts of one compound path
    share it. `filled` says that an open run is closed by its paint.
    """

    segments: tuple[Segment, ...]
    closed: bool
    filled: bool
    painted: int
    layers: tuple[str, ...] = ()
    inks: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()


@dataclass(frozen=True)
class Template:
    """A page of a template. Sizes in inches; `name` is how messages call the file."""

    name: str
    width_in: float
    height_in: float
    paths: tuple[TemplatePath, ...]
