"""How a line of a template looks, and what that is called: `dashed magenta`."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.trade.colour_words import Rgb, colour_name
from mockup.vector.template import Colour, TemplatePath

_ALIKE = 0.07  # judgement: one colour through two profiles differs by less in any channel


@dataclass(frozen=True)
class Look:
    """The colour of a line or a filled shape, and whether it is dashed.

    `rgb` is None where the colour cannot be told, as for a spot ink; `inks` are its names.
    """

    rgb: Rgb | None
    inks: tuple[str, ...]
    dashed: bool
    stroked: bool

    @property
    def words(self) -> str:
        """`solid magenta`, `dashed`, `filled white`: as a reader sees it."""
        how = ("dashed" if self.dashed else "solid") if self.stroked else "filled"
        return how if self.rgb is None else f"{how} {colour_name(self.rgb)}"


def look_of(path: TemplatePath) -> Look:
    """Returns how a path looks: by its line where it has one, else by its fill."""
    colour = path.stroke or path.fill
    dashed = path.stroke is not None and bool(path.dashes_in)
    inks = colour.names if colour is not None and colour.space == "spot" else ()
    return Look(rgb_of(colour), inks, dashed, path.stroke is not None)


def rgb_of(colour: Colour | None) -> Rgb | None:
    """Returns a colour as it would look, roughly: inks without a profile; None where unknown."""
    if colour is None:
        return None
    match colour.space, colour.values:
        case "gray", (grey,):
            return grey, grey, grey
        case "rgb", (red, green, blue):
            return red, green, blue
        case "cmyk", (cyan, magenta, yellow, black):
            red, green, blue = ((1 - ink) * (1 - black) for ink in (cyan, magenta, yellow))
            return red, green, blue
        case _:
            return None


def alike(one: Look, other: Look) -> bool:
    """Returns whether two lines have one colour; dashes are compared apart."""
    if one.rgb is not None and other.rgb is not None:
        return all(abs(a - b) <= _ALIKE for a, b in zip(one.rgb, other.rgb, strict=True))
    return bool(one.inks) and one.inks == other.inks
