"""A worker: waits for a job, does it within its time and memory, sends the answer, waits again.

Started as a program of its own, so that whatever called on the workshop is not run a second time.
"""

from __future__ import annotations

import contextlib
import faulthandler
import os
import signal
import sys
import traceback
from collections.abc import Callable
from multiprocessing.connection import Client, Connection
from typing import Any

from mockup.errors import LimitError, MockupError, SystemLibraryError
from mockup.trade.limits import WORKER_MEMORY_BYTES
from mockup.workshop import crew, parcel
from mockup.workshop.job import Fault, load, task_named

_DIES_WITH_PARENT = 1  # PR_SET_PDEATHSIG of Linux's sys/prctl.h
_NEW_NETWORK, _NEW_USER = 0x40000000, 0x10000000  # CLONE_NEWNET, CLONE_NEWUSER of linux/sched.h
_FORBIDDEN = ("socket.connect", "socket.bind", "socket.getaddrinfo", "urllib.Request",
              "subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.fork")  # fmt: skip
TOO_MUCH_MEMORY = (
    f"needs more than {WORKER_MEMORY_BYTES // 1024**3} GB of memory, the limit; simplify the art"
)


def main(line: Connection) -> None:
    """Works until the line is closed."""
    master = os.getppid()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the master hears it, and closes the line
    _leave_with(master)
    _leave_network()
    crew.enter_worker()
    # Held open for as long as the worker lives: the watchdog writes there.
    silence = open(os.devnull, "w")  # noqa: PTH123, SIM115
    limited = False
    while True:
        try:
            task, given, seconds, folder = line.recv()
        except (EOFError, OSError):
            return
        with contextlib.suppress(OSError):  # ours is that of our start; the master may have moved
            os.chdir(folder)
        # A watchdog of the C library's own thread: it ends us even inside a library's loop.
        faulthandler.dump_traceback_later(seconds, exit=True, file=silence)
        answer = None
        if not limited:
            answer = _answered(load, (task,))  # loading the libraries is not the page's doing
            _limit_memory()
            limited = answer is None
        if answer is None:
            answer = _answered(_worked, (task, given))
        faulthandler.cancel_dump_traceback_later()
        try:
            _send(line, answer, master)
        except OSError:
            return
        del answer


def _worked(task: str, given: tuple[Any, ...]) -> Any:
    return task_named(task)(*given)


def _send(line: Connection, answer: Any, master: int) -> None:
    """Sends an answer, or why there is no room for one. Raises OSError if nobody listens."""
    try:
        parcel.send(line, answer, master)
    except LimitError as error:
        parcel.send(line, error, master)


def _answered(work: Callable[..., Any], given: tuple[Any, ...]) -> Any:
    """Returns what work returns, or what it raised as a message to the master."""
    try:
        return work(*given)
    except MockupError as error:
        return error
    except ImportError as error:
        return SystemLibraryError(
            f"a part of this program cannot be loaded ({error}); install it again"
        )
    except MemoryError:
        return LimitError(TOO_MUCH_MEMORY)
    except Exception:
        return Fault(traceback.format_exc())


def _leave_with(master: int) -> None:
    """Sees to it that a worker does not outlive its master.

    An idle one reads the end of its line. A busy one is ended by the kernel on Linux; elsewhere its
    deadline ends it.
    """
    if sys.platform == "linux":
        import ctypes

        ctypes.CDLL(None).prctl(_DIES_WITH_PARENT, signal.SIGKILL)
        if os.getppid() != master:
            os._exit(0)


def _leave_network() -> None:
    """Gives up the network: a space of its own on Linux where the kernel grants one, and in Python
    a refusal of every call that would reach out or start a program."""
    if sys.platform == "linux":
        import ctypes

        libc = ctypes.CDLL(None)
        # Root keeps its own user space, which a new one would cut off from others' files.
        if libc.unshare(_NEW_NETWORK) != 0:
            libc.unshare(_NEW_NETWORK | _NEW_USER)
    sys.addaudithook(_refuse_outside)


def _refuse_outside(event: str, _given: tuple[Any, ...]) -> None:
    if event in _FORBIDDEN:
        raise PermissionError(f"a worker does not use {event}")


def _limit_memory() -> None:
    """Caps the address space at what is in use now and 2 GB more. Only Linux keeps such a cap."""
    if sys.platform == "linux":
        import resource

        with open("/proc/self/statm") as file:  # noqa: PTH123
            used = int(file.read().split()[0]) * resource.getpagesize()
        limit = used + WORKER_MEMORY_BYTES
        with contextlib.suppress(ValueError, OSError):  # a lower cap was set from outside
            resource.setrlimit(resource.RLIMIT_AS, (limit, limit))


def begin() -> None:
    """Begins from the command line `crew` writes: a socket's number, or a pipe's address."""
    if sys.platform == "win32":
        key = bytes.fromhex(sys.stdin.readline().strip())
        main(Client(sys.argv[1], authkey=key))  # pyright: ignore[reportArgumentType]
    else:
        main(Connection(int(sys.argv[1])))
    os._exit(0)  # nothing is left to tidy, and the master waits
