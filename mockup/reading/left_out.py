"""What a client's picture leaves out of the art: only what is surely a template's.

Taking art away on a guess would show a card that is not the one printed. A dashed border, a crop
mark, a drawing on a layer with a die's name stay in the picture; `check` tells of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from mockup.artwork.inspection import Painted
from mockup.reading.template_lines import HAIR_PT, FollowingLine, TemplateLines, is_primary
from mockup.trade.tolerances import TEMPLATE_LINE
from mockup.trade.vocabulary import is_template
from mockup.units import PT_PER_INCH


@dataclass(frozen=True)
class LeftOut:
    """A mark a client is not shown, and what it is called: `cut line`, `layer "Dieline"`."""

    painted: Painted
    what: str


def surely_a_templates(lines: TemplateLines) -> tuple[LeftOut, ...]:
    """Returns the painted objects that are no art, in drawing order.

    Sure are: the objects of a template's processing step; what lies on a template's layer, or is in
    its ink, and looks like a line or says a measure or what a line is; a thin line on the outline
    of a die that is no rectangle, or of its hole; a line that words beside it name, and the words;
    a line of the same pen as those; on a rectangle, a cut line that is drawn as no border is.
    """
    sure = {each.number: LeftOut(each, _name(each)) for each in lines.named}
    for line in lines.following:
        if _is_surely_one(line):
            for each in (*line.painted, *line.words):
                sure.setdefault(each.number, LeftOut(each, f"{line.line} line"))
    return tuple(sure[number] for number in sorted(sure))


def _name(painted: Painted) -> str:
    """Returns the name that says a mark is a template's."""
    inks = painted.ink.names if painted.ink is not None else ()
    ink = next(filter(is_template, inks), None)
    return f'ink "{ink}"' if ink is not None else f'layer "{painted.layer}"'


def _is_surely_one(line: FollowingLine) -> bool:
    if max(_width_pt(each) for each in line.painted) > TEMPLATE_LINE.value:
        return False
    if line.evidence in ("word", "same pen") or (line.line == "hole" and line.is_sure):
        return True
    if line.line != "cut":
        return False  # a bleed line is cut off: there is nothing to leave out
    return line.evidence == "own shape" or any(_is_no_border(each) for each in line.painted)


def _is_no_border(painted: Painted) -> bool:
    """Returns whether a line on the cut is drawn as a template's: fine, dashed, a pure primary."""
    dashed = painted.pen is not None and bool(painted.pen.dashes)
    return dashed or is_primary(painted.ink) or _width_pt(painted) <= HAIR_PT


def _width_pt(painted: Painted) -> float:
    return painted.pen.width_in * PT_PER_INCH if painted.pen is not None else 0.0
