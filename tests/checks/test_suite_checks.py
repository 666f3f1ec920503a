"""Fit, liner and post of whole suites, from suite files that are changed."""

from __future__ import annotations

import pytest

from mockup.checks.enclosure import check_enclosure
from mockup.checks.finding import Severity
from mockup.checks.liners import check_liners
from mockup.checks.post import check_post
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.suite.reading import read_suite
from tests.mockup_command import mockup

HEAD = 'title = "Test"\n[pieces.card]\nart = "invitation.pdf"\n'


def context(demo_suite, text: str, **settings) -> SuiteContext:
    demo_suite.write_text(text)
    return SuiteContext(read_suite(demo_suite), Settings(**settings))


def suite(card: str, envelope: str, more: str = "", stock: str = "smooth-120-white") -> str:
    return (
        f'{HEAD}card = "{card}"\nstock = "{stock}"\n'
        f'[envelopes.outer]\nsize = "{envelope}"\nholds = ["card"]\ncolour = "white"\n{more}\n'
    )


def told(findings, check):
    return [f for f in findings if f.check == check and f.severity > Severity.NOTE]


def test_the_trade_s_own_pairs_fit(demo_suite):
    for card, envelope in (("A7", "A7"), ("A2", "A2"), ("4-bar", "4-bar"), ("ISO A6", "C6")):
        assert told(check_enclosure(context(demo_suite, suite(card, envelope))), "fit") == []


@pytest.mark.parametrize(
    ("card", "envelope", "severity", "value"),
    [
        ("A7", "5.2 x 7.1 in", Severity.WARN, 0.1),  # 7.1 - 7
        ("A7", "A6", Severity.STOP, 6.5 - 7),
        ("4-bar", "A7", Severity.WARN, 7.25 - 4.875),  # moves over 30 mm
    ],
)
def test_too_tight_and_too_loose(demo_suite, card, envelope, severity, value):
    (finding,) = told(check_enclosure(context(demo_suite, suite(card, envelope))), "fit")
    assert finding.severity == severity
    assert finding.value == pytest.approx(value, abs=1e-6)


def test_a_thick_stack_makes_its_pocket_belly(demo_suite):
    """W_in >= W_card + t: three double-thick cards (3 x 38 mil) take 0.114 in of A7's 0.25."""
    text = 'title = "Test"\n' + "".join(
        f'[pieces.{n}]\nart = "invitation.pdf"\ncard = "A7"\nstock = "cotton-220-white"\n'
        for n in ("one", "two", "three", "four")
    )
    text += '[envelopes.outer]\nsize = "A7"\nholds = ["one", "two", "three", "four"]\n'
    findings = told(check_enclosure(context(demo_suite, text)), "fit")
    assert len(findings) == 4
    assert findings[0].value == pytest.approx(0.25 - 4 * 0.038, abs=1e-9)


def test_a_liner_over_the_gum_stops(demo_suite):
    lined = 'flap = "deep-pointed"\nliner = "liner.pdf"\nliner_inset = 0.25'
    findings = told(check_liners(context(demo_suite, suite("A7", "A7", lined))), "liner")
    assert [f.severity for f in findings if "gum" in f.message] == [Severity.STOP]
    # Gum begins 1/16 in from the edge and is 3/8 in wide: 0.4375 in, 0.1875 more than 0.25.
    assert findings[0].value == pytest.approx(-0.1875, abs=0.001)


def test_liner_art_for_another_envelope_stops(demo_suite):
    lined = 'flap = "deep-pointed"\nliner = "reply.pdf"'
    findings = told(check_liners(context(demo_suite, suite("A7", "A7", lined))), "liner")
    assert [f.severity for f in findings] == [Severity.STOP]


@pytest.mark.parametrize(
    ("envelope", "card", "what"),
    [
        ("square-6", "square-5.5", "aspect"),  # DMM 101.1.2a: every square is sorted by hand
        ("square-6.5", "square-6", "height"),  # DMM 101.1.1b: over 6-1/8 in
        ("C5", "ISO A5", "height"),  # 6.378 in
        ("4.4375 x 5.75 in", "A2", "aspect"),  # 1.2958
    ],
)
def test_us_examples_that_are_dearer(demo_suite, envelope, card, what):
    findings = told(check_post(context(demo_suite, suite(card, envelope))), "post")
    assert any(what in f.message for f in findings)
    assert all("Ask your post office" in f.fix for f in findings)


