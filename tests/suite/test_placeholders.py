"""A first suite file names nobody: a client's proof waits for the names, the studio's does not."""

from pathlib import Path

import pytest

from mockup.errors import ExitCode
from tests.conftest import make_pdf
from tests.mockup_command import made, mockup

pytestmark = pytest.mark.usefixtures("plain_cover")


@pytest.fixture
def begun(tmp_path: Path) -> Path:
    make_pdf(tmp_path / "reply.pdf")
    return made(tmp_path / "suite.toml", "start", tmp_path)


def test_a_clients_proof_waits_for_the_names(begun: Path) -> None:
    output = begun.parent / "proof.pdf"
    answer = mockup("proof", begun, "-o", output)
    assert answer.returncode == ExitCode.SUITE and not output.exists()
    lines = answer.stderr.strip().splitlines()
    assert len(lines) == 2
    assert lines[0].startswith(f"mockup: {begun}: client: ") and "--for studio" in lines[0]
    assert lines[1].startswith(f"mockup: {begun}: designer: ")


def test_the_studio_may_look_before_anybody_is_named(begun: Path) -> None:
    made(begun.parent / "proof.pdf", "proof", begun, "--for", "studio")


def test_with_the_names_written_the_client_may_too(begun: Path) -> None:
    text = begun.read_text().replace("Your client", "The Millers").replace("Your name", "Eelgrass")
    begun.write_text(text)
    made(begun.parent / "proof.pdf", "proof", begun, "--for", "client")
