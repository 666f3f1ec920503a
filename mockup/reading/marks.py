"""Which marks have to stay clear of the cut, and which are meant to run off it.

Type has to, and so has a code. A mark that stands by itself should; what bleeds need not, nor
texture, nor ornament. A border that follows the cut is told apart, for there the trouble is
unevenness.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LinearRing
from shapely.geometry.base import BaseGeometry

from mockup.reading.codes import Code
from mockup.reading.die_zones import DieZones
from mockup.reading.image_marks import ImageMark
from mockup.reading.ornament import WHOLE_MOST_IN, Ornament, Reading, ornament_of
from mockup.reading.part import Part, densified
from mockup.reading.parts import Parts
from mockup.reading.sight import Sight
from mockup.reading.type_lines import LetterLine

Kind = Literal["type", "line", "mark", "code"]

DISPLAY_IN = 0.6  # judgement: letters taller than this that run to the bleed's end do so on purpose
LINE_THIN_IN = 0.04  # judgement: 3 pt; thicker is a bar
LINE_LONG_IN = 0.25  # judgement: shorter is a dash or a hyphen
ALONG_SHARE = 0.5  # judgement: of a thin line that lies close by the cut, where it borders the card
SIDE_IN = 1.0  # judgement: a straight side so long beside the cut is a border's, not a stem's
LEVEL_IN = 0.02  # judgement: how far its ends may differ; more is seen to be askew
# Judgement: what covers half the card is its ground; frames and panels cover less.
GROUND_SHARE = 0.5
VISIBLE = 10.0  # judgement: least difference in 255ths for a mark to be seen on its ground
BORDER_SPAN = 0.6  # judgement: share of the card's sides; smaller frames stand by themselves
BORDER_WITHIN_IN = 0.5  # judgement: further in, an uneven margin is not seen
BORDER_SAMPLES = 240  # judgement: one each 0.1 in round an A7 card
FRAME_INSIDE = 0.6  # judgement: share of a frame that is left where a die takes its corners
SAMPLES = 200  # judgement: enough for a percentile of a mark's rim
APART_IN = 0.12  # judgement: letters of a line nearer than a margin of safety are one place
IN_IMAGES_MOST = 2  # judgement: more shapes of a picture along the cut are drawn so


@dataclass(frozen=True)
class Mark:
    """Something near the cut, or over it. `area` is its ink there, card inches; `whole` (n, 2) the
    outline of all that is moved with it; `places` in how many places it comes near."""

    kind: Kind
    area: BaseGeometry
    crossing: bool
    whole: NDArray[np.float64]
    text: str = ""
    reading: Reading = "alone"
    places: int = 1


@dataclass(frozen=True)
class Border:
    """A line or an edge that runs along the cut, and how far inside it: least, usual, most."""

    area: BaseGeometry
    least_in: float
    usual_in: float
    most_in: float


@dataclass(frozen=True)
class Marks:
    """A page's marks near or over the cut, and its borders."""

    near: tuple[Mark, ...]
    borders: tuple[Border, ...]
    points: NDArray[np.float64]
    """(n, 2): the outline of everything that has to stay clear, calm marks as well."""


def sort_marks(
    parts: Parts,
    short_ends: Collection[int],
    in_images: Sequence[ImageMark],
    lines: Sequence[LetterLine],
    codes: Sequence[Code],
    zones: DieZones,
    sight: Sight,
) -> Marks:
    """Returns what has to stay clear of the cut on a page, and what ornament comes near it.

    `short_ends` are the parts that end along the cut too soon: they are grounds, not marks.
    """
    borders, bordering = _borders(parts.all, zones)
    apart = bordering | _grounds(parts.all, zones) | set(short_ends)
    coded = _within(parts.all, codes)
    type_marks, lettered = _type_marks(parts, lines, apart | coded, zones, sight)
    drawn = _drawn_marks(parts, apart, coded | lettered, zones, sight)
    pictured = [m for m in in_images if not any(_holds(c, m.area) for c in codes)]
    near = [*type_marks, *_code_marks(codes, zones), *drawn, *_pictured_marks(pictured)]
    calm = [
        part.ring
        for k, part in enumerate(parts.all)
        if part.place == "calm" and k not in apart and k not in lettered
        and (k not in parts.texture or part.is_type)
    ]  # fmt: skip
    points = [*calm, *(m.whole for m in near if m.reading != "ornament")]
    together = np.concatenate(points) if points else np.empty((0, 2))
    return Marks(tuple(near), tuple(borders), together)


