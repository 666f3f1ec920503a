"""Texture and pattern: marks among many of their like, which may be cut anywhere.

Two signs. A pattern repeats one shape over an area. Texture (confetti, waves, sprigs) is of shapes
of like size, some of which run over the cut and on beyond it: several close by, or, of one ink,
many over the page.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

import numpy as np
from numpy.typing import NDArray

from mockup.reading.part import Part

REACH_IN = 1.5  # judgement: near by on a card; set on the bench of drawn pages
LEAST = 8  # judgement: like marks near by; fewer are a motif
OFF = 3  # judgement: of them run over the cut or lie beyond it; one or two may by mistake
PAGE_LEAST = 30  # judgement: like marks of one ink on the page; fewer are not confetti
PAGE_OFF = 6  # judgement: of them run off; set on the bench of drawn pages
PAGE_SHARE = 0.6  # judgement: a pattern covers most of the page each way, a vignette does not
LIKE_SIZE = 8.0  # judgement: specks and blots of one texture differ by less
SAME_WITHIN = 0.03  # judgement: share of its size; copies of one shape differ by rounding
SAME_SHARE = 0.6  # judgement: of the marks of one ink near by that are the same shape, in a pattern
REPEATED_LEAST = 4  # judgement: an ornament in each corner is repeated
REPEATED_WITHIN = 0.1  # judgement: of a shape's size; the last of a row may be cut a little shorter
SPREAD_SIZES = 3.0  # judgement: a pattern is at least so many of its shapes wide and high


def texture(parts: Sequence[Part], lettered: Collection[int]) -> set[int]:
    """Returns the parts near or over the cut that belong to a texture or a pattern."""
    suspects = [
        k
        for k, part in enumerate(parts)
        if part.place in ("near", "crossing") and part.painted.kind == "path" and k not in lettered
    ]
    others = np.array(
        [k for k, part in enumerate(parts) if part.painted.kind == "path" and k not in lettered]
    )
    if not suspects or len(others) < LEAST:
        return set()
    around = _Around([parts[k] for k in others])
    return {k for k in suspects if around.repeats(parts[k]) or around.runs_off(parts[k])}


def repeated(parts: Sequence[Part]) -> set[int]:
    """Returns the parts near the cut or beyond it whose shape is on the page four times or more."""
    suspects = [k for k, p in enumerate(parts) if p.painted.kind == "path" and p.place != "calm"]
    everything = np.array([(p.whole_width_in, p.whole_height_in) for p in parts])
    found: set[int] = set()
    for k in suspects:
        own = everything[k]
        like = np.abs(everything - own) <= REPEATED_WITHIN * own + 0.002
        if like.all(axis=1).sum() >= REPEATED_LEAST:
            found.add(k)
    return found


class _Around:
    """The drawn marks of a page, as arrays."""

    def __init__(self, parts: Sequence[Part]) -> None:
        self.boxes = np.array([part.box for part in parts])
        self.sizes = np.array([part.size_in for part in parts])
        self.whole = np.array([(p.whole_width_in, p.whole_height_in) for p in parts])
        self.inks = np.array([hash(part.painted.ink) for part in parts])
        self.beyond = np.array([part.place in ("bleeding", "outside") for part in parts])
        self.page = self.boxes[:, 2:].max(axis=0) - self.boxes[:, :2].min(axis=0)
        self.crossing = np.array([part.place == "crossing" for part in parts])

    def runs_off(self, part: Part) -> bool:
        """Whether marks of like size run over the cut and lie beyond it: some near by, or many of
        its own ink on the page."""
        like = (self.sizes < LIKE_SIZE * part.size_in) & (self.sizes > part.size_in / LIKE_SIZE)
        near = like & (self._gaps(part) < REACH_IN)
        own = like & (self.inks == hash(part.painted.ink))
        return self._some_off(near, LEAST, OFF) or self._some_off(own, PAGE_LEAST, PAGE_OFF)

    def _some_off(self, like: NDArray[np.bool_], least: int, least_off: int) -> bool:
        beyond = (like & self.beyond).sum()
        off = beyond + (like & self.crossing).sum()
        return bool(like.sum() >= least and off >= least_off and beyond >= 1)

    def repeats(self, part: Part) -> bool:
        """Whether most marks of its ink near by are the same shape, and that shape is spread over
        an area, running over the cut, or over most of the page."""
        ink = self.inks == hash(part.painted.ink)
        near = ink & (self._gaps(part) < REACH_IN)
        own = np.array([part.whole_width_in, part.whole_height_in])
        same = ink & (np.abs(self.whole - own) <= SAME_WITHIN * own + 1e-4).all(axis=1)
        if same.sum() < LEAST or (same & near).sum() < SAME_SHARE * near.sum():
            return False
        boxes = self.boxes[same]
        spread = boxes[:, 2:].max(axis=0) - boxes[:, :2].min(axis=0)
        running_off = (same & (self.beyond | self.crossing)).any()
        over_page = (spread > PAGE_SHARE * self.page).all()
        return bool((spread > SPREAD_SIZES * own).all() and (running_off or over_page))

    def _gaps(self, part: Part) -> NDArray[np.float64]:
        across = np.maximum(self.boxes[:, 0] - part.box.right, part.box.left - self.boxes[:, 2])
        down = np.maximum(self.boxes[:, 1] - part.box.bottom, part.box.top - self.boxes[:, 3])
        return np.maximum(across, down)
