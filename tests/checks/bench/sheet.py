"""A print page drawn in card inches (y down), written with pikepdf: nothing of mockup is used."""

from __future__ import annotations

import io
import zlib
from pathlib import Path

import numpy as np
import pikepdf
import pymupdf
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name

FONT = Path(__file__).parents[3] / "assets_demo/fonts/EBGaramond08-Regular.ttf"
INK = (0.9, 0.6, 0.3, 0.3)
CREAM = (0.05, 0.07, 0.15, 0.0)
BLACK = (0.0, 0.0, 0.0, 1.0)
WHITE = (0.0, 0.0, 0.0, 0.0)
_font = TTFont(FONT)
_glyphs, _map, _upem = _font.getGlyphSet(), _font.getBestCmap(), _font["head"].unitsPerEm

Colour = tuple[float, ...] | str
"""CMYK or RGB shares, or the name of a spot colour."""


class Sheet:
    """One page. `bleed` is the margin of the page round the card, all lengths in inches."""

    def __init__(self, width=5.0, height=7.0, bleed=0.125, trim_box=True, shift=(0.0, 0.0)):
        self.width, self.height, self.bleed = width, height, bleed
        self.trim_box, self.shift = trim_box, shift
        self.ops: list[str] = []
        self.images: list[pikepdf.Stream] = []
        self.pdf = pikepdf.new()
        self.layers: dict[str, pikepdf.Object] = {}
        self.layer_states: dict[str, str] = {}
        self.spots: dict[str, pikepdf.Object] = {}
        self.resources = Dictionary()
        self.live: list[tuple[float, float, str, float, Colour, str | None]] = []
        self.pages = 1

    # Paths.

    def colour(self, colour: Colour, stroke=False) -> None:
        if isinstance(colour, str):
            key = f"S{list(self.spots).index(colour)}" if colour in self.spots else None
            if key is None:
                key = f"S{len(self.spots)}"
                tint = Dictionary(
                    FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 1, 0, 0], N=1
                )
                self.spots[colour] = Array(
                    [Name.Separation, Name("/" + colour), Name.DeviceCMYK, tint]
                )
            self.ops.append(f"/{key} {'CS' if stroke else 'cs'} 1 {'SCN' if stroke else 'scn'}")
            return
        operator = {3: "rg", 4: "k"}[len(colour)]
        operator = operator.upper() if stroke else operator
        self.ops.append(" ".join(f"{v:.4f}" for v in colour) + f" {operator}")

    def rect(self, x, y, w, h, colour: Colour) -> None:
        self.colour(colour)
        self.ops.append(f"{x:.5f} {y:.5f} {w:.5f} {h:.5f} re f")

    def flood(self, colour: Colour, left=0.125, top=0.125, right=0.125, bottom=0.125) -> None:
        """Fills the card and so much beyond each edge."""
        self.rect(-left, -top, self.width + left + right, self.height + top + bottom, colour)

    def polygon(self, points, colour: Colour, even_odd=False) -> None:
        self.colour(colour)
        self.ops.append(path(points) + (" f*" if even_odd else " f"))

    def circle(self, x, y, r, colour: Colour) -> None:
        angle = np.linspace(0, 2 * np.pi, 96, endpoint=False)
        self.polygon(np.stack([x + r * np.cos(angle), y + r * np.sin(angle)], axis=1), colour)

    def line(self, points, width_pt, colour: Colour, dash="", closed=False, cap=0) -> None:
        self.colour(colour, stroke=True)
        self.ops.append(f"{width_pt / 72:.6f} w {cap} J [{dash}] 0 d")
        self.ops.append(path(points, closed) + " S [] 0 d")

    def clip_rect(self, x, y, w, h) -> None:
        self.ops.append(f"q {x:.5f} {y:.5f} {w:.5f} {h:.5f} re W n")

    def end(self) -> None:
        self.ops.append("Q")

    # Type.

    def outlined(self, x, y, text, size_pt, colour: Colour) -> np.ndarray:
        """Draws type as outlines from a baseline's start; returns (left, top, right, bottom)."""
        self.colour(colour)
        parts, box = outlines(x, y, text, size_pt)
        self.ops += [f"{part} f" for part in parts]
        return box

    def live_type(self, x, y, text, size_pt, colour: Colour = BLACK, font: str | None = "own"):
        """Sets live type; `font` None is a font that is not in the file. Returns its box."""
        self.live.append((x, y, text, size_pt, colour, font))
        return outlines(x, y, text, size_pt)[1]

    # Pictures, layers.

    def image(self, pixels: np.ndarray, x, y, w, h, mask: np.ndarray | None = None) -> None:
        """Places an (h, w, 1|3|4) uint8 picture: gray, RGB or CMYK."""
        space = {1: Name.DeviceGray, 3: Name.DeviceRGB, 4: Name.DeviceCMYK}[pixels.shape[2]]
        stream = self._image(pixels, space)
        if mask is not None:
            stream.SMask = self.pdf.make_indirect(self._image(mask, Name.DeviceGray))
        key = f"I{len(self.images)}"
        self.images.append(self.pdf.make_indirect(stream))
        self.ops.append(f"q {w:.5f} 0 0 {-h:.5f} {x:.5f} {y + h:.5f} cm /{key} Do Q")

    def _image(self, pixels: np.ndarray, space: Name) -> pikepdf.Stream:
        about = Dictionary(
            Type=Name.XObject, Subtype=Name.Image, Width=pixels.shape[1], Height=pixels.shape[0],
            ColorSpace=space, BitsPerComponent=8, Filter=Name.FlateDecode,
        )  # fmt: skip
        return pikepdf.Stream(self.pdf, zlib.compress(pixels.tobytes(), 1), about)

    def bitmap(self, bits: np.ndarray, width_px: int, x, y, w, h) -> None:
        """Places rows of bits packed in bytes as an image of black and white alone."""
        about = Dictionary(
            Type=Name.XObject, Subtype=Name.Image, Width=width_px, Height=bits.shape[0],
            ColorSpace=Name.DeviceGray, BitsPerComponent=1, Filter=Name.FlateDecode,
        )  # fmt: skip
        stream = pikepdf.Stream(self.pdf, zlib.compress(bits.tobytes()), about)
        key = f"I{len(self.images)}"
        self.images.append(self.pdf.make_indirect(stream))
        self.ops.append(f"q {w:.5f} 0 0 {-h:.5f} {x:.5f} {y + h:.5f} cm /{key} Do Q")

    def begin_layer(self, name: str, state="on", step: str | None = None) -> None:
        """Begins a layer: "on", "hidden" or "unprinted"."""
        group = Dictionary(Type=Name.OCG, Name=name)
        if state == "unprinted":
            group.Usage = Dictionary(Print=Dictionary(PrintState=Name.OFF))
        if step and step.startswith("/"):  # a group that has no types
            group.GTS_Metadata = Dictionary(GTS_ProcStepsGroup=Name(step))
        elif step:
            group.GTS_Metadata = Dictionary(
                GTS_ProcStepsGroup=Name.Structural, GTS_ProcStepsType=Name("/" + step)
            )
        self.layers[name] = self.pdf.make_indirect(group)
        self.layer_states[name] = state
        self.ops.append(f"/OC /L{len(self.layers) - 1} BDC")

    def end_layer(self) -> None:
        self.ops.append("EMC")

    # Writing.

    def save(self, file: Path) -> Path:
        edge = self.bleed * 72
        w, h = self.width * 72, self.height * 72
        media = [0, 0, w + 2 * edge, h + 2 * edge]
        dx, dy = (v * 72 for v in self.shift)
        trim = [edge + dx, edge - dy, w + edge + dx, h + edge - dy]
        matrix = f"72 0 0 -72 {trim[0]:g} {trim[3]:g} cm"
        content = "\n".join([matrix, *self.ops]).encode()
        self.resources.XObject = Dictionary({f"/I{k}": im for k, im in enumerate(self.images)})
        self.resources.ColorSpace = Dictionary(
            {f"/S{k}": space for k, space in enumerate(self.spots.values())}
        )
        if self.layers:
            self._write_layers()
        page = Dictionary(
            Type=Name.Page, MediaBox=Array(media), Resources=self.resources,
            Contents=self.pdf.make_stream(content),
        )  # fmt: skip
        if self.trim_box:
            page.TrimBox = Array(trim)
        for _ in range(self.pages):
            self.pdf.pages.append(pikepdf.Page(self.pdf.make_indirect(Dictionary(page))))
        buffer = io.BytesIO()
        self.pdf.save(buffer)
        file.write_bytes(
            _with_live_type(buffer.getvalue(), self.live, (trim[0] / 72, edge / 72 + dy / 72))
        )
        return file

    def _write_layers(self) -> None:
        groups = list(self.layers.values())
        hidden = [
            g for g, s in zip(groups, self.layer_states.values(), strict=True) if s == "hidden"
        ]
        self.resources.Properties = Dictionary({f"/L{k}": g for k, g in enumerate(groups)})
        self.pdf.Root.OCProperties = Dictionary(
            OCGs=Array(groups), D=Dictionary(Order=Array(groups), OFF=Array(hidden))
        )


