"""What of a page is a template's by name: layers, inks, processing steps.

A name counts with the look of a line: on layers called after a die, or in such inks, art lies too.
"""

from __future__ import annotations

from mockup.artwork.inspection import Inspection, Painted
from mockup.reading.courses import line_width
from mockup.trade.vocabulary import STEPS, TEMPLATE, Meaning, is_template, name_meaning

_ART_LIES_THERE: frozenset[Meaning] = frozenset(("bleed", "safe"))


def looks_like_a_template_s(painted: Painted) -> bool:
    """Returns whether a mark looks like what templates hold: a thin line, or words that say so."""
    if painted.kind == "type":
        return _says_so(painted)
    return line_width(painted) is not None


def named(inspection: Inspection) -> list[Painted]:
    """Returns what lies on a template's layer, is in its ink or a processing step of it, and looks
    like what templates hold."""
    guides = {
        layer.name
        for layer in inspection.layers
        if layer.processing_step is None and is_template(layer.name)
    } - layers_of_art(inspection)
    steps = {layer.name for layer in inspection.layers if is_template_step(layer.processing_step)}
    return [
        painted
        for painted in inspection.painted
        if painted.layer in steps
        or (
            (painted.layer in guides or _in_a_template_s_ink(painted))
            and looks_like_a_template_s(painted)
        )
    ]


def layers_of_art(inspection: Inspection) -> set[str]:
    """Returns the layers named for a zone of the card that hold a drawing, not a template's lines
    alone: designers name them so for the art that lies there."""
    return {
        painted.layer
        for painted in inspection.painted
        if painted.layer is not None
        and name_meaning(painted.layer) in _ART_LIES_THERE
        and not looks_like_a_template_s(painted)
    }


def is_template_step(step: str | None) -> bool:
    """Returns whether a processing step is a template's: foil, white and varnish are printed."""
    return step is not None and (
        STEPS.get(step, "other") in TEMPLATE or step.split("/")[0] in ("Legend", "Positions")
    )


def _in_a_template_s_ink(painted: Painted) -> bool:
    return painted.ink is not None and any(map(is_template, painted.ink.names))


def _says_so(painted: Painted) -> bool:
    """Returns whether type names a line ("cut", "3 mm bleed"), or is a measure among measures."""
    text = painted.lettering.text if painted.lettering is not None else ""
    if name_meaning(text) in TEMPLATE | {"legend"}:
        return True
    names = [painted.layer or "", *(painted.ink.names if painted.ink else ())]
    measured = any(name_meaning(name) == "dimensions" for name in names)
    return measured and any(letter.isdigit() for letter in text)
