"""What a sheet sends back of the sky that it hides: off its underside, and off its cut side.

Beside a slab that lies on the table all that is hidden is its side, and the side that faces a low
window is brighter than the table. Beside one on a pad it is mostly the underside, which sees the
table in the slab's own shade.
"""

from __future__ import annotations

import numpy as np

from mockup.render.light.distance import sloped
from mockup.render.light.hiding import LEAST_GAP_IN, Caster
from mockup.render.light.lamps import Cells
from mockup.render.light.lattice import Field
from mockup.render.light.scene import height

# How lit, against the open table, is what an underside looks down on, per squared share of the sky
# that the place itself sees; and by how much the window's part of that goes by whether the place
# sees the window: a sun's shadow is hard, and all that an underside sees lies in it or none.
BOUNCE = 0.36
IN_SHADE, IN_LIGHT = 0.5, 1.2
# Of the light that comes off a side, level with the table, more glances off than of what falls from
# above; and a side sees the table's light over half of what it faces. Fitted to path-traced slabs.
GRAZING = 0.65
OF_TABLE = 0.4


def sent_back(
    at: tuple[Field, Field, Field],
    caster: Caster,
    cells: Cells,
    seen: tuple[Field, Field],
    spacing_in: float,
) -> tuple[Field, Field]:
    """Returns the light of what a caster hides, against the open table's, were all paper white.

    First what it has from the receiver itself and sends back, then what its side has straight from
    the window and the sky. `at` is x, y and z of points and `seen` the shares of the window and
    of the sky that they see, (n, points) each.
    """
    x, y, z = at
    inside, gx, gy = sloped(caster.distance, x, y)
    away = np.maximum(-inside, np.float32(spacing_in / 4))
    top = np.maximum(height(caster.top, caster.bow, x, y) - z, np.float32(LEAST_GAP_IN))
    below = np.maximum(top - np.float32(caster.thickness_in), 0)
    side = 1 - _hidden(away, below) / _hidden(away, top)
    # Cotangents add: what a level face gets at a slope of 1, an upright one gets once more.
    slope_x, slope_y = _toward(x, y, cells)
    facing = (gx * slope_x + gy * slope_y) / -np.maximum(np.hypot(gx, gy), np.float32(1e-9))
    share = np.float32(cells.window_share)
    lit = np.maximum(facing, 0) * share + (1 - share) / 2
    window, sky = seen
    under = np.float32(BOUNCE) * sky * sky * (1 - side)
    near = np.float32(IN_SHADE) + np.float32(IN_LIGHT - IN_SHADE) * window
    under *= (1 - share) + share * near
    side *= np.float32(GRAZING)
    return under + np.float32(OF_TABLE) * side, lit * side


def _hidden(away: Field, gap: Field) -> Field:
    """Returns twice the share of the sky that a half plane at a gap overhead hides from beside."""
    return 1 - away / np.sqrt(away * away + gap * gap)


def _toward(x: Field, y: Field, cells: Cells) -> tuple[Field, Field]:
    """Returns the slope, run per rise, towards the middle of the window's light."""
    n = cells.of_window
    share = cells.weights[:n, 0]
    b = np.float32(share @ cells.b[:n])
    return np.float32(share @ cells.ax[:n]) - x * b, np.float32(share @ cells.ay[:n]) - y * b
