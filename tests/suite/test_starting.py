"""A first suite file from PDFs: sizes, bleed and envelopes inferred, with the reasons."""

from pathlib import Path

import pytest

from mockup.errors import InputError, OutputError
from mockup.suite.reading import read_suite
from mockup.suite.starting import begin, find_art, read_art, refuse_replacing
from mockup.suite.starting_text import suite_text
from tests.conftest import make_pdf

MM = 1 / 25.4


# Trade sizes: common practice. ISO A6 is 105 x 148 mm (ISO 216).
@pytest.mark.parametrize(
    ("size", "trim", "card", "bleed", "because"),
    [
        ((5.25, 7.25), None, "A7", 0.125, "the page is that card and 0.125 in bleed"),
        ((5 + 6 * MM, 7 + 6 * MM), None, "A7", 3 * MM, "the page is that card and 0.118 in bleed"),
        ((5, 7), None, "A7", 0, "the page is that card without bleed"),
        ((6, 8), (0.5, 0.5, 5.5, 7.5), "A7", 0.5, "its TrimBox says so"),
        ((5.25, 7.25), (0, 0, 5.25, 7.25), "A7.5", 0, "its TrimBox is the whole page, without bleed"),
        ((111 * MM, 154 * MM), None, "ISO A6", 3 * MM, "the page is that card and 0.118 in bleed"),
        ((3.33, 6.77), None, "3.08 × 6.52 in", 0.125, "no TrimBox: 0.125 in bleed assumed on all sides; no trade size, so please check"),
    ],
)  # fmt: skip
def test_a_card_is_read_from_its_page(
    tmp_path: Path,
    size: tuple[float, float],
    trim: tuple[float, float, float, float] | None,
    card: str,
    bleed: float,
    because: str,
) -> None:
    (found,) = read_art([make_pdf(tmp_path / "a.pdf", size, trim_in=trim)])
    assert found.inferred.card.name == card
    assert found.inferred.bleed_in == pytest.approx(bleed, abs=1e-4)
    assert because in found.inferred.because("in")


def test_the_demos_art_makes_a_suite_that_reads_back(art: Path, tmp_path: Path) -> None:
    text = suite_text(begin(read_art(find_art([art]))), tmp_path)
    path = tmp_path / "suite.toml"
    path.write_text(text, encoding="utf-8")
    suite = read_suite(path)
    sizes = {piece.name: piece.card.name for piece in suite.pieces}
    assert sizes == {"details": "A2", "invitation": "A7", "reply": "4-bar"}
    assert suite.piece("reply").die.width_in == 4.875
    outer, reply = suite.envelopes
    assert (outer.size.name, reply.size.name) == ("A7", "4-bar")
    assert outer.liner is not None and outer.liner.art.path.name == "liner.pdf"
    assert "play 0.25 in, 0.25 in" in text


@pytest.mark.parametrize(
    ("bleed_in", "said"),
    [(0.125, "bleed = 3.175"), (8.5 / 72, "bleed = 3\n"), (3 * MM, "bleed = 3\n")],
)
def test_lengths_in_millimetres_are_the_arts(tmp_path: Path, bleed_in: float, said: str) -> None:
    """1/8 in is 3.175 mm; 8.5 points, 2.9986 mm, is 3 mm as a program saves it."""
    size = (105 * MM + 2 * bleed_in, 148 * MM + 2 * bleed_in)
    trim = (bleed_in, bleed_in, bleed_in + 105 * MM, bleed_in + 148 * MM)
    found = read_art([make_pdf(tmp_path / "a.pdf", size, trim_in=trim)])
    assert said in suite_text(begin(found, "mm"), tmp_path)


def test_each_page_of_a_file_is_a_piece(tmp_path: Path) -> None:
    found = read_art([make_pdf(tmp_path / "Supper Suite.pdf", pages=3)])
    assert [each.name for each in found] == [f"supper-suite-{k}" for k in (1, 2, 3)]
    assert "page = 2  # of 3" in suite_text(begin(found), tmp_path)


def test_names_that_collide_are_told_apart(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        make_pdf(tmp_path / folder / "card.pdf")
    found = read_art(find_art([tmp_path / "a", tmp_path / "b"]))
    assert [each.name for each in found] == ["card", "card-2"]


def test_a_folder_without_art(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="holds no PDF or SVG"):
        find_art([tmp_path])


def test_a_liner_alone_is_no_suite(tmp_path: Path) -> None:
    found = read_art([make_pdf(tmp_path / "liner.pdf")])
    with pytest.raises(InputError, match="at least one card"):
        begin(found)


def test_a_suite_file_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "suite.toml"
    path.touch()
    with pytest.raises(OutputError, match="exists; give another name, or say --replace"):
        refuse_replacing(path)


def test_a_file_that_is_named_twice_is_one_piece(tmp_path: Path) -> None:
    """As where a shell's star and the folder itself are named."""
    one, other = tmp_path / "a.pdf", tmp_path / "b.pdf"
    for file in (one, other):
        file.write_bytes(b"%PDF-1.7")
    assert find_art([other, tmp_path, one, tmp_path / "." / "b.pdf"]) == [other, one]
