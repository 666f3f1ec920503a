"""What a client's picture leaves out of the art: only what is surely a template's.

Taking art away on a guess would show a card that is not the one printed. A dashed border, a crop
mark, a drawing on a layer with a die's name stay in the picture; `check` tells of them.
"""

from __future__ import annotations

from mockup.artwork.inspection import Inspection, Painted
from mockup.reading.part import ink_area
from mockup.reading.template_lines import TemplateLines
from mockup.trade.vocabulary import TEMPLATE, Meaning, name_meaning
from mockup.units import PT_PER_INCH

STROKE_PT = 3.0  # judgement: a template's lines are drawn thinner; thicker ones are borders
OUTLINE_PT = 3.0  # judgement: the same, for a line that was turned into its outline
# Layers that designers name so for the art that lies there: one drawing in it and all of it stays.
_ART_LIES_THERE: frozenset[Meaning] = frozenset(("bleed", "safe"))


def surely_a_templates(inspection: Inspection, lines: TemplateLines) -> frozenset[int]:
    """Returns the numbers of the painted objects that are no art, as `leaving_out` takes them.

    Sure are: the objects of a processing step; what lies on a template's layer, or is in its ink,
    and looks like a line or says a measure or what a line is; a thin line on the die's own outline.
    """
    steps = {layer.name for layer in inspection.layers if layer.processing_step is not None}
    kept = _layers_of_art(inspection)
    sure = [line.painted for line in lines.following if line.on_the_die]
    sure += [
        painted
        for painted in lines.named
        if painted.layer in steps or (_looks_like_one(painted) and painted.layer not in kept)
    ]
    return frozenset(painted.number for painted in sure)


def _layers_of_art(inspection: Inspection) -> set[str | None]:
    """Returns the layers named for a zone of the card that hold a drawing, not a template's lines
    alone."""
    return {
        painted.layer
        for painted in inspection.painted
        if painted.layer is not None
        and name_meaning(painted.layer) in _ART_LIES_THERE
        and not _looks_like_one(painted)
    }


def _looks_like_one(painted: Painted) -> bool:
    """Returns whether an object of a template's layer or ink looks like what templates hold."""
    if painted.kind == "type":
        return _says_so(painted)
    if painted.kind != "path":
        return False
    if painted.pen is not None:
        return painted.pen.width_in * PT_PER_INCH <= STROKE_PT
    return _is_thin_outline(painted)


def _says_so(painted: Painted) -> bool:
    """Returns whether type names a line ("cut", "3 mm bleed"), or is a measure among measures."""
    text = painted.lettering.text if painted.lettering is not None else ""
    if name_meaning(text) in TEMPLATE | {"legend"}:
        return True
    names = [painted.layer or "", *(painted.ink.names if painted.ink else ())]
    measured = any(name_meaning(name) == "dimensions" for name in names)
    return measured and any(letter.isdigit() for letter in text)


def _is_thin_outline(painted: Painted) -> bool:
    """Returns whether a fill is a line turned into its outline: thin everywhere."""
    ink = None
    for ring in painted.rings:
        area = ink_area(ring, painted)
        ink = area if ink is None else ink.symmetric_difference(area)
    if ink is None or ink.is_empty or ink.length == 0:
        return False
    thickness_in = 2 * ink.area / ink.length
    return (
        thickness_in * PT_PER_INCH <= OUTLINE_PT
        and ink.buffer(-OUTLINE_PT / PT_PER_INCH / 2).is_empty
    )
