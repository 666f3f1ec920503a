"""Bleed as the picture shows it: where ink lies at the cut, how far out it goes before paper.

Read along lines that leave the cut at right angles. Only an end that runs along the cut is told; a
dot or a leaf that ends where it ends is not.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Point as GeometryPoint

from mockup.artwork.inspection import Painted
from mockup.geometry.point import Point
from mockup.reading.bleed_edges import ShortBleed, is_repeated
from mockup.reading.die_zones import REACHED_IN, DieZones
from mockup.reading.part import ink_area
from mockup.reading.parts import Parts
from mockup.reading.sight import Sight

STEP_IN = 0.01  # judgement: three pixels between the lines along the cut
JUST_INSIDE_IN = 0.02  # judgement: art that comes this near the cut is meant to reach it
LOOK_INSIDE_IN = 0.1  # judgement: so far in, the art tells whether it has gaps of its own
ABRUPT = 0.5  # judgement: share of the ink at the cut that is lost within three pixels, at an end
BARE = 24.0  # judgement: 255ths; what `_reaches` may take for paper is lighter than this
INK = 3.0  # judgement: 255ths darker than paper: a tint of about 1 % of black is ink
ALONG_LEAST_IN = 0.2  # judgement: a shorter end along the cut is of a shape, not of a ground
EVEN_IN = 0.005  # judgement: how far an end may wander over that length and still run along the cut
HAIRLINE_IN = 0.02  # judgement: a gap of paper narrower is a mistake; a wider one may be a stripe


def short_stretches(
    parts: Parts,
    short_ends: Iterable[ShortBleed],
    no_art: Sequence[Painted],
    zones: DieZones,
    sight: Sight,
) -> list[ShortBleed]:
    """Returns the stretches where art ends before the bleed does: those of single shapes, and those
    the picture shows. Ends of shapes that the page repeats, and of a template's lines, are none."""
    found = [*_short_by_picture(zones, sight), *short_ends]
    return [s for s in found if not (is_repeated(parts, s) or _ends_at(no_art, s))]


def _ends_at(painted: Sequence[Painted], stretch: ShortBleed) -> bool:
    end = GeometryPoint(stretch.end)
    return any(
        ink_area(ring, each).distance(end) < JUST_INSIDE_IN
        for each in painted
        for ring in each.rings
    )


def _short_by_picture(zones: DieZones, sight: Sight) -> list[ShortBleed]:
    """Returns the stretches of the cut along which the picture's ink ends before the bleed does."""
    outer = zones.cut.exterior
    count = max(8, int(outer.length / STEP_IN))
    places = np.linspace(0, outer.length, count, endpoint=False)
    points, normals = _points_and_normals(zones, places)
    wanted = zones.bleed_in
    step = 1 / sight.view.ppi
    outward = np.arange(-LOOK_INSIDE_IN, wanted, step)
    grid = points[:, None, :] + outward[None, :, None] * normals[:, None, :]
    bare = 255 - sight.darkest_at(grid.reshape(-1, 2)).reshape(count, -1) <= BARE
    asked = bare[:, outward > -JUST_INSIDE_IN].any(axis=1)  # the others are inked all the way
    if not asked.any():
        return []
    reach = np.full(count, np.nan)
    smooth = sight.colours_between(grid[asked].reshape(-1, 2))
    darkness = (255 - smooth).max(axis=1).reshape(int(asked.sum()), -1)
    reach[asked] = _reaches(darkness, outward, wanted)
    return _stretches(reach, points, normals, outer.length / count)


