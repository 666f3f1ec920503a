"""Words of a card's live type: read where all of a line is known, whatever programs set it."""

from __future__ import annotations

import re
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from fontTools.ttLib import TTFont as FontFile
from reportlab.lib.pagesizes import inch
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from mockup.comparing.wording import Word
from mockup.errors import LimitError
from mockup.reading.words import words_of_each, words_read
from mockup.suite.reading import read_suite
from tests.conftest import ART

pdfmetrics.registerFont(TTFont("word-garamond", str(ART / "fonts/EBGaramond08-Regular.ttf")))

SUITE = """title = "Words"
[pieces.card]
art = "card.pdf"
card = "5 x 3 in"
die = "rectangle"
"""
Draw = Callable[[Canvas], object]
Patch = Callable[[str], str | None]


def words_on(folder: Path, draw: Draw, patch: Patch | None = None) -> tuple[Word, ...]:
    """Returns the words of a card with what is drawn on it, 1/8 in round it; `patch` changes what
    its fonts say their letters mean, or has them say nothing."""
    file = folder / "card.pdf"
    canvas = Canvas(str(file), pagesize=(5.25 * inch, 3.25 * inch), invariant=1)
    canvas.setTrimBox((9, 9, 5.125 * inch, 3.125 * inch))
    canvas.setFont("word-garamond", 14)
    draw(canvas)
    canvas.save()
    if patch is not None:
        _patch(file, patch)
    (folder / "suite.toml").write_text(SUITE)
    (card,) = read_suite(folder / "suite.toml").pieces
    return words_read(card)


def _patch(file: Path, patch: Patch) -> None:
    with pikepdf.open(file, allow_overwriting_input=True) as pdf:
        for each in pdf.objects:
            if isinstance(each, pikepdf.Dictionary) and "/ToUnicode" in each:
                told = patch(each.ToUnicode.read_bytes().decode())
                if told is None:
                    del each.ToUnicode
                else:
                    each.ToUnicode = pdf.make_stream(told.encode())
        pdf.save(file)


def said(words: tuple[Word, ...]) -> list[str]:
    lines: dict[int, list[str]] = {}
    for word in words:
        lines.setdefault(word.line, []).append(word.text)
    return [" ".join(lines[k]) for k in sorted(lines)]


def test_lines_are_read_from_the_top_down_with_their_places(tmp_path: Path) -> None:
    def draw(canvas: Canvas) -> None:
        canvas.drawString(1 * inch, 1 * inch, "at 7 o\u2019clock")
        canvas.drawString(1 * inch, 2 * inch, "The Tide Mill")

    words = words_on(tmp_path, draw)
    assert said(words) == ["The Tide Mill", "at 7 o\u2019clock"]
    first = words[0].box
    assert first.left == pytest.approx(1 - 0.125, abs=0.02)
    assert first.bottom == pytest.approx(3.25 - 2 - 0.125, abs=0.02)
    width = pdfmetrics.stringWidth("The", "word-garamond", 14) / 72
    assert first.width == pytest.approx(width, abs=0.03)


def test_letters_set_one_by_one_are_words(tmp_path: Path) -> None:
    def draw(canvas: Canvas) -> None:
        left = 1 * inch
        for letter in "dry cider":
            if letter != " ":
                canvas.drawString(left, 1 * inch, letter)
            left += pdfmetrics.stringWidth(letter, "word-garamond", 14)

    assert said(words_on(tmp_path, draw)) == ["dry cider"]


def test_type_filled_and_stroked_is_read_once(tmp_path: Path) -> None:
    def draw(canvas: Canvas) -> None:
        canvas.drawString(1 * inch, 1 * inch, "all hills", mode=2)

    assert said(words_on(tmp_path, draw)) == ["all hills"]


def test_a_ligature_is_its_letters_whichever_way_the_file_says_it(tmp_path: Path) -> None:
    def draw(canvas: Canvas) -> None:
        canvas.drawString(1 * inch, 1 * inch, "\ufb01ve fine")

    assert said(words_on(tmp_path, draw)) == ["five fine"]
    apart = words_on(tmp_path, draw, lambda told: re.sub("(?i)<fb01>", "<00660069>", told))
    assert said(apart) == ["five fine"]


@pytest.mark.parametrize("means", ["05D0", "202E", "FFFD", "E000"])
def test_a_line_with_letters_that_cannot_be_told_says_nothing(tmp_path: Path, means: str) -> None:
    """Hebrew, a turn of direction, no character, one for private use."""

    def draw(canvas: Canvas) -> None:
        canvas.drawString(1 * inch, 2 * inch, "Bzead")
        canvas.drawString(1 * inch, 1 * inch, "cider")

    words = words_on(tmp_path, draw, lambda told: re.sub("(?i)<007a>", f"<{means}>", told))
    assert said(words) == ["cider"]


