"""A page to be drawn by any program: marks in card inches, and the piece it is for."""

from __future__ import annotations

import zlib
from dataclasses import asdict, dataclass, field
from typing import Any

import numpy as np
import shapely
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from mockup.dies import make_die
from mockup.geometry.outline import Line, Outline
from mockup.geometry.path_data import drawable
from tests.checks.bench.case import Case, die_polygon
from tests.checks.bench.sheet import FONT

SERIF = "/usr/share/fonts/truetype/dejavu/DejaVuSerif.ttf"
Steps = list[list[Any]]
"""Absolute path steps: ["M", x, y], ["L", x, y], ["C", six numbers], ["Z"]; card inches."""

INK = {"cmyk": [0.9, 0.6, 0.3, 0.3]}
RUST = {"cmyk": [0.2, 0.7, 0.8, 0.1]}
MOSS = {"cmyk": [0.5, 0.25, 0.7, 0.2]}
PLUM = {"cmyk": [0.45, 0.8, 0.2, 0.25]}
CREAM = {"cmyk": [0.03, 0.04, 0.12, 0.0]}
BLACK = {"cmyk": [0.0, 0.0, 0.0, 1.0]}
WHITE = {"cmyk": [0.0, 0.0, 0.0, 0.0]}
CYAN = {"cmyk": [1.0, 0.0, 0.0, 0.0]}
MAGENTA = {"cmyk": [0.0, 1.0, 0.0, 0.0]}
GREEN = {"cmyk": [1.0, 0.0, 1.0, 0.0]}
RED = {"cmyk": [0.0, 1.0, 1.0, 0.0]}
ART = (INK, RUST, MOSS, PLUM)

_garamond, _serif = TTFont(FONT), TTFont(SERIF)


def spot(name: str, cmyk: list[float]) -> dict[str, Any]:
    """Returns a spot colour."""
    return {"spot": name, "cmyk": cmyk}


