"""Values handed in from Python: each odd one is told by its key, before any work is done."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import mockup
from mockup import LimitError, MockupError, RequestError

ODD: tuple[Any, ...] = (
    math.nan, math.inf, -math.inf, -1, 0, 10**400, 1e308, "", "x" * 5000, None, [], {}, b"x", object(),
)  # fmt: skip


def _ask(ask: Callable[[Any], object], request: type, **fields: Any) -> Callable[[str, Any], None]:
    return lambda key, value: ask(request(**{**fields, key: value})) and None


FLATLAY = _ask(mockup.lay_flatlay, mockup.FlatlayRequest, suite="no.toml", output="o.png")
PIECE = _ask(mockup.cut_piece, mockup.PieceRequest, art="no.pdf", output="o.png")
CHECK = _ask(mockup.check_suite, mockup.CheckRequest, suite="no.toml")
OPTIONS = _ask(
    mockup.show_options, mockup.OptionsRequest, suite="no.toml", piece="reply", output="o.png"
)
PORTFOLIO = _ask(mockup.take_portfolio, mockup.PortfolioRequest, suite="no.toml", output="o")
ORDER = _ask(mockup.order_suite, mockup.OrderRequest, suite="no.toml", output="o")
PROOF = _ask(mockup.write_proof, mockup.ProofRequest, suite="no.toml", output="o.pdf")


@pytest.mark.parametrize(
    ("ask", "key"),
    [
        (FLATLAY, "width_px"), (FLATLAY, "suite"), (FLATLAY, "output"), (FLATLAY, "audience"),
        (FLATLAY, "aspect"), (FLATLAY, "arrange"), (FLATLAY, "scene"),
        (PIECE, "ppi"), (PIECE, "page"), (PIECE, "line_width"), (PIECE, "die"), (PIECE, "stock"),
        (CHECK, "safe"), (CHECK, "wander"), (CHECK, "turn_deg"), (CHECK, "near"), (CHECK, "run"),
        (CHECK, "seed"), (CHECK, "post"), (OPTIONS, "width_px"), (OPTIONS, "dies"),
        (PORTFOLIO, "long_side_px"), (PROOF, "paper"),
        (ORDER, "variant"), (ORDER, "outlines"), (ORDER, "printers"), (ORDER, "catalogues"),
    ],
)  # fmt: skip
def test_an_odd_value_is_told_and_never_traces_back(
    ask: Callable[[str, Any], None], key: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for value in ODD:
        with pytest.raises(MockupError) as caught:  # at the latest, of the suite that is not there
            ask(key, value)
        assert all(len(str(each)) < 400 for each in caught.value.mistakes)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("ask", "key", "value", "error"),
    [
        (FLATLAY, "width_px", math.nan, RequestError),
        (FLATLAY, "width_px", 12_001, LimitError),
        (FLATLAY, "audience", "printer", RequestError),
        (PIECE, "ppi", 0, RequestError),
        (PIECE, "ppi", math.inf, RequestError),
        (CHECK, "run", -3, RequestError),
        (CHECK, "turn_deg", math.nan, RequestError),
        (PROOF, "paper", "a5", RequestError),
        (ORDER, "variant", "die-line", RequestError),
        (ORDER, "outlines", "yes", RequestError),
    ],
)
def test_a_mistake_names_its_key(
    ask: Callable[[str, Any], None], key: str, value: object, error: type[MockupError]
) -> None:
    with pytest.raises(error) as caught:
        ask(key, value)
    assert caught.value.mistakes[0].key == key
