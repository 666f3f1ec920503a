"""Runs the benches of colour: `python -m benchmarks.colour`.

A grid of mixes through the command against LittleCMS; ink on another paper, by its colour
and by a swatch, against measured patches; and the time of a page of 12 megapixels through its press
against LittleCMS's own, and with white ink.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms

from benchmarks.colour import grid, papers, swatches
from mockup.colour.icc_reading import Condition, read_condition
from mockup.colour.plates import Plates, Pressed, WhitePlate
from mockup.colour.press import UNCOATED
from mockup.colour.printing import printed

SIZE = (3000, 4000)
TRIES = 5


def seconds(work: Callable[[], object]) -> float:
    """Returns the least time of some tries."""
    times: list[float] = []
    for _ in range(TRIES):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    """Prints every bench."""
    grid.main()
    papers.main()
    swatches.main()
    stock = (245, 244, 240)
    condition = read_condition(UNCOATED.profile.read_bytes())
    way = ImageCms.buildTransform(
        str(UNCOATED.profile),
        ImageCms.createProfile("sRGB"),
        "CMYK",
        "RGB",
        ImageCms.Intent.RELATIVE_COLORIMETRIC,
        ImageCms.Flags.HIGHRESPRECALC,
    )
    noise = np.random.default_rng(0).integers(0, 256, (*SIZE, 4), dtype=np.uint8)
    flat = np.repeat(np.repeat(noise[::100, ::100], 100, 0), 100, 1).copy()
    for about, inks in (("noise", noise), ("fields of 100 px", flat)):
        picture = Image.frombytes("CMYK", SIZE[::-1], inks.tobytes())
        own = seconds(lambda picture=picture: ImageCms.applyTransform(picture, way))
        ours = seconds(lambda inks=inks: printed(inks, condition, stock))
        print(f"12 MP, {about}: {ours:.2f} s, {ours / own:.2f} times LittleCMS's own {own:.2f} s")
    white_ink(flat, condition)


def white_ink(inks: NDArray[np.uint8], condition: Condition) -> None:
    """Prints how much longer a page of 12 MP takes with white ink under a part of it."""
    stock = (174, 144, 111)
    bare = seconds(lambda: Plates(Pressed(inks, condition)).on(stock))
    for about, rows in (("a tenth", SIZE[0] // 10), ("all", SIZE[0])):
        plate = np.zeros(SIZE, np.uint8)
        plate[:rows] = 255
        plates = Plates(Pressed(inks, condition), WhitePlate(plate, 1))
        with_white = seconds(lambda plates=plates: plates.on(stock))
        print(f"12 MP, white under {about} of it: {with_white:.2f} s, {bare:.2f} s without")


if __name__ == "__main__":
    main()
