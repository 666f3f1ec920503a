"""Two pictures compared: the same to the eye in every box of four pixels, or told where not.

A mean or a percentile over the whole picture does not see a lost cut line; the worst of all boxes
does. Boxes are averaged in linear light, so that noise and the anti-aliasing of another processor
or library version count for little, and compared by CIEDE2000 (Sharma et al. 2005, by
scikit-image). Pictures with alpha are compared over white and over black: a pixel's colour and its
coverage both count, and colours under no coverage do not.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from skimage.color import deltaE_ciede2000, xyz2lab

SAME = 1.0
"""CIEDE2000: the largest difference of any box that is let pass."""

BOX_PX = 4
FAILED = Path(__file__).parent.parent / "build" / "failed"
_WHITE_AT = 10.0  # CIEDE2000 that is white in the picture of the difference
_TO_XYZ = np.array(  # IEC 61966-2-1, D65
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
)

Bytes = NDArray[np.uint8]


@dataclass(frozen=True)
class Difference:
    """The worst box of two pictures: its CIEDE2000, its left and top in pixels; and all boxes."""

    worst: float
    at_px: tuple[int, int]
    boxes: NDArray[np.float64]

    def told(self, ppi: float) -> str:
        """Returns the worst box in words, in pixels and in inches from the top left."""
        x, y = self.at_px
        return (
            f"CIEDE2000 {self.worst:.2f} (at most {SAME:g}) in the box at {x}, {y} px, "
            f"{x / ppi:.2f}, {y / ppi:.2f} in from the top left"
        )


def difference(actual: Bytes, expected: Bytes) -> Difference:
    """Returns how two (h, w, 3 or 4) uint8 sRGB pictures of one shape differ. Never resizes."""
    assert actual.shape == expected.shape, f"{actual.shape} is not {expected.shape}"
    grounds = (1.0, 0.0) if expected.shape[2] == 4 else (1.0,)
    boxes = np.max([_boxes_apart(actual, expected, ground) for ground in grounds], axis=0)
    row, column = np.unravel_index(int(boxes.argmax()), boxes.shape)
    return Difference(float(boxes.max()), (int(column) * BOX_PX, int(row) * BOX_PX), boxes)


def assert_same_picture(name: str, actual: Path, expected: Path, ppi: float) -> float:
    """Returns the worst box's CIEDE2000 of a picture that is the same to the eye as another.

    Else actual, expected and an amplified difference are saved under build/failed, and the
    assertion tells the worst box.
    """
    got, wanted = read(actual), read(expected)
    if got.shape != wanted.shape:
        _save(name, got, wanted, None)
        raise AssertionError(f"{name}: {_size(got)}, expected {_size(wanted)}; see {FAILED}")
    found = difference(got, wanted)
    if found.worst > SAME:
        _save(name, got, wanted, found)
        raise AssertionError(f"{name}: {found.told(ppi)}; see {FAILED}")
    return found.worst


def read(path: Path) -> Bytes:
    """Returns a PNG's pixels as they are stored, (h, w, 3 or 4) uint8."""
    with Image.open(path) as picture:
        assert picture.mode in ("RGB", "RGBA"), f"{path}: {picture.mode}"
        return np.asarray(picture)


def linear(picture: Bytes) -> NDArray[np.float64]:
    """Returns linear light of sRGB bytes (IEC 61966-2-1), 0 to 1."""
    share = picture / 255.0
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def lab(light: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns CIELAB under D65 of linear sRGB light, (..., 3)."""
    return xyz2lab(light @ _TO_XYZ.T)


def apart(one: object, other: object) -> float:
    """Returns CIEDE2000 between two sRGB colours in bytes."""
    pair = [lab(linear(np.asarray(colour, np.float64)[None, None])) for colour in (one, other)]
    return float(deltaE_ciede2000(*pair)[0, 0])


def _boxes_apart(actual: Bytes, expected: Bytes, ground: float) -> NDArray[np.float64]:
    one, other = (lab(_boxed(_over(picture, ground))) for picture in (actual, expected))
    return deltaE_ciede2000(one, other)


def _over(picture: Bytes, ground: float) -> NDArray[np.float64]:
    light = linear(picture[:, :, :3])
    if picture.shape[2] == 3:
        return light
    alpha = picture[:, :, 3:] / 255.0
    return light * alpha + ground * (1 - alpha)


def _boxed(light: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns means of boxes; those at the right and lower edge take in what is left over."""
    rows, columns = (np.arange(0, max(1, size - BOX_PX + 1), BOX_PX) for size in light.shape[:2])
    total = np.add.reduceat(np.add.reduceat(light, rows, axis=0), columns, axis=1)
    count = np.ones(light.shape[:2])
    return total / np.add.reduceat(np.add.reduceat(count, rows, 0), columns, 1)[:, :, None]


def _size(picture: Bytes) -> str:
    height, width, channels = picture.shape
    return f"{width} x {height} px of {channels} channels"


def _save(name: str, actual: Bytes, expected: Bytes, found: Difference | None) -> None:
    FAILED.mkdir(parents=True, exist_ok=True)
    Image.fromarray(actual).save(FAILED / f"{name}-actual.png")
    Image.fromarray(expected).save(FAILED / f"{name}-expected.png")
    if found is not None:
        grey = np.clip(found.boxes / _WHITE_AT * 255, 0, 255).astype(np.uint8)
        large = np.kron(grey, np.ones((BOX_PX, BOX_PX), np.uint8))
        Image.fromarray(large).save(FAILED / f"{name}-difference.png")
