"""The outline of things taken as one, against areas from plane geometry."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Polygon, box

from mockup.geometry.union import rim, rim_of


def test_two_cards_that_overlap_have_one_outline() -> None:
    outline = rim_of([box(0, 0, 5, 7), box(4, 1, 8, 3)])
    assert outline.dtype == np.float64
    assert not (outline[0] == outline[-1]).all()
    assert Polygon(outline).area == pytest.approx(5 * 7 + 4 * 2 - 1 * 2)


def test_of_things_that_lie_apart_the_larger_is_outlined_and_no_hole_is_kept() -> None:
    holed = Polygon(box(0, 0, 5, 7).exterior, [box(2, 2, 3, 3).exterior])
    assert Polygon(rim_of([holed, box(9, 0, 10, 1)])).area == pytest.approx(35)


def test_a_line_that_crosses_itself_is_outlined_as_its_larger_part() -> None:
    """A bow of triangles with bases 1 and 3, crossing where its sides are as 1 to 3: base times
    height over two, 3 * 3 / 2 of the larger."""
    bow = Polygon([(0, 0), (4, 3), (4, 0), (0, 1)])
    assert Polygon(rim(bow)).area == pytest.approx(4.5)


def test_no_area_has_no_outline() -> None:
    with pytest.raises(ValueError, match="empty"):
        rim_of([])