@dataclass
class Scene:
    """One page: the card's size and die, the bleed, and marks in drawing order."""

    width: float = 5.0
    height: float = 7.0
    die: str = "rectangle"
    parameters: dict[str, Any] = field(default_factory=dict)
    bleed: float = 0.125
    slug: float = 0.0
    """What the page has beyond the bleed on every side; it then needs a TrimBox."""
    marks: list[dict[str, Any]] = field(default_factory=list)
    layers: dict[str, dict[str, Any]] = field(default_factory=dict)
    hole: tuple[float, float, float] | None = None

    def told(self) -> dict[str, Any]:
        """Returns the page as plain data."""
        return asdict(self)

    @property
    def case(self) -> Case:
        """The piece, as the other bench takes it."""
        return Case("page", lambda _s: None, (self.width, self.height), self.die, self.parameters,
                    self.bleed, hole=self.hole)  # fmt: skip

    def path(self, steps: Steps, fill=None, stroke=None, width_pt=1.0, dash=(), cap="butt",
             layer=None) -> None:  # fmt: skip
        self.marks.append(
            {"kind": "path", "steps": steps, "fill": fill, "stroke": stroke, "width_pt": width_pt,
             "dash": list(dash), "cap": cap, "layer": layer}
        )  # fmt: skip

    def flood(self, colour, out: float | None = None) -> None:
        """Fills the card and its bleed."""
        out = self.bleed if out is None else out
        self.path(box(-out, -out, self.width + out, self.height + out), fill=colour)

    def text(self, x, y, text, size_pt, colour=INK, font="serif", layer=None) -> None:
        """Sets live type from a baseline's start; `font` "standard" is not in the file."""
        self.marks.append(
            {"kind": "text", "x": x, "y": y, "text": text, "size_pt": size_pt, "colour": colour,
             "font": font, "layer": layer}
        )  # fmt: skip

    def outlined(self, x, y, text, size_pt, colour=INK) -> tuple[float, float, float, float]:
        """Draws type as outlines; returns the box of its ink."""
        glyphs, names = _garamond.getGlyphSet(), _garamond.getBestCmap()
        scale = size_pt / 72 / _garamond["head"].unitsPerEm
        every: Steps = []
        for letter in text:
            pen = DecomposingRecordingPen(glyphs)
            glyphs[names[ord(letter)]].draw(pen)
            own = _glyph(pen.value, x, y, scale)
            if own:
                self.path(own, fill=colour)
                every += own
            x += glyphs[names[ord(letter)]].width * scale
        points = np.array([pair for step in every for pair in _pairs(step)])
        return (*points.min(axis=0).tolist(), *points.max(axis=0).tolist())

    def image(self, x, y, w, h, ppi, seed=3) -> None:
        """Places a photograph, gray."""
        wide, high = max(2, round(w * ppi)), max(2, round(h * ppi))
        random = np.random.default_rng(seed)
        coarse = random.integers(40, 200, (high // 12 + 2, wide // 12 + 2))
        pixels = np.kron(coarse, np.ones((12, 12), int))[:high, :wide]
        pixels = (pixels + random.integers(-12, 12, pixels.shape)).clip(0, 255).astype(np.uint8)
        data = zlib.compress(pixels.tobytes()).hex()
        self.marks.append(
            {"kind": "image", "x": x, "y": y, "w": w, "h": h, "px": [wide, high], "data": data}
        )

    def title(self, colour=INK, text="Samphire Hard", size_pt=20.0) -> None:
        """Sets a name in the middle, outlined."""
        size = min(size_pt, size_pt * self.width / 5)
        self.outlined(self.width / 2 - size * 0.042, self.height * 0.52, text, size, colour)

    # Courses.

    def rim(self, inside: float, radius: float = 0.0, moved=(0.0, 0.0)) -> Steps:
        """The trim's rectangle moved inward, its corners rounded."""
        dx, dy = moved
        return box(inside + dx, inside + dy, self.width - inside + dx, self.height - inside + dy,
                   radius)  # fmt: skip

    def outline(self) -> Steps:
        """The die's own outline, its curves as cubics."""
        return steps_of(make_die(self.die, self.width, self.height, self.parameters).shape.outer)

    def along(self, inside: float) -> Steps:
        """A true offset of the die's outline; rectangles keep their corners."""
        if abs(inside) < 1e-9:
            return self.outline()
        if self.die == "rectangle":
            return self.rim(inside)
        made = self.polygon.buffer(-inside, quad_segs=64).simplify(0.0003)
        return polyline(np.asarray(made.exterior.coords)[:-1].tolist())

    @property
    def polygon(self) -> shapely.Polygon:
        """The die, finely flattened, without its holes."""
        return shapely.Polygon(die_polygon(self.case).exterior)


def box(left, top, right, bottom, radius=0.0) -> Steps:
    """Returns a rectangle, its corners rounded."""
    if not radius:
        return polyline([(left, top), (right, top), (right, bottom), (left, bottom)])
    k, r = 0.5523 * radius, radius
    return [
        ["M", left + r, top], ["L", right - r, top],
        ["C", right - r + k, top, right, top + r - k, right, top + r], ["L", right, bottom - r],
        ["C", right, bottom - r + k, right - r + k, bottom, right - r, bottom],
        ["L", left + r, bottom],
        ["C", left + r - k, bottom, left, bottom - r + k, left, bottom - r],
        ["L", left, top + r], ["C", left, top + r - k, left + r - k, top, left + r, top], ["Z"],
    ]  # fmt: skip


def circle(x, y, r) -> Steps:
    """Returns a circle of four cubics."""
    return box(x - r, y - r, x + r, y + r, r)


def polyline(points, closed=True) -> Steps:
    """Returns lines through points."""
    steps: Steps = [["M" if k == 0 else "L", float(x), float(y)] for k, (x, y) in enumerate(points)]
    return [*steps, ["Z"]] if closed else steps


def steps_of(outline: Outline) -> Steps:
    """Returns an outline's steps."""
    start = outline.segments[0].start
    steps: Steps = [["M", start.x, start.y]]
    for part in drawable(outline):
        if isinstance(part, Line):
            steps.append(["L", part.end.x, part.end.y])
        else:
            c, d, e = part.control1, part.control2, part.end
            steps.append(["C", c.x, c.y, d.x, d.y, e.x, e.y])
    return [*steps, ["Z"]]


def shifted(steps: Steps, dx: float, dy: float) -> Steps:
    """Returns a path moved."""
    return [
        [step[0], *(v + (dy if k % 2 else dx) for k, v in enumerate(step[1:]))] for step in steps
    ]


def apart(steps: Steps, every: int = 1) -> list[Steps]:
    """Returns a closed path as open pieces of `every` segments, as a drawing broken up has it."""
    pieces: list[Steps] = []
    here = start = steps[0][1:]
    own: Steps = [["M", *here]]
    for step in steps[1:]:
        if step[0] == "Z":
            step = ["L", *start]
            if np.hypot(here[0] - start[0], here[1] - start[1]) < 1e-6:
                continue
        own.append(step)
        here = step[-2:]
        if len(own) > every:
            pieces.append(own)
            own = [["M", *here]]
    return [*pieces, own] if len(own) > 1 else pieces


def text_box(x, y, text, size_pt) -> tuple[float, float, float, float]:
    """Returns the box of live type's ink as DejaVu Serif has it; other faces are near it."""
    glyphs, names = _serif.getGlyphSet(), _serif.getBestCmap()
    width = sum(glyphs[names[ord(letter)]].width for letter in text)
    scale = size_pt / 72 / _serif["head"].unitsPerEm
    return (x, y - size_pt / 72, x + width * scale, y + 0.3 * size_pt / 72)


def _pairs(step: list[Any]) -> list[list[float]]:
    return [list(step[k : k + 2]) for k in range(1, len(step) - 1, 2)]


def _glyph(recording, x, y, scale) -> Steps:
    steps: Steps = []
    here = (0.0, 0.0)

    def at(point) -> list[float]:
        return [x + point[0] * scale, y - point[1] * scale]

    for verb, points in recording:
        if verb == "moveTo":
            steps.append(["M", *at(points[0])])
        elif verb == "lineTo":
            steps.append(["L", *at(points[0])])
        elif verb == "curveTo":
            steps.append(["C", *at(points[0]), *at(points[1]), *at(points[2])])
        elif verb == "qCurveTo":
            *controls, end = points
            for k, control in enumerate(controls):
                last = k == len(controls) - 1
                pair = zip(control, controls[min(k + 1, len(controls) - 1)], strict=True)
                to = end if last else tuple((a + b) / 2 for a, b in pair)
                a = tuple(h + 2 / 3 * (c - h) for h, c in zip(here, control, strict=True))
                b = tuple(e + 2 / 3 * (c - e) for e, c in zip(to, control, strict=True))
                steps.append(["C", *at(a), *at(b), *at(to)])
                here = to
        else:
            steps.append(["Z"])
        if points:
            here = points[-1]
    return steps
