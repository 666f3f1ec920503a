"""The suite's five colours: the inks they are printed with, and the light they were chosen by.

Each build has three inks, or a fourth only as a shadow; ink, the heaviest, carries 241 %, which
uncoated paper takes. In type and thin lines one ink is nearly solid and holds the edge: cyan in
ink, so that its black, below 60 %, is no rich black. Shown by FOGRA39 a build comes within 3.2 of
CIEDE2000 of its light.
"""

from typing import NamedTuple


class Ink(NamedTuple):
    """One colour of the suite: its build in percent of C, M, Y, K; sRGB 0..255 for the painter."""

    cmyk: tuple[int, int, int, int]
    light: tuple[int, int, int]


INK = Ink((96, 70, 20, 55), (29, 49, 77))
OAT = Ink((6, 8, 18, 0), (241, 232, 214))
RUST = Ink((0, 78, 86, 35), (168, 71, 42))
MIST = Ink((46, 26, 34, 9), (143, 160, 156))
# Rust in its own shadow: the water lines on the reply's flooded ground.
EMBER = Ink((0, 84, 95, 46), (146, 58, 34))
