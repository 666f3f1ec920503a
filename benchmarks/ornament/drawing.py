"""A drawing in card inches (origin top left of the trim, y down), written as SVG or by ReportLab.

What it holds is what a designer draws: curved paths, type, pictures with or without a soft edge.
"""

from __future__ import annotations

import base64
import html
import io
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

BLEED_IN = 0.125
FACE = Path(__file__).parents[2] / "assets_demo/fonts/EBGaramond08-Regular.ttf"

Rgb = tuple[float, float, float]
Points = list[tuple[float, float]]


@dataclass(frozen=True)
class Curve:
    """A closed or open path of cubic segments: a start, then three points a segment."""

    points: Points
    closed: bool = True
    fill: Rgb | None = None
    stroke: Rgb | None = None
    width_pt: float = 0.0
    opacity: float = 1.0


@dataclass(frozen=True)
class Words:
    """A line of type from the start of its baseline."""

    x: float
    y: float
    text: str
    size_pt: float
    fill: Rgb


@dataclass(frozen=True)
class Picture:
    """A picture placed: (h, w, 3|4) uint8, or (h, w) of bits."""

    pixels: np.ndarray
    x: float
    y: float
    width: float
    height: float


@dataclass
class Drawing:
    """A page: the card's size in inches and what is drawn, in order."""

    width: float = 5.0
    height: float = 7.0
    items: list[Curve | Words | Picture] = field(default_factory=list)

    def path(self, points: Points, fill: Rgb | None = None, **how: object) -> None:
        """Draws straight sides through points."""
        cubic = [points[0]]
        ends = [*points[1:], points[0]] if how.get("closed", True) else points[1:]
        for end in ends:
            cubic += [cubic[-1], end, end]
        self.items.append(Curve(cubic, fill=fill, **how))  # type: ignore[arg-type]

    def rect(self, x: float, y: float, w: float, h: float, fill: Rgb, **how: object) -> None:
        """Draws a rectangle."""
        self.path([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], fill, **how)

    def flood(self, fill: Rgb, reach: float = BLEED_IN) -> None:
        """Fills the card and so much beyond."""
        self.rect(-reach, -reach, self.width + 2 * reach, self.height + 2 * reach, fill)

    def circle(self, x: float, y: float, r: float, fill: Rgb | None, **how: object) -> None:
        """Draws a circle of four cubics."""
        k = 0.5523 * r
        points = [
            (x + r, y), (x + r, y + k), (x + k, y + r), (x, y + r), (x - k, y + r), (x - r, y + k),
            (x - r, y), (x - r, y - k), (x - k, y - r), (x, y - r), (x + k, y - r), (x + r, y - k),
            (x + r, y),
        ]  # fmt: skip
        self.items.append(Curve(points, fill=fill, **how))  # type: ignore[arg-type]

    def leaf(self, x: float, y: float, angle: float, long: float, wide: float, fill: Rgb,
             opacity: float = 1.0) -> None:  # fmt: skip
        """Draws a leaf or petal from its foot."""
        along = np.array([np.cos(angle), np.sin(angle)])
        across = np.array([-along[1], along[0]]) * wide
        foot = np.array([x, y])
        tip = foot + along * long
        near, far = foot + along * long * 0.3, foot + along * long * 0.75
        points = [foot, near + across, far + across, tip, far - across, near - across, foot]
        self.items.append(Curve([tuple(p) for p in points], fill=fill, opacity=opacity))

    def flower(self, x: float, y: float, r: float, fill: Rgb, petals: int = 6, turn: float = 0.0,
               opacity: float = 1.0) -> None:  # fmt: skip
        """Draws petals round a centre."""
        for k in range(petals):
            self.leaf(x, y, turn + 2 * np.pi * k / petals, r, 0.3 * r, fill, opacity)
        self.circle(x, y, 0.18 * r, (0.85, 0.7, 0.3))

    def words(self, x: float, y: float, text: str, size_pt: float, fill: Rgb) -> None:
        """Sets a line of type."""
        self.items.append(Words(x, y, text, size_pt, fill))

    def picture(self, pixels: np.ndarray, x: float, y: float, w: float, h: float) -> None:
        """Places a picture."""
        self.items.append(Picture(pixels, x, y, w, h))


