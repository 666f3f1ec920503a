"""Work on foreign pages in processes that can be ended: two at a time, each with a deadline.

MuPDF is not thread safe and a crafted page can draw for ever; a process can be stopped, and two of
them share two cores.
"""

from __future__ import annotations

import multiprocessing
import sys
import time
from collections.abc import Callable, Sequence
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Any, TypeVar

from mockup.errors import InputError, LimitError, MockupError
from mockup.trade.limits import PAGE_SECONDS, WORKER_MEMORY_BYTES

Answer = TypeVar("Answer")
Progress = Callable[[float], None]
WORKERS = 2


def in_workers(
    work: Callable[..., Answer],
    jobs: Sequence[tuple[Any, ...]],
    describe: Callable[[tuple[Any, ...]], str],
    progress: Progress | None = None,
) -> list[Answer]:
    """Returns `work(*job)` for every job, in order.

    `describe` names a job in messages; `progress` is told the share that is done. Raises what the
    work raised, or LimitError where a job took over 30 s or 2 GB.
    """
    answers: list[Any] = [None] * len(jobs)
    waiting = list(enumerate(jobs))[::-1]
    running: dict[Connection, tuple[int, BaseProcess, float]] = {}
    done = 0
    try:
        while waiting or running:
            while waiting and len(running) < WORKERS:
                index, job = waiting.pop()
                pipe, process = _start(work, job)
                running[pipe] = (index, process, time.monotonic() + PAGE_SECONDS)
            deadline = min(until for _, _, until in running.values())
            ready = wait(list(running), max(0.0, deadline - time.monotonic()))
            for pipe in ready:
                assert isinstance(pipe, Connection)
                index, process, _ = running.pop(pipe)
                answers[index] = _received(pipe, process, describe(jobs[index]))
                done += 1
                if progress is not None:
                    progress(done / len(jobs))
            _refuse_late(running, jobs, describe)
    finally:
        for _, process, _ in running.values():
            process.kill()
    return answers


def _refuse_late(
    running: dict[Connection, tuple[int, BaseProcess, float]],
    jobs: Sequence[tuple[Any, ...]],
    describe: Callable[[tuple[Any, ...]], str],
) -> None:
    for index, _, until in running.values():
        if time.monotonic() > until:
            raise LimitError(
                f"{describe(jobs[index])}: took over {PAGE_SECONDS:.0f} s to draw, the limit; "
                "simplify the art"
            )


def _start(work: Callable[..., Any], job: tuple[Any, ...]) -> tuple[Connection, BaseProcess]:
    # A forked process starts at once; where forking is unsafe or unknown a new one is started.
    context = multiprocessing.get_context("fork" if sys.platform == "linux" else "spawn")
    receiving, sending = context.Pipe(duplex=False)
    process = context.Process(target=_run, args=(sending, work, job), daemon=True)
    process.start()
    sending.close()
    return receiving, process


def _run(sending: Connection, work: Callable[..., Any], job: tuple[Any, ...]) -> None:
    _cap_memory()
    try:
        answer = work(*job)
    except MockupError as error:
        answer = error
    except MemoryError:
        answer = LimitError("needs more than 2 GB to draw, the limit; simplify the art")
    except Exception as error:
        answer = InputError(f"cannot be drawn ({' '.join(str(error).split())[:120]})")
    sending.send(answer)
    sending.close()


def _cap_memory() -> None:
    if sys.platform == "linux":
        import resource

        used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
        limit = WORKER_MEMORY_BYTES + 4 * used + 2 * 1024**3  # address space, not pages touched
        resource.setrlimit(resource.RLIMIT_AS, (limit, limit))


def _received(pipe: Connection, process: BaseProcess, what: str) -> Any:
    try:
        answer = pipe.recv()
    except EOFError:
        raise InputError(f"{what}: the PDF library gave up on it; save it again as PDF") from None
    finally:
        process.join()
        pipe.close()
    if isinstance(answer, MockupError):
        text = str(answer)
        raise type(answer)(text if text.startswith(what) else f"{what}: {text}")
    return answer
