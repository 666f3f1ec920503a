"""Where a piece's finishes lie, on its page of the proof: the card drawn small, in a flat code with
its legend. The picture at true size stays as it is printed."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.artwork.finishes import plates_named
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.srgb import Rgb
from mockup.dies.sides import straight_spans
from mockup.geometry.affine import IDENTITY, scaling, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.output.finish_code import Code, code_of, coded, finishes_in, smaller, swatch
from mockup.output.pdf import HAIRLINE_PT, Pdf
from mockup.output.proof.grid import BODY
from mockup.output.proof.notes import Figure, Note
from mockup.output.typography import HAIR, INK
from mockup.pixels import Bytes, view_around
from mockup.render.piece import located
from mockup.suite.suite import Piece, TornSide

_WIDE_IN, _HIGH_IN = 1.4, 1.25  # of the small drawing: as wide as the narrowest column of notes
_PPI = 220.0  # of it, on the page
_FINER = 4  # drawn finer by this, and made smaller
_SWATCH_IN = (0.26, 0.13)
_ROW_IN = BODY.leading_in + 0.02
_AFTER_MAP_IN = 0.1
_EDGE_PT, _TORN_PT = 2.5, 1.2
_TEETH = 12  # along a torn side


def finish_notes_drawn(piece: Piece) -> list[Note]:
    """Returns the note that shows where a piece's finishes lie, none where it has none. Raises what
    reading its art raises."""
    if not _has_some(piece):
        return []
    box = piece.die.shape.box
    ratio = min(_WIDE_IN / box.width, _HIGH_IN / box.height)
    view = view_around(box, _PPI * ratio * _FINER, 0.0)
    (plates,) = rasterise([RasterJob(*located(piece), IDENTITY, view)])
    finishes = finishes_in(plates)
    rows = [code_of(each.finish, each.metal) for each in finishes]
    told = [code.name for code in rows] + [words for words, _ in _rims(piece)]
    if not told:
        return []
    picture = coded(*smaller(plates.on_white, finishes, _FINER))
    drawn_in = Box(0, 0, view.width_in * ratio, view.height_in * ratio)

    def draw(pdf: Pdf, at: Point) -> None:
        corner = Box(at.x, at.y, at.x + drawn_in.width, at.y + drawn_in.height)
        shape = piece.die.shape.mapped(translation(at.x, at.y) @ scaling(ratio))
        _draw_map(pdf, piece, picture, corner, shape)
        _draw_legend(pdf, piece, rows, Point(at.x, corner.bottom + _AFTER_MAP_IN))

    high = drawn_in.height + _AFTER_MAP_IN + _ROW_IN * len(told)
    alt = f"{piece.side_title}, small: where its finishes lie, {', '.join(told)}"
    return [Note("Finishes", (), figure=Figure(high, draw, alt))]


def _has_some(piece: Piece) -> bool:
    art = piece.art
    if piece.edge is not None or piece.torn or art.finishing or art.white.rule != "plate":
        return True
    (named,) = plates_named([art])
    return bool(named)


def _rims(piece: Piece) -> list[tuple[str, Rgb]]:
    """Returns what is done to a card's edges, in words, and the colour that is shown in."""
    rims: list[tuple[str, Rgb]] = []
    if piece.edge is not None:
        metal = piece.edge.metal
        words = f"{metal.replace('-', ' ')} edges" if metal else "painted edges"
        rims.append((words, piece.edge.colour))
    if piece.torn:
        rims.append(("torn edges" if len(piece.torn) > 1 else "torn edge", INK))
    return rims


def _draw_map(pdf: Pdf, piece: Piece, picture: Bytes, box: Box, shape: Shape) -> None:
    pdf.picture(picture, box, shape)
    if piece.edge is None:
        pdf.stroke(shape, HAIR, HAIRLINE_PT)
    else:
        pdf.stroke(shape, piece.edge.colour, _EDGE_PT)
    for side in piece.torn:
        for teeth in _teeth(piece.die.shape, shape.box, side):
            pdf.line(teeth, INK, _TORN_PT)


def _draw_legend(pdf: Pdf, piece: Piece, rows: list[Code], at: Point) -> None:
    wide, high = _SWATCH_IN
    y = at.y
    for code in rows:
        field = Box(at.x, y, at.x + wide, y + high)
        pdf.picture(swatch(code, round(high * _PPI), round(wide * _PPI)), field)
        _draw_words(pdf, code.name, at.x, y)
        y += _ROW_IN
    for words, colour in _rims(piece):
        middle = y + high / 2
        if colour == INK and "torn" in words:
            pdf.line(_zigzag(Point(at.x, middle), Point(at.x + wide, middle), 5), INK, _TORN_PT)
        else:
            pdf.rule(Point(at.x, middle), Point(at.x + wide, middle), _EDGE_PT, colour)
        _draw_words(pdf, words, at.x, y)
        y += _ROW_IN


def _draw_words(pdf: Pdf, words: str, left: float, top: float) -> None:
    pdf.text(Point(left + _SWATCH_IN[0] + 0.08, top + _SWATCH_IN[1] - 0.01), words, BODY)


def _teeth(die: Shape, box: Box, side: TornSide) -> Iterator[list[Point]]:
    """Yields the torn parts of a side of a die that is drawn in a box, as zigzags."""
    start, end = {
        "left": (Point(box.left, box.top), Point(box.left, box.bottom)),
        "top": (Point(box.left, box.top), Point(box.right, box.top)),
        "right": (Point(box.right, box.top), Point(box.right, box.bottom)),
        "bottom": (Point(box.left, box.bottom), Point(box.right, box.bottom)),
    }[side]
    whole = die.box.height if side in ("left", "right") else die.box.width
    for low, high in straight_spans(die, side):
        first, last = (
            Point(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)
            for share in (low / whole, high / whole)
        )
        yield _zigzag(first, last, max(3, round(_TEETH * (high - low) / whole)))


def _zigzag(start: Point, end: Point, teeth: int) -> list[Point]:
    """Returns a line that goes from side to side of a straight one."""
    across, down = end.x - start.x, end.y - start.y
    length = max(abs(across), abs(down))
    out = 0.028
    points: list[Point] = []
    for k in range(teeth + 1):
        share, aside = k / teeth, out * (1 if k % 2 else -1)
        points.append(
            Point(
                start.x + across * share + aside * abs(down) / length,
                start.y + down * share + aside * abs(across) / length,
            )
        )
    return points
