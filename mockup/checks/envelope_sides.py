"""Printed sides of envelopes: what would not print, what the post keeps, edges, gum and seams.

Made-up envelopes are printed one by one, folded already; others are printed flat and then made.
Which of both is the printer's to say: what matters is told, not judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.affinity import scale, translate
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from mockup.artwork.page import read_page
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.left_in import check_left_in
from mockup.checks.page_context import PageContext
from mockup.checks.print_sense import check_print_sense
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext, owner
from mockup.checks.undrawn import check_undrawn
from mockup.envelopes.flap import gum_strip
from mockup.envelopes.spec import EnvelopeSpec
from mockup.envelopes.views import closed_back
from mockup.errors import InputError
from mockup.geometry.flatten import polygon
from mockup.geometry.point import Box, Point
from mockup.reading.envelope_ink import SideInk, ink_of_side, middle_of
from mockup.reading.envelope_sides import PrintedSide, printed_side
from mockup.reading.envelope_type import type_on
from mockup.reading.page import read_facts
from mockup.suite.outside import EnvelopeSide
from mockup.suite.suite import Envelope
from mockup.trade.postal import ADVICE, POSTAGE, Zone, postage_corner, zones
from mockup.trade.postal_tables import postal_operator
from mockup.trade.tolerances import COMMON, Limit
from mockup.workshop import crew
from mockup.workshop.job import Job

CHECK = "face"
PRINT_MARGIN = Limit(0.25, "in", COMMON)  # of a made-up envelope
ON_EDGE_IN = 0.02  # judgement: two cells; what comes so near the edge runs off it
_FEW_IN2 = 0.004  # judgement: a square of 1/16 in; less is told of nowhere
_ACROSS_IN = 0.02  # judgement: as of an edge
_SIDE = "mockup.checks.envelope_sides:check_side"


@dataclass(frozen=True)
class SideAsked:
    """What a side is checked against: settings, the envelope's cut, the places of the post by
    operator, and the type that is set on it."""

    settings: Settings
    spec: EnvelopeSpec
    kept: tuple[tuple[str, Zone], ...]
    type_boxes: tuple[tuple[str, Box], ...]


def check_sides(context: SuiteContext) -> list[Finding]:
    """Returns what is found on the printed sides of envelopes, each in a worker.

    Raises InputError and LimitError for art that cannot be read at all.
    """
    findings: list[Finding] = []
    jobs: list[Job] = []
    for envelope in context.suite.envelopes:
        for side, art in envelope.outside.arts:
            read_page(art)  # what cannot be read is no finding
            try:
                printed = printed_side(envelope, side, context.suite.bleed_in)
            except InputError as error:
                findings.append(_misfit(envelope, side, error))
                continue
            if printed is not None:
                asked = _asked(context, envelope, side)
                jobs.append(Job((printed, asked), art.where, art.sha256, (printed, asked)))
    answers: list[list[Finding]] = crew.done(_SIDE, jobs)
    return [*findings, *(each for answer in answers for each in answer)]


def check_side(printed: PrintedSide, asked: SideAsked) -> list[Finding]:
    """Returns what is found on one side, worked out in this process."""
    return [told_on(printed, each) for each in _found_on(printed, asked)]


def told_on(printed: PrintedSide, finding: Finding) -> Finding:
    """Returns a finding of a side's art as one of the envelope's: `front` is the address side, and
    places are from the top left of the side as it is seen closed."""
    at = finding.at and printed.to_side.point(finding.at)
    return replace(finding, side="front" if printed.side == "face" else "back", at=at)


def _found_on(printed: PrintedSide, asked: SideAsked) -> list[Finding]:
    called = printed.called
    try:
        page = read_facts(printed.piece, asked.settings.safe_in)
    except InputError as error:
        if "nothing on it" not in str(error):
            raise
        message = f"{called}: {error}"
        return [found("pages", Severity.STOP, printed.piece.name, message, "choose another page")]
    context = PageContext(page, asked.settings)
    own = [*check_left_in(context), *check_print_sense(context), *check_undrawn(context)]
    side = _Side(called, printed, asked, context, ink_of_side(page))
    own += [*_edge(side), *_under_type(side), *_gum(side), *_seams(side)]
    told = [replace(each, message=f"{called}: {each.message}") for each in own]
    return [*told, *_post(side)]


@dataclass(frozen=True, eq=False)
class _Side:
    called: str
    printed: PrintedSide
    asked: SideAsked
    context: PageContext
    ink: SideInk

    def own(self, area: BaseGeometry) -> BaseGeometry:
        """Returns an area of the whole side in the inches of its art."""
        at = self.printed.to_side.point(Point(0, 0))
        return translate(area, -at.x, -at.y)

    def tell(
        self,
        severity: Severity,
        message: str,
        fix: str,
        limit: Limit | None = None,
        value: float | None = None,
        at: Point | None = None,
    ) -> Finding:
        """Returns a finding of this side."""
        return found(CHECK, severity, self.printed.piece.name, message, fix, limit, value, at)


def _asked(context: SuiteContext, envelope: Envelope, side: EnvelopeSide) -> SideAsked:
    spec = envelope.spec
    kept: list[tuple[str, Zone]] = []
    for name in context.settings.operators if side == "face" else ():
        operator = postal_operator(name)
        places = (*zones(operator, spec.width_in, spec.height_in),
                  postage_corner(spec.width_in, spec.height_in))  # fmt: skip
        kept += [(operator.title, zone) for zone in places]
    blocks = type_on(context.suite, envelope, side)
    boxes = tuple((each.what, each.block.box) for each in blocks)
    return SideAsked(context.settings, spec, tuple(kept), boxes)


def _misfit(envelope: Envelope, side: EnvelopeSide, error: InputError) -> Finding:
    message = f"{side}: {error}"
    fix = "save the art at that size, or declare the envelope it was drawn for"
    return found("size", Severity.STOP, owner(envelope), message, fix)


def _edge(side: _Side) -> Iterator[Finding]:
    """Yields how near art comes to the envelope's edge, or that it runs off it."""
    zones_, length = side.context.page.zones, side.asked.settings.length
    places = side.ink.places
    inner = zones_.inside(PRINT_MARGIN.value)
    rim = places[~shapely.contains_xy(inner, places[:, 0], places[:, 1])]
    if side.ink.area_in2(rim) < _FEW_IN2:
        return
    away = zones_.signed(rim)
    nearest = int(away.argmin())
    at = Point(float(rim[nearest, 0]), float(rim[nearest, 1]))
    least = float(away[nearest]) - side.ink.cell_in2**0.5 / 2  # of the cell's own near side
    if least < ON_EDGE_IN:
        message = "art runs to the edge: a made-up envelope is not printed there"
        fix = (
            "ask the printer: it is printed before the envelope is made; else keep it "
            f"{length(PRINT_MARGIN.value)} inside"
        )
    else:
        message = f"art comes within {length(least)} of the edge"
        fix = f"keep it {length(PRINT_MARGIN.value)} inside, or ask what the printer's press holds"
    yield side.tell(Severity.WARN, message, fix, PRINT_MARGIN, round(max(least, 0.0), 3), at)


