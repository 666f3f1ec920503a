"""White ink and finishes in a suite file: what is read, and every mistake with its key."""

from pathlib import Path

import pytest

from mockup.colour.white_ink import WhiteInk
from mockup.errors import SuiteError
from mockup.suite.reading import read_suite
from mockup.suite.suite import Piece

AFTER = 'title = "Details card"'


def with_line(suite: Path, line: str) -> Path:
    suite.write_text(suite.read_text().replace(AFTER, f"{AFTER}\n{line}"))
    return suite


def details(suite: Path, line: str) -> Piece:
    return read_suite(with_line(suite, line)).piece("details")


@pytest.mark.parametrize(
    ("line", "white", "finishes"),
    [
        ("", WhiteInk("plate", 1), ()),
        ('white = "plate"', WhiteInk("plate", 1), ("white",)),
        ('white = "under-art"', WhiteInk("under-art", 1), ("white",)),
        ('white = "art-as-white"', WhiteInk("art-as-white", 1), ("white",)),
        ('white = { from = "under-art", hits = 2 }', WhiteInk("under-art", 2), ("white",)),
        ("white = { hits = 2 }", WhiteInk("plate", 2), ("white",)),
        ('finish = ["white"]', WhiteInk("plate", 1), ("white",)),
        ('finish = ["emboss", "foil"]', WhiteInk("plate", 1), ("foil", "emboss")),
        ('white = "plate"\nfinish = ["varnish"]', WhiteInk("plate", 1), ("white", "varnish")),
    ],
)
def test_what_is_said_is_read(
    demo_suite: Path, line: str, white: WhiteInk, finishes: tuple[str, ...]
) -> None:
    piece = details(demo_suite, line)
    assert piece.art.white == white
    assert piece.finishes == finishes


def test_a_liner_has_white_too(demo_suite: Path) -> None:
    text = demo_suite.read_text()
    text = text.replace('liner = "liner.pdf"', 'liner = { art = "liner.pdf", white = "under-art" }')
    demo_suite.write_text(text)
    liner = read_suite(demo_suite).envelopes[0].liner
    assert liner is not None
    assert liner.art.white == WhiteInk("under-art", 1)


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('white = "everywhere"', "pieces.details.white"),
        ("white = 2", "pieces.details.white"),
        ('white = { from = "nowhere" }', "pieces.details.white.from"),
        ("white = { hits = 3 }", "pieces.details.white.hits"),
        ("white = { hit = 1 }", "pieces.details.white.hit"),
        ('finish = ["glitter"]', "pieces.details.finish.1"),
        ('finish = "foil"', "pieces.details.finish"),
    ],
)
def test_a_mistake_is_told_with_its_key(demo_suite: Path, line: str, key: str) -> None:
    with pytest.raises(SuiteError) as caught:
        details(demo_suite, line)
    told = {each.key: each.sentence for each in caught.value.mistakes}
    assert list(told) == [key], told
    assert "\n" not in told[key]
