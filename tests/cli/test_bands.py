"""A suite with a band through the commands: checked, drawn, proofed, ordered."""

from __future__ import annotations

import json
from pathlib import Path

import pymupdf
import pytest

from mockup.ordering.bill import NO_HANDWORK, bill_of
from mockup.printers.catalogue import read_printers
from mockup.suite.reading import read_suite
from tests.conftest import ART, make_pdf
from tests.mockup_command import made, mockup

# The bound stack on a cover is the flat-lay's, which is drawn lit below.
pytestmark = pytest.mark.usefixtures("plain_cover")

SUITE = """
title = "Supper"
[pieces.invitation]
art = "card.pdf"
card = "A7"
[pieces.reply]
art = "card.pdf"
card = "A7"
[pieces.belt]
art = "band.pdf"
card = "10.3 x 1.5 in"
stock = "text-80-white"
wraps = { cards = ["invitation", "reply"], overlap = "1/2 in" }
[envelopes.outer]
size = "A7"
holds = ["invitation", "reply", "belt"]
"""


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    """A suite of two cards of 5 x 7 in with a dark red band round them that is too short."""
    make_pdf(tmp_path / "card.pdf")
    make_pdf(tmp_path / "band.pdf", (10.55, 1.75), "0.45 0.05 0.05 rg 0 0 900 200 re f")
    path = tmp_path / "suite.toml"
    path.write_text(SUITE, encoding="utf-8")
    return path


def test_check_says_how_long_to_make_the_strip(suite: Path) -> None:
    """By hand: 2 x (5 + 2 x 0.0153) + pi x 0.0062 + 0.5 is about 10.58 in."""
    answer = mockup("check", suite, "--json")
    found = [each for each in json.loads(answer.stdout)["findings"] if each["check"] == "band"]
    (short,) = found
    assert short["piece"] == "belt" and short["severity"] == "warning"
    long_in = float(short["fix"].split("make it ")[1].split(" in")[0])
    assert long_in == pytest.approx(10.58, abs=0.02)


def test_the_light_falls_on_a_band_that_is_redder_than_all_round_it(
    suite: Path, tmp_path: Path
) -> None:
    """Lit, the strip's front is a bar of its own colour as wide as the card with its paper."""
    output = made(tmp_path / "lit.png", "flatlay", suite, "--width", "700")
    picture = pymupdf.Pixmap(str(output))
    red = [[picture.pixel(x, y) for x in range(picture.width)] for y in range(0, picture.height, 2)]
    rows = [sum(r > 70 and r > 2 * g and r > 2 * b for r, g, b in row) for row in red]
    wide = [count for count in rows if count > 30]
    assert wide and max(wide) - min(wide) <= 4
    assert max(wide) / (2 * len(wide)) == pytest.approx(5.0 / 1.5, rel=0.06)


@pytest.mark.slow
def test_the_studio_sees_where_the_strip_turns_and_the_client_sees_the_bound_stack(
    suite: Path, tmp_path: Path
) -> None:
    pages = {
        who: [page.get_text() for page in pymupdf.open(_proof(suite, tmp_path, who))]
        for who in ("client", "studio")
    }
    for texts in pages.values():
        (stack,) = [text for text in texts if "as the band\nholds" in text or "band holds" in text]
        assert "Belt round Invitation" in stack
    client, studio = ("\n".join(pages[who]) for who in ("client", "studio"))
    assert "Girth" in studio and "covered" in studio
    assert "Girth" not in client and "covered" not in client
    assert "10.3" in client and "from side to" in client.replace("\n", " ")


def _proof(suite: Path, folder: Path, who: str) -> Path:
    return made(folder / f"{who}.pdf", "proof", suite, "--for", who, "--date", "2026-11-26")


def test_the_marked_sheet_names_the_parts_of_the_strip_on_its_page_alone(
    suite: Path, tmp_path: Path
) -> None:
    mockup("check", suite, "--marked", tmp_path / "marked.pdf")
    pages = [page.get_text().lower() for page in pymupdf.open(tmp_path / "marked.pdf")]
    named = [{"covered", "front", "turn: green, long dashes"} <= _lines(page) for page in pages]
    assert named.count(True) == 1 and pages[named.index(True)].count("back\n") == 2


def _lines(page: str) -> set[str]:
    return {part.strip() for line in page.splitlines() for part in line.split("    ")}


def test_an_order_tells_the_strip_flat_and_what_it_goes_round(suite: Path, tmp_path: Path) -> None:
    answer = mockup("order", "--anyway", suite, "-o", tmp_path / "out")
    assert answer.returncode == 0, answer.stderr
    rows = json.loads((tmp_path / "out" / "order.json").read_text(encoding="utf-8"))["items"]
    sizes = {each["item"]: each["size"] for each in rows}
    assert sizes["belt"] == "10.3 × 1.5 in flat, a band round invitation, reply"


def test_what_is_done_by_hand_is_a_line_that_no_catalogue_prices(suite: Path) -> None:
    suite.write_text(
        SUITE.replace('card = "A7"\n[pieces.belt]', 'card = "A7"\nhole = "1/4 in"\n'
                      'cord = "#b08d57"\n[pieces.belt]'),
        encoding="utf-8",
    )  # fmt: skip
    (printer,) = read_printers(ART / "printers")[:1]
    lines = {(row.item, row.work): row for row in bill_of(read_suite(suite), printer).lines}
    for row, said in (
        (lines["belt", "wrapping"], "wrapped round invitation, reply and glued, by hand"),
        (lines["reply", "cord"], "cord put through and tied, by hand"),
    ):
        assert (row.what, row.amount, row.note) == (said, None, NO_HANDWORK)
    assert not any(work == "cord" for item, work in lines if item != "reply")


def test_a_mistake_is_one_line_with_its_key(suite: Path) -> None:
    suite.write_text(SUITE.replace('"1/2 in"', "0"), encoding="utf-8")
    answer = mockup("check", suite)
    assert answer.returncode == 3
    assert "pieces.belt.wraps.overlap" in answer.stderr and "above nought" in answer.stderr
