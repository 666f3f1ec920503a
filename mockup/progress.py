"""Progress: a function that is told the share of the work done, handed in by whoever asks."""

from __future__ import annotations

import threading
from collections.abc import Callable

Progress = Callable[[float], None]
"""Told the share that is done, 0 to 1, never less than before."""


def told(progress: Progress | None, share: float) -> None:
    """Tells a progress, where there is one."""
    if progress is not None:
        progress(share)


def part(progress: Progress | None, start: float, end: float) -> Progress | None:
    """Returns a progress whose whole is the stretch from `start` to `end` of another."""
    if progress is None:
        return None
    return lambda share: progress(start + (end - start) * share)


class Forward:
    """A progress that two threads may tell at once: it passes on only what is more than before."""

    def __init__(self, progress: Progress | None) -> None:
        self._progress, self._most = progress, 0.0
        self._lock = threading.Lock()

    def __call__(self, share: float) -> None:
        """Tells the share done, unless as much was told before."""
        if self._progress is None:
            return
        with self._lock:
            if share > self._most:
                self._most = share
                self._progress(share)
