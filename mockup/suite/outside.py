"""The outside of an envelope as a suite has it: art on face and flap, type, which side lies up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from mockup.artwork.art import Art
from mockup.colour.srgb import Rgb
from mockup.envelopes.lettering import Align, TypeFace
from mockup.geometry.point import Point

Shown = Literal["open", "closed", "face"]
"""Which side of an envelope lies up in a flat-lay: open from the back, closed, the address side."""

EnvelopeSide = Literal["face", "flap"]
Ink = Literal["black", "white"] | Rgb
"""What type is printed in: black, white ink, or a colour as it is on white paper."""


@dataclass(frozen=True)
class Lettering:
    """Lines set on an envelope by the program: a sample, never in a print file.

    `size_pt` and `at` (of the block's top left, inches from the top left of the side it is on) are
    None where the place itself says them; `ink` is None for black on light paper, white ink on
    dark; `hits` are of white ink.
    """

    lines: tuple[str, ...]
    face: TypeFace = "text"
    size_pt: float | None = None
    align: Align = "left"
    at: Point | None = None
    ink: Ink | None = None
    hits: int = 1
    side: EnvelopeSide = "face"


@dataclass(frozen=True)
class Outside:
    """What is on an envelope's outside, and which side of it lies up; nothing where bare.

    The flap's art is of the flap's own box or of the whole back, as they are seen with the
    envelope closed: the fold at the top, the tip down.
    """

    face: Art | None = None
    flap: Art | None = None
    address: Lettering | None = None
    return_address: Lettering | None = None
    shown: Shown | None = None

    @property
    def arts(self) -> tuple[tuple[EnvelopeSide, Art], ...]:
        """The art of each side that has some."""
        sides: tuple[tuple[EnvelopeSide, Art | None], ...] = (
            ("face", self.face),
            ("flap", self.flap),
        )
        return tuple((side, art) for side, art in sides if art is not None)


BARE = Outside()
"""An envelope with nothing on it, shown as it always was."""
