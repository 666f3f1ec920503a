"""Addresses on paper: the post's tests of reflectance, and people's eyes, told apart."""

from __future__ import annotations

import numpy as np
import pytest

from mockup.checks.finding import Severity
from mockup.checks.post_address import Ground, machine_findings, reader_findings
from mockup.colour.reflectance import of_paper
from mockup.colour.srgb import parse_hex
from mockup.trade.papers import PAPER_COLOURS
from mockup.trade.postal_tables import postal_operator


def ground(name: str) -> Ground:
    return Ground("envelopes.outer", parse_hex(PAPER_COLOURS[name].colour_hex), name, False)


def severity(operator: str, where: Ground) -> Severity | None:
    found = machine_findings(postal_operator(operator), where)
    assert len(found) <= 1
    return found[0].severity if found else None


@pytest.mark.parametrize(
    ("paper", "us", "uk"),
    [
        ("white", None, None),
        ("ivory", None, None),
        ("mist", None, None),
        ("kraft", Severity.NOTE, Severity.NOTE),  # within 0.05 of the limits: a meter is asked
        ("ink-blue", Severity.WARN, Severity.WARN),
        ("black", Severity.WARN, Severity.WARN),
        ("rust", Severity.WARN, Severity.WARN),
    ],
)
def test_papers_by_the_rules_of_two_posts(paper: str, us, uk) -> None:
    """USPS Publication 25, 10-3: 30 % less in red and green; Royal Mail: background of 35 %."""
    assert severity("us", ground(paper)) is us
    assert severity("uk", ground(paper)) is uk


def test_a_bright_red_is_refused_by_its_green_in_one_country_and_by_name_in_the_other() -> None:
    red = Ground("envelopes.outer", (200, 30, 40), "#c81e28", False)
    (us,) = machine_findings(postal_operator("us"), red)
    (uk,) = machine_findings(postal_operator("uk"), red)
    assert "5 % in green" in us.message
    assert "stands on red, which is not taken" in uk.message


def test_countries_without_such_a_rule_say_nothing() -> None:
    assert severity("germany", ground("black")) is None


def test_red_reflectance_is_that_of_600_nm() -> None:
    """Kraft of CIELAB 62 8 22 has 0.36 at 600 nm, by spectra that look so (smoothest ones)."""
    assert of_paper(parse_hex(PAPER_COLOURS["kraft"].colour_hex)).red == pytest.approx(
        0.36, abs=0.03
    )
    assert np.allclose(of_paper((255, 255, 255)), 1, atol=1e-3)


def test_people_read_white_ink_where_machines_do_not() -> None:
    (read,) = reader_findings(ground("ink-blue"))
    assert (read.check, read.severity) == ("contrast", Severity.NOTE)
    assert "white" in read.fix
    assert severity("us", ground("ink-blue")) is Severity.WARN
    assert reader_findings(ground("white")) == []


def test_kraft_is_read_by_people_though_a_meter_is_asked() -> None:
    assert reader_findings(ground("kraft")) == []
