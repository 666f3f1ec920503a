"""Whose eyes a picture is for is said in one way by every command that draws art."""

from pathlib import Path

import pytest

from mockup.errors import ExitCode
from tests.mockup_command import mockup


@pytest.mark.parametrize("command", ["flatlay", "proof", "options", "portfolio", "piece"])
def test_every_command_that_draws_art_knows_both_audiences_and_no_third(
    command: str, tmp_path: Path
) -> None:
    told = mockup(command, "--help").stdout
    assert "--for" in told and "client|studio" in told and "--studio" not in told
    answer = mockup(command, "--for", "everybody", "a", "b", "-o", tmp_path / "c.png")
    assert answer.returncode == ExitCode.USAGE
    assert "--for" in answer.stderr and "client" in answer.stderr and "studio" in answer.stderr
    assert "Value error" not in answer.stderr  # the words of the library that reads it
