"""The words and rings of what changed: to the client in words, to the studio with numbers."""

from __future__ import annotations

import io

import numpy as np
import pypdfium2 as pdfium
import pytest

from mockup.comparing.comparison import Comparison
from mockup.comparing.kinds import Kind
from mockup.comparing.places import Place
from mockup.comparing.wording import Reworded
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.change_words import NOTHING_SEEN, SAME_LOOK, change_lines, place_words
from mockup.output.proof.ground import Ground
from mockup.output.proof.lens import plan_lens, plan_upright_lens
from mockup.output.proof.pair import beside, edged, larger_pair, on_white, stacked
from mockup.output.proof.rings import AROUND_IN, NUMBER_IN, draw_rings, number_place, ring
from mockup.suite.audience import Audience

CLIENT, STUDIO = Audience.CLIENT, Audience.STUDIO
DOT = Place(Box(1, 1, 1.04, 1.05), Kind.VANISHED, Point(0, 0), 60)


def test_a_client_reads_no_numbers_of_a_shape_or_colour_and_a_studio_all() -> None:
    facts = (
        "die radius changed from 0.5 in to 0.4 in",
        "colour changed from #8fa09c to oat",
        "art changed, from a.pdf to b.pdf",
    )
    assert change_lines(CLIENT, facts, None, "in") == (
        "Its shape changed a little.",
        "Colour changed from grey-teal to oat.",
    )
    assert change_lines(STUDIO, facts, None, "in")[0] == "Die radius changed from 0.5 in to 0.4 in."


def test_what_is_only_saved_again_says_so() -> None:
    assert change_lines(CLIENT, ("art changed",), Comparison(), "in") == (SAME_LOOK,)
    assert change_lines(CLIENT, ("bleed changed from 0 in to 0.125 in",), None, "in") == (
        NOTHING_SEEN,
    )


def test_what_happened_to_all_of_it_is_told_before_the_places() -> None:
    how = Comparison((DOT,), scaled=1.01, moved_in=Point(0.02, -0.001))
    assert change_lines(CLIENT, (), how, "in") == (
        "All of it is a little larger.",
        "All of it is moved to the right.",
        "Besides, 1 place ringed.",
    )
    assert change_lines(STUDIO, (), how, "in")[:2] == (
        "All of it 1.0 % larger.",
        "All of it moved 0.02 in to the right and 0.001 in up.",
    )


def test_a_place_is_told_by_what_happened() -> None:
    moved = Place(DOT.box, Kind.MOVED, Point(0, 0.05), 60)
    assert place_words(CLIENT, DOT, "in") == "Gone"
    assert place_words(CLIENT, moved, "in") == "Moved down"
    assert place_words(STUDIO, moved, "mm") == "Moved 1.27 mm down"


def test_words_that_were_read_are_told_in_place_of_what_is_seen() -> None:
    hour = Reworded("7 o\u2019clock", "8 o\u2019clock")
    changed = Place(DOT.box, Kind.CHANGED, Point(0, 0), 60)
    moved = Place(DOT.box, Kind.MOVED, Point(0, 0.05), 60)
    said = "\u201c7 o\u2019clock\u201d became \u201c8 o\u2019clock\u201d"
    assert place_words(CLIENT, changed, "in", (hour,)) == said
    assert place_words(STUDIO, changed, "in", (hour,)) == said
    assert place_words(CLIENT, moved, "in", (hour,)) == f"{said}; the rest moved down"
    assert (
        place_words(CLIENT, changed, "in", (Reworded("", "at noon"),)) == "New: \u201cat noon\u201d"
    )
    assert (
        place_words(CLIENT, DOT, "in", (Reworded("R.s.v.p.", ""),)) == "Gone: \u201cR.s.v.p.\u201d"
    )


def test_of_many_words_at_a_place_two_are_told_and_the_others_counted() -> None:
    changed = Place(DOT.box, Kind.CHANGED, Point(0, 0), 60)
    said = [Reworded(f"a{k}", f"b{k}") for k in range(5)]
    told = place_words(CLIENT, changed, "in", said)
    assert (
        told
        == "\u201ca0\u201d became \u201cb0\u201d; \u201ca1\u201d became \u201cb1\u201d; and 3 more"
    )


