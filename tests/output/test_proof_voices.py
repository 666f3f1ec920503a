"""The client is told sizes in words; the studio every number, line, finding and price."""

from __future__ import annotations

import shutil
from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
import pytest

from mockup.output.proof.grid import FOR_THE_STUDIO
from tests.mockup_command import made
from tests.output.demo_proof import demo_suite, paths

# Two whole proofs: tried once. What is drawn for whom, the goldens and the commands see every time.
pytestmark = pytest.mark.slow

CATALOGUES = Path(__file__).parents[2] / "assets_demo" / "printers"


@pytest.fixture(scope="module")
def proofs(
    tmp_path_factory: pytest.TempPathFactory, plain_cover: None
) -> tuple[list[str], list[str], Path]:
    """The words of the demo's pages for the client and the studio, and the folder of both."""
    folder = tmp_path_factory.mktemp("voices")
    suite = demo_suite(folder)
    shutil.copytree(CATALOGUES, folder / "printers")
    told = []
    for whose in ("client", "studio"):
        path = made(folder / f"{whose}.pdf", "proof", suite.path, "--for", whose)
        pages = pdfium.PdfDocument(path)
        texts = [page.get_textpage().get_text_range() for page in pages]
        told.append([" ".join(text.split()).replace("\xa0", " ") for text in texts])
    return told[0], told[1], folder


def test_only_the_studio_is_told_numbers(proofs: tuple[list[str], list[str], Path]) -> None:
    client, studio, _ = proofs
    for number in ("mil thick", "rise 4.33 in", "invitation.pdf", "Cut black", "USD", "bleed"):
        assert number in " ".join(studio), number
        assert number not in " ".join(client[:-2]), number


def test_the_studio_is_named_on_every_page_and_the_client_on_none(
    proofs: tuple[list[str], list[str], Path],
) -> None:
    client, studio, _ = proofs
    assert all(FOR_THE_STUDIO in text for text in studio)
    assert not any("studio" in text.lower() for text in client)


def test_the_client_sees_the_cut_line_and_no_other(
    proofs: tuple[list[str], list[str], Path],
) -> None:
    """Bleed and safe margin of 1/8 in: outlines of 5.25 x 7.25 in and within 4.75 x 6.75 in."""
    folder = proofs[2]
    sizes = {}
    for whose in ("client", "studio"):
        page = pdfium.PdfDocument(folder / f"{whose}.pdf")[2]
        sizes[whose] = {tuple(round(v, 2) for v in p.size_in) for p in paths(page) if p.stroked}
    assert (4.25, 5.5) in sizes["client"] and (4.25, 5.5) in sizes["studio"]
    assert (4.5, 5.75) in sizes["studio"] and (4.0, 5.25) in sizes["studio"]
    assert not {(4.5, 5.75), (4.0, 5.25)} & sizes["client"]


def test_the_studios_findings_are_listed_after_the_pieces(
    proofs: tuple[list[str], list[str], Path],
) -> None:
    client, studio, folder = proofs
    assert any(text.startswith(f"{FOR_THE_STUDIO} Findings 1 ") for text in studio)
    assert not any("Findings" in text for text in client)
    with pikepdf.open(folder / "studio.pdf") as pdf, pdf.open_outline() as outline:
        assert "Findings" in [str(item.title) for item in outline.root]


def test_nothing_can_be_misread_as_every_second_word(
    proofs: tuple[list[str], list[str], Path],
) -> None:
    assert "All the words, read aloud once" in proofs[0][-1]
    assert "very other" not in proofs[0][-1]
