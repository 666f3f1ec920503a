"""Lines of type: shaped, kerned and letterspaced, then outlined or kept as glyphs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import uharfbuzz as hb
from curves import Outline
from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

FONTS = Path(__file__).parent / "fonts"


class Face:
    """A font file with its shaper; sizes are in points, results in inches."""

    def __init__(self, file: str) -> None:
        self.path = FONTS / file
        self.name = self.path.stem
        self.font = TTFont(self.path, recalcTimestamp=False)
        self.upem: int = self.font["head"].unitsPerEm
        self._shaper = hb.Font(hb.Face(hb.Blob.from_file_path(str(self.path))))

    @cached_property
    def glyphs(self):
        """The glyph set that draws by name."""
        return self.font.getGlyphSet()

    def shape(self, text: str, features: dict[str, bool]):
        """Returns glyph infos and positions in font units."""
        run = hb.Buffer()
        run.add_str(text)
        run.guess_segment_properties()
        hb.shape(self._shaper, run, features)
        return run.glyph_infos, run.glyph_positions


@dataclass(frozen=True)
class Style:
    """How a line is set: face, size in points, letterspacing in thousandths of an em."""

    face: Face
    size_pt: float
    tracking: float = 0
    features: tuple[str, ...] = ("onum", "pnum")

    def but(self, size_pt: float) -> Style:
        """Returns the same style at another size."""
        return Style(self.face, size_pt, self.tracking, self.features)


@dataclass(frozen=True)
class Glyph:
    """One glyph in place: its number, the text it stands for, x, y and advance in inches."""

    number: int
    text: str
    x: float
    y: float
    advance: float


@dataclass(frozen=True)
class Line:
    """A set line, its origin at the left of the baseline; width without the last space."""

    style: Style
    glyphs: tuple[Glyph, ...]
    width: float

    @property
    def em(self) -> float:
        """The type size in inches."""
        return self.style.size_pt / 72


def set_line(text: str, style: Style) -> Line:
    """Returns text set in style; letterspaced lines drop their ligatures."""
    features = dict.fromkeys(style.features, True)
    if style.tracking:
        features |= {"liga": False, "clig": False}
    infos, places = style.face.shape(text, features)
    scale = style.size_pt / 72 / style.face.upem
    space = style.tracking / 1000 * style.size_pt / 72
    ends = [info.cluster for info in infos[1:]] + [len(text)]
    x, out = 0.0, []
    for info, place, end in zip(infos, places, ends, strict=True):
        advance = place.x_advance * scale + space
        shift = (x + place.x_offset * scale, -place.y_offset * scale)
        out.append(Glyph(info.codepoint, text[info.cluster : end], *shift, advance))
        x += advance
    return Line(style, tuple(out), x - space)


def outlined(line: Line, x: float, y: float) -> list[Outline]:
    """Returns the line's glyphs as outlines, the origin at (x, y) inches."""
    face, scale = line.style.face, line.em / line.style.face.upem
    out: list[Outline] = []
    for glyph in line.glyphs:
        pen = _Tracer(face.glyphs, x + glyph.x, y + glyph.y, scale)
        face.glyphs[face.font.getGlyphName(glyph.number)].draw(pen)
        if pen.outline:
            out.append(pen.outline)
    return out


class _Tracer(BasePen):
    """Collects a glyph as an outline in inches; quadratics become cubics in the base class."""

    def __init__(self, glyphs, x: float, y: float, scale: float) -> None:
        super().__init__(glyphs)
        self.outline: Outline = []
        self._x, self._y, self._scale = x, y, scale

    def _at(self, *points: tuple[float, float]) -> tuple[float, ...]:
        return tuple(
            v for px, py in points for v in (self._x + px * self._scale, self._y - py * self._scale)
        )

    def _moveTo(self, pt) -> None:  # noqa: N802
        self.outline.append(("m", self._at(pt)))

    def _lineTo(self, pt) -> None:  # noqa: N802
        self.outline.append(("l", self._at(pt)))

    def _curveToOne(self, pt1, pt2, pt3) -> None:  # noqa: N802
        self.outline.append(("c", self._at(pt1, pt2, pt3)))

    def _closePath(self) -> None:  # noqa: N802
        self.outline.append(("h", ()))

    def _endPath(self) -> None:  # noqa: N802
        self.outline.append(("h", ()))
