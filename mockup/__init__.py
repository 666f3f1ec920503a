"""Mockup: honest flat-lays and proofs of die-cut stationery, drawn from the print files.

Every ask is a function that takes a request and gives an answer:

    from mockup import FlatlayRequest, lay_flatlay
    answer = lay_flatlay(FlatlayRequest("suite.toml", "flatlay.png", width_px=1600))

What is wrong is raised as a MockupError, whose `mistakes` say each where and what to do. Nothing
is loaded before it is used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mockup.asks.check import CheckAnswer, CheckRequest, check_suite
    from mockup.asks.colours import ColoursAnswer, ColoursRequest, show_colours
    from mockup.asks.demo import DemoAnswer, DemoRequest, lay_demo
    from mockup.asks.dies import DiesAnswer, DiesRequest, list_dies
    from mockup.asks.envelope_papers import (
        EnvelopePapersAnswer,
        EnvelopePapersRequest,
        show_envelope_papers,
    )
    from mockup.asks.envelopes import EnvelopesAnswer, EnvelopesRequest, list_envelopes
    from mockup.asks.flatlay import FlatlayAnswer, FlatlayRequest, lay_flatlay
    from mockup.asks.liner import LinerAnswer, LinerRequest, draw_liner
    from mockup.asks.options import OptionsAnswer, OptionsRequest, show_options
    from mockup.asks.order import OrderAnswer, OrderRequest, order_suite
    from mockup.asks.papers import PapersAnswer, PapersRequest, list_papers
    from mockup.asks.piece import PieceAnswer, PieceRequest, cut_piece
    from mockup.asks.portfolio import PortfolioAnswer, PortfolioRequest, take_portfolio
    from mockup.asks.proof import ProofAnswer, ProofRequest, write_proof
    from mockup.asks.scenes import ScenesAnswer, ScenesRequest, list_scenes
    from mockup.asks.signoff import SignoffAnswer, SignoffRequest, read_signoff
    from mockup.asks.start import StartAnswer, StartRequest, start_suite
    from mockup.asks.status import StatusAnswer, StatusRequest, tell_status
    from mockup.errors import (
        DieError,
        ExitCode,
        InputError,
        LimitError,
        Mistake,
        MockupError,
        OutputError,
        RefusedError,
        RequestError,
        SuiteError,
        SystemLibraryError,
    )
    from mockup.suite.audience import Audience

__version__ = "0.1.0"

__all__ = [
    "Audience",
    "CheckAnswer",
    "CheckRequest",
    "ColoursAnswer",
    "ColoursRequest",
    "DemoAnswer",
    "DemoRequest",
    "DieError",
    "DiesAnswer",
    "DiesRequest",
    "EnvelopePapersAnswer",
    "EnvelopePapersRequest",
    "EnvelopesAnswer",
    "EnvelopesRequest",
    "ExitCode",
    "FlatlayAnswer",
    "FlatlayRequest",
    "InputError",
    "LimitError",
    "LinerAnswer",
    "LinerRequest",
    "Mistake",
    "MockupError",
    "OptionsAnswer",
    "OptionsRequest",
    "OrderAnswer",
    "OrderRequest",
    "OutputError",
    "PapersAnswer",
    "PapersRequest",
    "PieceAnswer",
    "PieceRequest",
    "PortfolioAnswer",
    "PortfolioRequest",
    "ProofAnswer",
    "ProofRequest",
    "RefusedError",
    "RequestError",
    "ScenesAnswer",
    "ScenesRequest",
    "SignoffAnswer",
    "SignoffRequest",
    "StartAnswer",
    "StartRequest",
    "StatusAnswer",
    "StatusRequest",
    "SuiteError",
    "SystemLibraryError",
    "check_suite",
    "cut_piece",
    "draw_liner",
    "lay_demo",
    "lay_flatlay",
    "list_dies",
    "list_envelopes",
    "list_papers",
    "list_scenes",
    "order_suite",
    "read_signoff",
    "show_colours",
    "show_envelope_papers",
    "show_options",
    "start_suite",
    "take_portfolio",
    "tell_status",
    "write_proof",
]

_ASKS = {
    "check": "check_suite",
    "colours": "show_colours",
    "demo": "lay_demo",
    "dies": "list_dies",
    "envelopes": "list_envelopes",
    "flatlay": "lay_flatlay",
    "liner": "draw_liner",
    "options": "show_options",
    "order": "order_suite",
    "papers": "list_papers",
    "piece": "cut_piece",
    "portfolio": "take_portfolio",
    "proof": "write_proof",
    "scenes": "list_scenes",
    "start": "start_suite",
    "signoff": "read_signoff",
    "status": "tell_status",
}
_HOMES = {"Audience": "mockup.suite.audience"}
for _name in ("EnvelopePapersAnswer", "EnvelopePapersRequest", "show_envelope_papers"):
    _HOMES[_name] = "mockup.asks.envelope_papers"
for _ask, _function in _ASKS.items():
    for _name in (_function, f"{_ask.capitalize()}Request", f"{_ask.capitalize()}Answer"):
        _HOMES[_name] = f"mockup.asks.{_ask}"


def __getattr__(name: str) -> object:
    """Returns what is asked for by name, loaded at its first use (PEP 562)."""
    if name not in __all__:
        raise AttributeError(f"module 'mockup' has no attribute {name!r}")
    value: object = getattr(import_module(_HOMES.get(name, "mockup.errors")), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """Returns the names that can be used."""
    return sorted({*globals(), *__all__})
