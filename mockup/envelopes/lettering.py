"""Type set by the program on an envelope: kerned lines in the fonts it ships, letters as outlines.

Inches, y down. A line is set as the proof sets it, so that both show the same letters in the same
places. Only what is written from left to right, without joining, is set.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, Literal, get_args

from mockup.errors import SuiteError, one_line, quoted
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Cubic, Line, Outline, Segment
from mockup.geometry.point import Box, Point
from mockup.units import PT_PER_INCH

TypeFace = Literal["text", "italic", "light", "caps"]
"""The faces the program ships: OFL, beside their licence."""

FACES: tuple[TypeFace, ...] = get_args(TypeFace)
Align = Literal["left", "centre", "right"]

LEADING = 1.35  # of the size; common practice, no source
CAP_HEIGHT = 0.641  # of the size; as measured of the capital H of Alegreya Sans
_DESCENT = 0.2  # of the size, below the last baseline
_FOLDER = Path(__file__).parent.parent / "output" / "fonts"
_FILES: dict[TypeFace, str] = {
    "text": "AlegreyaSans-Regular.ttf",
    "italic": "AlegreyaSans-Italic.ttf",
    "light": "AlegreyaSans-Light.ttf",
    "caps": "AlegreyaSansSC-Medium.ttf",
}
_FEATURES = {"kern": True, "liga": False, "clig": False, "dlig": False, "calt": False}
_BEFORE: dict[Align, float] = {"left": 0.0, "centre": 0.5, "right": 1.0}
# Written from right to left (UAX 9), joined or reordered: set letter by letter they are wrong.
_RIGHT_TO_LEFT = frozenset(("R", "AL", "RLE", "RLO", "RLI", "AN"))


@dataclass(frozen=True)
class SetLine:
    """A line of type in its place: its text, and where its baseline begins."""

    text: str
    at: Point


@dataclass(frozen=True)
class SetBlock:
    """Lines of type in their places, the box around them, the face and size they are set in."""

    lines: tuple[SetLine, ...]
    box: Box
    face: TypeFace
    size_pt: float


def refuse_unset(lines: Sequence[str], face: TypeFace) -> None:
    """Raises SuiteError for text that cannot be set: control characters, letters the face has not,
    writing from right to left."""
    for line in lines:
        for letter in line:
            if unicodedata.bidirectional(letter) in _RIGHT_TO_LEFT:
                raise SuiteError(
                    f"{quoted(line)} is written from right to left, which is not set here; draw it "
                    "in the art of the face or the flap"
                )
            if unicodedata.category(letter).startswith("C"):
                raise SuiteError(
                    f'{quoted(line)} has the control character "{one_line(letter)}"; take it out'
                )
            if not _has(face, letter):
                raise SuiteError(
                    f'the {face} face has no "{letter}" (in {quoted(line)}); it holds Latin, Greek '
                    "and Cyrillic letters: write it with those, or draw it in the art"
                )


def line_width_in(text: str, face: TypeFace, size_pt: float) -> float:
    """Returns the length of a kerned line, inches."""
    return _advance(text, face) * size_pt / PT_PER_INCH


def set_block(
    lines: Sequence[str], face: TypeFace, size_pt: float, align: Align, at: Point
) -> SetBlock:
    """Returns lines set one under another, the block's top left (at the capitals' height) at a
    point."""
    em_in = size_pt / PT_PER_INCH
    widths = [line_width_in(line, face, size_pt) for line in lines]
    wide = max(widths)
    places = [
        SetLine(
            line,
            Point(
                at.x + (wide - own) * _BEFORE[align],
                at.y + (CAP_HEIGHT + row * LEADING) * em_in,
            ),
        )
        for row, (line, own) in enumerate(zip(lines, widths, strict=True))
    ]
    bottom = places[-1].at.y + _DESCENT * em_in
    return SetBlock(tuple(places), Box(at.x, at.y, at.x + wide, bottom), face, size_pt)


def block_size_in(lines: Sequence[str], face: TypeFace, size_pt: float) -> tuple[float, float]:
    """Returns how wide and high lines of a size are, inches."""
    box = set_block(lines, face, size_pt, "left", Point(0, 0)).box
    return box.width, box.height


def letters(block: SetBlock) -> Iterator[tuple[Outline, ...]]:
    """Yields the letters of a block, each as the outlines it is made of, inches; none for a
    space. Counters are outlines of their own."""
    scale = block.size_pt / PT_PER_INCH / _upem(block.face)
    for line in block.lines:
        for number, x, y in _shaped(line.text, block.face):
            at = Point(line.at.x + x * scale, line.at.y - y * scale)
            placed = Affine(scale, 0, 0, -scale, at.x, at.y)
            outlines = tuple(each.mapped(placed) for each in _glyph(block.face, number))
            if outlines:
                yield outlines


@cache
def _font(face: TypeFace) -> Any:
    hb = _harfbuzz()
    return hb.Font(hb.Face(hb.Blob.from_file_path(str(_FOLDER / _FILES[face]))))


@cache
def _upem(face: TypeFace) -> int:
    return _font(face).face.upem


def _has(face: TypeFace, letter: str) -> bool:
    return _font(face).get_nominal_glyph(ord(letter)) is not None


@lru_cache(maxsize=256)
def _run(text: str, face: TypeFace) -> tuple[tuple[tuple[int, float, float], ...], float]:
    """Returns glyphs with their places along a line, in the font's units, and its length."""
    hb = _harfbuzz()
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    hb.shape(_font(face), buffer, _FEATURES)
    found: list[tuple[int, float, float]] = []
    along = 0.0
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        found.append((info.codepoint, along + place.x_offset, float(place.y_offset)))
        along += place.x_advance
    return tuple(found), along


