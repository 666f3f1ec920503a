"""One round of jobs: handed out, waited for, gathered in order, within their time."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from multiprocessing.connection import wait
from typing import Any

from mockup.errors import InputError, LimitError, MockupError, with_file
from mockup.progress import Progress
from mockup.trade.limits import PAGE_SECONDS
from mockup.workshop.job import Fault, Job
from mockup.workshop.memory import Memory
from mockup.workshop.process import Worker

GRACE_SECONDS = 3.0  # judgement: a worker that has not ended itself by then is ended
_TOO_LONG = f"takes over {PAGE_SECONDS:.0f} s to read or draw, the limit; simplify the art"
_KILLED = (
    "the system ended what read or drew it, as is done where memory runs out; close other "
    "programs, and try again"
)
_GAVE_UP = "the library that reads it gave up on it; save it again, as PDF 1.7 or plain SVG"


def _lost(worker: Worker) -> MockupError:
    """Returns what is told of a worker that ended before its time."""
    return LimitError(_KILLED) if worker.ended_by_the_system() else InputError(_GAVE_UP)


class Round:
    """The jobs of one task, and the workers at them. Workers left idle go back to `idle`."""

    def __init__(
        self,
        task: str,
        jobs: Sequence[Job],
        idle: list[Worker],
        most: int,
        memory: Memory,
        late: dict[str, MockupError],
    ) -> None:
        self._task = task
        self._jobs = jobs
        self._idle = idle
        self._most = most
        self._memory = memory
        self._late = late
        self._busy: list[Worker] = []
        self._answers: list[Any] = [None] * len(jobs)
        self._waiting: deque[int] = deque()
        self._left = len(jobs)

    def answers(self, progress: Progress | None) -> list[Any]:
        """Returns every answer, in the order of the jobs. Raises the first error met."""
        for index, job in enumerate(self._jobs):
            if job.key is not None and (self._task, job.key) in self._memory:
                self._answers[index] = self._memory.recall((self._task, job.key))
                self._left -= 1
            else:
                self._waiting.append(index)
        try:
            while self._left:
                self._hand_out()
                self._gather(progress)
        finally:
            for worker in self._busy:  # what they answer now would be taken for another's
                worker.end()
        return self._answers

    def _hand_out(self) -> None:
        while self._waiting and len(self._busy) < self._most:
            index = self._waiting.popleft()
            job = self._jobs[index]
            if job.kin in self._late:
                raise with_file(self._late[job.kin], job.name)
            worker = self._taken(job.kin)
            worker.index = index
            worker.kins.add(job.kin)
            self._busy.append(worker)
            try:
                worker.hand(self._task, job.given)
            except OSError:
                self._retire(worker, job)

    def _taken(self, kin: str) -> Worker:
        """Returns an idle worker, one that knows the job's file if there is one, or a new one."""
        if not self._idle:
            return Worker()
        knowing = next((each for each in self._idle if kin in each.kins), self._idle[-1])
        self._idle.remove(knowing)
        return knowing

    def _gather(self, progress: Progress | None) -> None:
        oldest = max(worker.age() for worker in self._busy)
        ready = wait(
            [worker.line for worker in self._busy], max(0.0, PAGE_SECONDS + GRACE_SECONDS - oldest)
        )
        for worker in [each for each in self._busy if each.line in ready]:
            self._take_answer(worker)
            if progress is not None:
                progress(1 - self._left / len(self._jobs))
        for worker in list(self._busy):
            if worker.age() > PAGE_SECONDS + GRACE_SECONDS:
                self._retire(worker, self._jobs[worker.index])

    def _take_answer(self, worker: Worker) -> None:
        job = self._jobs[worker.index]
        try:
            answer, size = worker.answer()
        except EOFError:
            self._retire(worker, job)
            return
        if worker.unasked:
            worker.unasked -= 1
            return
        self._busy.remove(worker)
        if isinstance(answer, LimitError):  # its memory may be in pieces
            worker.end()
        else:
            self._idle.append(worker)
        if isinstance(answer, Fault):
            said = answer.trace.strip().rpartition("\n")[2]
            raise RuntimeError(f"{said} (in a worker, {self._task})\n{answer.trace}")
        if isinstance(answer, MockupError):
            raise with_file(answer, job.name)
        self._answers[worker.index] = answer
        self._left -= 1
        if job.key is not None:
            self._memory.remember((self._task, job.key), answer, size)

    def _retire(self, worker: Worker, job: Job) -> None:
        """Ends a worker that is late or gone, and says so of the job it was at. Always raises."""
        late = worker.age() >= PAGE_SECONDS
        self._busy.remove(worker)
        error = LimitError(_TOO_LONG) if late else _lost(worker)
        worker.end()
        if late and job.kin:
            self._late[job.kin] = error
        raise with_file(error, job.name)