@pytest.mark.parametrize(("envelope", "card"), [("A7", "A7"), ("A6", "A6"), ("DL", "DL")])
def test_us_examples_that_go_as_letters(demo_suite, envelope, card):
    assert told(check_post(context(demo_suite, suite(card, envelope))), "post") == []


def test_a2_is_borderline_by_its_ratio_1_3143(demo_suite):
    (finding,) = told(check_post(context(demo_suite, suite("A2", "A2"))), "post")
    assert finding.value == pytest.approx(5.75 / 4.375)


def test_a10_is_a_large_letter_in_the_united_kingdom(demo_suite):
    text = suite("A10", "A10")
    assert told(check_post(context(demo_suite, text)), "post") == []
    (finding,) = told(check_post(context(demo_suite, text, operators=("uk",))), "post")
    assert finding.limit == pytest.approx(240 / 25.4)


def test_the_demo_is_within_five_per_cent_of_an_ounce(art):
    findings = check_post(SuiteContext(read_suite(art / "suite.toml"), Settings()))
    assert any(f.unit == "oz" and f.value > 1 for f in told(findings, "post"))


def test_dark_paper_is_told(demo_suite):
    text = suite("A7", "A7").replace('"white"', '"ink-blue"')
    (finding,) = told(check_post(context(demo_suite, text)), "post")
    assert "reflectance" in finding.message


def test_a_shaped_card_that_no_envelope_holds_is_not_posted_bare(demo_suite):
    text = suite("A7", "A7") + '[pieces.save]\nart = "details.pdf"\ncard = "A2"\ndie = "ellipse"\n'
    (finding,) = told(check_post(context(demo_suite, text)), "post")
    assert finding.piece == "save"


def test_the_a7_worked_zones(demo_suite):
    """A7, 7.25 x 5.25 in: read area x 0.5 to 6.75, 0.625 to 2.75 in from the bottom; barcode zone
    x 2.5 to 7.25, up to 0.625 in from the bottom (DMM 202.2.1, Publication 28 A1)."""
    findings = check_post(context(demo_suite, suite("A7", "A7")))
    (zones,) = [f.message for f in findings if "address side" in f.message]
    assert "x 0.50 to 6.75, y 2.50 to 4.62" in zones
    assert "x 2.50 to 7.25, y 4.62 to 5.25" in zones


def test_a_change_of_flap_that_crops_the_liner_is_told(demo_suite, tmp_path):
    """Art drawn to the liner of a deep-pointed flap, with its bleed, under a pointed one: what the
    flaps differ by is cut away."""
    from mockup.envelopes.liner import liner_in_envelope
    from mockup.envelopes.spec import envelope_spec
    from tests.checks.bench.sheet import INK, Sheet

    deep, pointed = (
        liner_in_envelope(envelope_spec(7.25, 5.25, flap)).box
        for flap in ("deep-pointed", "pointed")
    )
    sheet = Sheet(deep.width, deep.height, trim_box=False)
    sheet.flood(INK)
    sheet.save(demo_suite.parent / "lining.pdf")
    for flap, told_of in (("deep-pointed", []), ("pointed", [Severity.WARN])):
        lined = f'flap = "{flap}"\nliner = "lining.pdf"'
        findings = told(check_liners(context(demo_suite, suite("A7", "A7", lined))), "liner")
        assert [f.severity for f in findings] == told_of
    assert findings[0].value == pytest.approx(deep.height - pointed.height, abs=0.001)
    assert 'flap = "deep-pointed"' in findings[0].fix


def test_lengths_are_told_in_the_suite_s_unit(demo_suite):
    text = suite("A7", "A6").replace('title = "Test"', 'title = "Test"\nunits = "mm"', 1)
    (finding,) = told(check_enclosure(context(demo_suite, text, units="mm")), "fit")
    assert "12.7 mm too large" in finding.message  # 7 - 6.5 in
    assert " in of" not in finding.message


def test_an_envelope_too_small_is_told_by_the_pictures_too(demo_suite, tmp_path):
    text = demo_suite.read_text().replace('size = "A7"', 'size = "A6"', 1)
    demo_suite.write_text(text)
    laid = mockup("flatlay", demo_suite, "-o", tmp_path / "laid.png", "--width", "300", "--plain")
    assert laid.returncode == 0
    assert "envelopes.outer: invitation is" in laid.stderr
    assert laid.stderr.count("\n") == 1
