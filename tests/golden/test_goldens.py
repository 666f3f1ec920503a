"""What the commands draw, against pictures that were looked at and found right.

Where one changes on purpose: `make goldens`, look at old and new, say why in the commit.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.golden.recipes import HERE, RECIPES, drawn, lay_out
from tests.pictures import assert_same_picture


@pytest.fixture(autouse=True)
def _the_ratio_that_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """A portfolio takes each ratio by itself; of the five one is compared."""
    monkeypatch.setattr("mockup.asks.portfolio.RATIOS", {"9x16": 9 / 16})


@pytest.mark.parametrize("name", RECIPES)
def test_a_command_draws_what_was_found_right(name: str, tmp_path: Path) -> None:
    recipe = RECIPES[name]
    lay_out(tmp_path)
    pictures = drawn(recipe, tmp_path)
    failed: list[str] = []
    for golden in recipe.goldens:
        path, kept = pictures[golden.name], HERE / f"{golden.name}.png"
        try:
            assert_same_picture(golden.name, path, kept, golden.ppi)
        except AssertionError as error:
            failed.append(str(error))
    assert not failed, "\n".join(failed)


def test_every_golden_has_a_recipe() -> None:
    known = {golden.name for recipe in RECIPES.values() for golden in recipe.goldens}
    assert {path.stem for path in HERE.glob("*.png")} == known
