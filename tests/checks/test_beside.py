"""Art with planted colours beside envelopes and liners: what the check says of them, and what not."""

from pathlib import Path

import numpy as np
import pymupdf
import pytest
from skimage.color import deltaE_ciede2000

from mockup.asks.check import CheckRequest, check_suite
from mockup.asks.colours import ColoursRequest, show_colours
from mockup.checks.beside import check_beside
from mockup.checks.finding import Severity
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.colour.lab import rgb_of_xyz, xyz_of_lab
from mockup.colour.srgb import to_hex
from mockup.suite.reading import read_suite

SAGE, SAGE_PAPER = (70, -12, 10), (66, -9, 12)
NAVY, NAVY_PAPER = (27, 4, -32), (22, 3, -20)
RUST = (43, 40, 38)
WHITE_STOCK = '{ gsm = 300, colour = "#ffffff" }'


def rgb(lab):
    return rgb_of_xyz(xyz_of_lab(np.array(lab, float)))


def art(path: Path, *painted, size=(5.25, 7.25), cmyk=False):
    """A page of rectangles: (box in inches from the page's corner, colour)."""
    document = pymupdf.open()
    page = document.new_page(width=size[0] * 72, height=size[1] * 72)
    for box, colour in painted:
        fill = colour if cmyk else [part / 255 for part in rgb(colour)]
        page.draw_rect(pymupdf.Rect(*(72 * v for v in box)), color=None, fill=fill)
    document.save(path)


def suite(folder: Path, envelope, more="", liner="", stock=WHITE_STOCK):
    paper = envelope if isinstance(envelope, str) else to_hex(rgb(envelope))
    text = (
        f'title = "S"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\nstock = {stock}\n'
        f'[envelopes.outer]\nsize = "A7"\ncolour = "{paper}"\nholds = ["card"]\n{liner}\n{more}'
    )
    path = folder / "suite.toml"
    path.write_text(text, encoding="utf-8")
    return path


def told(path: Path):
    """What this check alone says; the command runs all of them."""
    return check_beside(SuiteContext(read_suite(path), Settings(), ()))


FULL, HALF, TENTH, HUNDREDTH = (
    (0, 0, 5.25, 7.25), (0, 0, 5.25, 3.625), (1, 1, 2, 4.5), (1, 1, 1.5, 1.7),
)  # fmt: skip


@pytest.mark.parametrize(
    ("colour", "paper", "lighter", "darker"),
    [(SAGE, SAGE_PAPER, "L* 81", "L* 51"), (NAVY, NAVY_PAPER, "L* 37", "L* 7")],
    ids=["sage", "navy"],
)
def test_a_near_miss_is_a_warning_with_both_colours_and_both_ways_out(
    tmp_path, colour, paper, lighter, darker
):
    art(tmp_path / "card.pdf", (TENTH, colour))
    (found,) = told(suite(tmp_path, paper))
    assert (found.severity, found.piece) == (Severity.WARN, "card")
    for lab in (colour, paper):
        assert "L* {} a* {} b* {}".format(*lab) in found.message
    assert f"lighten it to {lighter}" in found.fix and f"darken it to {darker}" in found.fix
    assert "on screen" in found.fix and "RGB #" in found.fix
    assert "do not chase an exact match" in found.fix
    low, high = colour[0] - 15, colour[0] + 15
    assert f"the envelope at L* {high} or L* {low}" in found.fix
    apart = deltaE_ciede2000(np.array(colour, float), np.array(paper, float))
    assert found.at is not None and found.value == pytest.approx(float(apart), abs=0.4)
    assert 0.875 - 0.01 <= found.at.x <= 1.875 and 0.875 - 0.01 <= found.at.y <= 4.375


def test_a_planned_match_is_a_note_that_asks_for_a_swatch(tmp_path):
    art(tmp_path / "card.pdf", (HALF, SAGE_PAPER))
    (found,) = told(suite(tmp_path, SAGE_PAPER))
    assert found.severity is Severity.NOTE and "planned match" in found.message
    assert found.fix == "expect up to about 5 in production; approve on a physical swatch"


