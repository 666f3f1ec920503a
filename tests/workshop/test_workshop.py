"""The workshop: what a limit stops, what an answer costs, what workers are kept from."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from mockup.errors import InputError, LimitError, SystemLibraryError
from mockup.workshop import crew
from mockup.workshop.job import Job
from mockup.workshop.memory import Memory
from tests.conftest import make_pdf

NUMPY_ZEROS = "numpy:zeros"


@pytest.fixture
def short(monkeypatch: pytest.MonkeyPatch) -> Iterator[float]:
    """A deadline of a second; workers of an earlier test are sent home."""
    crew.dismiss()
    monkeypatch.setattr("mockup.workshop.process.PAGE_SECONDS", 1.0)
    monkeypatch.setattr("mockup.workshop.round.PAGE_SECONDS", 1.0)
    yield 1.0
    crew.dismiss()


def test_answers_come_in_the_order_of_the_jobs() -> None:
    answers = crew.done("operator:mul", [Job((k, 7), "a sum") for k in range(20)])
    assert answers == [7 * k for k in range(20)]


def test_a_large_array_is_shared_and_cannot_be_written_to() -> None:
    (pixels,) = crew.done(NUMPY_ZEROS, [Job(((3000, 2000, 3), "u1"), "a picture")])
    assert pixels.shape == (3000, 2000, 3) and not pixels.any()
    assert not pixels.flags.writeable and not pixels.flags.owndata  # mapped, not copied


def test_a_job_without_end_is_stopped_though_it_never_returns_to_python(short: float) -> None:
    """Ten to the power of ten to the eighth is one operation of the interpreter's own: no signal
    handler, thread or flag of Python's gets a turn before it ends, only a watchdog beside it."""
    start = time.monotonic()
    with pytest.raises(LimitError, match=r"^slow.pdf, page 1: takes over"):
        crew.done("operator:pow", [Job((10, 10**8), "slow.pdf, page 1")])
    assert time.monotonic() - start < short + 1.5  # ended by itself, not by its master's patience


def test_after_a_stopped_job_the_next_one_is_done(short: float) -> None:
    with pytest.raises(LimitError):
        crew.done("time:sleep", [Job((60,), "slow.pdf"), Job((0,), "quick.pdf")])
    assert crew.done("operator:neg", [Job((4,), "a number")]) == [-4]


@pytest.mark.skipif(sys.platform != "linux", reason="other systems keep no such cap")
def test_a_job_that_wants_too_much_memory_is_told_of_the_limit() -> None:
    with pytest.raises(LimitError, match=r"^heavy.pdf: needs more than 2 GB"):
        crew.done("numpy:ones", [Job(((3 * 1024**3,), "u1"), "heavy.pdf")])


def test_a_job_that_ends_its_worker_is_told_of_the_file() -> None:
    with pytest.raises(InputError, match=r"^odd.pdf: the library that reads it gave up"):
        crew.done("os:abort", [Job((), "odd.pdf")])


@pytest.mark.skipif(sys.platform == "win32", reason="it has no such signal")
def test_a_worker_that_the_system_ends_is_not_told_as_a_fault_of_the_file() -> None:
    """Linux ends what it has no memory left for with SIGKILL (signal 9 of POSIX)."""
    with pytest.raises(LimitError, match=r"^fine.pdf: the system ended what read or drew it"):
        crew.done("signal:raise_signal", [Job((9,), "fine.pdf")])


def test_a_part_that_cannot_be_loaded_is_not_told_as_a_fault_of_the_file() -> None:
    with pytest.raises(SystemLibraryError, match="a part of this program cannot be loaded"):
        crew.done("no_such_library:draw", [Job((), "fine.pdf")])
    assert crew.done("operator:neg", [Job((4,), "a number")]) == [-4]


@pytest.mark.skipif(sys.platform == "win32", reason="it has no such limits")
def test_pixels_for_which_the_system_has_no_room_are_told_as_its_limit() -> None:
    """A file without a name is held to the largest size of a file as well (POSIX, RLIMIT_FSIZE)."""
    import resource

    crew.dismiss()
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1024, before[1]))
    try:
        with pytest.raises(LimitError, match="no room to hand its pixels on .File too large"):
            crew.done(NUMPY_ZEROS, [Job(((3000, 2000), "u1"), "fine.pdf")])
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        crew.dismiss()


@pytest.mark.skipif(sys.platform == "win32", reason="it has no such limits")
def test_a_system_that_lets_no_worker_be_started_is_told() -> None:
    import resource

    crew.dismiss()
    before = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (3, before[1]))
    try:
        with pytest.raises(LimitError, match="lets no further program be started .Too many open"):
            crew.done("operator:neg", [Job((4,), "a number")])
    finally:
        resource.setrlimit(resource.RLIMIT_NOFILE, before)
    assert crew.done("operator:neg", [Job((4,), "a number")]) == [-4]


def test_a_fault_of_the_program_is_not_told_as_a_fault_of_the_file() -> None:
    with pytest.raises(RuntimeError, match="ZeroDivisionError"):
        crew.done("operator:truediv", [Job((1, 0), "fine.pdf")])


@pytest.mark.parametrize(
    ("task", "given"),
    [
        ("socket:create_connection", (("127.0.0.1", 9),)),
        ("urllib.request:urlopen", ("http://127.0.0.1:9/",)),
        ("os:system", ("true",)),
        ("subprocess:run", (["true"],)),
    ],
)
def test_a_worker_reaches_no_network_and_starts_no_program(task: str, given: tuple) -> None:
    with pytest.raises(RuntimeError, match="a worker does not use"):
        crew.done(task, [Job(given, "curious.svg")])


