"""A page of the bench: how to draw it, the piece it is for, and the fault it has, if any."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np
import shapely

from mockup.artwork.art import art_of
from mockup.checks.finding import Finding, Severity
from mockup.checks.running import check_piece
from mockup.checks.settings import Settings
from mockup.dies import Die, make_die
from mockup.geometry.flatten import polygon
from mockup.geometry.outline import Outline, Shape, circle_arc
from mockup.geometry.point import Point
from mockup.suite.suite import Piece
from mockup.trade.finishes import Finish
from mockup.trade.papers import stock
from mockup.trade.sizes import CardSize
from tests.checks.bench.sheet import Sheet

PLACE_WITHIN_IN = 0.02
MEASURE_WITHIN_IN = 0.005


@dataclass(frozen=True)
class Fault:
    """What must be found. `at` is a place, or a list of places of which one will do, or a line or
    an area that the place has to lie on; a value is in inches unless the check measures in
    something else, then `within` says how near. None as place is for what has none: an empty page.
    """

    check: str
    at: tuple[float, float] | list[tuple[float, float]] | shapely.Geometry | None = None
    value: float | None = None
    within: float = MEASURE_WITHIN_IN
    least: Severity = Severity.WARN
    anywhere_x: bool = False
    anywhere_y: bool = False


@dataclass(frozen=True)
class Case:
    """One page. `draw` fills a sheet; what it returns, if anything, is the fault's measure."""

    name: str
    draw: Callable[[Sheet], Fault | None]
    size: tuple[float, float] = (5.0, 7.0)
    die: str = "rectangle"
    parameters: dict = field(default_factory=dict)
    bleed: float = 0.125
    sheet: dict = field(default_factory=dict)
    stock: str = "smooth-120-white"
    hole: tuple[float, float, float] | None = None
    """A drilled hole: centre and radius."""
    finishes: tuple[Finish, ...] = ()
    """What the suite says the piece has beside its inks."""

    @property
    def made_die(self) -> Die:
        """The die, its hole drilled."""
        die = make_die(self.die, *self.size, self.parameters)
        if self.hole is None:
            return die
        x, y, radius = self.hole
        drilled = Outline((circle_arc(Point(x, y), radius, 0, 360),))
        return replace(die, shape=Shape(die.shape.outer, (drilled,)))

    def piece(self, file: Path) -> Piece:
        """The piece this page is art for."""
        card = CardSize(self.name, *self.size, "bench")
        paper = stock(self.stock)
        return Piece(
            self.name, self.name, art_of(file), card, self.made_die, paper, 100, self.bleed,
            finishes=self.finishes,
        )  # fmt: skip


@dataclass(frozen=True)
class Outcome:
    """What came of one page: whether its fault was found, how far off, and what else was found."""

    case: Case
    fault: Fault | None
    findings: list[Finding]
    hit: Finding | None

    @property
    def right(self) -> bool:
        """Found where there is a fault; silent (no warning, no stop) where there is none."""
        if self.fault is None:
            return not self.alarms
        return self.hit is not None

    @property
    def alarms(self) -> list[Finding]:
        """Findings of severity warn or above."""
        return [f for f in self.findings if f.severity >= Severity.WARN]


def die_polygon(case: Case) -> shapely.Polygon:
    """Returns the die as a finely flattened polygon, for measuring by brute force."""
    return polygon(case.made_die.shape, 5e-5)


def brute_clearance(points: np.ndarray, cut: shapely.Polygon) -> tuple[float, tuple[float, float]]:
    """Returns the least distance from the cut of points, plain shapely, and which point it is."""
    distance = shapely.distance(shapely.points(points), cut.boundary)
    inside = shapely.contains_xy(cut, points[:, 0], points[:, 1])
    signed = np.where(inside, distance, -distance)
    k = int(np.argmin(signed))
    return float(signed[k]), (float(points[k, 0]), float(points[k, 1]))


def run_case(case: Case, folder: Path, settings: Settings | None = None) -> Outcome:
    """Draws a page, checks it, and compares with what is known of it."""
    settings = settings or Settings()
    sheet = Sheet(**{"width": case.size[0], "height": case.size[1], **case.sheet})
    fault = case.draw(sheet)
    file = sheet.save(folder / f"{case.name}.pdf")
    findings = check_piece(case.piece(file), settings)
    hit = next((f for f in findings if fault and matches(f, fault)), None)
    return Outcome(case, fault, findings, hit)


def matches(finding: Finding, fault: Fault) -> bool:
    """Returns whether a finding tells a fault, at its place and with its measure."""
    if finding.check != fault.check or finding.severity < fault.least:
        return False
    if fault.value is not None and not _near(finding.value, fault.value, fault.within):
        return False
    if fault.at is None:
        return True
    if finding.at is None:
        return False
    return _where(fault).distance(shapely.Point(finding.at)) <= PLACE_WITHIN_IN


def _where(fault: Fault) -> shapely.Geometry:
    if isinstance(fault.at, shapely.Geometry):
        return fault.at
    if isinstance(fault.at, list):
        return shapely.MultiPoint(fault.at)
    x, y = fault.at
    across, down = (50.0 if loose else 0.0 for loose in (fault.anywhere_x, fault.anywhere_y))
    return shapely.box(x - across, y - down, x + across, y + down)


def _near(value: float | None, wanted: float, within: float) -> bool:
    return value is not None and abs(value - wanted) <= within
