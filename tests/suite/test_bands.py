"""Bands round cards: read, refused, measured, laid, lit, told."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pymupdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box as shapely_box
from shapely.geometry import Polygon

from mockup.artwork.art import Art
from mockup.asks.flatlay import FlatlayRequest, lay_flatlay
from mockup.checks.bands import OVERLAP_USUAL_IN, check_bands, strip_length
from mockup.checks.enclosure import check_enclosure
from mockup.checks.finding import Finding
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.dies.making import make_die
from mockup.errors import SuiteError
from mockup.geometry.affine import IDENTITY, rotation
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.reading.binding import Bound, bound, stand_in
from mockup.reading.stack import contents
from mockup.render.bands import Turn, cut_of, relief_of, seen_of, turn_of
from mockup.render.composition import LaidPiece, compose
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite
from mockup.suite.scene_file import Place
from mockup.suite.suite import Piece, Suite, Wrap
from mockup.trade.papers import STOCKS
from mockup.trade.sizes import card_size
from tests.conftest import make_pdf
from tests.pictures import read

ART = Art(Path("band.pdf"), 1, "a" * 64)
CARDS = (
    '[pieces.invitation]\nart = "card.pdf"\ncard = "A7"\nstock = "smooth-120-white"\nquantity = 9\n'
    '[pieces.details]\nart = "card.pdf"\ncard = "A7"\nstock = "smooth-120-white"\nquantity = 9\n'
)
BAND = (
    '[pieces.belt]\nart = "band.pdf"\ncard = "11 x 1.5 in"\nstock = "text-80-white"\nquantity = 9\n'
)
ROUND = 'wraps = ["invitation", "details"]\n'
HELD = '[envelopes.outer]\nsize = "A7"\nholds = ["invitation", "details", "belt"]\n'


def typed(path: Path, size_in: tuple[float, float], *words: tuple[float, float, str]) -> None:
    """Writes a page with black 14 pt type at places from its top left, inches."""
    document = pymupdf.open()
    page = document.new_page(width=size_in[0] * 72, height=size_in[1] * 72)
    for x, y, said in words:
        page.insert_text((x * 72, y * 72), said, fontsize=14)
    document.save(path)


def suite_of(folder: Path, text: str, strip_in: tuple[float, float] = (11.25, 1.75)) -> Suite:
    if not (folder / "card.pdf").exists():
        make_pdf(folder / "card.pdf")
    if not (folder / "band.pdf").exists():
        make_pdf(folder / "band.pdf", strip_in, "0.2 g 0 0 900 126 re f")
    path = folder / "suite.toml"
    path.write_text(f'title = "Supper"\n{text}', encoding="utf-8")
    return read_suite(path)


def told(suite: Suite) -> list[Finding]:
    return check_bands(SuiteContext(suite, Settings()))


def test_the_girth_is_that_of_the_cards_with_their_thickness(tmp_path: Path) -> None:
    """By shapely: the outline of the cards' section, grown by half the band's paper."""
    (found,) = bound(suite_of(tmp_path, CARDS + BAND + ROUND))
    section = shapely_box(0, 0, 5.0, found.thickness_in)
    middle = section.buffer(found.caliper_in / 2, quad_segs=64)
    assert found.girth_in == pytest.approx(middle.exterior.length, abs=1e-4)
    assert found.overlap_in == pytest.approx(11 - middle.exterior.length, abs=1e-4)


def test_a_worked_example_by_hand(tmp_path: Path) -> None:
    """Two 5 in cards of 14 mil and paper of 5.5 mil: 2 x (5 + 0.028) + pi x 0.0055 = 10.0733."""
    cards = CARDS.replace('"smooth-120-white"', "{ gsm = 300, caliper_um = 355.6 }")
    band = BAND.replace('"text-80-white"', "{ gsm = 120, caliper_um = 139.7 }")
    (found,) = bound(suite_of(tmp_path, cards + band + ROUND))
    assert found.girth_in == pytest.approx(10.0733, abs=1e-3)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda s: s.replace('"details"]', '"detials"]'), 'did you mean "details"'),
        (lambda s: s.replace('"details"]', '"belt"]'), "round itself"),
        (lambda s: s + 'die = "rounded-corner"\n', 'write die = "rectangle"'),
        (lambda s: s + 'torn = ["top"]\n', "plain strip"),
        (lambda s: s.replace(ROUND, 'wraps = { cards = ["invitation"], at = 6.9 }\n'), "write 0.75 in to 6.25 in"),
        (lambda s: s.replace(ROUND, 'wraps = { cards = ["invitation"], overlap = 0 }\n'), "above nought"),
        (lambda s: s.replace(ROUND, 'wraps = { cards = ["invitation"], overlap = "-1 in" }\n'), "not a length"),
        (lambda s: s.replace(ROUND, 'wraps = { cards = ["invitation"], along = "girth" }\n'), "height"),
        (lambda s: s.replace("11 x 1.5", "11 x 7.1"), "wider than the front card"),
        (lambda s: s.replace('"details"]', '"invitation"]'), "bound once"),
        (lambda s: s + 'fold = "left"\n', "plain strip"),
        (lambda s: s + HELD + 'drawn = "invitation"\n', "leave out `drawn`"),
    ],
)  # fmt: skip
def test_what_cannot_be_bound_is_told_at_its_key(
    change: Callable[[str], str], said: str, tmp_path: Path
) -> None:
    with pytest.raises(SuiteError) as caught:
        suite_of(tmp_path, change(CARDS + BAND + ROUND))
    mistakes = [m for m in caught.value.mistakes if m.key.startswith("pieces.belt.wraps")]
    assert any(said in mistake.sentence for mistake in mistakes)


def test_a_cards_mistake_is_told_at_its_own_place_in_the_list(tmp_path: Path) -> None:
    for listed, key in (
        ('["invitation", "lawn"]', "pieces.belt.wraps.2"),
        ('{ cards = ["lawn", "details"] }', "pieces.belt.wraps.cards.1"),
    ):
        with pytest.raises(SuiteError) as caught:
            suite_of(tmp_path, f"{CARDS}{BAND}wraps = {listed}\n")
        (mistake,) = caught.value.mistakes
        assert (mistake.key, mistake.value) == (key, "lawn")


@pytest.mark.parametrize(
    ("length_in", "severity", "words"),
    [(9.5, "stop", "does not meet"), (10.3, "warning", "overlap by"), (12.5, "note", "overlap by")],
)
def test_a_strip_too_short_or_too_long_is_told_with_what_to_make(
    length_in: float, severity: str, words: str, tmp_path: Path
) -> None:
    band = BAND.replace("11 x", f"{length_in} x")
    suite = suite_of(tmp_path, CARDS + band + ROUND, (length_in + 0.25, 1.75))
    (found,) = told(suite)
    assert (found.severity.word, words in found.message) == (severity, True)
    (bundle,) = bound(suite)
    assert Settings().length(bundle.girth_in + OVERLAP_USUAL_IN) in found.fix


def test_a_strip_of_the_right_length_is_not_told(tmp_path: Path) -> None:
    assert told(suite_of(tmp_path, CARDS + BAND + ROUND)) == []


@pytest.mark.parametrize(
    ("length_in", "overlap", "severity", "said"),
    [
        (10.9, "1/2 in", "note", "too long for an overlap of 0.5 in"),
        (10.55, "3/4 in", "note", "too short for an overlap of 0.75 in"),
        (10.7, "1/8 in", "warning", "too little to take glue"),
    ],
)
def test_the_overlap_that_is_meant_is_held_against_the_strip(
    length_in: float, overlap: str, severity: str, said: str, tmp_path: Path
) -> None:
    meant = f'wraps = {{ cards = ["invitation", "details"], overlap = "{overlap}" }}\n'
    band = BAND.replace("11 x", f"{length_in} x")
    suite = suite_of(tmp_path, CARDS + band + meant, (length_in + 0.25, 1.75))
    first, *_ = told(suite)
    assert (first.severity.word, said in first.message) == (severity, True)


@given(st.floats(0.4, 1.9))
def test_a_strip_made_as_it_is_told_is_told_nothing_of(overlap_in: float) -> None:
    """Whatever the overlap: the length told, 2 x (side + thickness) + pi x caliper + overlap."""
    die, stock = make_die("rectangle", 4.0, 6.0), STOCKS["smooth-120-white"]
    card = Piece("card", "Card", ART, card_size("4 x 6 in"), die, stock, None, 0.125)
    caliper_in = stock.caliper_mil / 1000
    length_in = 2 * (4 + caliper_in) + math.pi * caliper_in + overlap_in
    wrap = Wrap(("card",), overlap_in=overlap_in)
    strip = replace(card, name="band", die=make_die("rectangle", length_in, 1.5), wraps=wrap)
    assert list(strip_length(Bound(strip, (card,)), Settings())) == []
    longer = replace(strip, die=make_die("rectangle", length_in + 0.07, 1.5))
    assert len(list(strip_length(Bound(longer, (card,)), Settings()))) == 1


def test_a_strip_goes_the_way_the_file_says(tmp_path: Path) -> None:
    """A jacket 8 3/4 in long and 9 high round a card of 4 by 9 1/4: along its width."""
    text = CARDS.replace('"A7"', '"4 x 9.25 in"', 1) + BAND.replace("11 x 1.5", "8.75 x 9")
    one = 'wraps = { cards = ["invitation"], along = "width" }\n'
    (found,) = bound(suite_of(tmp_path, text + one, (9.0, 9.25)))
    assert (found.goes_across, found.side_in, found.width_in) == (True, 4.0, 9.0)
    with pytest.raises(SuiteError, match="wider than the front card"):
        suite_of(tmp_path, text + one.replace("width", "height"), (9.0, 9.25))
    tall = text.replace("8.75 x 9", "3.5 x 3")
    (found,) = bound(suite_of(tmp_path, tall + one.replace("width", "height"), (3.75, 3.25)))
    assert (found.goes_across, found.side_in, found.length_in) == (False, 9.25, 3.0)


def test_type_under_the_other_end_is_warned_of_at_the_end_that_is_covered(tmp_path: Path) -> None:
    for x, count in ((0.6, 1), (9.4, 0)):
        typed(tmp_path / "band.pdf", (11.25, 1.75), (x, 0.9, "mill lane"))
        found = [f for f in told(suite_of(tmp_path, CARDS + BAND + ROUND)) if "under" in f.message]
        assert len(found) == count


def test_the_turns_at_the_back_are_a_stack_away_from_those_in_front(tmp_path: Path) -> None:
    """What is left at both ends lies on the back: its side and the overlap, within the bends."""
    (found,) = bound(suite_of(tmp_path, CARDS + BAND + ROUND))
    (first, _), (_, last) = found.turns_in
    ends_in = first + found.length_in - last
    assert ends_in == pytest.approx(found.side_in + found.overlap_in, abs=2 * found.caliper_in)


def test_type_over_a_turn_is_warned_of_and_type_in_the_middle_is_not(tmp_path: Path) -> None:
    typed(tmp_path / "band.pdf", (11.25, 1.75), (7.6, 0.9, "harvest dinner"))
    (found,) = told(suite_of(tmp_path, CARDS + BAND + ROUND))
    assert "turn of the band" in found.message
    typed(tmp_path / "band.pdf", (11.25, 1.75), (4.9, 0.9, "harvest dinner"))
    assert told(suite_of(tmp_path, CARDS + BAND + ROUND)) == []


def test_the_bands_edge_through_type_is_told_and_where_it_hides_it_whole_is_not(
    tmp_path: Path,
) -> None:
    make_pdf(tmp_path / "band.pdf", (11.25, 1.75), "0.2 g 0 0 900 126 re f")
    typed(tmp_path / "card.pdf", (5.25, 7.25), (1.0, 3.0, "on the flood at seven"))
    (found,) = told(suite_of(tmp_path, CARDS + BAND + ROUND))
    assert "edge runs through type" in found.message
    free = CARDS + BAND + 'wraps = { cards = ["invitation", "details"], at = 5.5 }\n'
    assert told(suite_of(tmp_path, free)) == []


def test_type_on_a_folded_cards_front_is_found_where_the_front_is(tmp_path: Path) -> None:
    """The right half of the flat sheet is the front; the same words on its back are no matter."""
    folded = CARDS.replace('card = "A7"', 'card = "A7"\nfold = "left"', 1)
    folded = folded.replace('"card.pdf"', '"flat.pdf"', 1)
    for x, count in ((6.0, 1), (1.0, 0)):
        typed(tmp_path / "flat.pdf", (10.25, 7.25), (x, 3.0, "on the flood at seven"))
        found = told(suite_of(tmp_path, folded + BAND + ROUND))
        assert sum("edge runs through type" in each.message for each in found) == count


def test_a_band_at_the_narrow_part_of_a_card_is_told_and_how_wide_it_is_there(
    tmp_path: Path,
) -> None:
    """A round-topped card of 5 x 7: half a circle of 2.5 in over 4.5 in of straight sides. From 0.5
    in to 2 in of its top it is widest at 2 in: 2 x sqrt(2.5^2 - 0.5^2) (plane geometry)."""
    arch = CARDS.replace('"card.pdf"', '"card.pdf"\ndie = "round-arch"')
    high = 'wraps = { cards = ["invitation", "details"], at = 1.25 }\n'
    suite = suite_of(tmp_path, arch + BAND + high)
    (bundle,) = bound(suite)
    exact = 2 * math.sqrt(2.5**2 - 0.5**2)
    assert bundle.held_in(bundle.cards[0]) == pytest.approx(exact, abs=0.002)
    (found,) = told(suite)
    assert (
        "slips" in found.message
        and Settings().length(bundle.held_in(bundle.cards[0])) in found.message
    )
    assert told(suite_of(tmp_path, arch + BAND + high.replace("1.25", "5"))) == []


@pytest.mark.parametrize(
    ("holds", "severity", "said"),
    [
        ('"invitation", "belt"', "warning", "without details"),
        ('"invitation", "details"', "note", "not the band"),
        ('"invitation"', None, ""),
        ('"invitation", "details", "belt"', None, ""),
    ],
)
def test_a_band_and_what_it_goes_round_go_into_one_envelope(
    holds: str, severity: str | None, said: str, tmp_path: Path
) -> None:
    held = HELD.replace('"invitation", "details", "belt"', holds)
    found = told(suite_of(tmp_path, CARDS + BAND + ROUND + held))
    assert [each.severity.word for each in found] == ([severity] if severity else [])
    assert all(said in each.message for each in found)


def test_the_envelope_measures_the_cards_and_not_the_strip(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, CARDS + BAND + ROUND + HELD)
    found = check_enclosure(SuiteContext(suite, Settings()))
    assert not [each for each in found if "belt" in each.message]
    papers = {each.name: each for each in contents(suite, suite.envelopes[0]).papers}
    assert papers["belt"].layers == 3
    assert papers["belt"].area_in2 == pytest.approx(16.5)


def test_bound_cards_lie_as_one_stack_the_front_one_and_the_band_on_top(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, CARDS + BAND + ROUND + HELD)
    laid = compose(suite, read_scene("limewash", tmp_path), 4 / 3, 1).laid
    names = [each.placed.name for each in laid if isinstance(each, LaidPiece)]
    assert names == ["piece/details", "piece/invitation", "piece/belt"]
    front, band = (each for each in laid if each.placed.name in names[1:])
    assert isinstance(front, LaidPiece) and isinstance(band, LaidPiece)
    outlines = [
        Polygon([each.placed.to_table.point(p) for p in each.piece.die.shape.box.corners()])
        for each in (front, band)
    ]
    assert outlines[0].centroid.distance(outlines[1].centroid) < 1e-6
    assert {stand_in(suite, each) for each in ("belt", "details", "invitation")} == {"invitation"}


def test_apart_they_lie_loose_and_the_strip_does_not_lie_there(tmp_path: Path) -> None:
    apart = 'wraps = { cards = ["invitation", "details"], shown = "apart" }\n'
    suite = suite_of(tmp_path, CARDS + BAND + apart + HELD)
    laid = compose(suite, read_scene("limewash", tmp_path), 4 / 3, 1).laid
    names = {each.placed.name for each in laid}
    assert names == {"piece/details", "piece/invitation", "envelope/outer"}


def test_a_scene_that_fixes_a_bound_card_says_that_it_lies_with_another(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, CARDS + BAND + ROUND)
    scene = read_scene("limewash", tmp_path)
    fixed = replace(scene, width_in=20.0, places={"details": Place(at=(5.0, 5.0))})
    with pytest.raises(SuiteError, match='"details".*with another card'):
        compose(suite, fixed, 4 / 3, 1)


@given(st.floats(-180, 180))
def test_a_line_along_the_cut_shows_none_where_the_band_turns(angle_deg: float) -> None:
    """The long sides stay on their lines; the ends are past the picture (plane geometry)."""
    card = Piece("card", "Card", ART, card_size("4 x 6 in"), make_die("rectangle", 4, 6), STOCKS["smooth-120-white"], None, 0.125)  # fmt: skip
    strip = replace(card, name="band", die=make_die("rectangle", 9, 1.5), wraps=Wrap(("card",)))
    bundle, turned = Bound(strip, (card,)), rotation(angle_deg)
    front = seen_of(bundle).die.shape
    cut = cut_of(front.mapped(turned), turn_of(bundle, turned)).mapped(turned.inverse())
    assert (cut.box.top, cut.box.bottom) == pytest.approx((front.box.top, front.box.bottom))
    assert cut.box.width == pytest.approx(front.box.width + 2)


@given(st.floats(0.01, 0.05), st.floats(0.1, 0.9))
def test_a_turn_leans_outward_as_a_quarter_circle_does(radius_in: float, share: float) -> None:
    """Its normal's slope at a share of the radius is share / sqrt(1 - share^2) (plane geometry)."""
    turn = Turn(((Point(1, 1), Point(-1, 0)), (Point(3, 1), Point(1, 0))), radius_in)
    view = View(0.0, 0.0, 40000, 1, 10000.0)
    slopes = relief_of(turn, view, view).values[0][0]
    column = round((3 - radius_in * (1 - share)) * 10000)
    exact = ((column + 0.5) / 10000 - 3) / radius_in + 1
    assert slopes[column] == pytest.approx(exact / math.sqrt(1 - exact**2), rel=1e-2)
    assert slopes[20000] == 0
    assert slopes[10001] < 0 < slopes[29998]


