"""Lines, layers and colours left in: what stops, what only warns, what is art by its look."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.checks.finding import Severity
from mockup.checks.left_in import check_left_in
from mockup.checks.settings import Settings
from tests.checks.bench.sheet import BLACK, CREAM, INK, Sheet
from tests.checks.contexts import context_of

LEAF = [(1, 1), (2, 0.8), (2.5, 1.6), (1.4, 2)]
STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE


def told(draw, folder: Path, units: str = "in") -> list[tuple[Severity, str]]:
    def drawn(sheet: Sheet) -> None:
        sheet.flood(CREAM)
        draw(sheet)

    found = check_left_in(context_of(drawn, folder, Settings(units=units)))
    return [(each.severity, each.message) for each in found]


def on(layer: str, *shapes, state: str = "on", step: str | None = None):
    def draw(sheet: Sheet) -> None:
        sheet.begin_layer(layer, state, step)
        for shape in shapes:
            shape(sheet)
        sheet.end_layer()

    return draw


def leaf(sheet: Sheet) -> None:
    sheet.polygon(LEAF, INK)


def rule(sheet: Sheet) -> None:
    sheet.line([(1, 3), (4, 3)], 0.5, BLACK)


@pytest.mark.parametrize(
    ("draw", "severities"),
    [
        (on("Cut", leaf), []),
        (on("Die cuts", leaf), []),
        (on("Bleed", leaf, rule), []),
        (on("Cut paper flowers", rule), []),
        (on("Dieline", rule), [STOP]),
        (on("Do not print", leaf), [WARN]),
        (on("Guides", leaf, rule), [STOP]),
        (on("Cut", leaf, state="hidden"), [WARN]),
        (on("Layer 3", leaf, step="Cutting"), [NOTE]),
        (on("Layer 3", leaf, step="/Varnish"), [NOTE]),
        (lambda s: s.line([(1, 3), (4, 3)], 1, "CutContour"), [STOP]),
        (lambda s: s.polygon(LEAF, "CutContour"), [WARN]),
        (lambda s: s.polygon(LEAF, "Safety Orange"), []),
    ],
)
def test_a_name_counts_with_the_look_of_a_line(draw, severities, tmp_path) -> None:
    assert [severity for severity, _ in told(draw, tmp_path)] == severities


def test_a_step_is_told_with_its_group(tmp_path) -> None:
    ((_, message),) = told(on("L", leaf, step="Creasing"), tmp_path)
    assert message == 'layer "L" holds the step Structural/Creasing'


@pytest.mark.parametrize(("units", "away"), [("in", "0.02 in"), ("mm", "0.51 mm")])
def test_a_line_out_of_register_is_told_in_the_reader_s_units(units, away, tmp_path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.line([(0.02, 0), (5.02, 0), (5.02, 7), (0.02, 7)], 0.5, BLACK, closed=True)

    assert told(draw, tmp_path, units) == [
        (STOP, f"a cut line is in the art, {away} beside the die's line")
    ]


CYAN, OCHRE = (1.0, 0.0, 0.0, 0.0), (0.1, 0.3, 0.8, 0.1)


@pytest.mark.parametrize(
    ("inset", "width_pt", "ink", "more", "severities"),
    [
        (0.125, 0.5, CYAN, (), [NOTE]),
        (0.125, 0.25, CYAN, (), [WARN]),  # a hair: no border is so thin
        (0.125, 0.5, OCHRE, (), []),
        (0.125, 1.0, CYAN, (), []),
        (0.15, 0.5, CYAN, (), []),  # at no margin of a printer's
        (0.125, 0.5, CYAN, (CYAN,), []),  # something else has its colour
    ],
)
def test_a_solid_line_of_a_template_s_colour_is_asked_of(
    inset, width_pt, ink, more, severities, tmp_path
) -> None:
    """Without a label it may be a border: a note, and nothing is left out of any picture."""

    def draw(sheet: Sheet) -> None:
        for other in more:
            sheet.polygon(LEAF, other)
        low, right, foot = inset, 5 - inset, 7 - inset
        corners = [(low, low), (right, low), (right, foot), (low, foot)]
        sheet.line(corners, width_pt, ink, closed=True)

    found = told(draw, tmp_path)
    assert [severity for severity, _ in found] == severities
    assert all("a line like a safe line is in the art" in message for _, message in found)


def test_what_only_looks_like_one_is_a_warning_that_can_be_accepted(tmp_path) -> None:
    def draw(sheet: Sheet) -> None:
        corners = [(0.125, 0.125), (4.875, 0.125), (4.875, 6.875), (0.125, 6.875)]
        sheet.line(corners, 0.5, (1.0, 0.0, 0.0, 0.0), "0.06 0.04", closed=True)

    ((severity, message),) = told(draw, tmp_path)
    assert severity == WARN
    assert message.startswith("a line like a safe line is in the art: it runs 0.125 in inside")
