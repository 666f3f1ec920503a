"""A measured swatch: its five patches are met, and other measured patches are come nearer to."""

import numpy as np
import pytest

from benchmarks.colour import swatches
from benchmarks.colour.patches import read_patches
from mockup.colour.difference import difference
from mockup.colour.icc_reading import read_condition
from mockup.colour.lab import lab_of_xyz, rgb_of_xyz, xyz_of_lab, xyz_of_rgb
from mockup.colour.press import COATED, UNCOATED, Press
from mockup.colour.printing import printed, table_on
from mockup.trade.swatch import Swatch

KRAFT = Swatch((62, 8, 22), (40, -20, -10), (38, 45, 15), (58, 8, 55), (18, 1, 2))
PRESSES = pytest.mark.parametrize("press", [COATED, UNCOATED], ids=["coated", "uncoated"])


@PRESSES
def test_the_five_patches_are_as_measured(press: Press) -> None:
    condition = read_condition(press.profile.read_bytes())
    table = lab_of_xyz(table_on(condition, (1, 2, 3), KRAFT))
    assert table[0, 0, 0, 0] == pytest.approx(KRAFT.paper, abs=0.01)
    for ink, solid in enumerate(KRAFT.solids):
        at = [0, 0, 0, 0]
        at[ink] = -1
        assert difference(table[tuple(at)], np.array(solid)) < 0.05


@PRESSES
def test_the_patches_reach_the_pixels(press: Press) -> None:
    condition = read_condition(press.profile.read_bytes())
    inks = np.vstack([np.zeros(4), np.eye(4)])[None].astype(np.uint8) * 255
    stock = rgb_of_xyz(xyz_of_lab(np.array(KRAFT.paper)))
    seen = printed(inks, condition, stock, KRAFT)[0]
    for rgb, lab in zip(seen.tolist(), (KRAFT.paper, *KRAFT.solids), strict=True):
        red, green, blue = rgb
        found = lab_of_xyz(xyz_of_rgb((red, green, blue)))
        assert difference(found, np.array(lab, np.float64)) < 1.0, lab


@PRESSES
def test_more_of_an_ink_never_turns_back(press: Press) -> None:
    """Lightness falls along every ramp but yellow's, which may stay."""
    condition = read_condition(press.profile.read_bytes())
    table = lab_of_xyz(table_on(condition, (1, 2, 3), KRAFT))
    for ink in (0, 1, 3):
        at: list[int | slice] = [0, 0, 0, 0]
        at[ink] = slice(None)
        assert (np.diff(table[tuple(at)][:, 0]) < 0.1).all()
    assert np.isfinite(table).all()


def test_the_presss_own_swatch_changes_little() -> None:
    """Of its own five patches a press's table learns nothing new."""
    condition = read_condition(COATED.profile.read_bytes())
    swatch = swatches.swatch_of(read_patches(swatches.MEASURED / "FOGRA39L.ti3"))
    own = rgb_of_xyz(condition.paper)
    off = difference(
        lab_of_xyz(table_on(condition, own, swatch)), lab_of_xyz(table_on(condition, own))
    )
    assert off.mean() < 0.5


@pytest.mark.parametrize(
    ("press", "name"), swatches.TARGETS, ids=[f"{p.profile.stem}-{n}" for p, n in swatches.TARGETS]
)
def test_measured_patches_are_come_nearer_to(press: Press, name: str) -> None:
    """Characterisation data of other presses and papers, of which five patches were looked at; 0.05
    is what two papers 0.1 apart lose by it."""
    pair = swatches.compare(press, name)
    assert len(pair.predicted) > 1400
    assert pair.predicted.mean() < pair.without.mean() + 0.05
    if pair.without.mean() > 2:
        assert pair.predicted.mean() < 0.92 * pair.without.mean()
        assert np.quantile(pair.predicted, 0.95) < 1.05 * np.quantile(pair.without, 0.95)