def test_turned_and_invisible_type_says_nothing(tmp_path: Path) -> None:
    def draw(canvas: Canvas) -> None:
        canvas.drawString(1 * inch, 1 * inch, "seen")
        canvas.drawString(1 * inch, 2 * inch, "hidden", mode=3)  # ISO 32000-1 table 106
        canvas.saveState()
        canvas.translate(3 * inch, 1 * inch)
        canvas.rotate(90)
        canvas.drawString(0, 0, "upward")
        canvas.rotate(-90)
        canvas.scale(-1, 1)
        canvas.drawString(-20, 40, "mirror")
        canvas.restoreState()

    assert said(words_on(tmp_path, draw)) == ["seen"]


def test_type_beside_the_card_or_cut_by_a_clip_says_nothing(tmp_path: Path) -> None:
    def draw(canvas: Canvas) -> None:
        canvas.drawString(1 * inch, 2 * inch, "seen")
        canvas.setFont("word-garamond", 6)
        canvas.drawString(1 * inch, 1, "slug")
        canvas.setFont("word-garamond", 14)
        path = canvas.beginPath()
        path.rect(1 * inch, 1 * inch, 1 * inch, 4)
        canvas.clipPath(path, stroke=0)
        canvas.drawString(1 * inch, 1 * inch, "halved")

    assert said(words_on(tmp_path, draw)) == ["seen"]


def test_outlined_type_says_nothing(art: Path) -> None:
    pieces = {piece.name: piece for piece in read_suite(art / "suite.toml").pieces}
    assert words_read(pieces["invitation"]) == ()
    assert "Skiffs" in [word.text for word in words_read(pieces["details"])]


def test_a_page_with_too_much_on_it_says_nothing_and_stops_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def too_much(*_: object) -> None:
        raise LimitError("took longer than 30 s")

    words_on(tmp_path, lambda canvas: canvas.drawString(1 * inch, 1 * inch, "seen"))
    (card,) = read_suite(tmp_path / "suite.toml").pieces
    assert [said(words) for words in words_of_each([card])] == [["seen"]]
    monkeypatch.setattr("mockup.workshop.crew.done", too_much)
    assert words_of_each([card, card]) == [(), ()]


def test_a_font_that_does_not_say_what_its_letters_mean_says_nothing(tmp_path: Path) -> None:
    """Glyphs by number, without a ToUnicode map (ISO 32000-1, 9.10.2): what they say is unknown."""
    (tmp_path / "suite.toml").write_text(SUITE)
    _write_by_number(tmp_path / "card.pdf", "Bread")
    (card,) = read_suite(tmp_path / "suite.toml").pieces
    assert words_read(card) == ()


def _write_by_number(file: Path, text: str) -> None:
    """Writes a card in a composite font, its letters as numbers of glyphs (ISO 32000-1, 9.7.4)."""
    content = (ART / "fonts/EBGaramond08-Regular.ttf").read_bytes()
    font = FontFile(BytesIO(content))
    glyphs = "".join(f"{font.getGlyphID(font.getBestCmap()[ord(each)]):04X}" for each in text)
    pdf = pikepdf.new()
    pdf.add_blank_page(page_size=(5.25 * inch, 3.25 * inch))
    table, name = pikepdf.Dictionary, pikepdf.Name
    told = table(
        Type=name.FontDescriptor, FontName=name.Words, Flags=4, FontBBox=[0, -300, 1000, 1000],
        ItalicAngle=0, Ascent=800, Descent=-200, CapHeight=600, StemV=80,
        FontFile2=pdf.make_stream(content),
    )  # fmt: skip
    system = table(Registry=b"Adobe", Ordering=b"Identity", Supplement=0)
    inner = table(
        Type=name.Font, Subtype=name.CIDFontType2, BaseFont=name.Words, CIDSystemInfo=system,
        FontDescriptor=pdf.make_indirect(told), DW=500, CIDToGIDMap=name.Identity,
    )  # fmt: skip
    outer = table(
        Type=name.Font, Subtype=name.Type0, BaseFont=name.Words, Encoding=name("/Identity-H"),
        DescendantFonts=[pdf.make_indirect(inner)],
    )  # fmt: skip
    page = pdf.pages[0]
    page.TrimBox = pikepdf.Array([9, 9, 5.125 * inch, 3.125 * inch])
    page.Resources = table(Font=table(F=pdf.make_indirect(outer)))
    page.Contents = pdf.make_stream(f"BT /F 14 Tf 72 72 Td <{glyphs}> Tj ET".encode())
    pdf.save(file)
