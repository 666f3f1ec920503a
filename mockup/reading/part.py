"""The sub-paths a page paints, sorted by where they lie: calm inside, near the cut, bleeding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from mockup.artwork.inspection import Inspection, Painted, Ring
from mockup.geometry.point import Box
from mockup.reading.die_zones import DieZones

FAINT = 0.03  # judgement: opacity below which nothing is seen
STEP_IN = 0.05  # judgement: long straight sides are looked at this often

Place = Literal["calm", "near", "crossing", "bleeding", "outside"]


@dataclass(frozen=True)
class Part:
    """One sub-path: its points, the object it belongs to, and where it lies.

    `calm` lies in the safe zone, `near` between it and the cut, `crossing` runs over the cut and
    ends before the bleed does, `bleeding` runs to the end of the bleed, `outside` lies off the
    card.
    """

    ring: Ring = field(repr=False)
    closed: bool
    painted: Painted
    index: int
    """The number of the object in drawing order."""
    place: Place
    box: Box
    whole_width_in: float
    """Its width before any clip."""
    whole_height_in: float

    @property
    def is_type(self) -> bool:
        """Whether this is a letter of live type."""
        return self.painted.kind == "type"

    @property
    def size_in(self) -> float:
        """The longer side of its box."""
        return max(self.box.width, self.box.height)

    def area(self) -> BaseGeometry:
        """Returns the ink of this sub-path: the filled outline, or the stroke's width."""
        return ink_area(self.ring, self.painted)


def read_parts(
    inspection: Inspection, zones: DieZones, no_art: Sequence[Painted] = ()
) -> tuple[Part, ...]:
    """Returns every visible sub-path of a page with its place, in drawing order.

    What tiles a pattern is passed over, and so are a template's lines, which are no art.
    """
    passed_over = {id(painted) for painted in no_art}
    rows: list[tuple[Ring, bool, Painted, int, tuple[float, float] | None]] = []
    for index, painted in enumerate(inspection.painted):
        if painted.alpha < FAINT or painted.tiled or painted.kind == "shade":
            continue
        if id(painted) in passed_over:
            continue
        for ring, closed, whole in _clipped(painted, inspection):
            rows.append((ring, closed, painted, index, whole))
    if not rows:
        return ()
    boxes = _boxes([ring for ring, *_ in rows], [painted for _, _, painted, *_ in rows])
    calm = shapely.contains_properly(zones.safe, shapely.box(*boxes.T))
    parts: list[Part] = []
    for row, box, is_calm in zip(rows, boxes.tolist(), calm.tolist(), strict=True):
        ring, closed, painted, index, whole = row
        place = "calm" if is_calm else _place(ring, painted, zones)
        width, height = whole or (box[2] - box[0], box[3] - box[1])
        parts.append(Part(ring, closed, painted, index, place, Box(*box), width, height))
    return tuple(parts)


def ink_area(ring: Ring, painted: Painted) -> BaseGeometry:
    """Returns the polygon a sub-path inks: its inside, or its stroke with the pen's width."""
    if painted.pen is not None and painted.kind == "path":
        half = max(painted.pen.width_in / 2, 1e-4)
        cap = "round" if painted.pen.cap == "round" else painted.pen.cap.replace("butt", "flat")
        if len(ring) < 2:
            return Polygon()
        return LineString(ring).buffer(half, cap_style=cap)  # type: ignore[arg-type]
    if len(ring) < 3:
        return Polygon()
    made = Polygon(ring)
    return made if made.is_valid else made.buffer(0)


