"""A print file's steps taken back as a template, and a template's holes and folds as steps."""

from __future__ import annotations

import pytest

from mockup.dies.importing import import_die
from mockup.dies.making import make_die
from mockup.geometry.measure import area
from tests.ordering.pages import ordered, page_pdf
from tests.ordering.processing_steps import steps_of

TAG = """<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="5in" viewBox="0 0 4 5">
<g fill="none" stroke-width=".01">
<path id="cut" stroke="red" d="M.5 .5H3V1A.5 .5 0 0 0 3.5 1.5V4.5H.5Z"/>
<circle id="hole" stroke="red" cx="2" cy="1" r=".125"/>
<path id="fold" stroke="blue" stroke-dasharray=".1 .05" d="M.5 3H3.5"/>
</g></svg>"""


@pytest.mark.parametrize(
    "name", ["lancet-arch", "ticket-corner", "scalloped-edge", "rounded-corner"]
)
def test_our_own_importer_takes_the_cut_from_a_print_file(name, tmp_path):
    die = make_die(name, 3, 4)
    made = ordered(tmp_path, page_pdf(), die=f'"{name}"')
    taken = import_die(made.path, (3.0, 4.0))
    assert "processing step" in taken.die.because or "Structural/Cutting" in taken.die.because
    assert area(taken.die.shape) == pytest.approx(area(die.shape), rel=1e-5)
    assert (taken.die.width_in, taken.die.height_in) == pytest.approx((3, 4), abs=1e-4)


def test_holes_are_cut_and_folds_creased_each_on_its_layer(tmp_path):
    (tmp_path / "tag.svg").write_text(TAG, encoding="utf-8")
    made = ordered(tmp_path, page_pdf(), die='{ file = "tag.svg" }')
    assert made.steps == ("Cut", "Crease")
    cut, crease = steps_of(made.path)
    assert (cut.kind, crease.kind) == ("Cutting", "Creasing")
    assert not cut.printed and not crease.printed
    (lines,) = cut.paths
    assert lines.closed == [True, True]
    xs, _ = zip(*lines.subpaths[1], strict=True)
    assert (min(xs), max(xs)) == pytest.approx((9 + 99, 9 + 117), abs=0.01)  # r of 1/8 in, at 1.5
    (fold,) = crease.paths
    assert fold.ink == "Crease" and fold.closed == [False]
    (start, *_, end) = fold.subpaths[0]
    assert start == pytest.approx((9, 297 - 180), abs=0.01)
    assert end == pytest.approx((225, 297 - 180), abs=0.01)
