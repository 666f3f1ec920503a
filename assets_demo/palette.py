"""The suite's four colours, each as DeviceRGB and DeviceCMYK numbers.

The CMYK builds were chosen so that a common offset profile shows them as their RGB
neighbours; the heaviest, ink, carries 263 % of colour.
"""

from typing import NamedTuple


class Ink(NamedTuple):
    """One colour of the suite: RGB 0..255 (sRGB) and CMYK in percent."""

    rgb: tuple[int, int, int]
    cmyk: tuple[int, int, int, int]


INK = Ink((29, 49, 77), (96, 83, 49, 35))
OAT = Ink((241, 232, 214), (5, 7, 15, 0))
RUST = Ink((168, 71, 42), (30, 84, 99, 10))
MIST = Ink((143, 160, 156), (44, 26, 34, 5))
# Rust in its own shadow: the water lines on the reply's flooded ground.
EMBER = Ink((146, 58, 34), (32, 88, 100, 22))