def test_the_bands_turns_are_where_the_cards_end(tmp_path: Path) -> None:
    (found,) = bound(suite_of(tmp_path, CARDS + BAND + ROUND))
    assert isinstance(found, Bound)
    turn = turn_of(found, IDENTITY)
    (first, _), (last, _) = turn.ends
    assert last.x - first.x == pytest.approx(5 + 2 * found.caliper_in)


def test_a_flat_lay_shows_the_band_over_the_card(tmp_path: Path) -> None:
    suite_of(tmp_path, CARDS + BAND + ROUND)
    out = tmp_path / "out.png"
    lay_flatlay(FlatlayRequest(tmp_path / "suite.toml", out, 500, plain=True, cut_line=False))
    picture = read(out).astype(int)
    dark = (picture.max(axis=2) < 130).sum(axis=1)
    rows = dark.nonzero()[0]
    assert dark.max() > 60  # a bar from side to side of the card
    assert 0.15 < len(rows) / picture.shape[0] < 0.5


def test_a_band_goes_round_a_sheet_that_lies_on_the_front_card(tmp_path: Path) -> None:
    sheet = (
        '[pieces.veil]\nart = "card.pdf"\ncard = "A7"\nstock = "translucent-30-white"\nquantity = 9\n'
        'over = "invitation"\n'
    )
    suite = suite_of(tmp_path, CARDS + sheet + BAND + ROUND)
    laid = compose(suite, read_scene("limewash", tmp_path), 4 / 3, 1).laid
    assert [each.placed.name for each in laid] == [
        "piece/details",
        "piece/invitation",
        "piece/veil",
        "piece/belt",
    ]
    (with_it,), (without,) = bound(suite), bound(suite_of(tmp_path, CARDS + BAND + ROUND))
    thick_in = suite.piece("veil").stock.caliper_mil / 1000
    assert with_it.girth_in - without.girth_in == pytest.approx(2 * thick_in)
