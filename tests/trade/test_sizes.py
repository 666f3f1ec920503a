"""Card and envelope sizes against the trade's tables and the ISO sheets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.errors import SuiteError
from mockup.trade.sizes import (
    CARDS,
    ENVELOPES,
    card_size,
    envelope_size,
    fitting_envelopes,
    play,
    recognise_card,
)
from mockup.units import MM_PER_INCH


@pytest.mark.parametrize(
    ("text", "width_in", "height_in"),
    [
        ("A7", 5, 7),
        ("a7", 5, 7),
        (" Lee ", 5, 7),
        ("A1", 3.5, 4.875),
        ("4 bar", 3.5, 4.875),
        ("5-1/2 bar", 4.25, 5.5),
        ("A7.5", 5.25, 7.25),
        ("slim", 3.625, 8.625),
        ("Square 6", 6, 6),
        ("square-5.5", 5.5, 5.5),
        ("ISO A6", 105 / 25.4, 148 / 25.4),
        ("iso_a5", 148 / 25.4, 210 / 25.4),
        ("A5", 148 / 25.4, 210 / 25.4),
        ("DL", 99 / 25.4, 210 / 25.4),
    ],
)
def test_cards_by_name_common_practice_and_iso_216(text, width_in, height_in):
    card = card_size(text)
    assert (card.width_in, card.height_in) == pytest.approx((width_in, height_in))
    assert card.source


@pytest.mark.parametrize(
    ("text", "width_in", "height_in"),
    [
        ("A7", 7.25, 5.25),
        ("lee", 7.25, 5.25),
        ("no. 10", 9.5, 4.125),
        ("No 10", 9.5, 4.125),
        ("c6/c5", 229 / 25.4, 114 / 25.4),
        ("C5", 229 / 25.4, 162 / 25.4),
        ("square 6.5", 6.5, 6.5),
        ("5.25 x 7.25", 7.25, 5.25),
        ("162 x 114 mm", 162 / 25.4, 114 / 25.4),
    ],
)
def test_envelopes_lie_on_their_long_side(text, width_in, height_in):
    envelope = envelope_size(text)
    assert (envelope.width_in, envelope.height_in) == pytest.approx((width_in, height_in))


def test_a_size_keeps_its_orientation_and_finds_its_name():
    assert card_size("7 x 5 in") == card_size("7x5")
    assert card_size("7 x 5 in").name == "A7"
    assert card_size("7 x 5 in").width_in == 7
    assert card_size("127 x 178 mm").name == "A7"
    assert card_size("127 x 178 mm").height_in == pytest.approx(178 / 25.4)
    assert card_size("4 x 6.5 in").name == "4 × 6.5 in"
    assert envelope_size("5 x 7.5 in").nominal_card is None
    assert envelope_size("114 x 162 mm").name == "C6"


@pytest.mark.parametrize(
    ("text", "hint"),
    [("A77", '"a7"'), ("squar-6", '"square-6"'), ("0 x 5", "3 pt or more"), ("5 x", "5 x 7 in")],
)
def test_unknown_cards_get_one_line_with_the_nearest_name(text, hint):
    with pytest.raises(SuiteError, match=r"^[^\n]+$") as caught:
        card_size(text)
    assert hint in str(caught.value)


def test_unknown_envelopes_get_the_nearest_name():
    with pytest.raises(SuiteError, match='did you mean "c6"'):
        envelope_size("cc6")


@given(
    st.sampled_from(sorted(CARDS)),
    st.floats(-0.009, 0.009),
    st.floats(-0.009, 0.009),
    st.booleans(),
)
def test_every_card_is_recognised_either_way_round(key, dx, dy, landscape):
    card = CARDS[key]
    width, height = card.width_in + dx, card.height_in + dy
    found = (
        recognise_card(height, width, 0.01) if landscape else recognise_card(width, height, 0.01)
    )
    assert found is not None
    assert found.name == card.name
    if card.width_in != card.height_in:
        assert (found.width_in > found.height_in) == landscape


def test_a_size_off_by_more_than_the_tolerance_is_not_recognised():
    assert recognise_card(5.03, 7.0, 0.02) is None
    # With 1/8 in bleed a 5 x 7 page is 5.25 x 7.25: as large as an A7 envelope, so named A7.5.
    card = recognise_card(5.25, 7.25, 0.01)
    assert card is not None
    assert card.name == "A7.5"


@pytest.mark.parametrize(
    ("card", "envelope", "play_width", "play_height"),
    [
        # Trade table (announcement envelopes and their cards), common practice.
        ("4-bar", "4-bar", 0.25, 0.125),
        ("A2", "A2", 0.25, 0.125),
        ("A6", "A6", 0.25, 0.25),
        ("A7", "A7", 0.25, 0.25),
        ("A7.5", "A7.5", 0.25, 0.25),
        ("A8", "A8", 0.25, 0.25),
        ("A9", "A9", 0.25, 0.25),
        ("A10", "A10", 0.25, 0.25),
        ("slim", "slim", 0.25, 0.25),
        ("square-6", "square-6.5", 0.5, 0.5),
        # ISO 216 in ISO 269, differences of the two standards' millimetres.
        ("ISO A6", "C6", 14 / MM_PER_INCH, 9 / MM_PER_INCH),
        ("ISO A5", "C5", 19 / MM_PER_INCH, 14 / MM_PER_INCH),
        ("ISO A7", "C7", 9 / MM_PER_INCH, 7 / MM_PER_INCH),
        ("DL", "DL", 10 / MM_PER_INCH, 11 / MM_PER_INCH),
    ],
)
def test_every_card_goes_first_into_the_envelope_made_for_it(
    card, envelope, play_width, play_height
):
    size = card_size(card)
    best = fitting_envelopes(size.width_in, size.height_in)[0]
    assert best.name == envelope
    assert play(best, size.width_in, size.height_in) == pytest.approx((play_width, play_height))


@given(st.floats(2, 10), st.floats(2, 10), st.floats(0, 0.2))
def test_what_fits_has_room_and_does_not_travel(width, height, thickness):
    # Royal Mail customer guide 12.3: at most 30 mm, 20 mm when thicker than 2 mm.
    loose_mm = 30 if thickness <= 2 / MM_PER_INCH else 20
    for envelope in fitting_envelopes(width, height, thickness):
        margins = play(envelope, width, height, thickness)
        assert min(margins) >= 0.125 - 1e-9
        assert max(margins) <= loose_mm / MM_PER_INCH + 1e-9


def test_a_thick_stack_goes_one_envelope_up():
    # 5 x 7 with 0.2 in of stack is 5.2 x 7.2 to the envelope: the A7's 1/4 in is gone.
    names = [envelope.name for envelope in fitting_envelopes(5, 7, 0.2)]
    assert "A7" not in names
    assert names[0] == "A7.5"


def test_nothing_fits_a_poster():
    assert fitting_envelopes(18, 24) == []


def test_every_nominal_card_is_in_the_table_and_slides_in():
    for envelope in ENVELOPES.values():
        if envelope.nominal_card is not None:
            card = card_size(envelope.nominal_card)
            assert min(play(envelope, card.width_in, card.height_in)) >= 0.125
