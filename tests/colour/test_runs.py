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


@given(st.one_of(SOME, SOME.map(lambda v: np.stack([v // 2, v % 2], axis=1))))
def test_runs_put_together_again_are_the_whole(values: np.ndarray) -> None:
    starts = run_starts(values)
    firsts = values[starts].reshape(len(starts), -1)
    assert (firsts[1:] != firsts[:-1]).any(axis=1).all()
    again = np.repeat(values[starts], run_lengths(starts, len(values)), axis=0)
    assert again.tolist() == values.tolist()
