"""What a page says to one who does not see it, read back from the file by pikepdf.

ISO 32000-1 14.7 (the tree, and the way back from a page to it), 14.8 (artifacts); ISO 14289-1 7.1.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pikepdf

from mockup.geometry.point import Box, Point
from mockup.output.pdf import whole_pdf
from mockup.output.typography import Style

BODY = Style("text", 12, 15)
ART = np.full((10, 10, 3), 90, np.uint8)


def write(path: Path, told: bool) -> pikepdf.Pdf:
    with whole_pdf(path, "Supper", "Eelgrass Press", "Proof") as pdf:
        for title in ("Reply", "Menu"):
            pdf.begin_page(4, 4, title)
            with pdf.element("H1"):
                pdf.text(Point(0.5, 0.5), title, BODY)
            pdf.paragraph(Point(0.5, 1), "Two lines of type, set to a narrow measure.", BODY, 1.4)
            if told:
                with pdf.element("Figure", "A grey square"):
                    pdf.picture(ART, Box(1, 2, 2, 3))
                    pdf.rule(Point(1, 3), Point(2, 3))
            else:
                pdf.picture(ART, Box(1, 2, 2, 3))
            pdf.rule(Point(0.5, 3.5), Point(3.5, 3.5))
            with pdf.group("Table"), pdf.group("TR"):
                for cell in ("Size", "Page"):
                    with pdf.element("TH"):
                        pdf.text(Point(0.5, 3.7), cell, BODY)
            with pdf.footer():
                pdf.text(Point(0.5, 3.9), "1 of 2", BODY)
    return pikepdf.open(path)


def roles(element: pikepdf.Object) -> list:
    """Returns an element's role, and those of the elements in it, as nested lists."""
    own = [str(element.S)[1:]]
    return [*own, *(roles(kid) for kid in element.K if "/S" in kid)]


def owners(pdf: pikepdf.Pdf) -> dict[int, list[pikepdf.Object]]:
    numbers = pdf.Root.StructTreeRoot.ParentTree.Nums
    return {int(numbers[k]): list(numbers[k + 1]) for k in range(0, len(numbers), 2)}


def test_the_tree_has_every_part_in_the_order_it_was_drawn(tmp_path: Path) -> None:
    pdf = write(tmp_path / "a.pdf", told=True)
    section = ["Sect", ["H1"], ["P"], ["Figure"], ["Table", ["TR", ["TH"], ["TH"]]]]
    assert roles(pdf.Root.StructTreeRoot.K) == ["Document", section, section]
    (figure,) = [kid for kid in pdf.Root.StructTreeRoot.K.K[0].K if str(kid.S) == "/Figure"]
    assert str(figure.Alt) == "A grey square"
    assert pdf.Root.MarkInfo.Marked is True


def test_every_span_leads_back_to_its_element_and_nothing_is_left_unmarked(tmp_path: Path) -> None:
    """Every painting operator stands in one span or artifact, never in two."""
    pdf = write(tmp_path / "a.pdf", told=True)
    back = owners(pdf)
    paints = {"Tj", "TJ", "S", "s", "f", "f*", "B", "Do"}
    for index, page in enumerate(pdf.pages):
        assert int(page.obj.StructParents) == index
        depth, numbers = 0, []
        for operands, operator in pikepdf.parse_content_stream(page):
            name = str(operator)
            if name in {"BDC", "BMC"}:
                assert depth == 0
                depth += 1
                if len(operands) == 2 and "/MCID" in operands[1]:
                    number = int(operands[1].MCID)
                    numbers.append(number)
                    assert str(back[index][number].S) == str(operands[0])
            elif name == "EMC":
                depth -= 1
            assert name not in paints or depth == 1, name
        assert depth == 0
        assert numbers == list(range(len(back[index])))


def test_the_foot_is_an_artifact_of_pagination(tmp_path: Path) -> None:
    pdf = write(tmp_path / "a.pdf", told=True)
    content = b"".join(page.Contents.read_bytes() for page in pdf.pages)
    assert content.count(b"/Subtype /Footer") == 2


def test_a_file_says_what_it_is_and_claims_no_standard_nobody_has_tried(tmp_path: Path) -> None:
    pdf = write(tmp_path / "a.pdf", told=True)
    with pdf.open_metadata() as metadata:
        assert "pdfuaid:part" not in metadata
        assert metadata["dc:title"] == "Supper"
        assert metadata["dc:language"] == {"en"}
    assert pdf.Root.ViewerPreferences.DisplayDocTitle is True
    assert str(pdf.Root.PageLabels.Nums[1].S) == "/D"


def test_lines_of_a_paragraph_do_not_run_together_read_aloud(tmp_path: Path) -> None:
    """The last letter of every line but the last is a space, as the letters are read by MuPDF."""
    import pymupdf

    write(tmp_path / "a.pdf", told=True)
    with pymupdf.open(tmp_path / "a.pdf") as document:
        lines = [
            "".join(span["text"] for span in line["spans"])
            for block in document[0].get_text("dict")["blocks"]
            for line in block.get("lines", [])
        ]
    start = next(k for k, line in enumerate(lines) if line.startswith("Two"))
    end = next(k for k, line in enumerate(lines) if line.rstrip().endswith("measure."))
    assert end > start
    assert all(line.endswith(" ") for line in lines[start:end])
