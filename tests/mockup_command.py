"""The command `mockup` in a process of its own, as a user calls it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

_COMMAND = (sys.executable, "-c", "from mockup.cli.app import main; main()")


def mockup(*arguments: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Returns what a command answered, whatever its exit code."""
    command = [*_COMMAND, *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, cwd=cwd, check=False)


def made(output: Path, *arguments: str | Path, cwd: Path | None = None) -> Path:
    """Returns the file a command wrote; the test fails with its words where it did not."""
    answer = mockup(*arguments, "-o", output, cwd=cwd)
    assert answer.returncode == 0, answer.stderr
    assert output.exists()
    return output
