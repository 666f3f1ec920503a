"""The checks as a whole: the demo, acceptance, the table in JSON, exit codes."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pikepdf
import pytest

from mockup.checks.finding import Finding, Severity, exit_code
from mockup.checks.running import check_suite
from mockup.checks.settings import Settings
from mockup.errors import ExitCode
from mockup.output.findings import findings_json
from mockup.suite.reading import read_suite
from tests.conftest import ART
from tests.mockup_command import mockup

KEYS = {"check", "severity", "piece", "at_in", "value", "limit", "unit", "message", "fix", "source",
        "at_mm", "value_mm", "limit_mm"}  # fmt: skip


def finding(severity: Severity, accepted: str | None = None) -> Finding:
    return Finding("safe", severity, "card", "what", "fix", accepted=accepted)


@pytest.fixture(scope="module")
def hairline(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo with one fine line of RGB added to its invitation; two faults in one stroke."""
    suite = tmp_path_factory.mktemp("hairline") / "suite.toml"
    for file in (ART / "suite.toml", *ART.glob("*.pdf")):
        shutil.copy(file, suite.parent)
    with pikepdf.open(suite.parent / "invitation.pdf", allow_overwriting_input=True) as pdf:
        drawing = pdf.pages[0].Contents.read_bytes()
        line = b" 1 0 0 RG 0.002 w 1 6.5 m 3 6.5 l S"
        pdf.pages[0].Contents = pdf.make_stream(drawing + line)
        pdf.save()
    return suite


def test_the_demo_is_clean_but_for_what_teaches(art):
    """Of the art nothing is warned of: only what its envelopes mean at the post."""
    findings = check_suite(read_suite(art / "suite.toml"), Settings())
    assert {f.check for f in findings if f.severity >= Severity.WARN} == {"post"}
    assert all(f.severity < Severity.STOP for f in findings)
    noted = {f.check for f in findings if f.severity == Severity.NOTE}
    assert noted == {"live-type", "weight", "liner", "beside", "contrast", "post"}


@pytest.mark.parametrize(
    ("findings", "code"),
    [
        ([], ExitCode.DONE),
        ([finding(Severity.NOTE)], ExitCode.DONE),
        ([finding(Severity.NOTE), finding(Severity.WARN)], ExitCode.WARNINGS),
        ([finding(Severity.STOP), finding(Severity.WARN)], ExitCode.STOPS),
        ([finding(Severity.STOP, "seen"), finding(Severity.WARN)], ExitCode.WARNINGS),
    ],
)
def test_exit_codes(findings, code):
    assert exit_code(findings) == code


def test_json_has_the_promised_keys(hairline):
    suite = read_suite(hairline)
    rows = findings_json(check_suite(suite, Settings()))["findings"]
    assert rows
    assert all(set(row) == KEYS for row in rows)
    assert {row["severity"] for row in rows} <= {"stop", "warning", "note"}
    (line,) = [row for row in rows if row["check"] == "hairline"]
    assert line["at_mm"] == pytest.approx([25.4 * v for v in line["at_in"]], abs=0.002)
    assert line["value_mm"] is None  # points stay points


def test_an_accepted_finding_is_shown_as_accepted(hairline):
    text = hairline.read_text()
    text += '\n[[accept]]\ncheck = "rgb"\nreason = "the printer takes RGB"\n'
    text += '[[accept]]\ncheck = "hairline"\npiece = "invitation"\nreason = "it is foil"\n'
    accepting = hairline.with_name("accepting.toml")
    accepting.write_text(text)
    findings = check_suite(read_suite(accepting), Settings())
    accepted = {f.check: f.accepted for f in findings if f.accepted}
    assert accepted == {"rgb": "the printer takes RGB", "hairline": "it is foil"}
    of_pages = [f for f in findings if f.check != "post"]  # what the post says comes by itself
    assert of_pages[-1].accepted is not None  # last, after all that is open
    assert findings[-1].check == "post"


def test_accepting_for_a_piece_that_is_not_there_is_a_mistake(demo_suite):
    from mockup.errors import SuiteError

    demo_suite.write_text(
        demo_suite.read_text() + '\n[[accept]]\ncheck = "rgb"\npiece = "replay"\nreason = "x"\n'
    )
    with pytest.raises(SuiteError, match="did you mean"):
        read_suite(demo_suite)


def test_the_command_line(art):
    done = mockup("check", art / "suite.toml", "--json")
    assert done.returncode == 10, done.stderr
    assert json.loads(done.stdout)["findings"]
    table = mockup("check", art / "suite.toml")
    assert "0 stops" in table.stdout


def test_art_that_is_not_there_is_an_error_of_the_suite(demo_suite):
    (demo_suite.parent / "reply.pdf").unlink()
    done = mockup("check", demo_suite)
    assert done.returncode == 3
    assert "Traceback" not in done.stderr