def _shaped(text: str, face: TypeFace) -> tuple[tuple[int, float, float], ...]:
    return _run(text, face)[0]


def _advance(text: str, face: TypeFace) -> float:
    """Returns a line's length in ems."""
    return _run(text, face)[1] / _upem(face)


@lru_cache(maxsize=1024)
def _glyph(face: TypeFace, number: int) -> tuple[Outline, ...]:
    """Returns a glyph's contours in the font's units, y up, quadratics as the cubics they are."""
    from fontTools.pens.recordingPen import RecordingPen  # few suites set type: only here

    pen = RecordingPen()
    _font(face).draw_glyph_with_pen(number, pen)
    return tuple(_contours(pen.value))


def _contours(steps: Sequence[tuple[str, tuple[Any, ...]]]) -> Iterator[Outline]:
    segments: list[Segment] = []
    begin = here = Point(0, 0)
    for step, given in steps:
        points = [Point(float(x), float(y)) for x, y in given]
        if step == "moveTo":
            begin = here = points[0]
            segments = []
        elif step == "lineTo":
            segments.append(Line(here, points[0]))
            here = points[0]
        elif step == "qCurveTo":
            for control, end in _quadratics(points):
                segments.append(_cubic(here, control, end))
                here = end
        elif step == "curveTo":
            segments.append(Cubic(here, *points))
            here = points[-1]
        elif step in ("closePath", "endPath"):
            if here != begin:
                segments.append(Line(here, begin))
            if segments:
                yield Outline(tuple(segments))


def _quadratics(points: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """Yields controls and ends of a TrueType run: between two controls lies an end unsaid."""
    *controls, last = points
    for index, control in enumerate(controls):
        if index + 1 == len(controls):
            yield control, last
        else:
            after = controls[index + 1]
            yield control, Point((control.x + after.x) / 2, (control.y + after.y) / 2)


def _cubic(start: Point, control: Point, end: Point) -> Cubic:
    """Returns a quadratic as a cubic, exactly."""
    return Cubic(
        start,
        Point(start.x + 2 / 3 * (control.x - start.x), start.y + 2 / 3 * (control.y - start.y)),
        Point(end.x + 2 / 3 * (control.x - end.x), end.y + 2 / 3 * (control.y - end.y)),
        end,
    )


def _harfbuzz() -> Any:
    """Returns the library that sets type, whose names are made when it is loaded: only here."""
    import uharfbuzz

    return uharfbuzz