@pytest.mark.parametrize(
    "painted",
    [
        [(FULL, RUST)],
        [(HUNDREDTH, SAGE)],  # too small to be held against anything
        [(FULL, (96, 0, 2))],
        [],
    ],
    ids=["deliberate", "tiny", "white", "nothing"],
)
def test_nothing_is_said_of_what_looks_meant_or_is_small(tmp_path, painted):
    art(tmp_path / "card.pdf", *painted, ((5.24, 7.24, 5.25, 7.25), RUST))
    assert told(suite(tmp_path, SAGE_PAPER)) == []


def test_a_gradient_through_the_envelopes_colour_is_no_near_miss(tmp_path):
    shades = [((0, k * 0.05, 5.25, k * 0.05 + 0.06), (20 + k * 0.5, -12, 10)) for k in range(146)]
    art(tmp_path / "card.pdf", *shades)
    assert told(suite(tmp_path, SAGE_PAPER)) == []


def test_what_lies_outside_the_die_is_not_seen(tmp_path):
    art(tmp_path / "card.pdf", (FULL, RUST), ((0, 0, 0.12, 7.25), SAGE))
    assert told(suite(tmp_path, SAGE_PAPER)) == []
    art(tmp_path / "card.pdf", (FULL, RUST), ((0, 0, 1.2, 1), SAGE), ((4, 0, 5.25, 1), SAGE))
    path = suite(tmp_path, SAGE_PAPER)
    assert len(told(path)) == 1
    path.write_text(path.read_text().replace('card = "A7"', 'card = "A7"\ndie = "lancet-arch"', 1))
    assert told(path) == []


def test_inks_are_told_for_art_in_cmyk_and_they_are_printable(tmp_path):
    art(tmp_path / "card.pdf", (HALF, (0.46, 0.18, 0.45, 0.01)), cmyk=True)
    (found,) = told(suite(tmp_path, SAGE_PAPER))
    assert found.severity is Severity.WARN
    assert found.fix.count(" C ") == 2 and "RGB" not in found.fix


def test_an_accepted_near_miss_is_no_warning(tmp_path):
    art(tmp_path / "card.pdf", (HALF, SAGE))
    accepted = '[[accept]]\ncheck = "beside"\npiece = "card"\nreason = "seen on a swatch, liked"\n'
    findings = check_suite(CheckRequest(suite(tmp_path, SAGE_PAPER, accepted))).findings
    (found,) = [each for each in findings if each.check == "beside"]
    assert found.accepted == "seen on a swatch, liked"


def test_a_coloured_stock_beside_its_envelope(tmp_path):
    art(tmp_path / "card.pdf", (HUNDREDTH, (10, 0, 0)))
    stock = '{ gsm = 300, colour = "#b09271" }'
    (found,) = told(suite(tmp_path, "kraft", stock=stock))
    assert "bare stock" in found.message and found.severity is Severity.NOTE
    stock = '{ gsm = 300, colour = "#a5947a" }'
    (found,) = told(suite(tmp_path, "kraft", stock=stock))
    assert "bare stock" in found.message and found.severity is Severity.WARN
    assert found.fix.startswith("do not chase an exact match") and "the envelope at L*" in found.fix


def test_a_liner_beside_its_envelope_and_the_same_ink_in_liner_and_card(tmp_path):
    ink = (0.46, 0.18, 0.45, 0.01)
    art(tmp_path / "card.pdf", (FULL, ink), cmyk=True)
    art(tmp_path / "liner.pdf", ((0, 0, 8, 11), ink), size=(8, 11), cmyk=True)
    kraft = 'liner = { art = "liner.pdf", stock = { gsm = 100, colour = "ivory" } }'
    found = told(suite(tmp_path, "#22385a", liner=kraft))
    assert found == []  # one ink on two papers is the suite's own colour, not a match that failed
    found = told(suite(tmp_path, SAGE_PAPER, liner=kraft))
    assert {each.piece for each in found} == {"card", "envelopes.outer"}


