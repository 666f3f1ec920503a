"""Single calls of a library that stumbles over foreign files in ways of its own.

Libraries raise more over malformed objects than their own errors: KeyError, TypeError, ValueError,
decimal's and others. What is called here is one call of a library, never work of ours, so what is
caught was raised by it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

Answer = TypeVar("Answer")


def asked(call: Callable[..., Answer], *given: Any, otherwise: Answer) -> Answer:
    """Returns what one call of a library answers, or `otherwise` where it stumbles."""
    try:
        return call(*given)
    except MemoryError:
        raise
    except Exception:
        return otherwise
