"""A watermark goes across every page and hides nothing; art under it is of a proof's resolution."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest

from mockup.errors import ExitCode, RequestError
from mockup.output.proof import Telling, write_proof
from mockup.output.proof.watermark import OPACITY, refuse_too_long
from tests.conftest import make_pdf
from tests.mockup_command import mockup
from tests.output.demo_proof import FLATLAY, demo_suite, issue_of, pictures

WORDS = "Eelgrass proof"


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The demo's proof without a watermark and with one."""
    folder = tmp_path_factory.mktemp("watermark")
    suite = demo_suite(folder)
    plain, marked = folder / "plain.pdf", folder / "marked.pdf"
    write_proof(Telling(suite, FLATLAY, issue_of(suite)), plain)
    write_proof(Telling(suite, FLATLAY, issue_of(suite), watermark=WORDS), marked)
    return plain, marked


@pytest.mark.slow
def test_it_is_on_every_page_from_side_to_side_and_pale(both: tuple[Path, Path]) -> None:
    """A grey of 128 over a tone moves it by its opacity of the way at most: 0.16 of 128 is 20."""
    plain, marked = (pdfium.PdfDocument(path) for path in both)
    assert len(plain) == len(marked)
    for index in (0, 4, 6, 7):  # pages without a card's art, whose resolution changes
        before, after = (
            document[index].render(scale=1).to_numpy()[:, :, :3].astype(int)
            for document in (plain, marked)
        )
        assert before.shape == after.shape
        changed = np.abs(after - before).max(axis=2)
        rows, columns = np.nonzero(changed > 4)
        assert np.ptp(columns) > 0.4 * before.shape[1] and np.ptp(rows) > 0.3 * before.shape[0]
        assert changed.max() <= OPACITY * 128 + 8 or index == 6  # there a card's corner is coarser


@pytest.mark.slow
def test_type_over_and_under_it_stays_plain(both: tuple[Path, Path]) -> None:
    """On the sign-off page every dark point of type keeps 4.5 : 1 (WCAG 2.2, 1.4.3) against the
    palest ground the watermark leaves; luminance by the usual power of 2.2."""
    before, after = (
        pdfium.PdfDocument(path)[7].render(scale=3).to_numpy()[:, :, :3].mean(axis=2) / 255
        for path in both
    )
    crossed = np.abs(before - after) > 0.01
    ink, ground = crossed & (before < 0.2), crossed & (before > 0.99)
    assert ink.sum() > 30 and ground.sum() > 10_000
    darkest = after[ink].max() ** 2.2
    assert (after[ground].min() ** 2.2 + 0.05) / (darkest + 0.05) > 4.5


@pytest.mark.slow
def test_art_is_of_a_proofs_resolution(both: tuple[Path, Path]) -> None:
    """200 pixels an inch of the card, also where it is shown larger."""
    _, marked = both
    for page in list(pdfium.PdfDocument(marked))[1:4]:
        card, *closer = pictures(page)
        assert card.size_px[0] / card.size_in[0] <= 200 * (1 + 1e-4)
        for larger in closer:
            assert larger.size_px[0] / larger.size_in[0] <= 200 / 1.3


def test_what_is_too_long_to_be_one_is_refused(tmp_path: Path) -> None:
    refuse_too_long(WORDS, "letter")
    with pytest.raises(RequestError, match="too long to go across a page"):
        refuse_too_long("not to be printed, not to be shown to anybody else, " * 3, "letter")
    make_pdf(tmp_path / "a.pdf")
    (tmp_path / "s.toml").write_text('title = "T"\n[pieces.a]\nart = "a.pdf"\ncard = "A7"\n')
    output = tmp_path / "o.pdf"
    answer = mockup("proof", tmp_path / "s.toml", "-o", output, "--watermark", "word " * 40)
    assert answer.returncode == ExitCode.USAGE and not output.exists()
    assert len(answer.stderr.strip().splitlines()) == 1 and "watermark" in answer.stderr
