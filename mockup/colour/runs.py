"""Runs of equal pixels: most of a page is bare paper, or one ink, for as long as a line."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray


def run_starts(values: NDArray[Any]) -> NDArray[np.intp]:
    """Returns where in values, (n,) or (n, k) and at least one, a run of equal ones begins."""
    columns = values.reshape(len(values), -1).T
    changes = np.logical_or.reduce([each[1:] != each[:-1] for each in columns])
    return np.flatnonzero(np.concatenate(([True], changes)))


def run_lengths(starts: NDArray[np.intp], count: int) -> NDArray[np.intp]:
    """Returns how long each run is, of those that begin at `starts` among `count` values."""
    return np.diff(starts, append=count)


def distinct(values: NDArray[Any]) -> tuple[NDArray[Any], NDArray[np.intp]]:
    """Returns the different ones of values, (n,) and at least one, in order, and the number of
    each value among them: what np.unique answers, run by run instead of pixel by pixel."""
    starts = run_starts(values)
    found, number = np.unique(values[starts], return_inverse=True)
    return found, np.repeat(number, run_lengths(starts, len(values)))
