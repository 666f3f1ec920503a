"""The studio's own sheet of findings: every piece at true size with its cut, bleed and safe lines
and a numbered mark at each finding. Never a client's proof."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from pathlib import Path

from shapely.geometry import LinearRing

from mockup.artwork.raster import RasterJob, rasterise
from mockup.checks.finding import Finding, Severity
from mockup.checks.settings import Settings
from mockup.colour.appearance import appearance
from mockup.colour.srgb import Rgb, parse_hex
from mockup.geometry.affine import IDENTITY, translation
from mockup.geometry.offset import offset
from mockup.geometry.outline import Line, Outline, Segment, Shape, circle_arc, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.band_lines import draw_band_lines
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.typography import QUIET, Style, wrapped
from mockup.pixels import Bytes, View, view_around
from mockup.progress import Progress
from mockup.reading.binding import Bound, bound
from mockup.reading.page import placed
from mockup.render.piece import PAPER_WHITE
from mockup.suite.suite import Piece, Suite, all_sides

PPI = 200.0
MARGIN_IN = 0.6
HEAD_IN = 0.95
PAPER_IN = (8.5, 11.0)  # letter; a larger piece has a larger page
NUMBER_RADIUS_IN = 0.085
APART_IN = 0.2  # numbers nearer than this are moved apart

CUT: Rgb = (20, 20, 20)
BLEED: Rgb = (170, 40, 40)
SAFE: Rgb = (20, 90, 150)
FOLD: Rgb = (30, 110, 70)
_CURVE_STEPS = 16  # of a template's curved fold
SEVERE: dict[Severity, Rgb] = {
    Severity.STOP: (170, 30, 30), Severity.WARN: (190, 120, 0), Severity.NOTE: (90, 90, 90),
}  # fmt: skip
ACCEPTED: Rgb = (50, 120, 60)

TITLE = Style("light", 18, 22)
STUDIO = Style("caps", 8.5, 11, QUIET, 0.05)
NUMBER = Style("text", 7.5, 9, PAPER_WHITE)
TEXT = Style("text", 9, 11.5)
FIX = Style("text", 9, 11.5, QUIET)


def write_marked(
    path: Path,
    suite: Suite,
    findings: Sequence[Finding],
    settings: Settings,
    progress: Progress | None = None,
) -> None:
    """Writes the marked sheets as one PDF, pieces first, then what concerns the suite as a whole.

    Findings keep the numbers of their order. Raises OutputError, and what drawing the art raises.
    """
    numbered = list(enumerate(findings, 1))
    sides = all_sides(suite.pieces)
    views = [_view(piece) for piece in sides]
    jobs = [
        RasterJob(*placed(piece)[:2], IDENTITY, view)
        for piece, view in zip(sides, views, strict=True)
    ]
    pictures = [
        appearance(plates, parse_hex(piece.stock.colour_hex))
        for piece, plates in zip(sides, rasterise(jobs, progress), strict=True)
    ]
    names = {piece.name for piece in suite.pieces}
    bands = {each.band.name: each for each in bound(suite)}
    with whole_pdf(path, f"{suite.title}: findings", suite.designer or "", "Studio only") as pdf:
        for piece, view, picture in zip(sides, views, pictures, strict=True):
            own = [(n, f) for n, f in numbered if is_on(piece, f)]
            _piece_page(pdf, piece, (picture, view), own, settings, bands.get(piece.side_name))
        rest = [(n, f) for n, f in numbered if f.piece not in names]
        if rest:
            pdf.begin_page(*PAPER_IN, "Suite")
            _head(pdf, f"{suite.title}: the suite as a whole")
            _listed(pdf, rest, HEAD_IN + 0.2, "Suite")


def is_on(side: Piece, finding: Finding) -> bool:
    """Returns whether a finding is told on a side of a piece; on the front, what is of neither."""
    on_second = finding.side in ("back", "inside")
    return finding.piece == side.name and on_second == side.is_second


def _view(piece: Piece) -> View:
    return view_around((0, 0, piece.die.width_in, piece.die.height_in), PPI, piece.bleed_in)


def _piece_page(
    pdf: Pdf,
    piece: Piece,
    drawn: tuple[Bytes, View],
    findings: Sequence[tuple[int, Finding]],
    settings: Settings,
    bundle: Bound | None,
) -> None:
    picture, view = drawn
    width = max(PAPER_IN[0], view.width_in + 2 * MARGIN_IN)
    height = max(PAPER_IN[1], view.height_in + HEAD_IN + MARGIN_IN)
    pdf.begin_page(width, height, piece.side_title)
    _head(pdf, piece.side_title, _legend(piece, bundle))
    left, top = (width - view.width_in) / 2, HEAD_IN
    to_page = Point(left - view.left_in, top - view.top_in)
    pdf.picture(picture, Box(left, top, left + view.width_in, top + view.height_in))
    draw_lines(pdf, piece, settings.safe_in, to_page)
    if bundle is not None:
        draw_band_lines(pdf, bundle, to_page)
    draw_numbers(pdf, findings, to_page)
    _listed(pdf, findings, top + view.height_in + 0.3, piece.side_title)


def _legend(piece: Piece, bundle: Bound | None) -> str:
    """Returns what a piece's lines mean beside those that every piece has."""
    if bundle is not None:
        return "    turn: green, long dashes"
    return "    fold: green, long dashes" if piece.die.folds else ""


