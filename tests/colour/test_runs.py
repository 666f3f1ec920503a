"""Runs of equal pixels, against numpy's own answer pixel by pixel."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.runs import distinct, run_lengths, run_starts

SOME = st.lists(st.integers(0, 3), min_size=1, max_size=40).map(lambda v: np.array(v, np.uint32))


@given(SOME)
def test_the_different_ones_are_those_of_numpy(values: np.ndarray) -> None:
    found, number = distinct(values)
    wanted, cell = np.unique(values, return_inverse=True)
    assert found.tolist() == wanted.tolist()
    assert number.tolist() == cell.tolist()


@given(SOME)
def test_runs_put_together_again_are_the_whole(values: np.ndarray) -> None:
    starts = run_starts(values)
    assert (np.diff(values[starts].astype(int)) != 0).all()
    again = np.repeat(values[starts], run_lengths(starts, len(values)))
    assert again.tolist() == values.tolist()