def path(points, closed=True) -> str:
    """Returns path operators through points."""
    first, *rest = points
    lines = [f"{first[0]:.5f} {first[1]:.5f} m", *(f"{x:.5f} {y:.5f} l" for x, y in rest)]
    return " ".join(lines) + (" h" if closed else "")


def outlines(x, y, text, size_pt) -> tuple[list[str], np.ndarray]:
    """Returns a path a letter, and the box of the ink, of type on a baseline from (x, y)."""
    scale = size_pt / 72 / _upem
    parts, boxes = [], []
    for letter in text:
        name = _map[ord(letter)]
        pen, bounds = DecomposingRecordingPen(_glyphs), BoundsPen(_glyphs)
        _glyphs[name].draw(pen)
        _glyphs[name].draw(bounds)
        if bounds.bounds:
            parts.append(_ops(pen.value, x, y, scale))
            x0, y0, x1, y1 = bounds.bounds
            boxes.append((x + x0 * scale, y - y1 * scale, x + x1 * scale, y - y0 * scale))
        x += _glyphs[name].width * scale
    boxes = np.array(boxes)
    return parts, np.concatenate([boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)])


def _ops(recording, x, y, scale) -> str:
    ops: list[str] = []
    here = (0.0, 0.0)

    def at(point):
        return f"{x + point[0] * scale:.6f} {y - point[1] * scale:.6f}"

    for verb, points in recording:
        if verb == "moveTo":
            ops.append(f"{at(points[0])} m")
        elif verb == "lineTo":
            ops.append(f"{at(points[0])} l")
        elif verb == "curveTo":
            ops.append(f"{at(points[0])} {at(points[1])} {at(points[2])} c")
        elif verb == "qCurveTo":
            for control, end in _quadratics(points):
                a = tuple(h + 2 / 3 * (c - h) for h, c in zip(here, control, strict=True))
                b = tuple(e + 2 / 3 * (c - e) for e, c in zip(end, control, strict=True))
                ops.append(f"{at(a)} {at(b)} {at(end)} c")
                here = end
        else:
            ops.append("h")
        if points:
            here = points[-1]
    return " ".join(ops)


def _quadratics(points):
    *controls, end = points
    for k, control in enumerate(controls):
        last = k == len(controls) - 1
        following = (
            end
            if last
            else tuple((a + b) / 2 for a, b in zip(control, controls[k + 1], strict=True))
        )
        yield control, following


def _with_live_type(content: bytes, live, origin_in) -> bytes:
    if not live:
        return content
    document = pymupdf.open(stream=content, filetype="pdf")
    for page in document:
        for x, y, text, size_pt, colour, font in live:
            at = ((x + origin_in[0]) * 72, (y + origin_in[1]) * 72)
            if font is None:
                page.insert_text(at, text, fontsize=size_pt, fontname="helv", color=colour)
            else:
                page.insert_text(
                    at, text, fontsize=size_pt, fontname="F0", fontfile=str(FONT), color=colour
                )
    return document.tobytes()
