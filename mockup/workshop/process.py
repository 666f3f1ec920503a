"""One worker process: how it is started, spoken to, and ended."""

from __future__ import annotations

import os
import secrets
import socket
import subprocess
import sys
import time
from multiprocessing.connection import Connection, Listener
from pathlib import Path
from typing import Any

from mockup.errors import LimitError
from mockup.trade.limits import PAGE_SECONDS
from mockup.workshop import parcel

_PROGRAM = (
    "import gc, sys; gc.set_threshold(100_000); sys.path[:] = sys.argv.pop(2).split(chr(10)); "
    "from mockup.workshop.worker import begin; begin()"
)
# Two workers on two cores: threads of the number library would only stand in each other's way.
_ENVIRONMENT = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"}

_KILLED = (-9, -24, -25)  # SIGKILL, and what comes of too much time or too large a file
ENDING_SECONDS = 2.0  # judgement: the system clears away gigabytes in less


class Worker:
    """A process and the line to it. `kins` are the files it has seen; `index` is its job's.

    Raises LimitError where the system lets no process be started.
    """

    def __init__(self) -> None:
        self._process, self.line = _started()
        self.kins: set[str] = set()
        self.unasked = 0  # answers still to come that nobody waits for
        self.index = -1
        self.since = 0.0

    def hand(self, task: str, given: tuple[Any, ...]) -> None:
        """Hands over a job. Raises OSError where the process is gone."""
        self.since = time.monotonic()
        self.line.send((task, given, PAGE_SECONDS, _folder()))

    def answer(self) -> tuple[Any, int]:
        """Returns the next answer and its size in bytes. Raises EOFError where there is none."""
        try:
            return parcel.receive(self.line)
        except OSError as error:  # a line that was cut reads as an error on some systems
            raise EOFError from error

    def ended_by_the_system(self) -> bool:
        """Returns whether the system ended it: no memory, or a limit set."""
        try:
            return self._process.wait(ENDING_SECONDS) in _KILLED
        except subprocess.TimeoutExpired:
            return False

    def age(self) -> float:
        """Returns for how many seconds the worker has been at its job."""
        return time.monotonic() - self.since

    def end(self) -> int:
        """Ends the process; returns its exit code, or minus the signal that ended it."""
        self.line.close()
        try:
            return self._process.wait(0.2)
        except subprocess.TimeoutExpired:
            self._process.kill()
            return self._process.wait()


def _folder() -> str:
    """Returns the folder that relative paths are meant from; empty where it is gone."""
    try:
        return str(Path.cwd())
    except OSError:
        return ""


def _started() -> tuple[subprocess.Popen[bytes], Connection]:
    try:
        return _begun()
    except OSError as error:
        said = f"this system lets no further program be started ({error.strerror})"
        raise LimitError(f"{said}; raise its limits, or close other programs") from error


def _begun() -> tuple[subprocess.Popen[bytes], Connection]:
    environment = {**os.environ, **_ENVIRONMENT}
    command = [sys.executable, "-c", _PROGRAM]
    places = "\n".join(sys.path)
    if sys.platform == "win32":
        return _started_by_pipe(command, places, environment)
    ours, theirs = socket.socketpair()
    with theirs:
        process = subprocess.Popen(
            [*command, str(theirs.fileno()), places],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,  # libraries write their complaints there
            stderr=subprocess.DEVNULL,
            pass_fds=(theirs.fileno(),),
            env=environment,
        )
    return process, Connection(ours.detach())


def _started_by_pipe(
    command: list[str], places: str, environment: dict[str, str]
) -> tuple[subprocess.Popen[bytes], Connection]:
    """Windows hands no sockets on: there the worker comes back by a pipe, with a key."""
    key = secrets.token_bytes(32)
    with Listener(None, authkey=key) as door:
        process = subprocess.Popen(
            [*command, str(door.address), places],
            stdin=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env=environment,
        )
        assert process.stdin is not None
        process.stdin.write(key.hex().encode() + b"\n")
        process.stdin.close()
        return process, door.accept()
