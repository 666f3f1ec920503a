"""A die as it is seen from the back: its mirror image, left for right."""

from __future__ import annotations

from dataclasses import replace

from mockup.dies.family import Die
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Shape


def mirrored(die: Die) -> Die:
    """Returns a die as the back of the card sees it, the card turned over like a page of a book.

    Its shape, the template's bleed and safe lines and its folds lie the other way round in the
    same box; outlines go round the same way as before. Its name and parameters are still those it
    was drawn by, from the front.
    """
    over = Affine(-1.0, 0.0, 0.0, 1.0, die.width_in, 0.0)
    return replace(
        die,
        shape=_turned(die.shape, over),
        bleed=die.bleed and _turned(die.bleed, over),
        safe=die.safe and _turned(die.safe, over),
        folds=tuple(tuple(part.mapped(over) for part in fold) for fold in die.folds),
    )


def _turned(shape: Shape, over: Affine) -> Shape:
    outer, *holes = (each.mapped(over).reversed() for each in shape.outlines)
    return Shape(outer, tuple(holes))
