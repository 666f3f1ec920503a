"""Signals that end a run turned into one exception, so that what is half done is cleared away."""

from __future__ import annotations

import os
import signal
import time
from types import FrameType

AGAIN_S = 2.0  # judgement: `timeout` and impatient hands send a signal twice; cleaning goes on


class Signalled(BaseException):
    """A signal that ends the run. Not an Exception: no one who catches those may swallow it."""


_owner = 0
_last = float("-inf")
_heard: int | None = None


def listen() -> None:
    """Begins to raise Signalled at SIGINT, SIGTERM and, where a closed terminal sends it, SIGHUP;
    one that is ignored stays ignored."""
    global _owner
    _owner = os.getpid()
    closed = (signal.SIGHUP,) if hasattr(signal, "SIGHUP") else ()
    for number in (signal.SIGINT, signal.SIGTERM, *closed):
        if signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, _raise)


def heard() -> int | None:
    """Returns the number of the first signal that was heard, or None."""
    return _heard


def _raise(number: int, frame: FrameType | None) -> None:
    global _last, _heard
    if os.getpid() != _owner:  # a forked worker has nothing to clear away and nobody to tell
        os._exit(128 + number)
    since, _last = time.monotonic() - _last, time.monotonic()
    _heard = number if _heard is None else _heard
    if since > AGAIN_S:
        raise Signalled(number)
