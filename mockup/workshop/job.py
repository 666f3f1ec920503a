"""A piece of work on a foreign file, and the message its answer comes back in."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from importlib import import_module
from typing import Any


@dataclass(frozen=True)
class Job:
    """What one call of a task is given.

    `name` is how messages call it: a file and page. Jobs of one `kin` go to the same worker where
    it is free, for it has the file open already. The answer of a job with a `key` is remembered.
    """

    given: tuple[Any, ...]
    name: str
    kin: str = ""
    key: Hashable = None


@dataclass(frozen=True)
class Fault:
    """What a worker answers where the program itself is at fault: the trace of it."""

    trace: str


def task_named(task: str) -> Callable[..., Any]:
    """Returns the function that `package.module:function` names."""
    module, _, function = task.partition(":")
    return getattr(import_module(module), function)


def load(task: str) -> None:
    """Loads what a task needs, in a worker. It answers nothing: a function in an answer would have
    the master load its library too."""
    task_named(task)
