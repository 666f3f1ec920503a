"""A portfolio: which pictures there are, in which shapes, and what is in none of them."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from mockup.asks import portfolio
from mockup.render.flatlay import Shot

SIZES = {"3x2": (240, 160), "4x5": (192, 240), "1x1": (240, 240), "9x16": (135, 240),
         "16x9": (240, 135)}  # fmt: skip


@pytest.fixture
def shots(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[Shot]]:
    """The flat-lays that are asked for; grey pictures stand in, for the goldens see real ones."""
    asked: list[Shot] = []

    def grey(shot: Shot, *more: object) -> np.ndarray:
        asked.append(shot)
        assert shot.aspect is not None
        return np.full((round(shot.width_px / shot.aspect), shot.width_px, 3), 128, np.uint8)

    monkeypatch.setattr(portfolio, "flatlay_picture", grey)
    monkeypatch.setattr(portfolio, "close_up_picture", grey)
    return asked


def test_every_ratio_detail_and_piece_is_written(
    shots: list[Shot], art: Path, tmp_path: Path
) -> None:
    for name in ("invitation", "details", "reply", "liner"):
        shutil.copy(art / f"{name}.pdf", tmp_path)
    text = (art / "suite.toml").read_text(encoding="utf-8")
    only = "[pieces.reply]" + text.partition("[pieces.reply]")[2]
    head = text.partition("[pieces.")[0]
    only = only.replace('"invitation", ', "").replace('"details", ', "").replace('"details"', "")
    suite = tmp_path / "suite.toml"
    suite.write_text(head + only, encoding="utf-8")
    request = portfolio.PortfolioRequest(suite, tmp_path / "out", long_side_px=240)
    written = portfolio.take_portfolio(request).written
    names = {path.name for path in written}
    flat = {
        *(f"suite-{ratio}" for ratio in SIZES),
        "detail-edge",
        "detail-liner",
        "envelope-outer",
        "envelope-reply",
    }
    assert names == {f"{name}.{kind}" for name in flat for kind in ("png", "jpg")} | {
        "piece-reply.png"
    }
    for ratio, size in SIZES.items():
        for kind in ("png", "jpg"):
            with Image.open(tmp_path / "out" / f"suite-{ratio}.{kind}") as picture:
                assert picture.size == size
    with Image.open(tmp_path / "out" / "piece-reply.png") as piece:
        assert piece.mode == "RGBA"
        assert piece.info["dpi"][0] == pytest.approx(300, abs=0.1)
        # 4.875 x 3.5 in, a pixel's margin: a cut line would reach farther.
        assert piece.size == pytest.approx((4.875 * 300 + 2, 3.5 * 300 + 2), abs=1)
    assert all(shot.line is None for shot in shots)
    assert [bool(shot.things) for shot in shots] == [True] * 5 + [False] * 4
    assert [len(shot.suite.envelopes) for shot in shots] == [2] * 7 + [1, 1]
