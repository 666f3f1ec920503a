"""`mockup start` on pages of either trade: units, names, envelopes, and liners told with their size."""

import json
from pathlib import Path

import pytest

from mockup.envelopes.liner import liner_shape
from mockup.envelopes.spec import FLAPS, envelope_spec
from mockup.suite.reading import read_suite
from mockup.trade.sizes import ENVELOPES, envelope_size
from tests.conftest import make_pdf
from tests.mockup_command import mockup

MM = 1 / 25.4


def begun(folder: Path, *words: str) -> tuple[str, str]:
    """What `start` wrote of a folder's art, and what it said."""
    answer = mockup("start", folder / "art", "-o", folder / "suite.toml", *words)
    assert answer.returncode == 0, answer.stderr
    return (folder / "suite.toml").read_text(encoding="utf-8"), answer.stdout


def art(folder: Path, **pages: tuple[float, float]) -> Path:
    (folder / "art").mkdir(exist_ok=True)
    for name, (wide, high) in pages.items():
        make_pdf(folder / "art" / f"{name}.pdf", (wide, high))
    return folder


def mm(wide: float, high: float) -> tuple[float, float]:
    return wide * MM, high * MM


def laid(folder: Path) -> None:
    """The suite's own flat-lay is taken."""
    out = folder / "flat.png"
    answer = mockup("flatlay", folder / "suite.toml", "-o", out, "--width", "300", "--plain")
    assert answer.returncode == 0, answer.stderr


def test_metric_pages_begin_a_metric_suite(tmp_path: Path) -> None:
    """ISO 216: A5 148 x 210, A6 105 x 148 mm; ISO 269: C5 162 x 229, C6 114 x 162 mm."""
    text, said = begun(art(tmp_path, invitation=mm(154, 216), reply=mm(111, 154)))
    for words in ('units = "mm"', "bleed = 3\n", 'card = "ISO A5"  # 148 × 210 mm', 'paper = "a4"'):
        assert words in text, words
    assert 'size = "C5"  # 229 × 162 mm' in text and 'size = "C6"  # 162 × 114 mm' in text
    assert "ISO A6 (105 × 148 mm), the page is that card and 3 mm bleed" in said
    suite = read_suite(tmp_path / "suite.toml")
    assert (suite.units, suite.paper) == ("mm", "a4")
    assert suite.piece("reply").die.height_in == pytest.approx(148 * MM)
    laid(tmp_path)


def test_a_page_without_a_name_is_taken_with_three_millimetres(tmp_path: Path) -> None:
    text, _ = begun(art(tmp_path, menu=mm(116, 206)))
    assert 'card = "110 x 200"' in text and "bleed = 3\n" in text


def test_the_outer_envelope_holds_the_replys(tmp_path: Path) -> None:
    """Two A6 cards: a C6, 114 x 162 mm, goes in a B6, 125 x 176 mm (ISO 269), not in a C6."""
    text, _ = begun(art(tmp_path, card=mm(111, 154), reply=mm(111, 154)))
    assert [envelope.size.name for envelope in read_suite(tmp_path / "suite.toml").envelopes] == [
        "B6",
        "C6",
    ]
    assert "it holds the reply's envelope" in text


def test_an_american_card_with_three_millimetres_keeps_its_size(tmp_path: Path) -> None:
    """5 x 7 in is an A7 in America; ISO's A7 is 74 x 105 mm."""
    text, _ = begun(art(tmp_path, card=mm(133, 183.8)))
    assert 'card = "American A7"  # 127 × 177.8 mm' in text
    assert 'size = "American A7"  # 184.15 × 133.35 mm' in text
    assert read_suite(tmp_path / "suite.toml").piece("card").die.width_in == 5


def test_american_pages_begin_a_suite_in_inches(tmp_path: Path) -> None:
    text, said = begun(art(tmp_path, card=(5.25, 7.25), extra=mm(111, 154), reply=(5.125, 3.75)))
    assert "units" not in text and 'paper = "letter"' in text and 'size = "A7"' in text
    assert "millimetres" not in said
    text, said = begun(tmp_path, "--replace", "--units", "mm", "--json")
    assert 'units = "mm"' in text and json.loads(said)["units"] == "mm"
    laid(tmp_path)