def svg(drawing: Drawing) -> str:
    """Returns a drawing as SVG, 72 units an inch, with its bleed round it."""
    w, h = drawing.width + 2 * BLEED_IN, drawing.height + 2 * BLEED_IN
    edge = -BLEED_IN * 72
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'width="{w:g}in" height="{h:g}in" viewBox="{edge:g} {edge:g} {w * 72:g} {h * 72:g}">'
    ]
    lines += [_svg_item(item) for item in drawing.items]
    return "\n".join([*lines, "</svg>"])


def reportlab_pdf(drawing: Drawing, file: Path) -> Path:
    """Writes a drawing with ReportLab."""
    w, h = drawing.width + 2 * BLEED_IN, drawing.height + 2 * BLEED_IN
    pdfmetrics.registerFont(TTFont("Face", str(FACE)))
    canvas = Canvas(str(file), pagesize=(w * 72, h * 72))
    canvas.translate(BLEED_IN * 72, (drawing.height + BLEED_IN) * 72)
    for item in drawing.items:
        _canvas_item(canvas, item)
    canvas.save()
    return file


def _svg_item(item: Curve | Words | Picture) -> str:
    if isinstance(item, Words):
        return (
            f'<text x="{item.x * 72:.3f}" y="{item.y * 72:.3f}" font-family="DejaVu Serif" '
            f'font-size="{item.size_pt:g}" fill="{_hex(item.fill)}">{html.escape(item.text)}</text>'
        )
    if isinstance(item, Picture):
        data = base64.b64encode(_png(item.pixels)).decode()
        return (
            f'<image x="{item.x * 72:.3f}" y="{item.y * 72:.3f}" width="{item.width * 72:.3f}" '
            f'height="{item.height * 72:.3f}" preserveAspectRatio="none" '
            f'xlink:href="data:image/png;base64,{data}"/>'
        )
    first, *rest = [f"{x * 72:.3f} {y * 72:.3f}" for x, y in item.points]
    data = f"M{first} C{' '.join(rest)}" + (" Z" if item.closed else "")
    stroke = f'stroke="{_hex(item.stroke)}" stroke-width="{item.width_pt:g}"' if item.stroke else ""
    fill = _hex(item.fill) if item.fill else "none"
    opacity = f' opacity="{item.opacity:g}"' if item.opacity < 1 else ""
    return f'<path d="{data}" fill="{fill}" {stroke}{opacity}/>'


def _canvas_item(canvas: Canvas, item: Curve | Words | Picture) -> None:
    if isinstance(item, Words):
        canvas.setFillColorRGB(*item.fill)
        canvas.setFont("Face", item.size_pt)
        canvas.drawString(item.x * 72, -item.y * 72, item.text)
        return
    if isinstance(item, Picture):
        reader = ImageReader(io.BytesIO(_png(item.pixels)))
        place = (item.x * 72, -(item.y + item.height) * 72, item.width * 72, item.height * 72)
        canvas.drawImage(reader, *place, mask="auto" if item.pixels.ndim == 3 else None)
        return
    path = canvas.beginPath()
    points = [(x * 72, -y * 72) for x, y in item.points]
    path.moveTo(*points[0])
    for k in range(1, len(points), 3):
        path.curveTo(*points[k], *points[k + 1], *points[k + 2])
    if item.closed:
        path.close()
    canvas.saveState()
    canvas.setFillAlpha(item.opacity)
    if item.fill:
        canvas.setFillColorRGB(*item.fill)
    if item.stroke:
        canvas.setStrokeColorRGB(*item.stroke)
        canvas.setLineWidth(item.width_pt)
    canvas.drawPath(path, stroke=item.stroke is not None, fill=item.fill is not None)
    canvas.restoreState()


def _hex(colour: Rgb) -> str:
    return "#" + "".join(f"{round(v * 255):02x}" for v in colour)


def _png(pixels: np.ndarray) -> bytes:
    buffer = io.BytesIO()
    Image.fromarray(pixels if pixels.dtype == bool else pixels.astype(np.uint8)).save(buffer, "PNG")
    return buffer.getvalue()
