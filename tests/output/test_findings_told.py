"""What a designer reads of findings on a terminal of 80 columns."""

from __future__ import annotations

import pytest

from mockup.checks.finding import Finding, Severity
from mockup.geometry.point import Point
from mockup.output.findings_told import findings_told, summary
from mockup.trade.postal import ADVICE

STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE


def rgb(piece: str) -> Finding:
    return Finding("rgb", WARN, piece, "9 objects are RGB", "ask", Point(0.5, 1.0), source="ISO")


def test_a_short_finding_is_two_lines_with_its_remedy():
    cut = Finding("safe", STOP, "reply", "type is cut", "move it 0.1 in left", Point(4.96, -0.0))
    assert [line.text for line in findings_told([cut], "in", 80, False)] == [
        " 1  stop, reply: type is cut, at 4.96, 0 in",
        "    → move it 0.1 in left",
        "",
        "1 stop, 0 warnings, 0 notes",
    ]


def test_places_are_told_in_millimetres_where_the_suite_is():
    (first, *_) = findings_told([rgb("reply")], "mm", 80, False)
    assert first.text.endswith("at 12.7, 25.4 mm")


def test_a_remedy_that_is_repeated_is_told_once():
    lines = findings_told([rgb("reply"), rgb("details")], "in", 80, False)
    assert [line.kind for line in lines] == ["warning", "warning", "remedy", "head", "head"]


def test_limits_and_sources_are_told_where_asked():
    near = Finding("safe", WARN, "a", "near", "move", None, 0.1, 0.125, "in", "common practice")
    told = [line.text for line in findings_told([near], "mm", 80, True)]
    assert "    safe, limit 3.18 mm: common practice" in told
    assert not any("limit" in line.text for line in findings_told([near], "mm", 80, False))


def test_the_post_comes_by_itself_its_advice_once_and_its_name_once():
    post = [
        Finding("post", WARN, "envelopes.a", "Somewhere: it is heavy", "leave out a sheet"),
        Finding("post", NOTE, "envelopes.a", "Somewhere: letter", ADVICE),
    ]
    told = [line.text for line in findings_told([rgb("reply"), *post], "in", 80, False)]
    assert told[3] == f"By post, Somewhere. {ADVICE}"
    assert told[4] == " 2  warning, envelopes.a: it is heavy"
    assert sum(ADVICE in line for line in told) == 1


@pytest.mark.parametrize("columns", [80, 60, 20])
def test_no_line_is_wider_than_the_terminal(columns):
    long = Finding("safe", STOP, "a", "type " * 40, "move it " * 30, Point(1, 1), source="x " * 60)
    lines = findings_told([long], "in", columns, True)
    assert max(len(line.text) for line in lines) <= max(columns, 40)


def test_what_is_accepted_is_counted_apart():
    accepted = Finding("rgb", WARN, "a", "RGB", "ask", accepted="they take it")
    assert summary([accepted, rgb("b")]) == "0 stops, 1 warning, 0 notes, 1 accepted"
    assert findings_told([accepted], "in", 80, False)[1].text == "    → they take it"


def test_nothing_found_is_said():
    assert [line.text for line in findings_told([], "in", 80, False)] == ["Nothing found."]