def _points_and_normals(
    zones: DieZones, places_in: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Returns the points of the outer cut at even lengths along it, and the ways outward there."""
    outer = zones.cut.exterior
    points = shapely.get_coordinates(shapely.line_interpolate_point(outer, places_in))
    along = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    along /= np.maximum(np.hypot(*along.T), 1e-12)[:, None]
    normals = np.stack([along[:, 1], -along[:, 0]], axis=1)
    outside = not shapely.contains_xy(zones.cut, *(points[0] + 0.001 * normals[0]))
    return points, normals if outside else -normals


def _reaches(
    darkness: NDArray[np.float32], outward: NDArray[np.float64], wanted: float
) -> NDArray[np.float64]:
    """Returns for each line how far out ink goes before paper, inches; nan where all is well.

    `darkness` is (lines, steps), 255ths below paper. Ink that sets in again beyond a gap wider than
    a hairline is a stripe or a pattern; within a hairline's width it is a mistake, unless the art
    further in has such gaps as well.
    """
    count, steps = darkness.shape
    rows, pitch = np.arange(count), float(outward[1] - outward[0])
    touching = (outward > -JUST_INSIDE_IN) & (outward < 0.0)
    level = darkness[:, touching].max(axis=1)
    first = int(np.argmax(touching))
    after_ink = np.maximum.accumulate(np.where(outward > -JUST_INSIDE_IN, darkness, 0), axis=1)
    bare = (darkness <= np.maximum(INK, 0.08 * level)[:, None]) & (after_ink > INK)
    bare[:, :first] = False
    ends = np.where(bare.any(axis=1), bare.argmax(axis=1), steps)
    reach = _half_way(darkness, outward, np.clip(ends, 4, steps - 1))
    again = ~bare & (darkness > 0.5 * level[:, None]) & (np.arange(steps) > ends[:, None])
    gap_in = (again.argmax(axis=1) - ends) * pitch
    holes = (darkness[:, :first] <= INK).any(axis=1)
    pattern = again.any(axis=1) & ((gap_in > HAIRLINE_IN) | holes)
    well = (level <= INK) | (ends >= steps) | pattern | (reach > wanted - REACHED_IN)
    end = np.clip(ends, 3, steps - 1)
    fall = darkness[rows, end - 3] - darkness[rows, end]
    well |= fall < np.maximum(INK, ABRUPT * level)  # a wash that fades out ends nowhere
    return np.where(well, np.nan, reach)


def _half_way(
    darkness: NDArray[np.float32], outward: NDArray[np.float64], ends: NDArray[np.int64]
) -> NDArray[np.float64]:
    """Returns where darkness falls through half, within the four steps before it is gone."""
    rows = np.arange(len(ends))
    back = np.stack([darkness[rows, ends - k] for k in (4, 3, 2, 1, 0)], axis=1)
    half = back[:, 1] / 2  # three steps before the end the edge has not begun
    above = back >= half[:, None]
    last = np.clip(4 - np.argmax(above[:, ::-1], axis=1), 0, 3)  # the last step still above half
    high, low = back[rows, last], back[rows, last + 1]
    share = np.clip((high - half) / np.maximum(high - low, 1e-6), 0, 1)
    return outward[ends - 4 + last] + share * (outward[1] - outward[0])


def _stretches(
    reach: NDArray[np.float64],
    points: NDArray[np.float64],
    normals: NDArray[np.float64],
    step_in: float,
) -> list[ShortBleed]:
    """Returns the stretches whose ends run along the cut, or along one upright or level line."""
    count, width = len(reach), max(4, round(ALONG_LEAST_IN / step_in))
    if np.isnan(reach).all() or count < 2 * width:
        return []
    around = (np.arange(count)[:, None] + np.arange(width)[None, :]) % count
    windows = reach[around]  # nan in a window makes its spread nan, which is never even
    ends = points[around] + windows[:, :, None] * normals[around]
    spreads = [np.ptp(windows, axis=1), *np.ptp(ends, axis=1).T]
    even = np.any([spread < EVEN_IN for spread in spreads], axis=0)
    covered = np.zeros(count, bool)
    covered[around[even]] = True
    return [_stretch(run, reach, points, normals, step_in) for run in _runs(covered)]


def _runs(covered: NDArray[np.bool_]) -> list[NDArray[np.int64]]:
    """Returns the runs of true in a closed ring of flags, as indices in order."""
    if covered.all():
        return [np.arange(len(covered))]
    start = int(np.argmin(covered))
    order = (np.arange(len(covered)) + start) % len(covered)
    flags = covered[order]
    edges = np.flatnonzero(np.diff(flags.astype(np.int8)))
    return [part for part in np.split(order, edges + 1) if covered[part[0]]]


def _stretch(
    run: NDArray[np.int64],
    reach: NDArray[np.float64],
    points: NDArray[np.float64],
    normals: NDArray[np.float64],
    step_in: float,
) -> ShortBleed:
    values = reach[run]
    least = float(np.percentile(values, 2))  # freed of single pixels
    worst = run[int(np.argmin(np.abs(values - least)))]
    end = points[worst] + reach[worst] * normals[worst]
    return ShortBleed(
        least,
        Point(float(points[worst][0]), float(points[worst][1])),
        Point(float(end[0]), float(end[1])),
        len(run) * step_in,
    )
