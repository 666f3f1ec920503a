"""Where a close-up looks: about a subject, no word cut by the picture's edge, little bare table."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from mockup.artwork.objects import keep_clear, objects_of
from mockup.envelopes.views import OpenBack
from mockup.geometry.flatten import ring
from mockup.geometry.point import Box, Point, box_of
from mockup.render.composition import (
    Composition,
    LaidEnvelope,
    LaidPiece,
    cropped,
    is_main,
    outline_points,
)
from mockup.render.items import COARSE_IN
from mockup.suite.suite import Suite

Subject = Literal["edge", "liner", "hole"]
"""The main piece's cut edge, the lining on an open flap, or the first hole."""

# Judgement, all of it: how far a picture is moved and widened so that no word is cut.
WIDTHS = (1.0, 0.9, 1.12, 1.25, 1.4, 0.8)
OFF_CENTRE = 0.34  # of the picture, either way, that the subject may lie off its middle
PLACES = 9  # tried across and down about each point of the subject
LEADING = 400  # windows of which, words and place judged, paper is judged as well
LARGEST_WORD_IN = 1.4  # higher marks are drawings, which may run out of the picture
LINE_IN, LINE_SHAPE = 0.8, 2.5  # a mark so long, and so much longer than high, is a line of type
HAIR_IN = 0.03  # nearer to it, a word is cut as good as
AIR_IN = 0.14  # about a word, to the picture's edge; less looks crowded
WORD_CUT, WORD_NEAR, SIDE_NEAR = 8.0, 1.2, 1.0
NO_LINE, LINE_MORE, LINES_ENOUGH = 4.0, 0.4, 4
LARGE_TYPE = 4.0  # gained, for each inch of the largest line's height
WIDER = 2.0  # for each width more or less than was asked
QUIET = 5.0  # of the share of bare table and bare envelope outside what sets paper off
QUIET_RANGE = (0.22, 0.34)
MIDDLE = 0.6  # for each picture's width off the middle
LIT_SIDE = 0.7  # of an edge that casts no shadow
EDGE_STEP = 12  # every so many points of an outline are looked at
SAMPLES = (9, 13)  # rows and columns of places at which paper is looked for

Boxes = NDArray[np.float64]
"""(n, 4) float64: left, top, right, bottom, inches on the table."""


def subjects_of(suite: Suite) -> tuple[Subject, ...]:
    """Returns what a suite's close-ups show."""
    opened = suite.scene.open
    lined = [each for each in suite.envelopes if each.liner is not None]
    seen = any(opened is None or each.name in opened for each in lined)
    holed = any(piece.die.shape.holes for piece in suite.pieces)
    found: list[Subject] = ["edge"]
    return (*found, *(("liner",) if seen else ()), *(("hole",) if holed else ()))


def close_up(
    composition: Composition, subject: Subject, width_in: float, away_deg: float
) -> Composition:
    """Returns about `width_in` inches of a composition around a subject, of the same aspect.

    `away_deg` is where shadows fall, clockwise from the top. Raises InputError and LimitError for
    art that cannot be read.
    """
    points = _points(composition, subject, away_deg)
    width_in = min(width_in, composition.frame.width_in)
    windows, cost = _windows(composition, points, width_in)
    cost = cost + _words_cost(windows, _words(composition)) + _sides_cost(windows, composition)
    leading = np.argsort(np.round(cost, 9), kind="stable")[:LEADING]
    windows, cost = windows[leading], cost[leading] + _quiet_cost(windows[leading], composition)
    left, top, right, bottom = windows[int(np.round(cost, 9).argmin())].tolist()
    return cropped(composition, Point((left + right) / 2, (top + bottom) / 2), right - left)


def _windows(
    composition: Composition, points: Boxes, width_in: float
) -> tuple[Boxes, NDArray[np.float64]]:
    """Returns windows within the frame that hold a point, and what each costs by its place.

    `points` are x, y and the cost of each.
    """
    frame = composition.frame
    found: list[Boxes] = []
    costs: list[NDArray[np.float64]] = []
    steps = np.linspace(-OFF_CENTRE, OFF_CENTRE, PLACES)
    u, v = (each.ravel()[None, :] for each in np.meshgrid(steps, steps))
    for factor in WIDTHS:
        width = min(width_in * factor, frame.width_in)
        height = width * frame.height_in / frame.width_in
        left = points[:, :1] + (u - 0.5) * width
        top = points[:, 1:2] + (v - 0.5) * height
        left = np.clip(left, 0.0, frame.width_in - width).ravel()
        top = np.clip(top, 0.0, frame.height_in - height).ravel()
        found.append(np.column_stack((left, top, left + width, top + height)))
        place = points[:, 2:] + MIDDLE * np.hypot(u, v)
        costs.append(place.ravel() + WIDER * abs(width / width_in - 1))
    return np.concatenate(found), np.concatenate(costs)


def _words_cost(windows: Boxes, words: Boxes) -> NDArray[np.float64]:
    """Returns what words cut by a window's edge cost, and the want of whole lines of type."""
    cost = np.zeros(len(windows))
    lines, largest = np.zeros(len(windows)), np.zeros(len(windows))
    for left, top, right, bottom in words:
        inside = np.minimum(
            np.minimum(left - windows[:, 0], windows[:, 2] - right),
            np.minimum(top - windows[:, 1], windows[:, 3] - bottom),
        )
        meets = (left < windows[:, 2]) & (right > windows[:, 0])
        meets &= (top < windows[:, 3]) & (bottom > windows[:, 1])
        holds = inside >= HAIR_IN
        cost += WORD_CUT * (meets & ~holds) + WORD_NEAR * (holds & (inside < AIR_IN))
        if right - left >= max(LINE_IN, LINE_SHAPE * (bottom - top)):
            lines += holds
            largest = np.maximum(largest, holds * (bottom - top))
    cost += NO_LINE * (lines == 0) - LINE_MORE * np.minimum(lines, LINES_ENOUGH)
    return cost - LARGE_TYPE * largest


