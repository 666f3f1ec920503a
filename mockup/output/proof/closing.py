"""The last pages of a proof: what the client is asked to check, and her answer, piece by piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.art import Art
from mockup.colour.plates import Plates
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import (
    BODY,
    LABEL,
    LEFT_IN,
    PAPERS_IN,
    TAIL_IN,
    TEXT,
    draw_title,
    title_end,
)
from mockup.output.proof.plan import Page, Place, Telling
from mockup.output.proof.words import fingerprint
from mockup.output.typography import QUIET, shortened, wrapped
from mockup.suite.suite import Suite

TITLE = "Before you say yes"
CONTINUED = "Your answer"

_ROW_IN = 0.36
_BOX_IN = 0.17
_CHECK_ROW_IN = 0.27
_AFTER_LABEL_IN = 0.27
_AFTER_SECTION_IN = 0.3
_COMMENT_LEAST_IN = 1.1
_SIGN_IN = 0.75  # a line to sign on, with its label
_CHOICES = (("approve", "Approve", 4.2), ("change", "Change", 5.55))  # inches from the left margin

_CHECKS = (
    ("Names, and how each is spelled", "The shape and size of each piece"),
    ("Dates, weekdays and hours", "Colours, as far as a screen goes"),
    ("Places, and the way to reply", "Papers, envelopes, liners"),
    ("All the words, read aloud once", "Quantities, with a few to spare"),
)


@dataclass(frozen=True)
class Asked:
    """One thing the client answers for: its name in the suite, its title, its fingerprint."""

    name: str
    title: str
    fingerprint: str


def asked_of(suite: Suite) -> list[Asked]:
    """Returns every page of art in the suite, pieces first."""

    def asked(name: str, title: str, art: Art) -> Asked:
        return Asked(name, title, fingerprint(art))

    rows = [asked(piece.name, piece.title, piece.art) for piece in suite.pieces]
    for envelope in suite.envelopes:
        if envelope.liner is not None:
            title = f"{envelope.title}, liner"
            rows.append(asked(f"{envelope.name}.liner", title, envelope.liner.art))
    return rows


def closing_pages(telling: Telling) -> list[Page]:
    """Returns the pages of her answer: one, or more where one has no room for every piece.

    Each has its places: `NAME.approve` and `NAME.change` for every piece, `comment`, `name` and
    `date` on the last.
    """
    width, height = PAPERS_IN[telling.suite.paper]
    rows = asked_of(telling.suite)
    first, last = _room(width, height, _checks_in()), _room(width, height, 0.0)
    if len(rows) <= first - _rows_under(telling, width):
        return [_page(telling, TITLE, rows, checks=True, signed=True)]
    shares = _shared(rows, first, last, _rows_under(telling, width))
    final = len(shares) - 1
    return [
        _page(telling, CONTINUED if k else TITLE, share, checks=not k, signed=k == final)
        for k, share in enumerate(shares)
    ]


def _checks_in() -> float:
    return _AFTER_LABEL_IN + len(_CHECKS) * _CHECK_ROW_IN + _AFTER_SECTION_IN


def _room(width: float, height: float, taken_in: float) -> int:
    """Returns how many rows a page has room for."""
    top = title_end(TITLE, width - 2 * LEFT_IN) + 0.15 + taken_in + _AFTER_LABEL_IN
    return int((height - TAIL_IN - top) / _ROW_IN)


def _rows_under(telling: Telling, width: float) -> int:
    """Returns how many rows' room is taken by what stands under the last of them."""
    lines = len(wrapped(_yes(telling.suite), TEXT, width - 2 * LEFT_IN))
    under = lines * TEXT.leading_in + _COMMENT_LEAST_IN + _SIGN_IN + 2 * _AFTER_SECTION_IN + 0.4
    return int(under / _ROW_IN) + 1