def test_long_words_are_shortened_and_not_told_where_that_leaves_no_difference() -> None:
    changed = Place(DOT.box, Kind.CHANGED, Point(0, 0), 60)
    told = place_words(CLIENT, changed, "in", (Reworded("a" * 10_000, "b" * 10_000),))
    assert len(told) < 100 and told.count("\u2026") == 2
    assert (
        place_words(CLIENT, changed, "in", (Reworded("a" * 99 + "b", "a" * 99 + "c"),)) == "Changed"
    )


def test_words_our_type_cannot_be_set_with_are_not_told() -> None:
    changed = Place(DOT.box, Kind.CHANGED, Point(0, 0), 60)
    for word in ("\u6c34\u8eca", "\u05e9\u05dc\u05d5\u05dd", "ab\x07", "ab\u202e"):
        assert place_words(CLIENT, changed, "in", (Reworded("mill", word),)) == "Changed"


@pytest.mark.parametrize("box", [Box(1, 1, 1.02, 1.02), Box(1, 1, 3, 1.1), Box(1, 1, 4, 5)])
def test_a_ring_lies_wholly_outside_what_it_rings(box: Box) -> None:
    around = ring(box).box
    assert around == pytest.approx(box.grown(AROUND_IN))
    for outline in ring(box).outlines:
        for segment in outline.segments:
            x, y = segment.start
            assert not (box.left <= x <= box.right and box.top <= y <= box.bottom)


@pytest.mark.parametrize("value", [255, 120, 20])
def test_rings_leave_the_pixels_of_what_changed_as_they_were(value: int) -> None:
    boxes = [Box(1, 1, 1.05, 1.05), Box(1.2, 1, 1.25, 1.05), Box(0.5, 2, 2.5, 2.2)]
    file = io.BytesIO()
    pdf = Pdf(file, "", "", "")
    pdf.begin_page(3, 3, "rings")
    paper = Ground(np.full((30, 30, 3), value, np.uint8), Point(0, 0), 10)
    draw_rings(pdf, boxes, Box(0, 0, 3, 3), paper)
    pdf.save()
    drawn = np.asarray(pdfium.PdfDocument(file)[0].render(scale=300 / 72).to_pil())
    for box in boxes:
        rows = slice(round(box.top * 300), round(box.bottom * 300))
        columns = slice(round(box.left * 300), round(box.right * 300))
        assert (drawn[rows, columns] == 255).all()
    assert (drawn < 200).any()


def test_a_number_stands_where_it_hides_nothing_of_the_picture() -> None:
    picture = np.full((660, 660, 3), 240, np.uint8)  # 3 in at 220 pixels an inch
    picture[210:230, 240:600] = 0  # a line of type goes on to the right of what changed
    drawn = Ground(picture, Point(0.5, 0.5), 220).drawn_share
    box, room = Box(1.5, 1.45, 1.6, 1.55), Box(0.5, 0.5, 3.5, 3.5)
    at = number_place(box, [box], room, drawn)
    assert drawn(Box(*at, *at).grown(NUMBER_IN)) == 0
    usual = number_place(box, [box], room, lambda _: 0.0)
    assert usual.x > box.right and drawn(Box(*usual, *usual).grown(NUMBER_IN)) > 0.1


def test_of_places_that_all_hide_something_the_one_that_hides_least_is_taken() -> None:
    box, room = Box(1, 1, 1.2, 1.2), Box(0, 0, 3, 3)
    at = number_place(box, [box], room, lambda under: 0.5 if under.centre.x > 1 else 0.1)
    assert at.x < 1
    assert number_place(Box(0, 0, 3, 3), [], room, lambda _: 0.5)  # no room at all


def test_a_number_may_stand_beside_the_picture() -> None:
    ground = Ground(np.zeros((220, 220, 3), np.uint8), Point(0, 0), 220)
    assert ground.drawn_share(Box(2, 2, 3, 3)) == 0
    assert ground.drawn_share(Box(0.9, 0, 1.9, 1)) == 0
    assert ground.colour(Box(2, 2, 3, 3)) == (255, 255, 255)
    assert ground.colour(Box(0.9, 0, 1.9, 1)) == (0, 0, 0)


@pytest.mark.parametrize(("value", "cased"), [(240, False), (20, True), (120, True)])
def test_a_ring_has_a_casing_on_dark_ground_alone(value: int, cased: bool) -> None:
    """On pale paper it would hide the letters beside what changed."""
    file = io.BytesIO()
    pdf = Pdf(file, "", "", "")
    pdf.begin_page(3, 3, "rings")
    ground = Ground(np.full((30, 30, 3), value, np.uint8), Point(0, 0), 10)
    pdf.picture(ground.picture, Box(0, 0, 3, 3))
    draw_rings(pdf, [Box(1, 1, 2, 1.5)], Box(0, 0, 3, 3), ground)
    pdf.save()
    drawn = np.asarray(pdfium.PdfDocument(file)[0].render(scale=300 / 72).to_pil())
    side = drawn[375, 270:300].astype(int)  # across the ring's left side
    assert (side.min(axis=1) > 250).any() == cased


