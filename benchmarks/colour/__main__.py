"""Runs the benches of colour: `python -m benchmarks.colour`.

A grid of mixes through the command against LittleCMS; ink on another paper against measured pairs;
and the time of a page of 12 megapixels through its press against LittleCMS's own.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
from PIL import Image, ImageCms

from benchmarks.colour import grid, papers
from mockup.colour.icc_reading import read_condition
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


if __name__ == "__main__":
    main()
