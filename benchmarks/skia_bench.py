"""The same sheets by a general renderer: skia, one blurred drop shadow each, against our light.

Both start from the same rasterised art and end with a PNG file's bytes, 4000 x 3000 px; skia's once
with its own encoder and once with ours.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

import numpy as np
import skia

from benchmarks.yardstick import ART
from mockup.output.png import png_bytes
from mockup.pixels import Bytes
from mockup.render.flatlay import Shot, composed, lit_scene
from mockup.render.light import light
from mockup.render.light.scene import Flat, LitScene, Sheet
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite

Answer = TypeVar("Answer")

WIDTH_PX = 4000
SHADOW_PX = 12.0


def main() -> None:
    suite = read_suite(ART / "suite.toml")
    shot = Shot(suite, read_scene("limewash", Path()), WIDTH_PX)
    lit, ppi = lit_scene(shot, composed(shot))
    table = light(replace(lit, sheets=()), ppi)  # the photograph such pictures are laid on
    own, pictured = _timed(lambda: light(lit, ppi))
    packed, _ = _timed(lambda: png_bytes(pictured, 300))
    drawn, (image, pixels) = _timed(lambda: _drawn(lit, table, ppi))
    slow, _ = _timed(lambda: bytes(image.encodeToData(skia.EncodedImageFormat.kPNG, 100)))
    fast, _ = _timed(lambda: png_bytes(pixels, 300))
    print(f"ours: light {own:.2f} s + PNG {packed:.2f} s = {own + packed:.2f} s")
    print(f"skia: draw {drawn:.2f} s + its PNG {slow:.2f} s = {drawn + slow:.2f} s")
    print(f"skia: draw {drawn:.2f} s + our PNG {fast:.2f} s = {drawn + fast:.2f} s")
    print(f"ours / skia with its encoder: {(own + packed) / (drawn + slow):.2f} x")
    print(f"ours / skia with our encoder: {(own + packed) / (drawn + fast):.2f} x")


def _drawn(lit: LitScene, table: Bytes, ppi: float) -> tuple[skia.Image, Bytes]:
    width, height = round(lit.width_in * ppi), round(lit.height_in * ppi)
    pixels = np.zeros((height, width, 4), np.uint8)
    surface = skia.Surface(pixels, colorType=skia.kRGBA_8888_ColorType)
    with surface as canvas:
        canvas.drawImage(_image(table), 0, 0)
        for sheet in lit.sheets:
            _sheet(canvas, sheet, ppi)
    return surface.makeImageSnapshot(), np.ascontiguousarray(pixels[:, :, :3])


def _sheet(canvas: skia.Canvas, sheet: Sheet, ppi: float) -> None:
    path = skia.Path()
    for ring in sheet.rings:
        path.addPoly([skia.Point(*point) for point in ring * ppi], True)
    path.setFillType(skia.PathFillType.kEvenOdd)
    shadow = skia.Paint(AntiAlias=True, Color=skia.Color(0, 0, 0, 90))
    shadow.setMaskFilter(skia.MaskFilter.MakeBlur(skia.kNormal_BlurStyle, SHADOW_PX))
    canvas.save()
    canvas.translate(SHADOW_PX, SHADOW_PX)
    canvas.drawPath(path, shadow)
    canvas.restore()
    if isinstance(sheet.art, Flat):
        canvas.drawPath(path, skia.Paint(AntiAlias=True, Color=skia.Color(*sheet.art.rgb)))
        return
    canvas.save()
    canvas.clipPath(path, doAntiAlias=True)
    canvas.drawImage(_image(sheet.art.pixels), sheet.art.left_px, sheet.art.top_px)
    canvas.restore()


def _image(pixels: Bytes) -> skia.Image:
    opaque = np.full((*pixels.shape[:2], 4), 255, np.uint8)
    opaque[:, :, :3] = pixels
    return skia.Image.fromarray(opaque, colorType=skia.kRGBA_8888_ColorType)


def _timed(work: Callable[[], Answer]) -> tuple[float, Answer]:
    start = time.perf_counter()
    answer = work()
    return time.perf_counter() - start, answer