def test_a_match_planned_on_one_face_is_planned_on_another(tmp_path):
    """One ink on white and on a warmer white, the envelope made to match the first."""
    ink = (0.5, 0.2, 0.1, 0.1)
    art(tmp_path / "card.pdf", (FULL, ink), cmyk=True)
    stock = '{ gsm = 300, colour = "#f3efe6" }'
    path = suite(tmp_path, "#22385a", stock=stock)
    other = f'[pieces.other]\nart = "card.pdf"\ncard = "A7"\nstock = {WHITE_STOCK}\n'
    text = path.read_text().replace("[envelopes", f"{other}[envelopes")
    path.write_text(text.replace('holds = ["card"]', 'holds = ["card", "other"]'))
    white = show_colours(ColoursRequest(path)).faces["other"].colours[0].lab
    path.write_text(path.read_text().replace("#22385a", to_hex(rgb(white))))
    found = told(path)
    assert max(each.value or 0 for each in found) > 2.5  # by itself it would be a near miss
    assert {(each.piece, each.severity) for each in found} == {
        ("other", Severity.NOTE), ("card", Severity.NOTE),
    }  # fmt: skip


def test_an_envelope_that_says_nothing_is_held_against_what_no_other_holds(tmp_path):
    art(tmp_path / "card.pdf", (HALF, SAGE))
    path = suite(tmp_path, "#22385a")
    second = f'[envelopes.spare]\nsize = "A7"\ncolour = "{to_hex(rgb(SAGE_PAPER))}"\n'
    path.write_text(path.read_text() + second)
    assert told(path) == []
    path.write_text(path.read_text().replace('holds = ["card"]', ""))
    assert [each.severity for each in told(path)] == [Severity.WARN]


def test_a_suite_without_envelopes_is_not_asked(tmp_path):
    art(tmp_path / "card.pdf", (HALF, SAGE))
    path = suite(tmp_path, SAGE_PAPER)
    path.write_text(path.read_text().split("[envelopes")[0])
    assert told(path) == []


FACE = (0, 0, 7.5, 5.5)


def printed(folder: Path, side: str, colour, lies: str, paper="#ffffff", part=FACE):
    """A card half in sage, and an A7 envelope of which one side is flooded."""
    art(folder / "card.pdf", (HALF, SAGE))
    art(folder / "flood.pdf", (part, colour), size=(7.5, 5.5))
    return suite(folder, paper, f'{side} = {{ art = "flood.pdf" }}\nshown = "{lies}"')


@pytest.mark.parametrize(
    ("side", "lies"), [("face", "face"), ("flap_art", "closed"), ("flap_art", "open")]
)
def test_a_flooded_side_that_lies_up_is_what_lies_beside(tmp_path, side, lies):
    """The flood nearly matches the card; its paper, white, is nowhere near it."""
    (found,) = told(printed(tmp_path, side, SAGE_PAPER, lies))
    assert found.severity is Severity.WARN and "printed on envelopes.outer" in found.message
    assert "print the envelope at L* 85 or L* 55" in found.fix


@pytest.mark.parametrize(("side", "lies"), [("face", "face"), ("flap_art", "closed")])
def test_paper_under_a_flood_is_not_held_against_the_card(tmp_path, side, lies):
    assert told(printed(tmp_path, side, RUST, lies, paper=SAGE_PAPER)) == []


@pytest.mark.parametrize(
    ("side", "lies"), [("face", "closed"), ("face", "open"), ("flap_art", "face")]
)
def test_a_flood_on_the_other_side_changes_nothing(tmp_path, side, lies):
    assert told(printed(tmp_path, side, SAGE_PAPER, lies)) == []
    (found,) = told(printed(tmp_path, side, RUST, lies, paper=SAGE_PAPER))
    assert "of envelopes.outer nearly match" in found.message


def test_of_a_side_half_printed_paper_and_print_lie_beside(tmp_path):
    half = (0, 0, 7.5, 2.75)
    (found,) = told(printed(tmp_path, "face", SAGE_PAPER, "face", part=half))
    assert "printed on envelopes.outer" in found.message
    (found,) = told(printed(tmp_path, "face", RUST, "face", paper=SAGE_PAPER, part=half))
    assert "of envelopes.outer nearly match" in found.message


def test_colours_tell_what_is_printed_on_the_envelope(tmp_path):
    path = printed(tmp_path, "face", SAGE_PAPER, "face")
    answer = show_colours(ColoursRequest(path, tmp_path / "colours.png", 700))
    kinds = {(pair.first.kind, pair.second.kind) for pair, _ in answer.pairs}
    assert kinds == {("art", "envelope art")}
