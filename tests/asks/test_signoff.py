"""A proof that comes back: filled in by other libraries, flattened, scanned, tampered with."""

from __future__ import annotations

import io
import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pymupdf
import pypdfium2 as pdfium
import pytest
from pikepdf.form import DefaultAppearanceStreamGenerator, Form
from PIL import Image

from mockup.record.reading import read_record
from tests.conftest import covers_left_plain, make_pdf
from tests.mockup_command import Answer, mockup
from tests.quickly import quickly

SUITE = """
title = "Supper"
client = "The Millers"
designer = "Eelgrass Press"
[pieces.card]
art = "card.pdf"
card = "A7"
[pieces.menu]
art = "menu.pdf"
card = "A7"
[envelopes.outer]
size = "A7"
holds = ["card", "menu"]
"""
COMMENT = "The comma after Millers, please, and Märta's name"


@pytest.fixture(scope="session")
def sent(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a suite, its proof and its record."""
    folder = tmp_path_factory.mktemp("sent")
    make_pdf(folder / "card.pdf")
    make_pdf(folder / "menu.pdf")
    (folder / "suite.toml").write_text(SUITE)
    to = ("-o", folder / "proof.pdf", "--date", "2026-11-26")
    with covers_left_plain():
        told = mockup("proof", folder / "suite.toml", *to)
    assert told.returncode == 0, told.stderr
    return folder


@pytest.fixture
def here(sent: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(sent, tmp_path / "here"))


def by_pikepdf(folder: Path, name: str = "Ada Saltmarsh") -> Path:
    with pikepdf.open(folder / "proof.pdf") as pdf:
        form = Form(pdf, DefaultAppearanceStreamGenerator)
        for field, place in (("answer/card", 0), ("answer/menu", 1)):
            form[field].selected = form[field].options[place]
        form["comment/menu"].value = COMMENT
        form["signed"].value, form["day"].value = name, "26 November"
        pdf.save(folder / "back.pdf")
    return folder / "back.pdf"


def by_mupdf(folder: Path) -> Path:
    with pymupdf.open(folder / "proof.pdf") as document:
        for page in document:
            for field in page.widgets():
                pressed = {"answer/card": "approve", "answer/menu": "change"}
                written = {"comment/menu": COMMENT, "signed": "Ada Saltmarsh", "day": "26 November"}
                if field.field_name in pressed:
                    if field.on_state() == pressed[field.field_name]:
                        field.field_value = True
                        field.update()
                elif field.field_name in written:
                    field.field_value = written[field.field_name]
                    field.update()
        document.save(folder / "back.pdf")
    return folder / "back.pdf"


def flattened(folder: Path) -> Path:
    with pymupdf.open(by_pikepdf(folder)) as document:
        document.bake()
        document.save(folder / "flat.pdf")
    return folder / "flat.pdf"


def scanned(folder: Path) -> Path:
    """The page of answers alone, as a scanner of 200 dpi hands it over."""
    with pymupdf.open(flattened(folder)) as document:
        pixels = document[-1].get_pixmap(dpi=200, colorspace=pymupdf.csGRAY)
        size = document[-1].rect
    with pymupdf.open() as scan:
        scan.new_page(width=size.width, height=size.height).insert_image(
            size, stream=pixels.tobytes("jpeg", jpg_quality=80)
        )
        scan.save(folder / "scan.pdf")
    return folder / "scan.pdf"


def read(file: Path, *more: str) -> Answer:
    return mockup("signoff", file, file.parent / "suite.toml", "--date", "2026-11-28", *more)


@pytest.mark.parametrize("back", quickly([by_pikepdf, flattened, by_mupdf], lambda n: n < 2))
def test_what_was_said_comes_back(back: Callable[[Path], Path], here: Path) -> None:
    told = read(back(here), "--json")
    assert told.returncode == 0, told.stderr
    answer = json.loads(told.stdout)
    assert (answer["revision"], answer["by"], answer["dated"]) == (
        1,
        "Ada Saltmarsh",
        "26 November",
    )
    said = {row["name"]: (row["answer"], row["comment"]) for row in answer["pieces"]}
    assert said == {
        "card": ("approve", ""),
        "menu": ("change", COMMENT),
        "envelopes.outer": (None, ""),
    }
    (unclear,) = answer["unclear"]
    assert unclear.endswith(": not answered")
    assert answer["pages"].startswith("all pages but that of the answers")
    (kept,) = read_record(here / "suite.toml").answers
    assert [(each.name, each.said) for each in kept.choices] == [
        ("card", "approve"),
        ("menu", "change"),
    ]


def test_a_scan_of_the_page_of_answers_is_read_by_its_ticks(here: Path) -> None:
    told = read(scanned(here), "--by", "Ada Saltmarsh", "--json")
    assert told.returncode == 0, told.stderr
    answer = json.loads(told.stdout)
    assert {row["name"]: row["answer"] for row in answer["pieces"]} == {
        "card": "approve",
        "menu": "change",
        "envelopes.outer": None,
    }
    assert answer["read_as"] == "ticks on the page"


def test_the_same_file_is_recorded_once(here: Path) -> None:
    back = by_pikepdf(here)
    assert read(back).returncode == read(back).returncode == 0
    assert len(read_record(here / "suite.toml").answers) == 1


def test_a_page_that_is_not_the_one_sent_is_told(here: Path) -> None:
    back = by_pikepdf(here)
    with pikepdf.open(back, allow_overwriting_input=True) as pdf:
        pdf.pages[1].contents_add(b"q 1 0 0 rg 300 400 20 20 re f Q")
        pdf.save(back)
    told = read(back)
    assert told.returncode == 4
    assert "page 2 shows something else" in told.stderr
    assert read_record(here / "suite.toml").answers == ()


def test_a_proof_of_another_suite_is_told(here: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    other.mkdir()
    make_pdf(other / "card.pdf")
    (other / "suite.toml").write_text(SUITE.partition("[pieces.menu]")[0])
    shutil.copy(by_pikepdf(here), other / "back.pdf")
    told = read(other / "back.pdf")
    assert told.returncode == 4
    assert "does not know" in told.stderr and "revision 1" in told.stderr


def test_an_event_that_cannot_be_read_is_told_where_a_proof_is_not_known(here: Path) -> None:
    """It may be the very proof that came back; and nobody is told to mend its text by hand."""
    back = by_pikepdf(here)
    (event,) = (here / "suite.record").glob("*-proof-*.toml")
    event.write_bytes(event.read_bytes()[:500])
    told = read(back)
    assert told.returncode == 4 and "does not know" in told.stderr
    assert f"{event.name}: was changed since it was written" in told.stderr


def test_a_page_without_the_code_is_told(here: Path) -> None:
    make_pdf(here / "letter.pdf")
    told = read(here / "letter.pdf")
    assert told.returncode == 4 and "no page of answers" in told.stderr


def test_nobody_answers_without_a_name(here: Path) -> None:
    back = by_pikepdf(here, name="")
    assert "bears no name" in read(back).stderr
    assert read(back, "--by", "Ada Saltmarsh").returncode == 0


def test_nothing_filled_in_says_nothing(here: Path) -> None:
    told = read(here / "proof.pdf")
    assert told.returncode == 4 and "says neither yes nor change" in told.stderr


@pytest.mark.parametrize(("dpi", "turn"), [(100, 180), (90, 270), (120, 90)])
def test_nothing_filled_in_says_nothing_by_a_poor_scanner_either(
    here: Path, dpi: int, turn: int
) -> None:
    """Its code is found to a pixel, and a box at the far end of the page a frame's width beside
    where it is: the frame was read as a yes."""
    with pymupdf.open(here / "proof.pdf") as document:
        drawn = document[-1].get_pixmap(dpi=dpi)
    page = Image.frombytes("RGB", (drawn.width, drawn.height), drawn.samples)
    page.rotate(turn, expand=True).save(here / "scan.pdf", resolution=dpi, quality=75)
    told = read(here / "scan.pdf", "--by", "Ada Saltmarsh")
    assert (told.returncode, told.stdout) == (4, "")
    assert "neither yes nor change" in told.stderr


def test_both_boxes_ticked_with_a_pen_are_asked_about(here: Path) -> None:
    back = by_pikepdf(here)
    with pymupdf.open(back) as document:
        page = document[-1]
        fields = [each for each in page.widgets() if each.field_name == "answer/envelopes/outer"]
        for box in [pymupdf.Rect(each.rect) for each in fields]:
            pen = page.add_ink_annot([[tuple(box.tl), tuple(box.br)]])
            pen.set_border(width=3)
            pen.update()
        document.save(here / "pen.pdf")
    told = read(here / "pen.pdf", "--json")
    assert any("both boxes are ticked" in each for each in json.loads(told.stdout)["unclear"])


def test_the_form_is_what_readers_and_screen_readers_need(sent: Path) -> None:
    with pikepdf.open(sent / "proof.pdf") as pdf:
        fonts = pdf.Root.AcroForm.DR.Font
        assert all("/FontFile2" in font.FontDescriptor for _, font in fonts.items())
        fields = list(pdf.pages[-1].Annots)
        owners = pdf.Root.StructTreeRoot.ParentTree.Nums
        tagged = {int(owners[k]): owners[k + 1] for k in range(0, len(owners), 2)}
        for field in fields:
            owner = tagged[int(field.StructParent)]
            assert owner.S == "/Form" and owner.K.Obj.objgen == field.objgen
        assert len(fields) == 3 * 3 + 2
        told = [
            part.K.Obj.objgen for part in pdf.Root.StructTreeRoot.K.K[-1].K if part.S == "/Form"
        ]
        assert sorted(told) == sorted(field.objgen for field in fields)  # each read aloud once
    document = pdfium.PdfDocument(sent / "proof.pdf")
    picture = io.BytesIO()
    document[len(document) - 1].render(scale=150 / 72).to_pil().convert("L").save(
        picture, "JPEG", quality=40
    )
    import zxingcpp
    from PIL import Image

    (code,) = zxingcpp.read_barcodes(Image.open(picture))
    assert code.text.startswith("PROOF 1 ") and code.text.endswith(" LETTER 1 1")


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is no PDF; ask for the whole document again"),
        (b"yes, all of it!", "is no PDF; ask for the whole document again"),
        (b"%PDF-1.7 and no more", "is broken"),
        ("encrypted", "is protected by a password"),
        ("500 pages", "has 500 pages; the limit is 200"),
    ],
    ids=str,
)
def test_what_is_no_proof_that_came_back_is_told_in_a_line(here: Path, content, said) -> None:
    back = here / "back.pdf"
    if isinstance(content, bytes):
        back.write_bytes(content)
    elif content == "encrypted":
        with pikepdf.open(here / "proof.pdf") as pdf:
            pdf.save(back, encryption=pikepdf.Encryption(owner="a", user="b"))
    else:
        make_pdf(back, pages=500)
    told = read(back)
    assert told.returncode in (4, 7) and told.stderr.count("\n") == 1
    assert "back.pdf: " in told.stderr and said in told.stderr
    assert not list((here / "suite.record").glob("*answer*"))