def _sides_cost(windows: Boxes, composition: Composition) -> NDArray[np.float64]:
    """Returns what pieces' sides cost that run along a window's."""
    cost = np.zeros(len(windows))
    for each in composition.laid:
        left, top, right, bottom = Polygon(outline_points(each)).bounds
        across = (left < windows[:, 2]) & (right > windows[:, 0])
        down = (top < windows[:, 3]) & (bottom > windows[:, 1])
        for side, seen, of_window in ((left, down, 0), (right, down, 2)):
            cost += SIDE_NEAR * (seen & (np.abs(windows[:, of_window] - side) < AIR_IN))
        for side, seen, of_window in ((top, across, 1), (bottom, across, 3)):
            cost += SIDE_NEAR * (seen & (np.abs(windows[:, of_window] - side) < AIR_IN))
    return cost


def _quiet_cost(windows: Boxes, composition: Composition) -> NDArray[np.float64]:
    """Returns what too much bare table and bare envelope in a window costs."""
    told: list[BaseGeometry] = []
    for each in composition.laid:
        shape = Polygon(outline_points(each))
        if isinstance(each, LaidPiece):
            told.append(shape)
            continue
        told = [part.difference(shape) for part in told]
        if isinstance(each.back, OpenBack):
            lining = each.back.liner.outer.mapped(each.placed.to_table)
            told.append(Polygon(ring(lining, COARSE_IN)))
    paper = shapely.unary_union(told)
    shapely.prepare(paper)
    down, across = (np.linspace(0.06, 0.94, count) for count in SAMPLES)
    u, v = (each.ravel() for each in np.meshgrid(across, down))
    x = windows[:, 0, None] + (windows[:, 2] - windows[:, 0])[:, None] * u
    y = windows[:, 1, None] + (windows[:, 3] - windows[:, 1])[:, None] * v
    quiet = 1 - shapely.contains_xy(paper, x.ravel(), y.ravel()).reshape(x.shape).mean(axis=1)
    least, most = QUIET_RANGE
    return QUIET * (np.maximum(quiet - most, 0.0) + np.maximum(least - quiet, 0.0))


def _words(composition: Composition) -> Boxes:
    """Returns the boxes of lines of type and small marks that are seen, on the table."""
    laid = [each for each in composition.laid if isinstance(each, LaidPiece)]
    marks = objects_of([(each.page, each.placement) for each in laid])
    boxes: list[Box] = []
    for each, found in zip(laid, marks, strict=True):
        die = each.piece.die
        for box in keep_clear(found, die.width_in, die.height_in):
            if box.height <= LARGEST_WORD_IN:
                boxes.append(box_of(map(each.placed.to_table.point, _corners(box))))
    return np.array(boxes, dtype=np.float64).reshape(-1, 4)


def _corners(box: Box) -> Sequence[Point]:
    return [Point(*corner) for corner in box.corners()]


def _points(composition: Composition, subject: Subject, away_deg: float) -> Boxes:
    """Returns the points a close-up may be about, x, y and the cost of each; those of the edge
    where its own are not there."""
    points: list[Point] = []
    for each in composition.laid:
        to_table = each.placed.to_table
        if subject == "liner" and isinstance(each, LaidEnvelope):
            points += [to_table.point(point) for point in _on_lining(each)]
        if subject == "hole" and isinstance(each, LaidPiece):
            holes = each.piece.die.shape.holes
            points += [to_table.point(hole.box.centre) for hole in holes]
    if points:
        return np.array([(*point, 0.0) for point in points], dtype=np.float64)
    return _edge_points(composition, away_deg)


def _edge_points(composition: Composition, away_deg: float) -> Boxes:
    """Returns points of the main piece's edge over other paper; those that cast no shadow cost."""
    main = next((k for k, each in enumerate(composition.laid) if is_main(each)), None)
    if main is None:
        frame = composition.frame
        return np.array([(frame.width_in / 2, frame.height_in / 2, 0.0)])
    outline = shapely.segmentize(Polygon(outline_points(composition.laid[main])), 0.05)
    points = shapely.get_coordinates(outline)[::EDGE_STEP]
    sheets = [Polygon(outline_points(each)) for each in composition.laid]
    under, over = shapely.unary_union(sheets[:main]), shapely.unary_union(sheets[main + 1 :])
    seen = shapely.contains_xy(under, *points.T) & ~shapely.contains_xy(over, *points.T)
    points = points[seen] if seen.any() else points
    away = math.radians(away_deg)
    low, high = points.min(axis=0), points.max(axis=0)
    middle = np.array(outline.centroid.coords[0])
    toward = (points - middle) @ (math.sin(away), -math.cos(away)) / max(*(high - low), 1.0)
    return np.column_stack((points, LIT_SIDE * (toward < 0)))


def _on_lining(laid: LaidEnvelope) -> list[Point]:
    """Returns points of the lining on an open flap, about its axis; none where there is none."""
    if laid.envelope.liner is None or not isinstance(laid.back, OpenBack):
        return []
    lining = ring(laid.back.liner.outer, COARSE_IN)
    top, middle = min(float(lining[:, 1].min()), 0.0), float(lining[:, 0].mean())
    return [
        Point(middle + across * top, down * top)
        for down in (0.3, 0.5, 0.7)
        for across in (-0.3, 0.0, 0.3)
    ]
