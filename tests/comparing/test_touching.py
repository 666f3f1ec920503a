"""Numbers of touching cells, against scipy's."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import ndimage

from mockup.comparing.touching import grown, touching


@pytest.mark.parametrize("share", [0.1, 0.35, 0.5, 0.8])
def test_cells_are_joined_as_scipy_joins_them(share: float) -> None:
    mask = np.random.default_rng(7).random((60, 80)) < share
    own = touching(mask)
    other, count = ndimage.label(mask, np.ones((3, 3)))
    assert own.max() == count
    pairs = set(zip(own.ravel().tolist(), other.ravel().tolist(), strict=True))
    assert len(pairs) == count + (0 if mask.all() else 1)


def test_growing_is_scipys_dilation() -> None:
    mask = np.random.default_rng(8).random((40, 50)) < 0.05
    assert (grown(mask, 3, 1) == ndimage.binary_dilation(mask, np.ones((3, 7)))).all()
