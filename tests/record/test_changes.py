"""What changed, in words a client and a printer understand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.dies import make_die
from mockup.envelopes.spec import envelope_spec
from mockup.record.changes import changed, changed_items
from mockup.record.facts import envelope_facts, piece_facts
from mockup.suite.suite import Envelope, Piece
from mockup.trade.papers import STOCKS
from mockup.trade.sizes import card_size
from tests.record.made import item
from tests.record.test_fingerprint import ART, ENVELOPE, ENVELOPES, LINED, PIECE, PIECES, _die

ARCH = make_die("lancet-arch", 5, 7)
SQUARE = replace(
    PIECE, card=card_size("square-5"), die=make_die("ticket-corner", 5, 5, {"radius": 0.5})
)
TEMPLATE = _die(PIECE, template=PIECE.art.path.with_name("leaf.pdf"), template_sha256="d" * 64)
PIECE_WORDS: list[tuple[Piece, tuple[str, ...]]] = [
    (PIECE, ()),
    (PIECES["art bytes"], ("art changed",)),
    (PIECES["art page"], ("art page changed from 1 to 2",)),
    (
        replace(PIECE, art=replace(ART, sha256="c" * 64, path=ART.path.with_name("new.pdf"))),
        ("art changed, from reply.pdf to new.pdf",),
    ),
    (PIECES["left out"], ("art marks left out added: 1",)),
    (PIECES["press"], ("art press added: own.icc",)),
    (replace(PIECE, die=ARCH), ("die changed from ticket corner to lancet arch",)),
    (PIECES["parameter"], ("die radius changed from 0.5 in to 0.501 in",)),
    (PIECES["formula"], ("die drawn with another outline",)),
    (TEMPLATE, ("die changed from ticket corner to template leaf.pdf",)),
    (SQUARE, ("size changed from 5 × 7 in to 5 × 5 in",)),
    (replace(PIECE, quantity=140), ("quantity changed from 120 to 140",)),
    (PIECES["no quantity"], ("quantity taken away: 120",)),
    (PIECES["bleed"], ("bleed changed from 0.125 in to 0.126 in",)),
    (
        replace(PIECE, stock=STOCKS["cotton-110-white"], quantity=140),
        ("stock changed from smooth 120 white to cotton 110 white", "quantity changed from 120 to 140"),
    ),
    (PIECES["stock coated"], ("stock coated added",)),
    (PIECES["stock colour_hex"], ("stock colour changed from #f5f4f0 to #f5f4f1",)),
]  # fmt: skip


@pytest.mark.parametrize(("after", "words"), PIECE_WORDS, ids=lambda each: str(each)[:40])
def test_what_changed_of_a_piece(after: Piece, words: tuple[str, ...]) -> None:
    assert changed(piece_facts(PIECE), piece_facts(after)) == words


OAT = replace(ENVELOPE, colour=(227, 215, 192), colour_name="oat")
DEEP = replace(ENVELOPE, spec=envelope_spec(7.25, 5.25, "deep-pointed"))
ENVELOPE_WORDS: list[tuple[Envelope, tuple[str, ...]]] = [
    (OAT, ("colour changed from ink blue to oat",)),
    (
        DEEP,
        ("flap changed from pointed to deep pointed", "with it flap depth"),
    ),
    (ENVELOPES["throat_in"], ("throat changed from 1 in to 1.001 in",)),
    (ENVELOPES["holds"], ("holds changed from details, reply to reply",)),
    (ENVELOPES["no liner"], ("liner taken away: reply.pdf",)),
    (ENVELOPES["liner bytes"], ("liner changed",)),
    (
        replace(ENVELOPE, liner=replace(LINED, stock=STOCKS["text-80-white"])),
        ("liner stock changed from text 70 white to text 80 white",),
    ),
]


@pytest.mark.parametrize(("after", "words"), ENVELOPE_WORDS, ids=lambda each: str(each)[:40])
def test_what_changed_of_an_envelope(after: Envelope, words: tuple[str, ...]) -> None:
    told = changed(envelope_facts(ENVELOPE, 0.125), envelope_facts(after, 0.125))
    assert told == words


def test_a_liner_that_is_new_is_told_once() -> None:
    bare = envelope_facts(replace(ENVELOPE, liner=None), 0.125)
    assert changed(bare, envelope_facts(ENVELOPE, 0.125)) == ("liner added: reply.pdf",)


def test_another_size_takes_its_measures_with_it() -> None:
    larger = replace(ENVELOPE, spec=envelope_spec(7.5, 5.5))
    told = changed(envelope_facts(ENVELOPE, 0.125), envelope_facts(larger, 0.125))
    assert told[0] == "size changed from 7.25 × 5.25 in to 7.5 × 5.5 in"
    assert told[1].startswith("with it flap depth, throat, ") and len(told) == 2


def test_a_difference_too_small_for_words_is_told_by_its_figures() -> None:
    finer = replace(PIECE, bleed_in=0.125004)
    words = changed(piece_facts(PIECE), piece_facts(finer))
    assert words == ("bleed changed from 0.125 to 0.125004",)


def test_pieces_added_renamed_and_taken_away() -> None:
    before = [item("card"), item("reply", quantity="1"), item("map", quantity="9")]
    after = [item("card", quantity="2"), item("rsvp", quantity="1"), item("menu")]
    told = [(each.name, each.words) for each in changed_items(before, after)]
    assert told == [
        ("card", ("quantity added: 2",)),
        ("rsvp", ("renamed from reply, else unchanged",)),
        ("menu", ("added",)),
        ("map", ("taken away",)),
    ]


@given(st.sampled_from([*PIECES.values()]), st.sampled_from([*PIECES.values()]))
def test_words_are_said_of_every_change_and_of_nothing_else(one: Piece, other: Piece) -> None:
    before, after = piece_facts(one), piece_facts(other)
    assert bool(changed(before, after)) == (one is not other)
    assert changed(before, before) == ()
