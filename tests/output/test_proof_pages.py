"""The proof's pages over suites of every kind: true to size as another engine measures it, and full.

Sizes: ISO 216 A5 is 148 x 210 mm; squares and the rest as declared.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest

from mockup.output.proof import Telling, write_proof
from mockup.suite.audience import Audience
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf
from tests.output.demo_proof import FLATLAY, demo_suite, issue_of, paths
from tests.quickly import quickly

MM = 1 / 25.4
LONG = "The seventh and last of the harvest suppers at the mill between two tides, by lantern light"
SIZES = {
    "A5": (148 * MM, 210 * MM),
    "A5 lying": (210 * MM, 148 * MM),
    "square of 7.5 in": (7.5, 7.5),
    "square of 8 in": (8.0, 8.0),
    "tag": (2.0, 3.5),
    "no. 10 panel": (9.25, 4.0),
    "narrow": (2.5, 9.0),
    "poster": (11.0, 17.0),
}


def blank_share(page: pdfium.PdfPage) -> float:
    """Returns the largest upright rectangle of a page without a mark in it, as a share of the page.

    By the usual stack of heights, row by row, on cells of a tenth of an inch.
    """
    pixels = page.render(scale=20 / 72).to_numpy()[:, :, :3].min(axis=2)
    high, wide = (side // 2 * 2 for side in pixels.shape)
    marked = pixels[:high, :wide].reshape(high // 2, 2, wide // 2, 2).min(axis=(1, 3)) < 235
    heights, largest = np.zeros(wide // 2, int), 0
    for row in marked:
        heights = np.where(row, 0, heights + 1)
        stack: list[tuple[int, int]] = []
        for x, height in enumerate([*heights.tolist(), 0]):
            start = x
            while stack and stack[-1][1] >= height:
                start, tall = stack.pop()
                largest = max(largest, tall * (x - start))
            stack.append((start, height))
    return largest / marked.size


def suite_of(folder: Path, size_in: tuple[float, float], paper: str):
    wide, high = size_in
    art = f"0.92 0.9 0.84 rg -9 -9 {wide * 72 + 40} {high * 72 + 40} re f 0.1 g 60 60 40 20 re f"
    make_pdf(folder / "card.pdf", (wide + 0.25, high + 0.25), content=art)
    text = (
        f'title = "Tide Mill Supper"\n[pieces.card]\nart = "card.pdf"\n'
        f'card = "{wide:.5f} x {high:.5f} in"\n[proof]\npaper = "{paper}"\n'
    )
    (folder / "suite.toml").write_text(text)
    return read_suite(folder / "suite.toml")


QUICK = (("A5", "a4"), ("A5", "letter"), ("square of 8 in", "letter"), ("tag", "a4"))


@pytest.mark.parametrize(
    ("paper", "size_in"),
    [
        pytest.param(
            paper,
            size,
            id=f"{name}-{paper}",
            marks=[] if (name, paper) in QUICK else [pytest.mark.slow],
        )
        for name, size in SIZES.items()
        for paper in ("letter", "a4")
    ],
)
def test_every_card_is_at_true_size_on_a_page_that_is_full(
    paper: str, size_in: tuple[float, float], tmp_path: Path
) -> None:
    path = tmp_path / "proof.pdf"
    suite = suite_of(tmp_path, size_in, paper)
    write_proof(Telling(suite, FLATLAY, issue_of(suite)), path)
    read = pdfium.PdfDocument(path)
    lines = [each for each in paths(read[1]) if each.stroked and each.segments > 2]
    assert any(each.size_in == pytest.approx(size_in, abs=0.002) for each in lines)
    words = " ".join(read[1].get_textpage().get_text_range().split()).replace("\xa0", " ")
    assert "True size, 100 %" in words
    standard = {(612, 792), (595, 842)}
    page = tuple(sorted(round(side) for side in read[1].get_size()))
    assert ("folded out to" in words) == (page not in standard)
    shares = [blank_share(page) for page in read]
    assert max(shares) < 1 / 3, shares


@pytest.mark.parametrize("audience", quickly(Audience, lambda n: [*Audience][n] is Audience.STUDIO))
@pytest.mark.parametrize("paper", quickly(["letter", "a4"], lambda n: n == 0))
@pytest.mark.parametrize(
    "more",
    [
        pytest.param((0, 0), id="demo", marks=pytest.mark.slow),
        pytest.param((21, 5), id="24 pieces, 6 envelopes", marks=pytest.mark.slow),
    ],
)
def test_no_page_of_a_suite_is_a_third_empty(
    more: tuple[int, int], paper: str, audience: Audience, tmp_path: Path
) -> None:
    pieces = "".join(
        f'[pieces.p{k}]\nart = "details.pdf"\ncard = "A2"\ntitle = "{LONG}"\n'
        for k in range(more[0])
    )
    envelopes = "".join(f'[envelopes.e{k}]\nsize = "A2"\n' for k in range(more[1]))
    suite = demo_suite(tmp_path, f'{pieces}{envelopes}[proof]\npaper = "{paper}"\n')
    path = tmp_path / "proof.pdf"
    write_proof(Telling(suite, FLATLAY, issue_of(suite), audience), path)
    read = pdfium.PdfDocument(path)
    shares = [round(blank_share(page), 3) for page in read]
    assert max(shares) < 1 / 3, shares
    marked = ["For the studio" in page.get_textpage().get_text_range() for page in read]
    assert set(marked) == {audience is Audience.STUDIO}
