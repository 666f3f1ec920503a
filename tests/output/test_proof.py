"""The proof of the demo suite, read back with pypdfium2 and pikepdf."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pikepdf.form
import pymupdf
import pypdfium2 as pdfium
import pytest
from PIL import ImageCms

from mockup.artwork.art import art_of
from mockup.errors import InputError, OutputError
from mockup.output.proof import Telling, write_proof
from mockup.output.proof.address import ADDRESS
from mockup.output.proof.answer_places import answer_pages
from mockup.output.proof.words import file_mark
from mockup.suite.suite import Suite
from mockup.workshop import crew
from mockup.workshop.job import Job
from tests.output.demo_proof import FLATLAY, demo_suite, issue_of, paths, pictures

LETTER_PT = (612.0, 792.0)  # ANSI/ASME Y14.1: 8.5 x 11 in
A4_PT = (210 / 25.4 * 72, 297 / 25.4 * 72)  # ISO 216
PIECES = ("invitation", "details", "reply")


@pytest.fixture(scope="module")
def suite(tmp_path_factory: pytest.TempPathFactory) -> Suite:
    return demo_suite(tmp_path_factory.mktemp("suite"))


@pytest.fixture(scope="module")
def proof(suite: Suite) -> Path:
    path = suite.path.parent / "proof.pdf"
    assert write_proof(Telling(suite, FLATLAY, issue_of(suite)), path) == 8
    return path


@pytest.fixture(scope="module")
def read(proof: Path) -> pdfium.PdfDocument:
    return pdfium.PdfDocument(proof)


@pytest.mark.parametrize("index", range(3), ids=PIECES)
def test_cut_line_has_the_box_of_its_die_at_true_size(
    index: int, suite: Suite, read: pdfium.PdfDocument
) -> None:
    """Read back by pypdfium2; the die's size is the card's, as declared: 5 x 7 in and so on."""
    declared = ((5, 7), (4.25, 5.5), (4.875, 3.5))[index]
    lines = [p for p in paths(read[index + 1]) if p.stroked and p.segments > 2]
    exact = [line for line in lines if line.size_in == pytest.approx(declared, abs=0.002)]
    assert exact
    assert min(line.width_pt for line in exact) == pytest.approx(suite.cut_line.width_pt)
    factors = {tuple(np.round(np.divide(line.size_in, declared), 3)) for line in lines}
    assert all(across == down for across, down in factors)  # the rest is a closer look
    assert len(factors) <= 2


def test_a_file_is_opened_once_by_each_of_two_workers(suite: Suite, proof: Path) -> None:
    """However often it is read and drawn: on its page, under a loupe, for its colours."""
    assert proof.exists()
    for piece in suite.pieces:
        mark = piece.art.sha256
        asked = [Job((mark,), "count", kin) for kin in (mark, "another")]
        times = crew.done("mockup.foreign.document:times_opened", asked)
        assert 1 <= sum(times) <= 2, piece.name


@pytest.mark.parametrize("index", range(3), ids=PIECES)
def test_art_is_clipped_by_the_die_and_reaches_past_it(
    index: int, read: pdfium.PdfDocument
) -> None:
    declared = ((5, 7), (4.25, 5.5), (4.875, 3.5))[index]
    art = pictures(read[index + 1])[0]
    assert art.clip is not None
    left, bottom, right, top = art.clip
    assert ((right - left) / 72, (top - bottom) / 72) == pytest.approx(declared, abs=0.002)
    assert art.box[0] <= left and art.box[1] <= bottom
    assert art.box[2] >= right and art.box[3] >= top


def test_no_picture_has_more_pixels_than_a_proof_needs(suite: Suite, tmp_path: Path) -> None:
    large = np.full((2250, 3000, 3), 180, np.uint8)
    write_proof(Telling(suite, large, issue_of(suite)), tmp_path / "proof.pdf")
    cover, *pages = pdfium.PdfDocument(tmp_path / "proof.pdf")
    found = [(p, 300) for page in pages for p in pictures(page)] + [(pictures(cover)[0], 200)]
    assert len(found) == 1 + 3 + 2 + 1 + 3  # flat-lay, pieces, two of them closer, liner, corners
    for picture, most in found:
        for pixels, length_in in zip(picture.size_px, picture.size_in, strict=True):
            assert pixels / length_in <= most * (1 + 1e-4)


@pytest.mark.slow
def test_pages_have_the_papers_size_or_are_folded_out_and_say_so(suite: Suite, proof: Path) -> None:
    """Only the open A7 envelope, 7.25 in wide and over 9 high, is too large; sizes from ANSI/ASME
    Y14.1 and ISO 216."""
    a4 = proof.with_name("a4.pdf")
    write_proof(
        Telling(replace(suite, paper="a4"), FLATLAY, issue_of(replace(suite, paper="a4"))), a4
    )
    for path, (short, long) in ((proof, LETTER_PT), (a4, A4_PT)):
        with pikepdf.open(path) as pdf:
            boxes = [[float(v) for v in page.mediabox] for page in pdf.pages]
            trims = [[float(v) for v in page.trimbox] for page in pdf.pages]
        folded = []
        for index, (box, trim) in enumerate(zip(boxes, trims, strict=True)):
            assert trim == pytest.approx(box, abs=1e-3)
            if sorted(box[2:]) != pytest.approx([short, long], abs=1e-3):
                folded.append(index)
        assert folded == [5]
        words = pdfium.PdfDocument(path)[5].get_textpage().get_text_range()
        assert "folded out to" in words.replace("\r\n", " ")


def test_every_font_is_embedded(proof: Path) -> None:
    """ISO 32000-1 9.9: a TrueType font program is embedded as FontFile2."""
    with pikepdf.open(proof) as pdf:
        sets = [page.resources.get("/Font", pikepdf.Dictionary()) for page in pdf.pages]
        fonts = [own[name] for own in sets for name in own.keys()]  # noqa: SIM118
        assert fonts
        assert all("/FontFile2" in font.FontDescriptor for font in fonts)


def test_document_tells_title_author_and_language(proof: Path) -> None:
    with pikepdf.open(proof) as pdf:
        assert "Tide Mill Supper" in str(pdf.docinfo["/Title"])
        assert str(pdf.docinfo["/Author"]) == "Eelgrass Press"
        assert str(pdf.Root.Lang) == "en"


def test_every_page_declares_its_colours_srgb(proof: Path) -> None:
    """The profile is a display profile of RGB data (ICC.1:2010 7.2.5, 7.2.6) named sRGB."""
    with pikepdf.open(proof) as pdf:
        for page in pdf.pages:
            kind, profile = page.resources.ColorSpace.DefaultRGB
            content = profile.read_bytes()
            assert (kind, profile.N) == ("/ICCBased", 3)
            assert content[12:20] == b"mntrRGB "
            assert "sRGB" in ImageCms.getProfileDescription(
                ImageCms.ImageCmsProfile(io.BytesIO(content))
            )


def test_every_picture_in_it_names_its_profile(proof: Path) -> None:
    """ISO 32000-1 8.6.5.5: ICCBased, of three channels, and the page's own sRGB."""
    with pikepdf.open(proof) as pdf:
        pictures = [each for page in pdf.pages for each in page.images.values()]
        assert pictures
        for picture in pictures:
            if picture.get("/ColorSpace") == "/DeviceGray":  # a mask's share is no colour
                continue
            kind, profile = picture.ColorSpace
            assert (kind, profile.N) == ("/ICCBased", 3)
            assert profile.read_bytes()[12:20] == b"mntrRGB "


