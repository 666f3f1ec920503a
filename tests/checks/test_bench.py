"""The bench: every known fault found at its place with its measure, and silence on clean pages."""

from __future__ import annotations

import pytest

from tests.checks.bench.case import Case, run_case
from tests.checks.bench.clean import CLEAN
from tests.checks.bench.faults_cut import FAULTS as AT_THE_CUT
from tests.checks.bench.faults_cut import short
from tests.checks.bench.faults_file import FAULTS as IN_THE_FILE
from tests.checks.bench.faults_ink import FAULTS as OF_INK
from tests.checks.bench.ornament import CLEAN as ORNAMENT
from tests.quickly import quickly

FAULTY = [*AT_THE_CUT, *IN_THE_FILE, *OF_INK]
SILENT = [*CLEAN, *ORNAMENT]


LIKE_ANOTHER = {
    # the same at another side: the left and the bottom stay
    "bleed-short-top", "bleed-short-right", "safe-live-right", "safe-live-top",
    "safe-outlined-top", "safe-outlined-right-dark",
    # the same at another die: one of curves and one of scallops stay
    "bleed-lancet-at-trim", "bleed-ellipse-to-die", "safe-ellipse-dot", "safe-ticket-dot",
    "safe-lancet-type", "safe-ticket-type", "left-cut-line-lancet", "left-safe-line-ellipse",
    # the same in another word, on another ground
    "white-ink-weiss", "white-overprinting-panel", "bleed-hairline-pale",
    # dear, and much like a dearer one that stays: dots beside type, one photograph, one scan
    "safe-scallop-dot", "bleed-scallop-to-die", "left-cut-line-scallop", "bleed-photo-white-edge",
    "safe-type-in-scan", "line-art-600",
}  # fmt: skip
"""Faults that are another's at another place: tried once, `make test-once`."""


def test_the_bench_is_as_large_as_it_says():
    assert len(FAULTY) >= 60
    assert len(SILENT) >= 30
    assert len({case.name for case in [*FAULTY, *SILENT]}) == len(FAULTY) + len(SILENT)
    assert {case.name for case in FAULTY} >= LIKE_ANOTHER


@pytest.mark.parametrize(
    "case",
    quickly(FAULTY, lambda n: FAULTY[n].name not in LIKE_ANOTHER),
    ids=lambda case: case.name,
)
def test_a_known_fault_is_found(case, tmp_path):
    outcome = run_case(case, tmp_path)
    assert outcome.hit is not None, (outcome.fault, outcome.findings)
    assert outcome.hit.fix


def is_tried_often(number: int) -> bool:
    """Returns whether a clean page is tried at every run: a quarter, and ornament that is cut."""
    return number % 4 == 0 or SILENT[number].name == "clean-flowers-nipped"


@pytest.mark.parametrize("case", quickly(SILENT, is_tried_often), ids=lambda case: case.name)
def test_a_clean_page_is_left_alone(case, tmp_path):
    assert run_case(case, tmp_path).alarms == []


@pytest.mark.parametrize(
    ("reaches_in", "said"),
    [
        (-0.02, "art stops 0.02 in before the cut: a strip of paper will show"),
        (0.0, "art stops at the cut: it has no bleed"),
        (0.03, "art goes 0.03 in beyond the cut"),
    ],
)
def test_how_far_art_goes_is_said_as_it_is(reaches_in, said, tmp_path):
    outcome = run_case(Case("short", short(left=reaches_in)), tmp_path)
    (told,) = [each.message for each in outcome.findings if each.check == "bleed"]
    assert told.startswith(said)