def _shared(rows: Sequence[Asked], first: int, other: int, under: int) -> list[Sequence[Asked]]:
    """Returns the rows of every page, evenly: the last has what is signed under them."""
    pages = 2
    while first + (pages - 2) * other + (other - under) < len(rows):
        pages += 1
    each = -(-(len(rows) + under) // pages)
    starts = [min(k * min(each, first), len(rows)) for k in range(pages)]
    return [rows[a:b] for a, b in zip(starts, [*starts[1:], len(rows)], strict=True)]


def _page(telling: Telling, title: str, rows: Sequence[Asked], checks: bool, signed: bool) -> Page:
    width, height = PAPERS_IN[telling.suite.paper]
    measure = width - 2 * LEFT_IN
    top = title_end(title, measure) + 0.15
    rows_top = top + (_checks_in() if checks else 0.0)
    end = rows_top + _AFTER_LABEL_IN + len(rows) * _ROW_IN
    places = [place for k, row in enumerate(rows) for place in _choices(row, k, rows_top)]
    lines = len(wrapped(_yes(telling.suite), TEXT, measure))
    comment_top = end + 0.12 + lines * TEXT.leading_in + _AFTER_SECTION_IN
    if signed:
        places += _signed_places(measure, comment_top, height)

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, title)
        if checks:
            _draw_checks(pdf, top)
        _label(pdf, "Your answer, piece by piece", rows_top)
        for number, row in enumerate(rows):
            _draw_row(pdf, row, rows_top + _AFTER_LABEL_IN + number * _ROW_IN)
        if signed:
            pdf.paragraph(Point(LEFT_IN, end + 0.12), _yes(telling.suite), TEXT, measure)
            _draw_signed(pdf, places)

    return Page(title, width, height, draw, places=tuple(places))


def _choices(row: Asked, number: int, rows_top: float) -> list[Place]:
    y = rows_top + _AFTER_LABEL_IN + number * _ROW_IN
    return [
        Place(f"{row.name}.{name}", "choice", _square(Point(LEFT_IN + across, y)))
        for name, _, across in _CHOICES
    ]


def _signed_places(measure: float, comment_top: float, height: float) -> list[Place]:
    sign = height - TAIL_IN - 0.3  # the line that is signed on
    left, right = LEFT_IN, LEFT_IN + measure
    return [
        Place("comment", "text", Box(left, comment_top + 0.1, right, sign - _SIGN_IN + 0.2)),
        Place("name", "line", Box(left, sign - 0.3, left + measure * 0.62, sign)),
        Place("date", "line", Box(left + measure * 0.67, sign - 0.3, right, sign)),
    ]


def _yes(suite: Suite) -> str:
    return (
        f"Tick, comment and sign, or write \u201cyes to {suite.title}, revision "
        f"{suite.revision}\u201d. A yes is to the files named here by their fingerprints: one that "
        "changes has another, and asks for another yes."
    )


def _label(pdf: Pdf, text: str, y: float) -> None:
    with pdf.element("H2"):
        pdf.text(Point(LEFT_IN, y), text, LABEL)


def _draw_checks(pdf: Pdf, top: float) -> None:
    _label(pdf, "Please check", top)
    half = (pdf.width_in - 2 * LEFT_IN) / 2
    for number, row in enumerate(_CHECKS):
        for column, text in enumerate(row):
            at = Point(LEFT_IN + column * half, top + _AFTER_LABEL_IN + number * _CHECK_ROW_IN)
            _draw_box(pdf, _square(at))
            pdf.text(Point(at.x + _BOX_IN + 0.1, at.y), text, TEXT)


def _draw_row(pdf: Pdf, row: Asked, y: float) -> None:
    """Sets what is answered for, and the words of the choices beside their boxes."""
    over = y - _ROW_IN * 0.68
    pdf.rule(Point(LEFT_IN, over), Point(pdf.width_in - LEFT_IN, over))
    pdf.text(Point(LEFT_IN, y), shortened(row.title, TEXT, 2.75), TEXT)
    pdf.text(Point(LEFT_IN + 2.9, y), row.fingerprint, BODY)
    for _, word, across in _CHOICES:
        _draw_box(pdf, _square(Point(LEFT_IN + across, y)))
        pdf.text(Point(LEFT_IN + across + _BOX_IN + 0.1, y), word, TEXT)


def _draw_signed(pdf: Pdf, places: Sequence[Place]) -> None:
    """Draws where words are written: a box for comments, lines to sign and date on."""
    for place in places:
        if place.kind == "choice":
            continue
        box, label = place.box, place.name.capitalize()
        if place.kind == "text":
            _draw_box(pdf, box)
            _label(pdf, label, box.top - 0.07)
        else:
            pdf.rule(Point(box.left, box.bottom), Point(box.right, box.bottom), 0.5, QUIET)
            pdf.text(Point(box.left, box.bottom + 0.19), label, LABEL)


def _square(at: Point) -> Box:
    """Returns the box before a line of type whose baseline begins at a point."""
    return Box(at.x, at.y + 0.015 - _BOX_IN, at.x + _BOX_IN, at.y + 0.015)


def _draw_box(pdf: Pdf, box: Box) -> None:
    corners = [(corner.x, corner.y) for corner in box.corners()]
    pdf.stroke(Shape(polygon_outline(*corners)), QUIET, 0.6)
