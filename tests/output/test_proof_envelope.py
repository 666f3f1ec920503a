"""An envelope's pages: her art and her address where they are, at true size, and told."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray

from mockup.artwork.raster import rasterise
from mockup.envelopes.flap import closed_flap
from mockup.envelopes.views import pocket
from mockup.geometry.flatten import polygon
from mockup.output.pdf import Pdf
from mockup.output.proof.envelope import envelope_pages
from mockup.output.proof.plan import Telling
from mockup.reading.envelope_type import type_on
from mockup.record.fingerprint import fingerprints
from mockup.record.revisions import Issue
from mockup.suite.audience import Audience
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

HEAD = (
    'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n'
    '[envelopes.outer]\nsize = "4-bar"\ncolour = "#22385a"\n'
)
FACE = (5.125, 3.625)
PPI = 72  # as drawn at scale 1


def pages_of(
    folder: Path, more: str, audience: Audience = Audience.CLIENT
) -> tuple[list[str], list[NDArray[np.uint8]], Telling]:
    """Returns the text and the picture of each page, and what was told."""
    make_pdf(folder / "card.pdf")
    (folder / "suite.toml").write_text(HEAD + more, encoding="utf-8")
    suite = read_suite(folder / "suite.toml")
    issue = Issue(1, "1", "2026-09-11", fingerprints(suite))
    telling = Telling(suite, np.zeros((4, 4, 3), np.uint8), issue, audience)
    file = io.BytesIO()
    pdf = Pdf(file, "Supper", "", "")
    for page in envelope_pages(telling, suite.envelopes[0]):
        pdf.begin_page(page.width_in, page.height_in, page.title)
        page.draw(pdf, rasterise(page.jobs))
    pdf.save()
    document = pdfium.PdfDocument(file.getvalue())
    texts = [" ".join(page.get_textpage().get_text_range().split()) for page in document]
    pictures = [page.render(scale=1).to_numpy()[..., :3] for page in document]
    return texts, pictures, telling


def test_an_address_is_live_type_of_its_size_in_its_ink(tmp_path: Path) -> None:
    texts, _, telling = pages_of(tmp_path, 'address = ["Odile Farthing", "Samphire Hard"]\n')
    assert "Odile Farthing" in texts[0] and "Samphire Hard" in texts[0]
    assert "Eelgrass Reach" not in texts[0]  # the sample that stands in where nothing is said
    assert "In white ink" in texts[0] and "in no print file" in texts[0]
    (address,) = type_on(telling.suite, telling.suite.envelopes[0], "face")
    assert address.block.size_pt == 17


def test_without_an_address_the_sample_stands_in(tmp_path: Path) -> None:
    texts, _, _ = pages_of(tmp_path, "")
    assert "Eelgrass Reach" in texts[0] and "in no print file" not in texts[0]


def test_the_backs_art_is_on_flap_and_pocket_and_bare_where_the_flap_lay(tmp_path: Path) -> None:
    """A back printed white all over: told apart by the green of the paper, 56 of 255."""
    make_pdf(tmp_path / "back.pdf", FACE, "0 g 0 0 369 261 re f")
    more = 'flap_art = { art = "back.pdf", white = "art-as-white" }\n'
    texts, (outside, inside), telling = pages_of(tmp_path, more)
    assert "White ink" in texts[0]
    assert _share_light(outside) == pytest.approx(_area() / outside[..., 0].size, rel=0.05)
    spec = telling.suite.envelopes[0].spec
    bare = polygon(pocket(spec)).difference(polygon(closed_flap(spec))).area * PPI**2
    assert _share_light(inside) * inside[..., 0].size == pytest.approx(bare, rel=0.05)


def _area() -> float:
    return FACE[0] * FACE[1] * PPI**2


def _share_light(picture: NDArray[np.uint8]) -> float:
    """Returns the share of pixels of white ink on the envelope's blue: grey, about 188."""
    grey = (np.abs(picture.astype(int) - 189) < 12).all(axis=-1)
    return float(grey.mean())


def test_the_studio_is_told_files_and_sizes(tmp_path: Path) -> None:
    make_pdf(tmp_path / "face.pdf", FACE)
    more = 'face = "face.pdf"\nreturn_address = { lines = ["The Tide Mill"], size = 9 }\n'
    texts, _, _ = pages_of(tmp_path, more, Audience.STUDIO)
    assert "face.pdf" in texts[0] and "text, 9" in texts[0]