@pytest.mark.parametrize(
    ("units", "page", "name", "size"),
    [
        ("in", mm(111, 154), "ISO A6", (105 * MM, 148 * MM)),
        ("in", (4.75, 6.5), "A6", (4.5, 6.25)),
        ("mm", mm(111, 154), "ISO A6", (105 * MM, 148 * MM)),
        ("mm", (4.75, 6.5), "A6", (4.5, 6.25)),
        ("in", mm(80, 111), "ISO A7", (74 * MM, 105 * MM)),
    ],
)
def test_the_page_decides_what_a6_means_and_it_is_told(tmp_path, units, page, name, size) -> None:
    make_pdf(tmp_path / "a.pdf", page)
    card = name.removeprefix("ISO ")
    (tmp_path / "suite.toml").write_text(
        f'title = "T"\nunits = "{units}"\n[pieces.card]\nart = "a.pdf"\ncard = "{card}"\n'
    )
    piece = read_suite(tmp_path / "suite.toml").piece("card")
    assert (piece.die.width_in, piece.die.height_in) == pytest.approx(size)
    is_told = name.startswith("ISO") or units == "mm"
    assert (f'"{card}" is taken as {name}' in piece.card_told) == is_told
    if not (units == "in" and card == "A6"):
        return
    out = tmp_path / "flat.png"
    answer = mockup("flatlay", tmp_path / "suite.toml", "-o", out, "--width", "300", "--plain")
    assert (f'"{card}" is taken as {name}, ' in answer.stdout) == is_told
    checked = mockup("check", tmp_path / "suite.toml", "--run", "1", "--json")
    told = [row["message"] for row in json.loads(checked.stdout)["findings"]]
    assert any("is taken as" in each for each in told) == is_told


def test_a_name_in_full_is_never_guessed(tmp_path: Path) -> None:
    make_pdf(tmp_path / "a.pdf", mm(111, 154))
    for name in ("American A6", "A6"):
        (tmp_path / "suite.toml").write_text(
            f'title = "T"\n[pieces.card]\nart = "a.pdf"\ncard = "{name} landscape"\n'
        )
        piece = read_suite(tmp_path / "suite.toml").piece("card")
        assert bool(piece.card_told) == (name == "A6")
    assert piece.die.width_in == pytest.approx(148 * MM)


@pytest.mark.parametrize("flap", FLAPS)
@pytest.mark.parametrize("bleed", [0.0, 0.125])
def test_a_liner_finds_the_flap_it_was_made_for(tmp_path: Path, flap: str, bleed: float) -> None:
    size = envelope_size("A7")
    box = liner_shape(envelope_spec(size.width_in, size.height_in, flap)).box
    pages = {"card": (5.25, 7.25), "liner": (box.width + 2 * bleed, box.height + 2 * bleed)}
    text, _ = begun(art(tmp_path, **pages))
    assert f'flap = "{flap}"' in text and "\nliner = {" in text
    if flap == "straight" and bleed:
        laid(tmp_path)


def test_a_liner_too_small_is_told_with_the_size_it_needs(tmp_path: Path) -> None:
    text, said = begun(art(tmp_path, card=(5.25, 7.25), liner=(6, 6)))
    (outer,) = read_suite(tmp_path / "suite.toml").envelopes
    assert outer.liner is None and "# liner = {" in text
    size = envelope_size("A7")
    box = liner_shape(envelope_spec(size.width_in, size.height_in, "straight")).box
    for told in (text, said):
        assert "the art is 6 × 6 in, too small to line the A7 envelope" in told
        assert f"its liner is {box.width:g} × {round(box.height, 3):g} in" in told
    laid(tmp_path)


def test_every_size_of_the_trade_makes_an_envelope_with_every_flap() -> None:
    for size in ENVELOPES.values():
        for flap in FLAPS:
            assert liner_shape(envelope_spec(size.width_in, size.height_in, flap)).box.width > 0


def test_what_is_begun_is_laid(tmp_path: Path) -> None:
    pages = [(5.265, 7.25), (5.24, 7.262), (5.02, 7.0), (1, 1), mm(100.7, 141.3), (9, 9)]
    named = {f"card-{number}": page for number, page in enumerate(pages)}
    begun(art(tmp_path, **named, liner=(3, 3)))
    laid(tmp_path)


def test_a_trim_box_near_a_trade_size_is_kept_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "art").mkdir()
    make_pdf(tmp_path / "art" / "card.pdf", (6, 8), trim_in=(0.5, 0.5, 5.515, 7.5))
    text, _ = begun(tmp_path)
    assert 'card = "5.015 x 7 in"' in text
