"""The command `mockup` as a user calls it: in a process of its own, or, many times sooner, in ours."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from mockup.cli.app import main

_COMMAND = (sys.executable, "-c", "from mockup.cli.app import main; main()")


@dataclass(frozen=True)
class Answer:
    """What a command answered, whatever its exit code."""

    returncode: int
    stdout: str
    stderr: str


class _Kept(io.BytesIO):
    """Bytes that can be read when the streams over them are gone."""

    def close(self) -> None:
        pass


def mockup(*arguments: str | Path, cwd: Path | None = None) -> Answer:
    """Returns what a command answered, run in this process from its first line to its exit."""
    out, told = _Kept(), _Kept()
    with _as_command([*map(str, arguments)], (out, told), cwd):
        try:
            main()
        except SystemExit as ended:
            code = ended.code
        sys.stdout.flush()
        sys.stderr.flush()
    assert isinstance(code, int)
    return Answer(code, out.getvalue().decode(), told.getvalue().decode())


def mockup_process(*arguments: str | Path, cwd: Path | None = None) -> Answer:
    """Returns what a command answered in a process of its own."""
    command = [*_COMMAND, *map(str, arguments)]
    ran = subprocess.run(command, capture_output=True, text=True, cwd=cwd, check=False)
    return Answer(ran.returncode, ran.stdout, ran.stderr)


def made(output: Path, *arguments: str | Path, cwd: Path | None = None) -> Path:
    """Returns the file a command wrote; the test fails with its words where it did not."""
    answer = mockup(*arguments, "-o", output, cwd=cwd)
    assert answer.returncode == 0, answer.stderr
    assert output.exists()
    return output


@contextmanager
def _as_command(
    arguments: list[str], streams: tuple[io.BytesIO, io.BytesIO], cwd: Path | None
) -> Iterator[None]:
    """Stands in for the shell: arguments, streams, folder and signals, put back afterwards."""
    numbers = (signal.SIGINT, signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM))
    signals = {number: signal.getsignal(number) for number in numbers}
    before = sys.argv, sys.stdout, sys.stderr, Path.cwd(), os.environ.get("COLUMNS")
    sys.argv = ["mockup", *arguments]
    sys.stdout, sys.stderr = (io.TextIOWrapper(each, encoding="utf-8") for each in streams)
    os.environ["COLUMNS"] = "80"  # as where there is no terminal
    os.chdir(cwd or before[3])
    try:
        yield
    finally:
        sys.argv, sys.stdout, sys.stderr = before[:3]
        os.chdir(before[3])
        if before[4] is None:
            del os.environ["COLUMNS"]
        else:
            os.environ["COLUMNS"] = before[4]
        for number, handler in signals.items():
            signal.signal(number, handler)
