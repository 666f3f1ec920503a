"""Layouts drawn plainly, for looking at: paper, its shadow, what is to stay in sight."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from mockup.geometry.point import Box
from mockup.render.arrangement import Arrangement, Item

LONG_SIDE_PX = 700
TONES = {"main": (252, 250, 246), "card": (236, 232, 224), "envelope": (120, 138, 152)}


def draw(items: Sequence[Item], arrangement: Arrangement, path: Path) -> None:
    """Writes a picture of an arrangement."""
    frame = arrangement.frame
    scale = LONG_SIDE_PX / max(frame.width_in, frame.height_in)
    size = round(frame.width_in * scale), round(frame.height_in * scale)
    picture = Image.new("RGB", size, (205, 196, 184))
    pen = ImageDraw.Draw(picture)
    by_name = {item.name: item for item in items}
    for placed in arrangement.placed:
        item = by_name[placed.name]

        def mapped(region: object, placed: object = placed) -> list[tuple[float, float]]:
            points = region.corners() if isinstance(region, Box) else region
            a, b, c, d, e, f = placed.to_table  # type: ignore[attr-defined]
            return [
                ((a * x + c * y + e) * scale, (b * x + d * y + f) * scale)
                for x, y in np.asarray(points)
            ]

        outline = mapped(item.outline)
        pen.polygon([(x + 4, y + 4) for x, y in outline], fill=(168, 158, 146))
        pen.polygon(outline, fill=TONES[item.role], outline=(140, 132, 122))
        for region in item.show:
            pen.polygon(mapped(region), fill=(150, 166, 178))
        for region in item.keep_clear:
            pen.polygon(mapped(region), outline=(176, 120, 100))
    picture.save(path)
