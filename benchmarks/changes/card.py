"""A made card: what is on it, and how it is written as PDF; each thing knows its own place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from mockup.geometry.point import Box

BLEED_IN = 0.125
_HERE = Path(__file__).resolve().parents[2]
FACES = {
    "garamond": _HERE / "assets_demo/fonts/EBGaramond08-Regular.ttf",
    "italic": _HERE / "assets_demo/fonts/EBGaramond12-Italic.ttf",
    "sans": _HERE / "mockup/output/fonts/AlegreyaSans-Regular.ttf",
    "light": _HERE / "mockup/output/fonts/AlegreyaSans-Light.ttf",
}
for _name, _path in FACES.items():
    pdfmetrics.registerFont(TTFont(_name, str(_path)))

Rgb = tuple[int, int, int]


@dataclass(frozen=True)
class Words:
    """One line of type, centred on or beginning at x; y is its baseline; inches, size in points."""

    text: str
    x: float
    y: float
    size_pt: float
    face: str
    colour: Rgb
    nudged: tuple[int, float, float] | None = None
    """A letter of it moved by itself: which, and how far right and down, inches."""

    @property
    def width_in(self) -> float:
        return pdfmetrics.stringWidth(self.text, self.face, self.size_pt) / 72

    @property
    def left(self) -> float:
        return self.x - self.width_in / 2

    def letter_box(self, k: int) -> Box:
        """The box a letter lies in, generous upward and down."""
        em = self.size_pt / 72
        start = pdfmetrics.stringWidth(self.text[:k], self.face, self.size_pt) / 72
        end = pdfmetrics.stringWidth(self.text[: k + 1], self.face, self.size_pt) / 72
        return Box(self.left + start, self.y - 0.8 * em, self.left + end, self.y + 0.3 * em)

    @property
    def box(self) -> Box:
        em = self.size_pt / 72
        return Box(self.left, self.y - 0.8 * em, self.left + self.width_in, self.y + 0.3 * em)


@dataclass(frozen=True)
class Stroke:
    """A line through points, open."""

    points: tuple[tuple[float, float], ...]
    width_pt: float
    colour: Rgb

    @property
    def box(self) -> Box:
        xs, ys = zip(*self.points, strict=True)
        return Box(min(xs), min(ys), max(xs), max(ys)).grown(self.width_pt / 144)


@dataclass(frozen=True)
class Disc:
    """A filled circle."""

    x: float
    y: float
    radius: float
    colour: Rgb

    @property
    def box(self) -> Box:
        return Box(self.x, self.y, self.x, self.y).grown(self.radius)


@dataclass(frozen=True)
class Panel:
    """A filled rectangle."""

    box: Box
    colour: Rgb


@dataclass(frozen=True)
class Photograph:
    """A picture with soft grounds, edges and grain, by its number; with a spot where retouched."""

    box: Box
    number: int
    retouched: tuple[float, float, float] | None = None
    """x, y, radius, inches."""


Thing = Words | Stroke | Disc | Panel | Photograph


@dataclass(frozen=True)
class Card:
    """A card: its size, and what is on it from the bottom up."""

    width_in: float
    height_in: float
    things: tuple[Thing, ...]
    scale: float = 1.0
    """All that is on it, scaled about its middle."""
    moved_in: tuple[float, float] = (0.0, 0.0)

    def changed(self, k: int, thing: Thing | None) -> Card:
        """Returns the card with one thing changed, or taken away."""
        new = () if thing is None else (thing,)
        return replace(self, things=(*self.things[:k], *new, *self.things[k + 1 :]))


def write(card: Card, path: Path) -> Path:
    """Writes a card with its bleed as PDF; the same card gives the same bytes."""
    wide, high = card.width_in + 2 * BLEED_IN, card.height_in + 2 * BLEED_IN
    canvas = Canvas(str(path), pagesize=(wide * 72, high * 72), invariant=1)
    bleed = BLEED_IN * 72
    canvas.setTrimBox((bleed, bleed, wide * 72 - bleed, high * 72 - bleed))
    middle = (wide * 36, high * 36)
    canvas.translate(middle[0] + card.moved_in[0] * 72, middle[1] - card.moved_in[1] * 72)
    canvas.scale(card.scale, card.scale)
    canvas.translate(-middle[0], -middle[1])
    canvas.translate(bleed, bleed)
    for thing in card.things:
        _draw(canvas, thing, card.height_in)
    canvas.save()
    return path


def _draw(canvas: Canvas, thing: Thing, high: float) -> None:
    if isinstance(thing, Photograph):
        box = thing.box
        picture = ImageReader(_encoded(thing))
        canvas.drawImage(
            picture, box.left * 72, (high - box.bottom) * 72, box.width * 72, box.height * 72
        )
        return
    canvas.setFillColorRGB(*(v / 255 for v in thing.colour))
    canvas.setStrokeColorRGB(*(v / 255 for v in thing.colour))
    if isinstance(thing, Words):
        _letters(canvas, thing, high)
    elif isinstance(thing, Panel):
        box = thing.box
        canvas.rect(box.left * 72, (high - box.bottom) * 72, box.width * 72, box.height * 72, 0, 1)
    elif isinstance(thing, Disc):
        canvas.circle(thing.x * 72, (high - thing.y) * 72, thing.radius * 72, 0, 1)
    else:
        canvas.setLineWidth(thing.width_pt)
        path = canvas.beginPath()
        for k, (x, y) in enumerate(thing.points):
            (path.lineTo if k else path.moveTo)(x * 72, (high - y) * 72)
        canvas.drawPath(path, 1, 0)


def _letters(canvas: Canvas, words: Words, high: float) -> None:
    canvas.setFont(words.face, words.size_pt)
    x, y = words.left * 72, (high - words.y) * 72
    if words.nudged is None:
        canvas.drawString(x, y, words.text)
        return
    k, right, down = words.nudged
    for text, start in ((words.text[:k], 0), (words.text[k], k), (words.text[k + 1 :], k + 1)):
        before = pdfmetrics.stringWidth(words.text[:start], words.face, words.size_pt)
        own = (right * 72, -down * 72) if start == k and text == words.text[k] else (0, 0)
        canvas.drawString(x + before + own[0], y + own[1], text)


def _encoded(thing: Photograph) -> BytesIO:
    """Returns a picture of hills and foliage at 300 pixels an inch, as JPEG at quality 92."""
    wide, high = round(thing.box.width * 300), round(thing.box.height * 300)
    chance = np.random.default_rng(thing.number)
    light = np.linspace(0.95, 0.35, high)[:, None, None] * np.ones((1, wide, 3))
    for octave in (4, 9, 22, 60):
        noise = chance.normal(size=(octave, max(2, round(octave * wide / high)), 3))
        grown = [
            np.asarray(Image.fromarray(noise[:, :, c].astype(np.float32)).resize((wide, high), 3))
            for c in range(3)
        ]
        light += np.dstack(grown) * 0.35 / octave**0.5
    light += chance.normal(size=light.shape) * 0.015
    pixels = np.clip(light * (200, 190, 160) + 30, 0, 255).astype(np.uint8)
    if thing.retouched is not None:
        x, y, radius = thing.retouched
        rows, columns = np.mgrid[0:high, 0:wide] / 300
        inside = np.hypot(columns + thing.box.left - x, rows + thing.box.top - y) < radius
        pixels[inside] = (pixels[inside] * 0.4).astype(np.uint8)
    encoded = BytesIO()
    Image.fromarray(pixels).save(encoded, "JPEG", quality=92, subsampling=0)
    encoded.seek(0)
    return encoded
