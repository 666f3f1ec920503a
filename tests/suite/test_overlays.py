"""Sheets that lie over cards: read, refused, checked, laid, proofed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pymupdf
import pytest

from mockup.asks.flatlay import FlatlayRequest, lay_flatlay
from mockup.asks.proof import ProofRequest, write_proof
from mockup.checks.finding import Finding
from mockup.checks.overlays import check_overlays
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.colour.srgb import LINEAR
from mockup.errors import SuiteError
from mockup.reading.overlaid import overlays
from mockup.reading.stack import contents
from mockup.render.composition import compose
from mockup.render.items import main_piece
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf
from tests.pictures import read

CARD = (
    '[pieces.invitation]\nart = "card.pdf"\ncard = "A7"\nstock = "smooth-120-white"\nquantity = 9\n'
)
SHEET = (
    '[pieces.veil]\nart = "sheet.pdf"\ncard = "A7"\nstock = "translucent-30-white"\nquantity = 9\n'
)
OVER = 'over = "invitation"\n'
ENVELOPE = '[envelopes.outer]\nsize = "A7"\nholds = ["invitation", "veil"]\n'
BAR = "0 g 72 72 200 60 re f"


def typed(path: Path, *lines: tuple[float, str]) -> None:
    """Writes a 5 x 7 in card with bleed, black lines of 14 pt type at heights from the top."""
    document = pymupdf.open()
    page = document.new_page(width=5.25 * 72, height=7.25 * 72)
    for y, words in lines:
        page.insert_text((72, y * 72), words, fontsize=14)
    document.save(path)


def suite_of(folder: Path, text: str) -> Suite:
    for name in ("card.pdf", "sheet.pdf"):
        if not (folder / name).exists():
            make_pdf(folder / name, content=BAR if name == "card.pdf" else "0 g 72 400 9 9 re f")
    path = folder / "suite.toml"
    path.write_text(f'title = "Supper"\n{text}', encoding="utf-8")
    return read_suite(path)


def findings(suite: Suite) -> list[Finding]:
    return check_overlays(SuiteContext(suite, Settings()))


def test_a_sheet_is_read_with_the_card_it_lies_over(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, CARD + SHEET + OVER)
    (found,) = overlays(suite)
    assert (found.sheet.name, found.card.name) == ("veil", "invitation")
    assert main_piece(suite).name == "invitation"


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda s: s.replace('"invitation"\n', '"invitatoin"\n'), 'did you mean "invitation"'),
        (lambda s: s.replace(OVER, 'over = "veil"\n'), "over itself"),
        (lambda s: s.replace("translucent-30", "smooth-120"), "opacity = 55"),
        (lambda s: s.replace(SHEET, SHEET.replace('"A7"', '"A8"')), "larger than the card under it"),
        (lambda s: s.replace('"smooth-120-white"\n', '"smooth-120-white"\nfold = "left"\n', 1), "over flat cards"),
        (lambda s: s + SHEET.replace("veil", "other") + OVER, "has a sheet over it already"),
        (
            lambda s: s + SHEET.replace("veil", "other") + 'over = "veil"\n',
            'lies over "invitation" itself',
        ),
        (lambda s: s + ENVELOPE + 'drawn = "invitation"\n', "leave out `drawn`"),
    ],
)  # fmt: skip
def test_what_cannot_lie_over_a_card_is_told_at_its_key(
    change: Callable[[str], str], told: str, tmp_path: Path
) -> None:
    with pytest.raises(SuiteError) as caught:
        suite_of(tmp_path, change(CARD + SHEET + OVER))
    (mistake,) = caught.value.mistakes
    assert mistake.key.endswith(".over")
    assert told in mistake.sentence


def test_opacity_is_said_in_per_cent_and_100_is_not_seen_through(tmp_path: Path) -> None:
    own = SHEET.replace('"translucent-30-white"', "{ gsm = 90, opacity = 40 }") + OVER
    suite = suite_of(tmp_path, CARD + own)
    assert suite.piece("veil").stock.translucency == pytest.approx(0.6)
    with pytest.raises(SuiteError, match="not seen through"):
        suite_of(tmp_path, CARD + own.replace("= 40", "= 100"))


def test_it_counts_once_in_the_envelope_that_holds_it(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, CARD + SHEET + OVER + ENVELOPE)
    assert [each.name for each in contents(suite, suite.envelopes[0]).papers] == [
        "invitation",
        "veil",
    ]


def test_type_over_type_is_warned_of_and_type_beside_type_is_not(tmp_path: Path) -> None:
    typed(tmp_path / "card.pdf", (2.0, "on the flood, at half past five"))
    typed(tmp_path / "sheet.pdf", (2.02, "a harvest dinner between tides"))
    suite = suite_of(tmp_path, CARD + SHEET + OVER)
    (mingled,) = (f for f in findings(suite) if "neither is read" in f.message)
    assert mingled.severity.word == "warning"
    assert mingled.at is not None
    assert mingled.at.y == pytest.approx(1.75, abs=0.15)
    typed(tmp_path / "sheet.pdf", (5.0, "a harvest dinner between tides"))
    assert not [
        f for f in findings(suite_of(tmp_path, CARD + SHEET + OVER)) if "neither" in f.message
    ]


def test_what_a_line_reads_through_the_sheet_follows_from_its_opacity(tmp_path: Path) -> None:
    """Black on white under a sheet: by the sheet's own formula and WCAG 2.2's, worked by hand."""
    typed(tmp_path / "card.pdf", (2.0, "HIGH WATER AT SEVEN"))
    make_pdf(tmp_path / "sheet.pdf", content="0.9 g 10 10 9 9 re f")
    (told,) = findings(suite_of(tmp_path, CARD + SHEET + OVER))
    paper, black = (float(LINEAR[each]) for each in (0xF4, 0x20))
    by_hand = (paper + 0.05) / (0.35 * paper + 0.35 * black + 0.05)
    assert told.value == pytest.approx(by_hand, rel=0.12)
    assert told.severity.word == "note"


def test_a_sheet_lies_on_its_card_wherever_that_lies(tmp_path: Path) -> None:
    make_pdf(tmp_path / "sheet.pdf", (4.5, 5.75))
    suite = suite_of(tmp_path, CARD + SHEET.replace('"A7"', '"A2"') + OVER + ENVELOPE)
    composition = compose(suite, read_scene("limewash", tmp_path), 4 / 3, 1)
    names = [each.placed.name for each in composition.laid]
    card = names.index("piece/invitation")
    assert names[card + 1] == "piece/veil"
    lower, upper = composition.laid[card : card + 2]
    middle = [
        each.placed.to_table.point(each.piece.die.shape.box.centre) for each in (lower, upper)
    ]  # type: ignore[union-attr]
    assert middle[0] == pytest.approx(middle[1], abs=1e-9)


def test_the_card_is_seen_through_the_sheet_in_the_picture(tmp_path: Path) -> None:
    """Plain light: the bar under the sheet is as dark as the sheet's opacity leaves it."""
    make_pdf(tmp_path / "sheet.pdf", content="0.9 g 10 10 9 9 re f")
    shown: list[float] = []
    for stock in ("translucent-30-white", "{ gsm = 90, opacity = 45 }"):
        written = stock if stock.startswith("{") else f'"{stock}"'
        suite_of(tmp_path, CARD + SHEET.replace('"translucent-30-white"', written) + OVER)
        out = tmp_path / "out.png"
        lay_flatlay(FlatlayRequest(tmp_path / "suite.toml", out, 400, plain=True, cut_line=False))
        shown.append(float(LINEAR[read(out)].min(axis=2)[40:-40, 40:-40].min()))
    paper, black = (float(LINEAR[each]) for each in (0xF4, 0x20))
    assert shown[0] == pytest.approx(paper * 0.35 + black * 0.35, rel=0.15)
    assert shown[1] == pytest.approx(paper * 0.45 + black * 0.3, rel=0.15)


@pytest.mark.usefixtures("plain_cover")
def test_a_proof_shows_the_two_together_after_the_sheet(tmp_path: Path) -> None:
    suite_of(tmp_path, CARD + SHEET + OVER)
    out = tmp_path / "proof.pdf"
    write_proof(ProofRequest(tmp_path / "suite.toml", out, audience="studio"))
    with pymupdf.open(out) as document:
        titles = [page.get_text().strip().splitlines() for page in document]
    found = [k for k, lines in enumerate(titles) if "Veil on Invitation" in lines]
    assert len(found) == 1
    assert "Veil" in titles[found[0] - 1]