def _clipped(
    painted: Painted, inspection: Inspection
) -> list[tuple[Ring, bool, tuple[float, float] | None]]:
    """Returns a thing's sub-paths within its clip; of those it cuts, the size before."""
    rings = list(zip(painted.rings, painted.closed, strict=True))
    if painted.clip == 0:
        return [(ring, closed, None) for ring, closed in rings]
    clip = clip_area(inspection, painted.clip)
    kept: list[tuple[Ring, bool, tuple[float, float] | None]] = []
    for ring, closed in rings:
        area = ink_area(ring, painted)
        if clip.contains(area):
            kept.append((ring, closed, None))
            continue
        cut = area.intersection(clip)
        for part in getattr(cut, "geoms", [cut]):
            if isinstance(part, Polygon) and not part.is_empty:
                kept.append((np.asarray(part.exterior.coords)[:, :2], True, _size(ring)))
    return kept


def _size(ring: Ring) -> tuple[float, float]:
    low, high = ring.min(axis=0), ring.max(axis=0)
    return float(high[0] - low[0]), float(high[1] - low[1])


def clip_area(inspection: Inspection, index: int) -> BaseGeometry:
    """Returns the polygon of a clip and all clips round it."""
    area: BaseGeometry | None = None
    while index:
        clip = inspection.clips[index]
        rings = [Polygon(ring).buffer(0) for ring in clip.rings if len(ring) > 2]
        own = shapely.union_all(rings) if rings else Polygon()
        area = own if area is None else area.intersection(own)
        index = clip.parent
    return area if area is not None else shapely.box(-1e6, -1e6, 1e6, 1e6)


def _boxes(rings: Sequence[Ring], painted: Sequence[Painted]) -> NDArray[np.float64]:
    """Returns (n, 4) boxes round what sub-paths ink: left, top, right, bottom."""
    lengths = np.array([len(ring) for ring in rings])
    first = np.concatenate([[0], np.cumsum(lengths)[:-1]])
    points = np.concatenate(rings)
    half = np.array([p.pen.width_in / 2 if p.pen and p.kind == "path" else 0.0 for p in painted])
    low = np.minimum.reduceat(points, first) - half[:, None]
    high = np.maximum.reduceat(points, first) + half[:, None]
    return np.concatenate([low, high], axis=1)


def _place(ring: Ring, painted: Painted, zones: DieZones) -> Place:
    points = densified(ring)
    in_cut = shapely.contains_xy(zones.cut, points[:, 0], points[:, 1])
    if painted.pen is not None and painted.pen.width_in > 0 and painted.kind == "path":
        return _stroke_place(ring, painted, zones)
    around = not in_cut.any() and painted.pen is None and _surrounds(ring, zones)
    if not in_cut.any() and not around:
        return "outside"
    if not shapely.contains_xy(zones.reached, points[:, 0], points[:, 1]).all():
        return "bleeding"
    if in_cut.all():
        safe = shapely.contains_xy(zones.safe, points[:, 0], points[:, 1]).all()
        return "calm" if safe else "near"
    return "crossing"


def _surrounds(ring: Ring, zones: DieZones) -> bool:
    return len(ring) > 2 and Polygon(ring).buffer(0).intersects(zones.cut)


def _stroke_place(ring: Ring, painted: Painted, zones: DieZones) -> Place:
    area = ink_area(ring, painted)
    if not area.intersects(zones.cut):
        return "outside"
    if not zones.reached.contains(area):
        return "bleeding"
    if not zones.cut.contains_properly(area):
        return "crossing"
    return "calm" if zones.safe.contains(area) else "near"


def densified(ring: Ring, step_in: float = STEP_IN) -> NDArray[np.float64]:
    """Returns the points of a polyline with more of them along its long sides."""
    if len(ring) < 2:
        return ring
    counts = np.ceil(np.hypot(*np.diff(ring, axis=0).T) / step_in).astype(int)
    if counts.max(initial=1) <= 1:
        return ring
    counts = np.clip(counts, 1, 2000)
    which = np.repeat(np.arange(len(counts)), counts)
    first = np.concatenate([[0], np.cumsum(counts)])
    t = ((np.arange(first[-1]) - first[which]) / counts[which])[:, None]
    inner = ring[which] * (1 - t) + ring[which + 1] * t
    return np.vstack([inner, ring[-1:]])
