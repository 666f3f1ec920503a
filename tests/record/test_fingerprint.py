"""Fingerprints: every single thing that is said of a piece changes its own, and nothing else does."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from dataclasses import fields, replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.artwork.art import Art, FinishSaid
from mockup.colour.press import Press
from mockup.colour.white_ink import WhiteInk
from mockup.dies import FAMILIES, Die, make_die
from mockup.envelopes.spec import EnvelopeSpec, envelope_spec
from mockup.geometry.point import Point
from mockup.reading.showing import for_client
from mockup.record.facts import Fact, envelope_facts, piece_facts
from mockup.record.fingerprint import (
    CROCKFORD,
    code_of,
    envelope_fingerprint,
    fingerprint_of,
    fingerprints,
    mark_of,
    piece_fingerprint,
)
from mockup.suite.outside import Lettering, Outside
from mockup.suite.reading import read_suite
from mockup.suite.suite import Cord, Edge, Envelope, Liner, Piece, Wrap
from mockup.trade.papers import STOCKS, Stock
from mockup.trade.sizes import card_size, envelope_size
from mockup.trade.swatch import Swatch
from tests.conftest import make_pdf

ART = Art(Path("reply.pdf"), 1, "a" * 64)
PIECE = Piece(
    "reply", "Reply card", ART, card_size("A7"), make_die("ticket-corner", 5, 7, {"radius": 0.5}),
    STOCKS["smooth-120-white"], 120, 0.125,
)  # fmt: skip
ENVELOPE = Envelope(
    "outer", "Outer envelope", envelope_size("A7"), envelope_spec(7.25, 5.25), STOCKS["text-80-white"],
    (34, 56, 90), "ink-blue", Liner(ART, STOCKS["text-70-white"]), ("reply", "details"), 130,
)  # fmt: skip
SWATCH = Swatch((95, 0, -2), (55, -36, -38), (47, 70, -3), (88, -4, 88), (18, 0, 0))
OWN = Press(Path("own.icc"), "the press asked for", "b" * 64)


def _die(piece: Piece, **other: object) -> Piece:
    return replace(piece, die=replace(piece.die, **other))  # type: ignore[arg-type]


def _stock(stock: Stock) -> dict[str, Stock]:
    """Returns stocks that differ from one by one thing each."""
    low, high = stock.caliper_range_mil
    return {
        "name": replace(stock, name="another"),
        "gsm": replace(stock, gsm=stock.gsm + 1),
        "caliper_mil": replace(stock, caliper_mil=stock.caliper_mil + 0.1),
        "caliper_range_mil": replace(stock, caliper_range_mil=(low, high + 0.1)),
        "colour_hex": replace(stock, colour_hex="#f5f4f1"),
        "grain": replace(stock, grain="laid"),
        "coated": replace(stock, coated=not stock.coated),
        "translucency": replace(stock, translucency=stock.translucency + 0.01),
        "swatch": replace(stock, swatch=SWATCH),
        "its black": replace(stock, swatch=replace(SWATCH, black=(17, 0, 0))),
    }


PIECES: dict[str, Piece] = {
    "art bytes": replace(PIECE, art=replace(ART, sha256="c" * 64)),
    "art page": replace(PIECE, art=replace(ART, page=2)),
    "left out": replace(PIECE, art=replace(ART, left_out=frozenset({3}))),
    "press": replace(PIECE, art=replace(ART, press=OWN)),
    "white": replace(PIECE, art=replace(ART, white=WhiteInk("under-art"))),
    "two hits of white": replace(PIECE, art=replace(ART, white=WhiteInk("under-art", 2))),
    "foil": replace(PIECE, finishes=("foil",)),
    "foil by a plate": replace(PIECE, art=replace(ART, finishing=(FinishSaid("foil", "Tide"),))),
    "its metal": replace(PIECE, art=replace(ART, finishing=(FinishSaid("foil", "Tide", "gold"),))),
    "foil by a page": replace(
        PIECE, art=replace(ART, finishing=(FinishSaid("foil", art=replace(ART, page=3)),))
    ),
    "that page's bytes": replace(
        PIECE, art=replace(ART, finishing=(FinishSaid("foil", art=replace(ART, sha256="e" * 64)),))
    ),
    "painted edge": replace(PIECE, edge=Edge((200, 80, 40))),
    "gilded edge": replace(PIECE, edge=Edge((200, 80, 40), "gold")),
    "torn": replace(PIECE, torn=("left",)),
    "round a card": replace(PIECE, wraps=Wrap(("invitation",))),
    "round two": replace(PIECE, wraps=Wrap(("invitation", "details"))),
    "round lower": replace(PIECE, wraps=Wrap(("invitation",), 5.0)),
    "cord": replace(PIECE, cord=Cord((176, 141, 87), 1 / 16)),
    "cord of another colour": replace(PIECE, cord=Cord((176, 141, 88), 1 / 16)),
    "thicker cord": replace(PIECE, cord=Cord((176, 141, 87), 1 / 12)),
    "round its height": replace(PIECE, wraps=Wrap(("invitation",), along="height")),
    "round, overlapping": replace(PIECE, wraps=Wrap(("invitation",), overlap_in=0.5)),
    "round, overlapping more": replace(PIECE, wraps=Wrap(("invitation",), overlap_in=0.75)),
    "over a card": replace(PIECE, over="invitation"),
    "over another": replace(PIECE, over="details"),
    "back": replace(PIECE, back=replace(ART, page=2)),
    "back of another file": replace(PIECE, back=replace(ART, sha256="d" * 64)),
    "foil and white": replace(PIECE, finishes=("foil", "white")),
    "width": replace(PIECE, card=replace(PIECE.card, width_in=5.001)),
    "height": replace(PIECE, card=replace(PIECE.card, height_in=7.001)),
    "bleed": replace(PIECE, bleed_in=0.126),
    "quantity": replace(PIECE, quantity=121),
    "no quantity": replace(PIECE, quantity=None),
    "family": replace(PIECE, die=make_die("lancet-arch", 5, 7)),
    "parameter": replace(PIECE, die=make_die("ticket-corner", 5, 7, {"radius": 0.501})),
    "formula": _die(PIECE, shape=make_die("ticket-corner", 5, 7, {"radius": 0.501}).shape),
    "template": _die(PIECE, template=Path("leaf.pdf"), template_sha256="d" * 64),
    "its bytes": _die(PIECE, template=Path("leaf.pdf"), template_sha256="e" * 64),
    **{f"stock {k}": replace(PIECE, stock=each) for k, each in _stock(PIECE.stock).items()},
}
SPEC = ENVELOPE.spec
LINES = Lettering(("The Tide Mill",))
LINED = Liner(ART, STOCKS["text-70-white"])
ENVELOPES: dict[str, Envelope] = {
    "colour": replace(ENVELOPE, colour=(35, 56, 90)),
    **{
        f"outside {name}": replace(ENVELOPE, outside=each) for name, each in {
            "face": Outside(face=ART), "flap": Outside(flap=ART),
            "face page": Outside(face=replace(ART, page=2)),
            "address": Outside(address=LINES), "sender": Outside(return_address=LINES),
            "other lines": Outside(address=replace(LINES, lines=("The Tide", "Mill"))),
            "type": Outside(address=replace(LINES, face="italic")),
            "align": Outside(address=replace(LINES, align="centre")),
            "size": Outside(address=replace(LINES, size_pt=12.0)),
            "place": Outside(address=replace(LINES, at=Point(1.0, 2.0))),
            "ink": Outside(address=replace(LINES, ink="white")),
            "colour": Outside(address=replace(LINES, ink=(34, 56, 90))),
            "hits": Outside(address=replace(LINES, hits=2)),
            "side": Outside(return_address=replace(LINES, side="flap")),
        }.items()
    },
    "no liner": replace(ENVELOPE, liner=None),
    "liner bytes": replace(ENVELOPE, liner=replace(LINED, art=replace(ART, sha256="c" * 64))),
    "liner page": replace(ENVELOPE, liner=replace(LINED, art=replace(ART, page=2))),
    "liner white": replace(
        ENVELOPE, liner=replace(LINED, art=replace(ART, white=WhiteInk("art-as-white")))
    ),
    "liner press": replace(ENVELOPE, liner=replace(LINED, art=replace(ART, press=OWN))),
    "holds": replace(ENVELOPE, holds=("reply",)),
    "quantity": replace(ENVELOPE, quantity=131),
    "flap": replace(ENVELOPE, spec=replace(SPEC, flap="straight")),
    "seam": replace(ENVELOPE, spec=replace(SPEC, seam="side")),
    **{
        each.name: replace(ENVELOPE, spec=replace(SPEC, **{each.name: getattr(SPEC, each.name) + 0.001}))
        for each in fields(SPEC)
        if each.name not in ("flap", "seam")
    },
    **{f"stock {k}": replace(ENVELOPE, stock=each) for k, each in _stock(ENVELOPE.stock).items()},
    **{
        f"liner stock {k}": replace(ENVELOPE, liner=replace(LINED, stock=each))
        for k, each in _stock(LINED.stock).items()
    },
}  # fmt: skip


@pytest.mark.parametrize("what", PIECES)
def test_each_thing_said_of_a_piece_changes_its_fingerprint(what: str) -> None:
    assert piece_fingerprint(PIECES[what]).digest != piece_fingerprint(PIECE).digest


@pytest.mark.parametrize("what", ENVELOPES)
def test_each_thing_said_of_an_envelope_changes_its_fingerprint(what: str) -> None:
    changed, plain = (envelope_fingerprint(each, 0.125) for each in (ENVELOPES[what], ENVELOPE))
    assert changed.digest != plain.digest


def test_no_two_of_these_changes_have_one_fingerprint() -> None:
    marks = {piece_fingerprint(each).digest for each in PIECES.values()}
    marks |= {envelope_fingerprint(each, 0.125).digest for each in ENVELOPES.values()}
    assert len(marks) == len(PIECES) + len(ENVELOPES)
    assert envelope_fingerprint(ENVELOPE, 0.126).digest not in marks


@pytest.mark.parametrize(
    "same",
    [
        replace(PIECE, name="rsvp", title="Please answer"),
        replace(PIECE, units="mm"),
        replace(PIECE, art=replace(ART, swatch=SWATCH)),  # its stock's, which has the fact
        replace(PIECE, card_told="taken as A7"),
        replace(PIECE, card=replace(PIECE.card, name="5 x 7", source="said so")),
        replace(PIECE, art=replace(ART, path=Path("/elsewhere/other name.pdf"))),
        _die(PIECE, because="it is red", others="the blue one"),
        replace(PIECE, stock=replace(PIECE.stock, about="fine", source="ours", colour_source="x")),
    ],
)
def test_names_words_and_units_change_nothing(same: Piece) -> None:
    assert piece_fingerprint(same).digest == piece_fingerprint(PIECE).digest


TEMPLATE = _die(PIECE, template=Path("leaf.pdf"), template_sha256="d" * 64, name="leaf")


def test_a_template_is_its_bytes_not_its_name() -> None:
    other = _die(TEMPLATE, template=Path("/home/leaf 2.pdf"), name="leaf 2")
    assert piece_fingerprint(other).digest == piece_fingerprint(TEMPLATE).digest


def test_finishes_have_no_order() -> None:
    one, other = (replace(PIECE, finishes=each) for each in (("foil", "white"), ("white", "foil")))
    assert piece_fingerprint(one).digest == piece_fingerprint(other).digest


def test_what_an_envelope_holds_has_no_order() -> None:
    turned = replace(ENVELOPE, holds=("details", "reply"), name="a", title="B", units="mm")
    turned = replace(turned, outside=Outside(shown="face"))
    named = replace(turned, colour_name="#22385a", size=replace(turned.size, name="7.25 x 5.25"))
    plain = envelope_fingerprint(ENVELOPE, 0.125).digest
    assert envelope_fingerprint(named, 0.125).digest == plain


_KNOWN: dict[type, set[str]] = {
    Piece: {"art", "card", "die", "stock", "quantity", "bleed_in", "finishes", "back", "fold"}
    | {"edge", "torn", "over", "wraps", "cord"}
    | {"name", "title", "units", "card_told", "side", "shown"},
    Envelope: {"size", "spec", "stock", "colour", "liner", "holds", "quantity", "outside"}
    | {"name", "title", "colour_name", "units", "drawn"},
    Outside: {"face", "flap", "address", "return_address"} | {"shown"},
    Lettering: {"lines", "face", "size_pt", "align", "at", "ink", "side", "hits"},
    Liner: {"art", "stock"},
    FinishSaid: {"finish", "plate", "metal", "art"},
    Edge: {"colour", "metal"},
    Art: {"path", "page", "sha256", "left_out", "press", "white", "finishing"} | {"swatch"},
    Stock: {"name", "caliper_mil", "caliper_range_mil", "gsm", "colour_hex", "grain", "translucency", "coated", "swatch"}
    | {"about", "source", "colour_source"},
    Die: {"name", "width_in", "height_in", "parameters", "shape", "template", "template_sha256"}
    | {"because", "others", "bleed", "bleed_in", "safe", "safe_in", "folds"},
}  # fmt: skip
"""What fingerprints know of: facts, then what is none (names and words, or of a template's bytes)."""


@pytest.mark.parametrize("kind", _KNOWN, ids=lambda kind: kind.__name__)
def test_a_field_that_is_new_is_a_fact_or_said_to_be_none(kind: type) -> None:
    """A field added elsewhere fails here: it belongs into `facts.py`, and into the table above."""
    assert {each.name for each in fields(kind)} == _KNOWN[kind]


@given(st.permutations(piece_facts(PIECE)))
def test_facts_have_no_order(facts: list[Fact]) -> None:
    assert fingerprint_of(facts).digest == piece_fingerprint(PIECE).digest


@given(st.integers(1, 5000).map(lambda steps: 0.2 + steps / 5000), st.integers(1, 200))
def test_any_change_of_a_length_is_seen(radius: float, ten_thousandths: int) -> None:
    """From a ten-thousandth of an inch on, a tenth of what a cutter holds."""
    one, other = (
        replace(PIECE, die=make_die("ticket-corner", 5, 7, {"radius": each}))
        for each in (radius, radius + ten_thousandths / 10_000)
    )
    assert piece_fingerprint(one).digest != piece_fingerprint(other).digest
    assert one.die.shape != other.die.shape


@given(st.text(), st.text(), st.text(), st.text())
def test_what_stands_in_one_fact_cannot_pass_for_another(a: str, b: str, c: str, d: str) -> None:
    one, other = fingerprint_of([Fact(a, b, "")]), fingerprint_of([Fact(c, d, "")])
    assert (one.digest == other.digest) == ((a, b) == (c, d))


@pytest.mark.parametrize("name", FAMILIES)
def test_every_parameter_of_every_family_is_told(name: str) -> None:
    die = make_die(name, 5, 5 if "circle" in name else 7)
    told = fingerprint_of(piece_facts(replace(PIECE, die=die))).told
    for key, _ in die.parameters:
        assert told[f"die {key.replace('_', ' ')}"]
    assert told["die"] == name.replace("-", " ")


def test_a_code_is_the_digests_first_forty_bits_in_letters_that_are_not_misread() -> None:
    """Crockford's alphabet, https://www.crockford.com/base32.html: 0 is 0, 31 is Z."""
    assert code_of("0" * 64) == "00000000" and code_of("f" * 64) == "ZZZZZZZZ"
    assert code_of("0000000001" + "0" * 54) == "00000001"
    assert code_of("8400000000" + "0" * 54) == "GG000000"  # 10000 10000 0...
    assert not set("ILOU") & set(CROCKFORD) and len(set(CROCKFORD)) == 32
    short = piece_fingerprint(PIECE).short
    assert len(short) == 9 and short[4] == "-" and set(short) <= {*CROCKFORD, "-"}


def test_facts_read_as_a_person_says_them() -> None:
    told = piece_fingerprint(PIECE).told
    assert told["size"] == "5 × 7 in" and told["die radius"] == "0.5 in"
    assert told["art"] == "reply.pdf" and told["stock"] == "smooth 120 white"
    metric = envelope_fingerprint(replace(ENVELOPE, units="mm"), 0.125).told
    assert metric["colour"] == "ink blue" and metric["size"] == "184.15 × 133.35 mm"
    assert metric["holds"] == "details, reply"


def _marks(suite: Path) -> dict[str, str]:
    return {each.name: each.fingerprint.digest for each in fingerprints(read_suite(suite))}


def test_a_suite_has_its_fingerprints_wherever_it_lies(demo_suite: Path, tmp_path: Path) -> None:
    plain = _marks(demo_suite)
    assert list(plain) == ["invitation", "details", "reply", "envelopes.outer", "envelopes.reply"]
    moved = tmp_path / "moved" / "a folder"
    shutil.copytree(tmp_path, moved, ignore=shutil.ignore_patterns("moved"))
    for file in moved.iterdir():
        os.utime(file, (1, 1))
    (moved / "reply.pdf").rename(moved / "answer.pdf")
    text = (moved / "suite.toml").read_text(encoding="utf-8").replace('"reply.pdf"', '"answer.pdf"')
    first, second = text.split("[pieces.details]")
    art, rest = second.split("[pieces.reply]")
    turned = f"{first}[pieces.reply]{rest}\n[pieces.details]{art}"  # its tables in another order
    (moved / "suite.toml").write_text(turned, encoding="utf-8")
    assert _marks(moved / "suite.toml") == plain
    items = fingerprints(read_suite(demo_suite))
    assert mark_of(items) == mark_of(fingerprints(read_suite(moved / "suite.toml")))


EDITS: dict[str, Callable[[str], str]] = {
    "invitation": lambda text: text.replace('die = "lancet-arch"', 'die = "round-arch"'),
    "details": lambda text: text.replace('card = "A2"', 'card = "4.25 x 5.25 in"'),
    "reply": lambda text: text.replace("radius = 0.5", "radius = 0.4"),
    "envelopes.outer": lambda text: text.replace('colour = "#22385a"', 'colour = "oat"'),
    "envelopes.reply": lambda text: text.replace('flap = "pointed"', 'flap = "straight"'),
}


@pytest.mark.parametrize("name", EDITS)
def test_an_edit_of_the_suite_changes_one_fingerprint(name: str, demo_suite: Path) -> None:
    before = _marks(demo_suite)
    text = demo_suite.read_text(encoding="utf-8")
    demo_suite.write_text(EDITS[name](text), encoding="utf-8")
    after = _marks(demo_suite)
    assert [each for each in before if before[each] != after[each]] == [name]


def test_one_byte_of_art_is_enough(demo_suite: Path) -> None:
    before = _marks(demo_suite)
    art = demo_suite.parent / "reply.pdf"
    art.write_bytes(art.read_bytes() + b"\n")
    after = _marks(demo_suite)
    assert [each for each in before if before[each] != after[each]] == ["reply"]


def test_of_a_template_the_pick_and_the_bytes_count(demo_suite: Path) -> None:
    """Two outlines of one size in one file: which is cut is in no number but the outline's."""
    make_pdf(demo_suite.parent / "dies.pdf", (12, 8), _two_dies())
    text = demo_suite.read_text(encoding="utf-8")
    marks: list[str] = []
    for pick in (1, 2):
        die = f'die = {{ file = "dies.pdf", pick = {pick} }}'
        demo_suite.write_text(text.replace('die = "lancet-arch"', die), encoding="utf-8")
        marks.append(_marks(demo_suite)["invitation"])
    assert marks[0] != marks[1]
    template = demo_suite.parent / "dies.pdf"
    template.write_bytes(template.read_bytes() + b"\n")
    assert _marks(demo_suite)["invitation"] != marks[1]


def _two_dies() -> str:
    """Returns two outlines of 5 x 7 in side by side: chamfers of 1/2 in, and of 3/4 in."""

    def chamfered(left: float, cut: float) -> str:
        right, low, high = left + 360, 36, 540
        corners = [
            (left + cut, low), (right - cut, low), (right, low + cut), (right, high - cut),
            (right - cut, high), (left + cut, high), (left, high - cut), (left, low + cut),
        ]  # fmt: skip
        steps = [f"{x} {y} {'l' if i else 'm'}" for i, (x, y) in enumerate(corners)]
        return " ".join([*steps, "h S"])

    return f"1 0 0 RG 0.5 w {chamfered(36, 36)} {chamfered(432, 54)}"


def test_the_studio_and_the_client_have_the_same_codes(tmp_path: Path) -> None:
    """A line left in the art is not shown to a client; a fingerprint is of what she sees."""
    make_pdf(
        tmp_path / "card.pdf", content="0.9 g -1 -1 400 600 re f 1 0 1 RG 0.5 w 9 9 360 504 re S"
    )
    said = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n'
    (tmp_path / "suite.toml").write_text(said)
    suite = read_suite(tmp_path / "suite.toml")
    (item,) = fingerprints(suite)
    assert item.fingerprint.told["art marks left out"] == "1"
    assert fingerprints(for_client(suite)) == (item,)
    accepted = '[[accept]]\ncheck = "left-in"\npiece = "card"\nreason = "a border"\n'
    (tmp_path / "suite.toml").write_text(said + accepted)
    (shown,) = fingerprints(read_suite(tmp_path / "suite.toml"))
    assert shown.fingerprint.digest != item.fingerprint.digest


def test_an_envelopes_facts_are_all_of_its_cut() -> None:
    names = {fact.name for fact in envelope_facts(ENVELOPE, 0.125)}
    for each in fields(EnvelopeSpec):
        if each.name not in ("width_in", "height_in"):
            assert each.name.removesuffix("_in").replace("_", " ") in names
    assert {"size", "liner", "liner bleed", "holds"} <= names
