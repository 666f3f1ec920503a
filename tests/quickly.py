"""Which cases of a long table are tried at every run, and which once, before work is handed on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import pytest


def quickly(cases: Iterable[Any], quick: Callable[[int], bool]) -> list[Any]:
    """Returns the cases, those marked slow whose number is not `quick`."""
    return [
        case if quick(number) else pytest.param(case, marks=pytest.mark.slow)
        for number, case in enumerate(cases)
    ]
