"""Two colours side by side: the verdicts, and what would mend a near miss."""

import numpy as np
import pytest
from colour.difference import delta_E_CIE2000
from skimage.color import deltaE_ciede2000

from mockup.colour.beside import (
    APART_LIGHTNESS,
    MATCH_DE00,
    NEAR_DE00,
    NEAR_LIGHTNESS,
    Verdict,
    compared,
)
from mockup.colour.difference import terms
from mockup.colour.icc_reading import read_condition
from mockup.colour.mending import INK_MOST, PRINTABLE_DE00, mended_in_ink, mended_in_rgb
from mockup.colour.plates import Plates, Pressed, WhitePlate
from mockup.colour.press import COATED, UNCOATED
from mockup.colour.printed_lab import Printing, lab_of_bytes, lab_of_rgb, printed_lab, printing_on
from mockup.colour.printing import printed
from mockup.colour.srgb import parse_hex
from tests.quickly import quickly

SAGE, SAGE_PAPER = (70, -12, 10), (66, -9, 12)
NAVY, NAVY_PAPER = (27, 4, -32), (22, 3, -20)
WHITE = (255, 255, 255)


@pytest.fixture(scope="module", params=[COATED, UNCOATED], ids=["coated", "uncoated"])
def condition(request):
    return read_condition(request.param.profile.read_bytes())


@pytest.mark.parametrize(
    ("first", "second", "verdict", "because"),
    [
        (SAGE, SAGE_PAPER, Verdict.NEAR_MISS, ""),
        (NAVY, NAVY_PAPER, Verdict.NEAR_MISS, ""),
        ((50, 10, 10), (50, 10, 10), Verdict.MATCH, ""),
        ((50, 10, 10), (51, 10.5, 10), Verdict.MATCH, ""),
        ((81, -12, 10), SAGE_PAPER, Verdict.DELIBERATE, "lightness"),
        ((51, -12, 10), SAGE_PAPER, Verdict.DELIBERATE, "lightness"),
        ((66 + 9.9, -9, 12), SAGE_PAPER, Verdict.NEAR_MISS, ""),
        ((66 + 10, -9, 12), SAGE_PAPER, Verdict.BORDERLINE, ""),
        ((66 + 14.9, -9, 12), SAGE_PAPER, Verdict.BORDERLINE, ""),
        ((50, 40, 30), (52, -30, 20), Verdict.DELIBERATE, "hue"),  # red on green
        ((50, 12, 6), (50, -12, 6), Verdict.BORDERLINE, ""),  # too grey for a hue to be a reason
        ((60, 0, 0), (60, 3, 80), Verdict.DELIBERATE, "chroma"),  # grey on yellow
        ((60, 0, 0), (60, 25, 5), Verdict.BORDERLINE, ""),
        ((95, 0, 2), (94, 1, 6), Verdict.NEAR_MISS, ""),
    ],
)
def test_verdicts(first, second, verdict, because):
    for one, other in ((first, second), (second, first)):
        found = compared(one, other)
        assert (found.verdict, found.because) == (verdict, because)
        assert found.difference == pytest.approx(
            float(deltaE_ciede2000(np.array(one, float), np.array(other, float))), abs=1e-6
        )


def test_the_same_numbers_on_two_papers_are_a_match_that_was_planned():
    assert compared(SAGE, SAGE_PAPER, same_ink=True).verdict is Verdict.MATCH
    assert compared((90, 0, 0), (20, 0, 0), same_ink=True).verdict is Verdict.DELIBERATE


def test_every_pair_is_of_the_class_its_figures_say():
    """By colour-science's CIEDE2000 and plain lightness, without the reasons of hue and chroma."""
    chance = np.random.default_rng(5)
    for _ in range(300):
        one = chance.uniform((10, -14, -1), (95, 14, 1))
        other = one + chance.normal(0, 6, 3)
        found = compared(tuple(one), tuple(other))
        apart, lightness = float(delta_E_CIE2000(one, other)), abs(one[0] - other[0])
        if apart <= MATCH_DE00:
            assert found.verdict is Verdict.MATCH
        elif lightness >= APART_LIGHTNESS:
            assert found.verdict is Verdict.DELIBERATE
        elif not found.because:
            near = lightness < NEAR_LIGHTNESS and apart < NEAR_DE00
            assert found.verdict is (Verdict.NEAR_MISS if near else Verdict.BORDERLINE)


def test_parts_of_the_difference_are_signed_and_make_the_whole():
    one, other = np.array([50.0, 20, 5]), np.array([60.0, 30, -5])
    parts = terms(one, other)
    assert parts.lightness > 0 and parts.chroma > 0 and parts.hue < 0
    assert float(parts.total) == pytest.approx(float(deltaE_ciede2000(one, other)), abs=1e-6)


@pytest.mark.parametrize(
    ("art", "paper", "lighter", "darker"),
    [(SAGE, SAGE_PAPER, 81, 51), (NAVY, NAVY_PAPER, 37, 7)],
    ids=["sage", "navy"],
)
def test_a_near_miss_in_rgb_is_mended_by_fifteen_in_lightness(art, paper, lighter, darker):
    ways = mended_in_rgb(art, paper, WHITE)
    for way, lightness in ((ways.lighter, lighter), (ways.darker, darker)):
        assert way.lab[0] == pytest.approx(lightness, abs=0.8)
        assert abs(way.lab[0] - paper[0]) >= APART_LIGHTNESS - 0.01
        assert compared(way.lab, paper).verdict is Verdict.DELIBERATE
        assert deltaE_ciede2000(lab_of_rgb(way.art), np.array(way.lab)) < 0.1  # white paper
    assert (ways.envelope_lighter, ways.envelope_darker) == (art[0] + 15, art[0] - 15)


