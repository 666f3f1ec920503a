"""A template's words: none where the library cannot tell them, and never a fault of our own."""

from __future__ import annotations

import io

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.foreign.words import read_template_words


def lettered(spoil: str = "") -> bytes:
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(144, 144))
    face = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)
    page.Resources = Dictionary(Font=Dictionary(F=face))
    page.Contents = pdf.make_stream(b"BT /F 12 Tf 20 60 Td (cut line) Tj ET")
    if spoil == "count":
        pdf.Root.Pages.Kids = Array([page.obj] * 5000)
        pdf.Root.Pages.Count = 5000
    if spoil == "contents":
        page.Contents = Name.Odd
    saved = io.BytesIO()
    password = pikepdf.Encryption(owner="o", user="u") if spoil == "locked" else None
    pdf.save(saved, encryption=password or False)
    return saved.getvalue()[: 300 if spoil == "cut" else None]


def test_words_are_read_where_they_stand() -> None:
    (words,) = read_template_words(lettered())
    assert words.words == "cut line"


@pytest.mark.parametrize("spoil", ["count", "contents", "locked", "cut"])
def test_what_cannot_be_read_has_no_words(spoil: str) -> None:
    assert read_template_words(lettered(spoil)) in ((), read_template_words(lettered()))
    assert read_template_words(b"no PDF") == () == read_template_words(lettered(), 9)