def test_a_comma_is_shown_four_times_its_size_and_a_page_is_not() -> None:
    lens = plan_lens(1, "Changed", Box(2, 2, 2.04, 2.05), 3.6, 7.5, 0.7)
    assert lens is not None
    assert lens.across_in == pytest.approx(3.6)
    assert lens.width_in / lens.shown.width == pytest.approx(4)
    assert lens.shown.centre == pytest.approx(Box(2, 2, 2.04, 2.05).centre)
    wide = plan_lens(1, "Changed", Box(1, 2, 3.2, 2.1), 3.6, 7.5, 0.7)
    assert wide is not None and wide.across_in == pytest.approx(7.5)
    assert plan_lens(1, "Changed", Box(0, 0, 5, 7), 3.6, 7.5, 0.7) is None


def test_beside_pictures_a_lens_stands_upright_as_wide_as_its_column() -> None:
    lens = plan_upright_lens(1, "Changed", Box(1, 2, 2.4, 2.1), 2.6, 0.6)
    assert lens is not None
    assert (lens.second.x, lens.width_in) == (0, 2.6)
    assert lens.second.y > lens.high_in
    assert plan_upright_lens(1, "Changed", Box(0, 0, 5, 7), 2.6, 0.6) is None
    told = plan_upright_lens(1, "Changed, and told at some length", Box(1, 2, 2.4, 2.1), 1.8, 0.6)
    assert told is not None and len(told.lines) > 1 and told.caption_in > lens.caption_in


def test_white_paper_has_an_edge_that_is_seen() -> None:
    cut = np.zeros((40, 40, 4), np.uint8)
    cut[5:35, 5:35] = 255
    assert (on_white(cut) == 255).all()
    assert (edged(cut)[5, 5:35] < 255).all()
    assert (edged(cut)[10:30, 10:30] == 255).all()


@pytest.mark.parametrize("size", [(7.0, 5.0), (9.25, 4.0), (4.875, 3.5), (6.0, 6.0)])
def test_landscape_pictures_stand_one_above_the_other_and_are_larger_so(
    size: tuple[float, float],
) -> None:
    """Plane geometry: two of w by h in a column take w and 2h, in a row 2w and h."""
    pair = larger_pair([size, size], 7.5, 8.0)
    assert pair.second.x == 0
    assert pair.second.y > size[1] * pair.scale
    assert pair.scale > beside([size, size], 7.5, 8.0).scale
    assert size[0] * pair.scale <= 7.5 and pair.high_in <= 8.0 + 1e-9


@pytest.mark.parametrize("size", [(5.0, 7.0), (4.0, 9.25), (3.5, 4.875)])
def test_upright_pictures_stand_side_by_side(size: tuple[float, float]) -> None:
    pair = larger_pair([size, size], 7.5, 8.0)
    assert pair.second.y == 0
    assert pair.scale > stacked([size, size], 7.5, 8.0).scale


def test_pictures_at_true_size_either_way_stand_side_by_side() -> None:
    small = larger_pair([(2.0, 1.0), (2.0, 1.0)], 7.5, 8.0)
    assert (small.second.y, small.scale) == (0, 1)


def test_what_is_hardly_larger_is_no_reason_to_stand_one_above_the_other() -> None:
    assert larger_pair([(3.5, 2.0)] * 2, 7.5, 8.0).second.y == 0


def test_a_low_room_puts_landscape_pictures_side_by_side() -> None:
    assert larger_pair([(7.0, 5.0)] * 2, 7.5, 3.0).second.y == 0


def test_one_picture_alone_leaves_room_for_its_fellow() -> None:
    assert larger_pair([(7.0, 5.0)], 7.5, 8.0) == beside([(7.0, 5.0)], 7.5, 8.0)


def test_two_sizes_are_drawn_at_one_scale_and_the_second_clears_the_first() -> None:
    pair = larger_pair([(7.0, 5.0), (6.0, 4.0)], 7.5, 8.0)
    assert pair.second.y >= 5 * pair.scale
    assert pair.high_in > pair.second.y + 4 * pair.scale
