"""What speaks for a line round the card: place, words, pen, the die's own shape; a look alone is
never sure, and a border is art."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from mockup.reading.page_facts import PageFacts
from mockup.reading.template_lines import FollowingLine
from tests.checks.bench.case import Case, die_polygon
from tests.checks.bench.sheet import BLACK, CREAM, INK, Sheet
from tests.checks.contexts import context_of

CYAN, MAGENTA, GREEN = (1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (1.0, 0.0, 1.0, 0.0)
RUST = (0.2, 0.7, 0.8, 0.1)
DASH = "0.06 0.04"

Draw = Callable[[Sheet], object]


def facts(draw: Draw, folder: Path, **case: object) -> PageFacts:
    def drawn(sheet: Sheet) -> None:
        sheet.flood(CREAM)
        sheet.outlined(1.7, 3.6, "Samphire", 22, INK)
        draw(sheet)

    return context_of(drawn, folder, **case).page


def lines(draw: Draw, folder: Path, **case: object) -> tuple[FollowingLine, ...]:
    return facts(draw, folder, **case).template_lines.following


def rim(sheet: Sheet, inside: float = 0.0, dx: float = 0.0, dy: float = 0.0):
    left, top = inside + dx, inside + dy
    right, bottom = sheet.width - inside + dx, sheet.height - inside + dy
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def around(inside: float, width_pt: float, colour: object, dash: str = "", die: str = "rectangle"):
    def draw(sheet: Sheet) -> None:
        whole = die_polygon(Case("", draw, (sheet.width, sheet.height), die))
        points = np.asarray(whole.buffer(-inside, join_style="mitre").exterior.coords)[:-1]
        sheet.line(points, width_pt, colour, dash, closed=True)

    return draw


def labelled(draw: Draw, text: str, x: float = 1.0, y: float = 6.95, size: float = 6.5) -> Draw:
    def both(sheet: Sheet) -> None:
        draw(sheet)
        sheet.live_type(x, y, text, size, BLACK)

    return both


def in_pieces(inside: float, colour: object, dx: float = 0.0, dy: float = 0.0) -> Draw:
    def draw(sheet: Sheet) -> None:
        corners = rim(sheet, inside, dx, dy)
        for k in range(4):
            sheet.line([corners[k], corners[(k + 1) % 4]], 0.5, colour)

    return draw


BORDERS = {
    "dashed, in a colour of the art": around(0.125, 0.5, RUST, DASH),
    "dashed, in the ink of the words": around(0.125, 0.5, INK, DASH),
    "cyan": around(0.125, 0.5, CYAN),
    "magenta, dashed, as thick as borders are": around(0.25, 1.0, MAGENTA, DASH),
    "cyan, at no usual margin": around(0.17, 0.5, CYAN, DASH),
    "black and thin": around(0.125, 0.25, BLACK),
    "in four pieces": in_pieces(0.25, MAGENTA),
    "thick, on the cut": around(0.0, 6.0, RUST),
    "with words that say more": labelled(around(0.125, 0.5, GREEN), "We cut the cake at nine"),
}


@pytest.mark.parametrize("name", BORDERS)
def test_a_border_is_art(name: str, tmp_path: Path) -> None:
    """Of one in a template's colour is asked, and no more."""
    found = lines(BORDERS[name], tmp_path)
    assert [each for each in found if each.evidence != "colour"] == []


def test_a_small_guide_elsewhere_names_no_border_of_its_ink(tmp_path: Path) -> None:
    draw = labelled(around(0.25, 0.75, BLACK), "Guide", 1.0, 3.0, 8.0)
    assert lines(draw, tmp_path) == ()