def _under_type(side: _Side) -> Iterator[Finding]:
    """Yields where art lies under an address or the sender's lines."""
    for what, box in side.asked.type_boxes:
        under = side.ink.within(side.own(shapely.box(*box)))
        if side.ink.area_in2(under) < _FEW_IN2:
            continue
        share = side.ink.area_in2(under) / (box.width * box.height)
        message = f"art lies under the {what}, on {share * 100:.0f} % of its place"
        fix = "keep the art clear of it, or set it elsewhere by `at`"
        yield side.tell(Severity.WARN, message, fix, at=middle_of(under))


def _gum(side: _Side) -> Iterator[Finding]:
    """Yields that a flap is printed over its gum, on the other side of the paper."""
    if side.printed.side != "flap":
        return
    gum = side.own(scale(polygon(gum_strip(side.asked.spec)), 1, -1, origin=(0, 0)))
    over = side.ink.within(gum)
    if side.ink.area_in2(over) < _FEW_IN2:
        return
    message = "art lies over the gum, which is on the other side of the paper"
    fix = "ask the printer: heat and pressure wake or mark gum"
    yield side.tell(Severity.NOTE, message, fix, at=middle_of(over))


def _seams(side: _Side) -> Iterator[Finding]:
    """Yields where art of the whole back runs over the flap's edge and the seams beneath it."""
    if not side.printed.over_pocket:
        return
    steps = _steps(side.asked.spec)
    across = side.ink.within(steps.buffer(_ACROSS_IN))
    if side.ink.area_in2(across) < _FEW_IN2:
        return
    page = side.context.page
    cut_lines = [
        line.text
        for line in page.letter_lines
        if steps.intersects(_hull([page.parts.all[k].box for k in line.members]))
    ]
    what = "art"
    if cut_lines:
        named = next((f' "{text}"' for text in cut_lines if text), "")
        more = len(cut_lines) - 1
        what = f"type{named}" + (f", with {more} more line{'s' * (more > 1)}," if more else "")
    message = f"{what} runs over the flap's edge or a seam: the step of the paper shows in print"
    fix = "keep it on the flap, or on the pocket below it"
    severity = Severity.WARN if cut_lines else Severity.NOTE
    yield side.tell(severity, message, fix, Limit(0, "in", COMMON), None, middle_of(across))


def _steps(spec: EnvelopeSpec) -> BaseGeometry:
    """Returns the lines of a closed back where one paper ends on another; no fold is one."""
    back = closed_back(spec)
    flap = polygon(back.flap)
    inner = shapely.box(0.02, 0.02, spec.width_in - 0.02, spec.height_in - 0.02)
    seams = [
        LineString([line.start, line.end]).difference(flap).intersection(inner)
        for line in back.seams
    ]
    return shapely.union_all([flap.boundary.intersection(inner), *seams])


def _hull(boxes: list[Box]) -> BaseGeometry:
    corners = np.array(boxes)
    left, top = corners[:, :2].min(axis=0)
    right, bottom = corners[:, 2:].max(axis=0)
    return shapely.box(left, top, right, bottom)


def _post(side: _Side) -> Iterator[Finding]:
    """Yields where art lies in a place that the post keeps, by each operator's rule."""
    for operator, zone in side.asked.kept:
        inside = side.ink.within(side.own(shapely.box(*zone.box)))
        if side.ink.area_in2(inside) < _FEW_IN2:
            continue
        share = side.ink.area_in2(inside) / (zone.box.width * zone.box.height)
        message = f"{operator}: art of the face covers {share * 100:.0f} % of the {zone.name}"
        stamped = zone.name == POSTAGE
        fix = "a stamp and its postmark will lie on it" if stamped else "keep the art clear of it"
        severity = Severity.NOTE if stamped else Severity.WARN
        limit = Limit(0, "of the area", zone.source)
        name, at = side.printed.piece.name, middle_of(inside)
        yield found("post", severity, name, message, f"{fix}. {ADVICE}", limit, round(share, 4), at)