def test_what_is_remembered_is_not_done_again() -> None:
    job = Job((), "a moment", key="the same")
    first = crew.done("time:monotonic_ns", [job])
    assert crew.done("time:monotonic_ns", [job]) == first
    assert crew.done("time:monotonic_ns", [Job((), "a moment", key="another")]) != first


def test_memory_is_bounded_and_forgets_the_oldest() -> None:
    memory = Memory(most_bytes=10)
    for key in "abc":
        memory.remember(key, key, 4)
    assert [key in memory for key in "abc"] == [False, True, True]
    memory.recall("b")
    memory.remember("d", "d", 4)
    assert [key in memory for key in "bcd"] == [True, False, True]
    memory.remember("large", "x", 11)
    assert "large" not in memory


def test_jobs_of_one_file_go_to_the_worker_that_has_it_open() -> None:
    crew.dismiss()
    jobs = [Job((), "a.pdf", kin="a"), Job((), "b.pdf", kin="b")]
    first = crew.done("os:getpid", jobs)
    assert len(set(first)) == 2
    for _ in range(3):
        assert crew.done("os:getpid", jobs[:1]) == first[:1]
        assert crew.done("os:getpid", jobs[1:]) == first[1:]


def test_many_threads_may_ask_at_once() -> None:
    answers: list[int] = []

    def ask(k: int) -> None:
        answers.extend(crew.done("operator:neg", [Job((k,), "a number")] * 5))

    threads = [threading.Thread(target=ask, args=(k,)) for k in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(answers) == sorted([-k for k in range(6)] * 5)


MASTER = """
import sys
from mockup.workshop import crew
from mockup.workshop.job import Job
print(*crew.done("os:getpid", [Job((), "a"), Job((), "b")]), flush=True)
crew.done("time:sleep", [Job((60,), "a"), Job((60,), "b")])
"""


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a busy worker lives to its deadline")
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_workers_end_with_their_master(how: signal.Signals) -> None:
    command = [sys.executable, "-c", MASTER]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as master:
        assert master.stdout is not None
        workers = [int(pid) for pid in master.stdout.readline().split()]
        time.sleep(0.3)
        assert all(Path(f"/proc/{pid}").exists() for pid in workers)
        master.send_signal(how)
        master.wait()
    until = time.monotonic() + 5
    while any(_runs(pid) for pid in workers) and time.monotonic() < until:
        time.sleep(0.05)
    assert not any(_runs(pid) for pid in workers)


def _runs(pid: int) -> bool:
    with contextlib.suppress(OSError):
        return "Z" not in Path(f"/proc/{pid}/stat").read_text().split(")")[1][:3]
    return False


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no forking here")
def test_a_forked_child_has_workers_of_its_own() -> None:
    code = (
        "import os\n"
        "from mockup.workshop import crew\n"
        "from mockup.workshop.job import Job\n"
        "mine = crew.done('os:getpid', [Job((), 'a')])\n"
        "child = os.fork()\n"
        "theirs = crew.done('os:getpid', [Job((), 'a')])\n"
        "print(mine != theirs if child == 0 else mine == theirs, flush=True)\n"
        "if child: os.waitpid(child, 0)\n"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60)
    assert ran.stdout.split() == ["True", "True"], ran.stderr


def test_arrays_small_and_large_come_back_as_they_were() -> None:
    jobs = [Job((n,), "numbers") for n in (0, 1, 1000, 100_000, 3_000_000)]
    for job, answer in zip(jobs, crew.done("numpy:arange", jobs), strict=True):
        assert np.array_equal(answer, np.arange(*job.given))


def test_relative_paths_are_meant_from_where_the_master_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
        monkeypatch.chdir(tmp_path / name)
        (where,) = crew.done("os:getcwd", [Job((), "a folder")])
        assert Path(where) == (tmp_path / name).resolve()


def test_a_master_never_loads_what_its_workers_draw_with(tmp_path: Path) -> None:
    """MuPDF takes a tenth of a second to load, and is let near foreign bytes in workers alone."""
    make_pdf(tmp_path / "card.pdf")
    program = (
        "import sys\n"
        "from pathlib import Path\n"
        "from mockup.workshop import crew\n"
        "crew.make_ready('mockup.foreign.raster:drawn')\n"
        "from mockup.artwork.art import art_of\n"
        "from mockup.artwork.page import read_page\n"
        "read_page(art_of(Path(sys.argv[1])))\n"
        "print('pymupdf' in sys.modules)\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program, str(tmp_path / "card.pdf")],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert ran.stdout.strip() == "False"


def test_a_file_that_took_too_long_is_not_waited_for_again(short: float) -> None:
    """Reading goes on to the next thing after a mistake: each would wait its own thirty seconds."""
    job = Job((10, 10**8), "art.svg, page 1", "its sha256")
    with pytest.raises(LimitError, match="takes over"):
        crew.done("operator:pow", [job])
    began = time.monotonic()
    with pytest.raises(LimitError, match=r"art\.svg, page 2: takes over"):
        crew.done("operator:mul", [Job((2, 3), "art.svg, page 2", "its sha256")])
    assert time.monotonic() - began < short / 2
    assert crew.done("operator:mul", [Job((2, 3), "other.svg", "another")]) == [6]
