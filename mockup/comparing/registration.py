"""One picture laid over another: how far it is moved and by how much it is larger.

Blocks of the two are held against each other by phase correlation (Kuglin and Hines 1975); one
shift and one scale are fitted to what the blocks say, by least squares, strays left out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import Bytes

_HALF = 2  # blocks are looked at in pixels twice as large
_ACROSS = 5  # blocks along each side
_BLOCK = 0.34  # of a side; neighbours overlap
_SHARPEST = 0.04  # judgement: of a peak, against 1 for two equal blocks
_FEWEST = 4
_STRAY_PX = 2.0
_LEAST_PX = 1.0  # what the comparison explains by itself
_LARGEST = 0.1  # judgement: more is another drawing
_Grey = NDArray[np.float32]


@dataclass(frozen=True)
class Laid:
    """How a picture is laid over another: moved, pixels, after being made larger by a share of
    itself about its middle."""

    right_px: float = 0.0
    down_px: float = 0.0
    larger: float = 0.0

    def then(self, more: Laid) -> Laid:
        """Returns both, one after the other."""
        size = 1 + more.larger
        right_px, down_px = self.right_px * size, self.down_px * size
        larger = (1 + self.larger) * size - 1
        return Laid(right_px + more.right_px, down_px + more.down_px, larger)

    def reach_px(self, high: int, wide: int) -> float:
        """Returns how far inward the edge of a picture of this size may come, pixels."""
        shift = max(abs(self.right_px), abs(self.down_px))
        return shift + abs(self.larger) * max(high, wide) / 2


def laid_over(before: Bytes, after: Bytes) -> Laid | None:
    """Returns how the first picture lies over the second of its size; None where blocks do not
    agree, or where it lies where it did."""
    told = _told(_detail(before), _detail(after))
    if len(told) < _FEWEST:
        return None
    x, y, right, down = told.T
    keep = np.ones(len(told), bool)
    right_px = down_px = larger = 0.0
    for _ in range(4):
        larger = _slope(x[keep], y[keep], right[keep], down[keep])
        right_px = float(np.median((right - larger * x)[keep]))
        down_px = float(np.median((down - larger * y)[keep]))
        off = np.hypot(right - larger * x - right_px, down - larger * y - down_px)
        keep = off <= max(_STRAY_PX, float(np.sort(off)[min(_FEWEST, len(off)) - 1]))
    if keep.sum() < max(_FEWEST, len(told) / 2) or abs(larger) > _LARGEST:
        return None
    reach = abs(larger) * max(before.shape[:2]) / 2
    if reach < _LEAST_PX:
        larger = 0.0
    if np.hypot(right_px, down_px) < _LEAST_PX:
        right_px = down_px = 0.0
    laid = Laid(right_px, down_px, larger)
    return None if laid == Laid() else laid


def resampled(before: Bytes, laid: Laid) -> Bytes:
    """Returns a picture laid so: moved by whole pixels, half a pixel is no change; or made larger,
    between pixels, so that no thin line falls out."""
    for axis, by_px in ((0, laid.down_px), (1, laid.right_px)):
        count = before.shape[axis]
        if laid.larger:
            before = _between(before, laid.larger, by_px, axis)
        elif round(by_px):
            at = np.arange(count) - round(by_px)
            before = np.take(before, np.clip(at, 0, count - 1), axis)
    return before


def _between(before: Bytes, larger: float, by_px: float, axis: int) -> Bytes:
    count = before.shape[axis]
    middle = (count - 1) / 2
    at = np.clip((np.arange(count) - middle - by_px) / (1 + larger) + middle, 0, count - 1)
    low = np.minimum(at.astype(int), count - 2)
    share = np.rint((at - low) * 256).astype(np.uint16)
    share = share[:, None, None] if axis == 0 else share[None, :, None]
    first, second = np.take(before, low, axis), np.take(before, low + 1, axis)
    return ((first * (256 - share) + second * share + 128) >> 8).astype(np.uint8)


def shifted(before: Bytes, after: Bytes) -> tuple[float, float] | None:
    """Returns how far right and down a crop moved, pixels, where it tells; at least a pixel."""
    told = _shift(_steepness(before), _steepness(after))
    return told if told is not None and max(abs(told[0]), abs(told[1])) >= _LEAST_PX else None


def _slope(
    x: NDArray[np.float64],
    y: NDArray[np.float64],
    right: NDArray[np.float64],
    down: NDArray[np.float64],
) -> float:
    """Returns the scale less one that fits shifts at places best, both axes together."""
    dx, dy = x - x.mean(), y - y.mean()
    spread = float((dx**2).sum() + (dy**2).sum())
    if spread == 0:
        return 0.0
    return float((dx * (right - right.mean()) + dy * (down - down.mean())).sum() / spread)


def _detail(picture: Bytes) -> _Grey:
    """Returns how steep a picture is, at half its size, float32."""
    high, wide = (side // _HALF * _HALF for side in picture.shape[:2])
    grey = picture[:high, :wide].mean(axis=2, dtype=np.float32)
    grey = grey.reshape(high // _HALF, _HALF, wide // _HALF, _HALF).mean(axis=(1, 3))
    return _slopes(grey)


def _steepness(picture: Bytes) -> _Grey:
    return _slopes(picture.mean(axis=2, dtype=np.float32))


def _slopes(grey: _Grey) -> _Grey:
    down, across = np.gradient(grey)
    return np.hypot(down, across).astype(np.float32)


def _told(before: _Grey, after: _Grey) -> NDArray[np.float64]:
    """Returns for every block that tells it where its drawing lies, from the picture's middle, and
    how far it moved; pixels."""
    high, wide = before.shape
    tall, broad = round(high * _BLOCK), round(wide * _BLOCK)
    rows = np.linspace(0, high - tall, _ACROSS).astype(int)
    columns = np.linspace(0, wide - broad, _ACROSS).astype(int)
    window = np.outer(np.hanning(tall), np.hanning(broad)).astype(np.float32)
    found: list[tuple[float, float, float, float]] = []
    for top in rows:
        for left in columns:
            part = (slice(top, top + tall), slice(left, left + broad))
            block = before[part] * window
            shift = _shift(block, after[part] * window)
            if shift is not None:
                x, y = _middle(block)
                at = (left + x - wide / 2, top + y - high / 2)
                found.append((at[0] * _HALF, at[1] * _HALF, shift[0] * _HALF, shift[1] * _HALF))
    return np.array(found).reshape(-1, 4)


def _middle(block: _Grey) -> tuple[float, float]:
    """Returns where the drawing in a block lies on the mean: it is what a shift was told by."""
    rows, columns = block.sum(axis=1), block.sum(axis=0)
    whole = float(rows.sum())
    x = float((columns * np.arange(len(columns))).sum()) / whole
    return x, float((rows * np.arange(len(rows))).sum()) / whole


def _shift(before: _Grey, after: _Grey) -> tuple[float, float] | None:
    """Returns how far right and down a block moved, pixels; None where no peak tells it."""
    if not before.any() or not after.any():
        return None
    cross = np.fft.rfft2(after) * np.conj(np.fft.rfft2(before))
    size = np.abs(cross)
    cross = cross / np.maximum(size, size.max() * 1e-4)
    told = np.fft.irfft2(cross, before.shape)
    down, right = np.unravel_index(int(np.argmax(told)), told.shape)
    if told[down, right] < _SHARPEST:
        return None
    return _signed(told, int(down), int(right), 1), _signed(told, int(down), int(right), 0)


def _signed(told: NDArray[np.float64], down: int, right: int, axis: int) -> float:
    """Returns a peak's place along an axis, to a part of a pixel, negative where it wraps."""
    row = np.take(told, right, 1) if axis == 0 else np.take(told, down, 0)
    at = down if axis == 0 else right
    low, peak, high = row[at - 1], row[at], row[(at + 1) % len(row)]
    curve = low - 2 * peak + high
    part = 0.5 * (low - high) / curve if curve < 0 else 0.0
    return float((at + part + len(row) / 2) % len(row) - len(row) / 2)