def test_the_way_of_least_change_is_known():
    ways = mended_in_rgb(SAGE, SAGE_PAPER, WHITE)
    assert ways.lighter.difference == pytest.approx(8.0, abs=0.3)
    assert ways.darker.difference == pytest.approx(16.6, abs=0.4)
    assert mended_in_rgb(NAVY, NAVY_PAPER, WHITE).lighter.difference == pytest.approx(7.9, abs=0.3)


@pytest.mark.parametrize("stock", ["#ffffff", "#f0e7d5", "#ae906f"])
def test_shifts_in_rgb_are_what_the_art_would_print_on_its_stock(stock):
    """The art's own colour, through the way every picture is shown."""
    from mockup.colour.ink import on_stock

    paper = parse_hex(stock)
    ways = mended_in_rgb((45, 15, 10), (42, 14, 8), paper)
    for way in filter(None, (ways.lighter, ways.darker)):
        shown = on_stock(np.array([[way.art]], np.uint8), paper)
        assert deltaE_ciede2000(lab_of_bytes(shown)[0, 0], np.array(way.lab)) < 1
    assert ways.darker is not None


@pytest.mark.parametrize("stock", quickly(["#ffffff", "#f5f4f0", "#ae906f"], lambda n: n == 2))
def test_inks_print_the_shift_through_littlecms(condition, stock):
    """Whole per cents, taken through the profile by LittleCMS as every picture is."""
    paper = parse_hex(stock)
    printing = printing_on(condition, paper)
    chance = np.random.default_rng(11)
    seen = 0
    for _ in range(12):
        inks = chance.uniform(0, 0.6, 4) * [1, 1, 1, 0.4]
        art = printing.lab(inks[None])[0]
        ground = tuple(art + np.array([chance.uniform(-4, 4), 2, -2]))
        ways = mended_in_ink(tuple(art), ground, printing, tuple(inks))
        for way, sign in ((ways.lighter, 1), (ways.darker, -1)):
            if way is None:
                continue
            seen += 1
            assert sum(way.inks) <= INK_MOST * 100 + 1e-9
            assert sign * (way.lab[0] - ground[0]) >= APART_LIGHTNESS - 0.01
            assert sign * (way.lab[0] - ground[0]) < APART_LIGHTNESS + 2
            process = np.rint(np.array(way.inks) * 2.55).astype(np.uint8)[None, None]
            shown = lab_of_bytes(printed(process, condition, paper))[0, 0]
            assert deltaE_ciede2000(shown, np.array(way.lab)) < 1.2
            wanted = art * [0, way.chroma_kept, way.chroma_kept]
            assert np.abs(np.array(way.lab)[1:] - wanted[1:]).max() < 4 * PRINTABLE_DE00
    assert seen >= 8


def test_what_cannot_be_printed_is_not_offered(condition):
    printing = printing_on(condition, WHITE)
    inks = (0.97, 0.8, 0.2, 0.3)
    navy = tuple(printing.lab(np.array([inks]))[0])
    ways = mended_in_ink(navy, (navy[0] - 3, 3, -20), printing, inks)
    assert ways.lighter is not None
    black = printing.lab(np.array([[1, 0.8, 0.2, 1]]))[0]  # next to as dark as it goes
    assert (ways.darker is None) == (navy[0] - 3 - APART_LIGHTNESS < black[0])
    pale = mended_in_ink((93, 0, 5), (92, 0, 6), printing, (0.02, 0.02, 0.08, 0))
    assert pale.lighter is None and pale.darker is not None
    assert pale.envelope_lighter is None and pale.envelope_darker == 78


def test_a_table_between_its_nodes_is_as_littlecms_has_it(condition):
    """LittleCMS on colours a screen can show; 255ths of sRGB cost some of the difference."""
    chance = np.random.default_rng(2)
    process = chance.integers(0, 120, (1, 300, 4), np.uint8)
    ours = printing_on(condition, WHITE).lab(process[0] / 255)
    theirs = lab_of_bytes(printed(process, condition, WHITE))[0]
    apart = deltaE_ciede2000(ours, theirs)
    assert np.median(apart) < 0.3 and np.percentile(apart, 95) < 1.5


def test_white_ink_and_foil_are_measured_as_they_are_shown(condition):
    """Where one lies beneath, by the appearance every picture has; elsewhere by the press alone."""
    kraft = parse_hex("#ae906f")
    process = np.full((2, 6, 4), (90, 40, 20, 0), np.uint8)
    plate = np.zeros((2, 6), np.uint8)
    plate[0, :2], plate[0, 2:4] = 255, 120
    bare = printed_lab(Plates(Pressed(process, condition)), kraft)
    for plates in (
        Plates(Pressed(process, condition), white=WhitePlate(plate, 1)),
        Plates(Pressed(process, condition), foil=plate),
    ):
        lab, shown = printed_lab(plates, kraft), lab_of_bytes(plates.on(kraft))
        assert np.allclose(lab[plate > 0], shown[plate > 0])
        assert np.allclose(lab[plate == 0], bare[plate == 0])
        assert lab[0, 0, 0] > lab[0, 2, 0] > lab[0, 5, 0]


def test_a_table_at_its_nodes_is_itself():
    table = np.random.default_rng(0).normal(50, 10, (3, 3, 3, 3, 3))
    printing = Printing(np.tile(np.linspace(0, 1, 5), (4, 1)), table)
    nodes = np.array(list(np.ndindex(3, 3, 3, 3)))
    assert np.allclose(printing.lab(nodes / 2), table.reshape(-1, 3))