def test_a_rounded_border_is_no_safe_line_of_a_card_cut_square(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        whole = die_polygon(Case("", draw, (sheet.width, sheet.height)))
        points = np.asarray(whole.buffer(-0.275).buffer(0.15, quad_segs=16).exterior.coords)[:-1]
        sheet.line(points, 0.5, CYAN, DASH, closed=True)

    assert lines(draw, tmp_path) == ()


def test_a_border_along_an_arch_is_art(tmp_path: Path) -> None:
    draw = around(0.125, 0.75, RUST, DASH, "lancet-arch")
    assert lines(draw, tmp_path, die="lancet-arch") == ()


def test_two_cyan_lines_side_by_side_are_a_double_border(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        around(0.125, 0.5, CYAN, DASH)(sheet)
        around(0.18, 0.5, CYAN, DASH)(sheet)

    assert lines(draw, tmp_path) == ()


TOLD = {
    "a fine dashed line in a primary nothing else has": (
        around(0.125, 0.5, CYAN, DASH), "safe", "look", 0.125,
    ),
    "a hairline in such a primary": (around(0.125, 0.25, MAGENTA), "safe", "look", 0.125),
    "a solid line with its word": (
        labelled(around(0.125, 1.0, GREEN), "safe zone"), "safe", "word", 0.125,
    ),
    "a line with its word in German": (
        labelled(around(0.2, 0.5, RUST, DASH), "Sicherheitsabstand"), "safe", "word", 0.2,
    ),
    "a cut line of 3 pt": (around(0.0, 3.0, BLACK), "cut", "place", 0.0),
    "a cut line in four pieces": (in_pieces(0.0, BLACK), "cut", "place", 0.0),
    "a bleed line": (around(-0.11, 0.5, BLACK), "bleed", "place", -0.11),
}  # fmt: skip


@pytest.mark.parametrize("name", TOLD)
def test_a_template_s_line_is_told_with_what_speaks_for_it(name: str, tmp_path: Path) -> None:
    draw, line, evidence, usual_in = TOLD[name]
    (found,) = lines(draw, tmp_path)
    assert (found.line, found.evidence) == (line, evidence)
    assert found.usual_in == pytest.approx(usual_in, abs=0.001)
    assert found.is_sure == (evidence != "look")


@pytest.mark.parametrize("pieces", [False, True])
def test_a_cut_line_out_of_register_is_told_with_how_far(pieces: bool, tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.line(rim(sheet, 0.0, 0.016, -0.012), 0.5, MAGENTA, closed=True)

    moved = in_pieces(0.0, MAGENTA, 0.016, -0.012) if pieces else draw
    (found,) = lines(moved, tmp_path)
    assert found.line == "cut"
    assert found.shift_in == pytest.approx((0.016, -0.012), abs=0.001)


def test_the_outline_of_a_cut_line_is_one(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        from tests.checks.bench.sheet import path

        sheet.colour(BLACK)
        rings = " ".join(path(rim(sheet, inside)) for inside in (-0.005, 0.005))
        sheet.ops.append(f"{rings} f*")

    (found,) = lines(draw, tmp_path)
    assert (found.line, found.along) == ("cut", "die")


def test_a_dashed_primary_along_an_arch_is_its_safe_line(tmp_path: Path) -> None:
    draw = around(0.125, 0.5, CYAN, DASH, "lancet-arch")
    (found,) = lines(draw, tmp_path, die="lancet-arch")
    assert (found.line, found.evidence) == ("safe", "own shape")


def test_a_line_of_the_cut_line_s_pen_is_its_safe_line(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        around(0.0, 0.5, RUST)(sheet)
        around(0.2, 0.5, RUST)(sheet)

    found = lines(draw, tmp_path)
    assert [(each.line, each.evidence) for each in found] == [
        ("cut", "place"),
        ("safe", "same pen"),
    ]


def test_a_ring_where_the_hole_is_is_told(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        angle = np.linspace(0, 2 * np.pi, 64)
        ring = np.stack([2.5 + 0.125 * np.cos(angle), 0.5 + 0.125 * np.sin(angle)], axis=1)
        sheet.line(ring, 0.5, BLACK, closed=True)

    (found,) = lines(draw, tmp_path, hole=(2.5, 0.5, 0.125))
    assert (found.line, found.is_sure) == ("hole", True)
    assert lines(draw, tmp_path) == ()


@pytest.mark.parametrize(("text", "told"), [("fold line", True), ("Kindly reply", False)])
def test_a_line_across_is_a_fold_where_a_word_says_so(
    text: str, told: bool, tmp_path: Path
) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.line([(0, 2.0), (5, 2.0)], 0.5, CYAN, DASH)

    found = lines(labelled(draw, text, 0.5, 1.95), tmp_path)
    assert [each.line for each in found] == (["fold"] if told else [])


def test_a_legend_says_which_pen_draws_what(tmp_path: Path) -> None:
    """Far from the line, a sample of its ink stands by the word."""

    def draw(sheet: Sheet) -> None:
        around(0.2, 0.5, GREEN)(sheet)
        sheet.line([(1.0, 5.0), (1.5, 5.0)], 0.5, GREEN)
        sheet.live_type(1.6, 5.03, "safe area", 6.5, BLACK)

    (found,) = lines(draw, tmp_path)
    assert (found.line, found.evidence) == ("safe", "word")
    assert {each.kind for each in found.words} == {"type", "path"}


@pytest.mark.parametrize(("inside", "told"), [(-0.125, False), (0.0, True)])
def test_a_ground_s_own_edge_is_no_line(inside: float, told: bool, tmp_path: Path) -> None:
    """Programs draw one round a filled shape unasked; on the cut it is a line all the same."""

    def draw(sheet: Sheet) -> None:
        sheet.polygon(rim(sheet, inside), RUST)
        sheet.line(rim(sheet, inside), 0.5, BLACK, closed=True)

    assert bool(lines(draw, tmp_path)) == told


def test_what_only_looks_so_is_judged_as_art_too(tmp_path: Path) -> None:
    page = facts(around(0.125, 0.5, CYAN, DASH), tmp_path)
    assert page.template_lines.following
    assert page.template_lines.painted == []
    assert page.marks.borders