def _type_marks(
    parts: Parts,
    lines: Sequence[LetterLine],
    passed_over: Collection[int],
    zones: DieZones,
    sight: Sight,
) -> tuple[list[Mark], set[int]]:
    """Returns the lines of type near the cut, a mark each, and all letters of those lines.

    Letters beyond the cut count where their line begins or goes on upon the card. A line is cropped
    on purpose where a letter of display size runs to the bleed's end.
    """
    marks: list[Mark] = []
    taken: set[int] = set()
    for line in lines:
        own = [k for k in line.members if k not in passed_over]
        places = {parts.all[k].place for k in own}
        cropped = any(
            parts.all[k].place == "bleeding" and parts.all[k].box.height >= DISPLAY_IN for k in own
        )
        if cropped or not own or places == {"outside"}:
            taken.update(own)
            continue
        near = [k for k in own if _comes_near(parts.all[k], zones, sight)]
        if near:
            taken.update(own)
            marks.append(_type_mark(parts, line, near))
    return marks, taken


def _comes_near(part: Part, zones: DieZones, sight: Sight) -> bool:
    area = part.area()
    return part.place != "calm" and not area.is_empty and _is_seen(area, zones, sight)


def _type_mark(parts: Parts, line: LetterLine, near: Sequence[int]) -> Mark:
    area = shapely.union_all([parts.all[k].area() for k in near])
    crossing = any(parts.all[k].place not in ("near", "calm") for k in near)
    whole = np.concatenate([densified(parts.all[k].ring) for k in line.members])
    boxes = shapely.box(*np.array([parts.all[k].box for k in near]).T)
    apart = shapely.union_all(shapely.buffer(boxes, APART_IN / 2))
    return Mark("type", area, crossing, whole, line.text, "whole", len(_each(apart)))


def _drawn_marks(
    parts: Parts,
    apart: Collection[int],
    passed_over: Collection[int],
    zones: DieZones,
    sight: Sight,
) -> list[Mark]:
    """Returns the drawn shapes and the pictures near the cut, each as it reads."""
    drawings = ornament_of(parts, zones, [*apart, *passed_over])
    marks: list[Mark] = []
    for k, part in enumerate(parts.all):
        if part.place not in ("near", "crossing") or k in apart or k in passed_over:
            continue
        if k in parts.texture or part.is_type or k in parts.lettered:
            continue
        area = part.area()
        if area.is_empty or not _is_seen(area, zones, sight):
            continue
        kind, reading = _drawn_reading(k, part, area, drawings, zones)
        whole = densified(part.ring)
        if part.painted.pen is not None:  # a stroke reaches half its pen beyond its course
            whole = shapely.get_coordinates(area)
        marks.append(Mark(kind, area, part.place == "crossing", whole, "", reading))
    return marks


def _drawn_reading(
    k: int, part: Part, area: BaseGeometry, drawings: Ornament, zones: DieZones
) -> tuple[Kind, Reading]:
    if part.painted.kind == "image":  # a picture that runs off, not along the cut, is cropped
        return "mark", "ornament" if part.place == "crossing" else "alone"
    thickness = 2 * area.area / area.length if area.length > 0 else 0.0
    if thickness < LINE_THIN_IN and part.size_in > LINE_LONG_IN:
        if _follows_cut(part, zones):
            return "line", "whole"
        return "line", drawings.reading(k)
    return "mark", drawings.reading(k)


def _follows_cut(part: Part, zones: DieZones) -> bool:
    """Returns whether a thin line runs beside the cut, most of its length or one straight side."""
    points = densified(part.ring)
    if (np.abs(zones.signed(points)) < zones.safe_in).mean() > ALONG_SHARE:
        return True
    far = zones.signed(part.ring)
    beside = (np.abs(far[:-1]) < zones.safe_in) & (np.abs(np.diff(far)) < LEVEL_IN)
    long = np.hypot(*np.diff(part.ring, axis=0).T) > SIDE_IN
    return bool((beside & long).any())


def _code_marks(codes: Sequence[Code], zones: DieZones) -> list[Mark]:
    marks: list[Mark] = []
    for code in codes:
        area = shapely.box(*code.box)
        if not zones.safe.contains(area) and area.intersects(zones.cut):
            crossing = not zones.cut.contains(area)
            marks.append(Mark("code", area, crossing, shapely.get_coordinates(area), "", "whole"))
    return marks


def _pictured_marks(shapes: Sequence[ImageMark]) -> list[Mark]:
    """Returns the shapes inside pictures, letters in rows as one line of type each."""
    marks = [
        Mark("type", area, crossing, _hull(area), "in an image", "whole", places)
        for area, crossing, places in _lettered([shape for shape in shapes if shape.is_letter])
    ]
    others = [shape for shape in shapes if not shape.is_letter]
    for shape in others:
        left, top, right, bottom = shape.area.bounds
        large = max(right - left, bottom - top) > WHOLE_MOST_IN / 2
        drawn = large or len(others) > IN_IMAGES_MOST
        reading: Reading = "ornament" if drawn else "alone"
        marks.append(
            Mark("mark", shape.area, shape.crossing, _hull(shape.area), "in an image", reading)
        )
    return marks