def _head(pdf: Pdf, title: str, more: str = "") -> None:
    pdf.text(Point(MARGIN_IN, 0.55), title, TITLE)
    pdf.text(
        Point(pdf.width_in - MARGIN_IN, 0.5), "For the studio, not for the client", STUDIO, "right"
    )
    legend = f"cut: black    bleed: red, dashed    safe: blue, dotted{more}"
    pdf.text(Point(pdf.width_in - MARGIN_IN, 0.66), legend, STUDIO, "right")


def draw_lines(pdf: Pdf, piece: Piece, safe_in: float, move: Point) -> None:
    """Draws the die, its bleed and its safe zone over the art, each on a white line to be seen."""
    shape = piece.die.shape
    rows: tuple[tuple[Iterable[Shape], Rgb, float, tuple[float, ...]], ...] = (
        (_offset(shape, piece.bleed_in), BLEED, 0.6, (0.06, 0.04)),
        (_offset(shape, -safe_in), SAFE, 0.6, (0.015, 0.03)),
        ((shape,), CUT, 0.75, ()),
    )
    for shapes, colour, width_pt, dash in rows:
        for each in shapes:
            moved = _moved(each, move)
            pdf.stroke(moved, PAPER_WHITE, width_pt + 0.9)
            pdf.stroke(moved, colour, width_pt, dash)
    draw_folds(pdf, piece, move)


def draw_folds(pdf: Pdf, piece: Piece, move: Point) -> None:
    """Draws the lines a piece is folded along, those of its template too, thin and dashed."""
    for part in (part for course in piece.die.folds for part in course):
        ends = [part.start, part.end] if isinstance(part, Line) else _along(part)
        for one, other in pairwise(ends):
            start, end = (Point(each.x + move.x, each.y + move.y) for each in (one, other))
            pdf.rule(start, end, 1.2, PAPER_WHITE)
            pdf.rule(start, end, 0.5, FOLD, (0.12, 0.05))


def _along(part: Segment) -> list[Point]:
    return [part.at(k / _CURVE_STEPS) for k in range(_CURVE_STEPS + 1)]


def _offset(shape: Shape, distance_in: float) -> list[Shape]:
    return [
        Shape(
            _outline(part.exterior),
            tuple(_outline(hole) for hole in part.interiors),
        )
        for part in offset(shape, distance_in)
    ]


def _outline(line: LinearRing) -> Outline:
    return polygon_outline(*((float(x), float(y)) for x, y in line.coords[:-1]))


def _moved(shape: Shape, by: Point) -> Shape:
    return shape.mapped(translation(*by))


def draw_numbers(pdf: Pdf, findings: Sequence[tuple[int, Finding]], move: Point) -> None:
    """Draws a numbered dot beside every place, joined to it by a line, none over another."""
    taken: list[Point] = []
    for number, finding in findings:
        if finding.at is None:
            continue
        place = Point(finding.at.x + move.x, finding.at.y + move.y)
        dot = _free(place, taken)
        taken.append(dot)
        colour = _colour(finding)
        pdf.rule(place, dot, 0.6, colour)
        pdf.fill(_disc(place, 0.02), colour)
        pdf.fill(_disc(dot, NUMBER_RADIUS_IN + 0.012), PAPER_WHITE)
        pdf.fill(_disc(dot, NUMBER_RADIUS_IN), colour)
        pdf.text(Point(dot.x, dot.y + 0.036), str(number), NUMBER, "centre")


def _free(place: Point, taken: Sequence[Point]) -> Point:
    """Returns a place for a number near its finding, clear of the numbers already there."""
    steps = ((0.17, -0.17), (-0.17, -0.17), (0.17, 0.17), (-0.17, 0.17), (0.3, 0.0), (-0.3, 0.0))
    for ring in (1.0, 1.8, 2.6, 3.4):
        for dx, dy in steps:
            dot = Point(place.x + dx * ring, place.y + dy * ring)
            if all((dot.x - t.x) ** 2 + (dot.y - t.y) ** 2 > APART_IN**2 for t in taken):
                return dot
    return Point(place.x + 0.17, place.y - 0.17)


def _disc(centre: Point, radius_in: float) -> Shape:
    return Shape(Outline((circle_arc(centre, radius_in, 0, 360),)))


def _colour(finding: Finding) -> Rgb:
    return ACCEPTED if finding.accepted is not None else SEVERE[finding.severity]


def _listed(pdf: Pdf, findings: Sequence[tuple[int, Finding]], top_in: float, title: str) -> None:
    """Lists findings by number, going on over further pages where they need them."""
    measure = pdf.width_in - 2 * MARGIN_IN - 0.3
    y = top_in + TEXT.leading_in
    for number, finding in findings:
        word = "accepted" if finding.accepted is not None else finding.severity.word
        told = f"{word}, {finding.check}: {finding.message}"
        mends = finding.accepted or finding.fix
        lines = len(wrapped(told, TEXT, measure)) + len(wrapped(mends, FIX, measure))
        if y + lines * TEXT.leading_in > pdf.height_in - MARGIN_IN / 2:
            pdf.begin_page(*PAPER_IN, f"{title}, continued")
            _head(pdf, f"{title}, continued")
            measure = pdf.width_in - 2 * MARGIN_IN - 0.3
            y = HEAD_IN + TEXT.leading_in
        centre = Point(MARGIN_IN + NUMBER_RADIUS_IN, y - 0.035)
        pdf.fill(_disc(centre, NUMBER_RADIUS_IN), _colour(finding))
        pdf.text(Point(centre.x, centre.y + 0.036), str(number), NUMBER, "centre")
        below = pdf.paragraph(Point(MARGIN_IN + 0.3, y), told, TEXT, measure)
        y = pdf.paragraph(below, mends, FIX, measure).y + 0.06
