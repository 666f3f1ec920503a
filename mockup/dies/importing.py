"""A die from a printer's template: which path is the cut, and why; bleed and safe zone with it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.dies.family import Die
from mockup.geometry.affine import translation
from mockup.geometry.outline import Segment, Shape
from mockup.units import Unit


@dataclass(frozen=True)
class ImportedDie:
    """A die as its template draws it, at the template's size, moved to begin at (0, 0).

    `bleed`, `safe` and `folds` are what is drawn beside it, in the die's own coordinates, inches.
    `size_note` says how template and card differ where they do, else nothing.
    """

    die: Die
    bleed: Shape | None
    safe: Shape | None
    size_note: str = ""
    folds: tuple[tuple[Segment, ...], ...] = ()


def import_die(
    path: Path,
    card_in: tuple[float, float] | None = None,
    pick: str | None = None,
    page: int = 1,
    unit: Unit = "in",
) -> ImportedDie:
    """Returns the die drawn in an SVG or PDF template.

    The cut is the outline that names, processing steps (ISO 19593-1), the card's size, the outlines
    round it and in it, the legend, crop marks and page boxes speak for; `pick` asks for one by
    name, colour, size or number. `card_in` is (width, height) in inches; `unit` is what lengths are
    told in. Raises InputError where the file cannot be read, holds no sound outline, or more than
    one that may be the cut; DieError where none has the card's size.
    """
    from mockup.dies.joining import cut_shape  # shapely, only here
    from mockup.dies.template.beside import bleed_of, folds_of, hole_outlines, safe_of
    from mockup.dies.template.choosing import choose
    from mockup.dies.template.nests import even_distance
    from mockup.dies.template.opening import open_template

    template, mark = open_template(path, page)
    choice = choose(template, card_in, pick, unit)
    cut = choice.cut.ring
    shape = cut_shape(template.name, [cut.outline, *hole_outlines(choice)])
    box = shape.box
    home = translation(-box.left, -box.top)
    bleed, safe = bleed_of(choice), safe_of(choice)
    die = Die(
        path.stem,
        box.width,
        box.height,
        (),
        shape.mapped(home),
        choice.because,
        choice.others,
        path,
        mark,
        bleed and Shape(bleed.outline.mapped(home)),
        bleed and even_distance(bleed, cut),
        safe and Shape(safe.outline.mapped(home)),
        safe and even_distance(cut, safe),
        tuple(tuple(part.mapped(home) for part in course) for course in folds_of(choice)),
    )
    return ImportedDie(die, die.bleed, die.safe, choice.size_note, die.folds)
