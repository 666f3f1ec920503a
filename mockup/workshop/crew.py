"""The workers as their master sees them: two at most, each handed one job at a time.

What a limit means: a job has 30 s, and a watchdog inside the worker ends it, on every system; the
master ends a worker that did not end itself. A worker has 2 GB beyond what its libraries take: the
kernel holds it to that on Linux; macOS and Windows have no such cap, and there the limits on pages
and pixels are what holds. Workers end with their master.
"""

from __future__ import annotations

import atexit
import os
import threading
from collections.abc import Sequence
from typing import Any

from mockup.errors import MockupError, with_file
from mockup.progress import Progress
from mockup.workshop.job import Job, task_named
from mockup.workshop.memory import Memory
from mockup.workshop.process import Worker
from mockup.workshop.round import Round

WORKERS = 2  # two share two cores; more would only want more memory
_LOAD = "mockup.workshop.job:load"


class _Crew:
    """The workers of this process, started as they are needed, and what they answered; `late` says
    by its kin which file took too long, for it would at every other job as well."""

    def __init__(self) -> None:
        self.owner = os.getpid()
        self.lock = threading.RLock()
        self.idle: list[Worker] = []
        self.memory = Memory()
        self.late: dict[str, MockupError] = {}


_crew = _Crew()
_inside = False


def enter_worker() -> None:
    """Says that this process is a worker: what it asks of the workshop it does itself."""
    global _inside
    _inside = True


def done(task: str, jobs: Sequence[Job], progress: Progress | None = None) -> list[Any]:
    """Returns what `task`, a `package.module:function`, answers to each job, in order.

    Large arrays in the answers are shared with later askers, and cannot be written to. `progress`
    is told the share that is done. Raises what the work raised, every mistake with the job's name
    where it has no file of its own; LimitError beyond 30 s or 2 GB; InputError where a job ended
    its worker.
    """
    if _inside:
        return [_worked_here(task, job) for job in jobs]
    crew = _own_crew()
    with crew.lock:
        return Round(task, jobs, crew.idle, WORKERS, crew.memory, crew.late).answers(progress)


def make_ready(task: str) -> None:
    """Starts the workers, and has them load what `task` needs while the caller goes on."""
    if _inside:
        return
    crew = _own_crew()
    with crew.lock:
        while len(crew.idle) < WORKERS:
            worker = Worker()
            worker.hand(_LOAD, (task,))
            worker.unasked += 1
            crew.idle.append(worker)


def dismiss() -> None:
    """Ends the workers, and forgets what they answered; the next job starts others."""
    crew = _own_crew()
    with crew.lock:
        for worker in crew.idle:
            worker.line.close()
        while crew.idle:
            crew.idle.pop().end()
        crew.memory.forget()
        crew.late.clear()


atexit.register(dismiss)


def _own_crew() -> _Crew:
    global _crew
    if _crew.owner != os.getpid():  # a forked child has its parent's lines, and must not use them
        _crew = _Crew()
    return _crew


def _worked_here(task: str, job: Job) -> Any:
    try:
        return task_named(task)(*job.given)
    except MockupError as error:
        raise with_file(error, job.name) from error
