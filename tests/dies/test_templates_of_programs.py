"""Templates of many kinds saved by real programs: the right outline, or a refusal that lists them.

The files in `made_elsewhere/kinds` are drawn by `benchmarks/templates`; the dies are what it drew.
"""

from pathlib import Path

import pytest

from mockup.dies import make_die
from mockup.dies.importing import import_die
from mockup.errors import InputError
from mockup.geometry.flatten import polygon
from mockup.geometry.outline import Shape, polygon_outline

KINDS = Path(__file__).parent / "made_elsewhere" / "kinds"
A5, A6 = (148 / 25.4, 210 / 25.4), (105 / 25.4, 148 / 25.4)
METRIC = (120 / 25.4, 170 / 25.4)

# File, family and size of its die, whether the card's size is told, words of the reason.
READ = [
    ("dashes-inkscape.pdf", "ticket-corner", METRIC, False, "is drawn solid, the outlines beside"),
    ("legend-words-cairo.pdf", "rounded-corner", A6, False, 'the legend says "Magenta: cut line"'),
    ("page-filling-office.pdf", "rectangle", (5.25, 5.25), True, "the filled grey outline"),
    ("drafted-weasyprint.pdf", "rectangle", (5.25, 5.25), True, "it has the card's size"),
    ("folded-inkscape.svg", "rounded-corner", (3.5, 4.875), False, "0.125 in inside the bleed"),
    ("hidden-inkscape.svg", "rounded-corner", (3.5, 4.875), False, "the solid red outline"),
    ("grid-office.svg", "ticket-corner", (3.5, 4.875), True, "the solid red outline"),
    ("tag-scribus.pdf", "tag", (2.5, 4), True, "the solid magenta outline"),
    ("fills-weasyprint.pdf", "ogee-arch", A5, True, "the filled cyan outline"),
    ("panels-weasyprint.pdf", "rounded-corner", A6, True, "the line across it ends at it"),
    ("legend-ghostscript.pdf", "ogee-arch", METRIC, True, 'an orange line says "Ligne de coupe"'),
    ("trim-box-reportlab.pdf", "ogee-arch", (5, 7), True, "is the page's TrimBox"),
    ("art-typst.pdf", "rounded-corner", (5.5, 8.5), True, "the solid magenta outline"),
    ("layers-inkscape.svg", "rounded-corner", A6, True, 'the layer "Skärlinje", whose name means'),
    ("crop-marks-typst.pdf", "round-arch", (5, 7), True, "the crop marks stand in line with it"),
    ("two-sizes-poppler.svg", "scalloped-edge", (5, 7), True, "it has the card's size"),
    ("leaders-weasyprint.pdf", "rectangle", (3.5, 4.875), True, 'leads to it says "Cut line"'),
]  # fmt: skip


def _away_in(one, other):
    return polygon(one, 5e-5).boundary.hausdorff_distance(polygon(other, 5e-5).boundary)


@pytest.mark.parametrize(("name", "family", "size", "told", "said"), READ, ids=[r[0] for r in READ])
def test_the_cut_is_chosen_as_a_printer_would(name, family, size, told, said):
    die = import_die(KINDS / name, size if told else None).die
    truth = make_die(family, *size).shape
    assert len(die.shape.holes) == len(truth.holes)
    assert _away_in(die.shape, truth) < 0.002
    assert said in die.because


def test_a_window_is_cut_with_the_card_and_a_frame_for_type_is_not():
    shape = import_die(KINDS / "window-scribus.pdf").die.shape
    outer = make_die("rounded-corner", *A5).shape.outer
    slot = polygon_outline((1, 0.8), (A5[0] - 1, 0.8), (A5[0] - 1, 1.05), (1, 1.05))
    assert _away_in(shape, Shape(outer, (slot,))) < 0.002


def test_two_dies_alike_are_refused_and_told_apart_by_place():
    with pytest.raises(
        InputError, match=r"2 dies side by side.*1: 4\.5 × 6\.25 in at 1\.3 in, 0\.6"
    ):
        import_die(KINDS / "twins-cairo.svg")
    found = import_die(KINDS / "twins-cairo.svg", pick="2")
    assert (found.die.width_in, found.die.height_in) == pytest.approx((4.5, 6.25), abs=1e-3)


def test_what_stands_beside_the_cut_is_kept():
    found = import_die(KINDS / "folded-inkscape.svg")
    assert (found.die.bleed_in, found.die.safe_in) == pytest.approx((0.125, 0.125), abs=1e-3)
    assert found.bleed.box.left == pytest.approx(-0.125, abs=1e-3)
    assert found.safe.box.left == pytest.approx(0.125, abs=1e-3)
    ((fold,),) = found.folds
    assert fold.start.y == fold.end.y == pytest.approx(4.875 / 2, abs=1e-3)
    panels = import_die(KINDS / "panels-weasyprint.pdf", A6)
    assert len(panels.folds) == 1
    assert panels.safe is None  # either panel has its own
    assert import_die(KINDS / "drafted-weasyprint.pdf", (5.25, 5.25)).folds == ()