def test_same_suite_gives_the_same_bytes(suite: Suite, proof: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.pdf"
    write_proof(Telling(suite, FLATLAY, issue_of(suite)), again)
    assert again.read_bytes() == proof.read_bytes()


@pytest.mark.parametrize("index", range(3), ids=PIECES)
def test_ruler_is_five_inches_long_and_127_millimetres(
    index: int, read: pdfium.PdfDocument
) -> None:
    """5 in = 127 mm exactly (international inch, 1959): both ticks end at the same place."""
    rules = [p for p in paths(read[index + 1]) if p.width_pt == pytest.approx(0.4)]
    (base,) = [rule for rule in rules if rule.size_in[0] > 1]
    assert base.size_in[0] == pytest.approx(5.0, abs=1e-4)
    above = sorted({round(r.box[0], 3) for r in rules if r.box[1] >= base.box[1] and r != base})
    below = sorted({round(r.box[0], 3) for r in rules if r.box[3] <= base.box[1] and r != base})
    assert len(above) == 5 * 16 + 1
    assert len(below) == 127 + 1
    assert np.diff(above) == pytest.approx(72 / 16, abs=2e-3)
    assert np.diff(below) == pytest.approx(72 / 25.4, abs=2e-3)


@pytest.mark.parametrize("index", [4, 5], ids=["addressed", "open and closed"])
def test_envelope_is_at_true_size(index: int, read: pdfium.PdfDocument) -> None:
    """An A7 envelope is 7.25 x 5.25 in (common practice, no standard)."""
    sizes = [p.size_in for p in paths(read[index]) if p.filled]
    assert any(size == pytest.approx((7.25, 5.25), abs=0.002) for size in sizes)


def test_the_sample_address_stands_where_the_post_reads(suite: Suite, proof: Path) -> None:
    """USPS DMM 602.1.3 (OCR read area): from 1/2 in of either side, 5/8 to 2 3/4 in above the
    bottom edge."""
    with pymupdf.open(proof) as document:
        page = document[4]
        boxes = [drawn["rect"] for drawn in page.get_drawings() if drawn["fill"]]
        words = [page.search_for(line)[0] for line in ADDRESS]
    (body,) = [box for box in boxes if abs(box.width - 7.25 * 72) < 0.5]
    for word in words:
        assert body.x0 + 36 <= word.x0 and word.x1 <= body.x1 - 36
        assert body.y1 - 2.75 * 72 <= word.y0 and word.y1 <= body.y1 - 0.625 * 72


def test_pages_tell_what_the_client_says_yes_to(suite: Suite, read: pdfium.PdfDocument) -> None:
    texts = [page.get_textpage().get_text_range() for page in read]
    codes = issue_of(suite).codes
    for index, piece in enumerate(suite.pieces, start=1):
        assert piece.title in texts[index]
        assert codes[piece.name] in texts[index] and codes[piece.name] in texts[-1]
        assert f"{index + 1} of 8" in texts[index]
    (outer,) = suite.envelopes
    code = next(
        item.fingerprint.short for item in issue_of(suite).items if item.title == outer.title
    )
    assert all(code in texts[index] for index in (4, 5, -1))
    assert "Lancet arch" in texts[1]
    assert "120" in texts[1]


def test_fingerprint_is_the_beginning_of_sha_256(tmp_path: Path) -> None:
    """FIPS 180-2, appendix B.1: SHA-256 of `abc` begins ba7816bf."""
    file = tmp_path / "abc"
    file.write_bytes(b"abc")
    assert file_mark(art_of(file)) == "ba7816bf"


def test_what_fails_leaves_the_old_proof_and_nothing_else(tmp_path: Path) -> None:
    whole = demo_suite(tmp_path)
    suite = replace(whole, pieces=whole.pieces[1:2], envelopes=())
    proof = tmp_path / "proof.pdf"
    proof.write_bytes(b"the old one")
    before = sorted(tmp_path.iterdir())
    with pytest.raises(OutputError, match="lack"):
        write_proof(
            Telling(
                replace(suite, title="\u6f6e"), FLATLAY, issue_of(replace(suite, title="\u6f6e"))
            ),
            proof,
        )
    assert proof.read_bytes() == b"the old one"
    assert sorted(tmp_path.iterdir()) == before
    crew.dismiss()  # what was read of it is forgotten
    suite.pieces[0].art.path.unlink()
    with pytest.raises(InputError):
        write_proof(Telling(suite, FLATLAY, issue_of(suite)), proof)
    assert proof.read_bytes() == b"the old one"


def test_unwritable_place_is_an_output_error(suite: Suite, tmp_path: Path) -> None:
    small = replace(suite, pieces=suite.pieces[1:2], envelopes=())
    with pytest.raises(OutputError, match="does not exist"):
        write_proof(Telling(small, FLATLAY, issue_of(small)), tmp_path / "none" / "proof.pdf")


@pytest.mark.slow
def test_the_fullest_cover_keeps_its_picture_above_its_list(tmp_path: Path) -> None:
    """24 pieces, 6 envelopes and names of 200 letters are the most a suite file can hold."""
    pieces = "".join(f'[pieces.p{k}]\nart = "details.pdf"\ncard = "A2"\n' for k in range(21))
    envelopes = "".join(f'[envelopes.e{k}]\nsize = "A2"\n' for k in range(5))
    suite = demo_suite(tmp_path, pieces + envelopes)
    long = ("Tide Mill Supper, " * 12)[:200]
    full = replace(suite, title=long, client=long, designer=long)
    write_proof(Telling(full, FLATLAY, issue_of(full)), tmp_path / "proof.pdf")
    cover = pdfium.PdfDocument(tmp_path / "proof.pdf")[0]
    (picture,) = pictures(cover)
    rules = [p for p in paths(cover) if p.size_in[0] > 6 and p.size_in[1] < 0.01]
    assert picture.size_in[1] > 0.3
    assert len(rules) == 30
    assert max(rule.box[3] for rule in rules) < picture.box[1]
    assert min(rule.box[1] for rule in rules) > 0.9 * 72  # clear of the foot


@pytest.mark.slow
def test_many_pieces_are_answered_for_over_several_pages(tmp_path: Path) -> None:
    more = "".join(f'\n[pieces.more-{k}]\nart = "details.pdf"\ncard = "A2"\n' for k in range(20))
    suite = demo_suite(tmp_path, more)
    telling = Telling(suite, FLATLAY, issue_of(suite))
    answers = len(answer_pages([item.name for item in telling.issue.items], suite.paper))
    assert answers == 4  # 23 cards and an envelope: 6, then 8 to a page
    pages = write_proof(telling, tmp_path / "proof.pdf")
    read = pdfium.PdfDocument(tmp_path / "proof.pdf")
    assert len(read) == pages
    told = [
        read[k].get_textpage().get_text_range().replace("\u00a0", " ")
        for k in range(pages - answers, pages)
    ]
    for item in telling.issue.items:
        assert sum(item.fingerprint.short in text for text in told) >= 1
    with pikepdf.open(tmp_path / "proof.pdf") as pdf:
        names = {name for name, _ in pikepdf.form.Form(pdf).items()}
    wanted = {f"answer/{item.name.replace('.', '/')}" for item in telling.issue.items}
    assert wanted <= names and {"signed", "day"} <= names