def _lettered(letters: Sequence[ImageMark]) -> Iterable[tuple[BaseGeometry, bool, int]]:
    if not letters:
        return
    boxes = [shapely.box(*shape.area.bounds).buffer(APART_IN / 2) for shape in letters]
    for region in _each(shapely.union_all(boxes)):
        own = [s for s, b in zip(letters, boxes, strict=True) if region.intersects(b.centroid)]
        yield shapely.union_all([s.area for s in own]), any(s.crossing for s in own), 1


def _hull(area: BaseGeometry) -> NDArray[np.float64]:
    return shapely.get_coordinates(area.convex_hull)


def _each(area: BaseGeometry) -> list[BaseGeometry]:
    return list(getattr(area, "geoms", [area]))


def _within(parts: Sequence[Part], codes: Sequence[Code]) -> set[int]:
    """Returns the parts that codes are made of, and the images that are one."""
    boxes = [shapely.box(*part.box) for part in parts] if codes else []
    return {k for k, box in enumerate(boxes) for code in codes if _holds(code, box)}


def _holds(code: Code, area: BaseGeometry) -> bool:
    around = shapely.box(*code.box)
    return bool(around.buffer(0.1 * code.box.width).contains(area.centroid)) and (
        area.envelope.area < 3 * around.area  # judgement: a code with its quiet zone is less
    )


def _grounds(parts: Sequence[Part], zones: DieZones) -> set[int]:
    """Returns the parts that are grounds: over half the card, or the inside of a frame."""
    card = zones.shape.box.width * zones.shape.box.height
    return {
        k
        for k, part in enumerate(parts)
        if part.closed and part.painted.pen is None
        and part.box.width * part.box.height > GROUND_SHARE * card
    }  # fmt: skip


def _borders(parts: Sequence[Part], zones: DieZones) -> tuple[list[Border], set[int]]:
    """Returns the borders that follow the cut inside it, round the card or round a hole, and the
    parts they are made of."""
    card = zones.shape.box
    outer = _samples_along(zones.cut.exterior)
    holes = [(shapely.box(*hole.bounds), _samples_along(hole)) for hole in zones.cut.interiors]
    borders: list[Border] = []
    taken: set[int] = set()
    for k, part in enumerate(parts):
        if part.is_type or len(part.ring) < 3 or not _may_border(part, zones):
            continue
        wide = part.box.width > BORDER_SPAN * card.width
        high = part.box.height > BORDER_SPAN * card.height
        around = [points for box, points in holes if shapely.box(*part.box).contains(box)]
        for points in [outer] if wide and high else around:
            border = _border(part, points)
            if border is not None:
                borders.append(border)
                taken.add(k)
    return borders, taken


def _may_border(part: Part, zones: DieZones) -> bool:
    """Returns whether a part lies on the card; of a drawn frame the corners may be cut away."""
    if part.place == "bleeding" and part.painted.pen is not None:
        points = densified(part.ring)
        inside = shapely.contains_xy(zones.cut, points[:, 0], points[:, 1])
        return bool(inside.mean() > FRAME_INSIDE)
    return part.place in ("near", "calm")


def _samples_along(ring: LinearRing) -> NDArray[np.object_]:
    places = np.linspace(0, ring.length, BORDER_SAMPLES, endpoint=False)
    return np.asarray(shapely.line_interpolate_point(ring, places), np.object_)


def _border(part: Part, cut: NDArray[np.object_]) -> Border | None:
    """Returns a part as a border, where it runs beside a cut given by points for most of it."""
    area = part.area()
    distances = shapely.distance(cut, area.boundary)
    usual = float(np.median(distances))
    within = np.abs(distances - usual) < max(0.03, 0.15 * usual)
    if usual >= BORDER_WITHIN_IN or within.mean() <= 0.7:
        return None
    along = distances[within]
    return Border(area, float(along.min()), usual, float(along.max()))


def _is_seen(area: BaseGeometry, zones: DieZones, sight: Sight) -> bool:
    """Returns whether a mark shows, where it is near the cut, against what lies round it there."""
    step = 1.5 / sight.view.ppi
    inner, outer = area.buffer(-0.6 * step), area.buffer(step)
    inside = _samples(inner if not inner.is_empty else area.centroid)
    outside = _samples(outer)
    near = ~shapely.contains_xy(zones.safe, outside[:, 0], outside[:, 1])
    outside = outside[near] if near.any() else outside
    if not len(inside) or not len(outside):
        return True
    mean_inside = sight.colours_at(inside).mean(axis=0)
    difference = np.abs(sight.colours_at(outside) - mean_inside).max(axis=1)
    return bool(np.percentile(difference, 75) > VISIBLE)


def _samples(area: BaseGeometry) -> NDArray[np.float64]:
    if area.geom_type == "Point":
        return np.asarray(area.coords)
    points = shapely.get_coordinates(area.boundary)
    return points[:: max(1, len(points) // SAMPLES)]
