"""A drawn page's finishes as the light takes them: pressed so deep, coated with such a skin.

Depths are common practice, no source: letterpress bites 0.003 to 0.010 in into soft stock, a
sculpting die sinks or raises it about 0.010 in, hot foil 0.002 in. How wide the walls are:
judgements; a plate's edge is steep, a die's shoulder is rounded so as not to cut the paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mockup.artwork.own_pages import UNSAID
from mockup.colour.plates import FinishPlate, Plate
from mockup.render.light.finish import Coat, Press, Skin
from mockup.render.light.metal import GLOSS, foil
from mockup.trade.finishes import Finish

_MOST_OF_CALIPER = 0.35  # pressed deeper, paper breaks; judgement


@dataclass(frozen=True)
class _Bite:
    """How deep a finish goes (above the face where negative), its wall, and the grain it irons."""

    depth_in: float
    wall_in: float
    irons: float


_BITES: dict[Finish, _Bite] = {
    "letterpress": _Bite(0.006, 0.004, 0.5),
    "deboss": _Bite(0.010, 0.007, 0.6),
    "emboss": _Bite(-0.010, 0.008, 0.3),
    "foil": _Bite(0.002, 0.003, 0.0),
}


@dataclass(frozen=True)
class Worked:
    """What a sheet's finishes press into it and lay over it."""

    presses: tuple[Press, ...] = ()
    coats: tuple[Coat, ...] = ()


NOT_WORKED = Worked()


def worked(finished: Sequence[FinishPlate], caliper_in: float, left_px: int, top_px: int) -> Worked:
    """Returns the presses and coats of a page whose first pixel is (left_px, top_px)."""
    presses: list[Press] = []
    coats: list[Coat] = []
    for each in finished:
        part, left, top = _own_part(each.plate)
        if not part.size:
            continue
        place = left_px + left, top_px + top
        bite = _BITES.get(each.finish)
        if bite is not None:
            most = caliper_in * _MOST_OF_CALIPER
            depth_in = float(np.clip(bite.depth_in, -most, most))
            presses.append(Press(part, *place, depth_in, bite.wall_in, bite.irons))
        skin = _skin(each)
        if skin is not None:
            coats.append(Coat(part, *place, skin))
    return Worked(tuple(presses), tuple(coats))


def _skin(each: FinishPlate) -> Skin | None:
    if each.finish == "varnish":
        return GLOSS
    if each.finish != "foil":
        return None
    return GLOSS if each.metal == "clear" else foil(each.metal or UNSAID)


def _own_part(plate: Plate) -> tuple[Plate, int, int]:
    """Returns the part of a plate where it is anything, and that part's left and top, px."""
    rows, columns = (np.flatnonzero(plate.any(axis=axis)) for axis in (1, 0))
    if not rows.size:
        return plate[:0, :0], 0, 0
    part = plate[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    return np.ascontiguousarray(part), int(columns[0]), int(rows[0])
