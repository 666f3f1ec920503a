"""Print files of an envelope's face and flap: the art alone, as it is seen on the closed envelope."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from mockup.asks.inputs import inputs_of
from mockup.checks.gamut import check_gamut
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.errors import SuiteError
from mockup.output.order_told import OrderTold, item_rows
from mockup.output.print_files import print_file_doors, print_files
from mockup.printers.files_asked import THE_USUAL, FilesAsked
from mockup.record.fingerprint import fingerprints
from mockup.record.reading import read_record
from mockup.record.status import status_of
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\nquantity = 60\n'
ENVELOPE = '[envelopes.outer]\nsize = "4-bar"\nface = "face.pdf"\nflap_art = "back.pdf"\n'
FACE = (5.125, 3.625)


def suite_of(folder: Path, more: str = "") -> Suite:
    make_pdf(folder / "card.pdf")
    make_pdf(folder / "face.pdf", (FACE[0] + 0.25, FACE[1] + 0.25))
    make_pdf(folder / "back.pdf", FACE)
    (folder / "suite.toml").write_text(HEAD + more + ENVELOPE, encoding="utf-8")
    return read_suite(folder / "suite.toml")


def test_a_side_is_written_alone_whatever_variant_is_asked(tmp_path: Path) -> None:
    """An envelope is not cut along the outline of its face: nobody is handed a line that says so."""
    suite = suite_of(tmp_path)
    written = print_files(suite, tmp_path / "out", THE_USUAL)
    names = sorted(each.path.name for each in written)
    assert names == ["card-cut-line.pdf", "outer-face-art.pdf", "outer-flap-art.pdf"]
    both = FilesAsked(("art-alone", "cut-line"))
    for asked in (THE_USUAL, both):
        doors = {each.path.name for each in print_file_doors(suite, tmp_path / "out", asked)}
        assert {"outer-face-art.pdf", "outer-flap-art.pdf"} < doors
        assert not {"outer-face-cut-line.pdf", "outer-flap-cut-line.pdf"} & doors
    face = next(each for each in written if each.piece == "outer-face")
    assert not face.steps
    with pikepdf.open(face.path) as pdf:
        left, bottom, right, top = (float(each) / 72 for each in pdf.pages[0].trimbox)  # type: ignore[arg-type]
        assert (right - left, top - bottom) == pytest.approx(FACE, abs=1e-4)


def test_a_rule_of_white_ink_is_told_for_no_plate_says_it(tmp_path: Path) -> None:
    """The file has the art's own inks, and is compared by them."""
    suite_of(tmp_path)
    file = tmp_path / "suite.toml"
    white = 'face = { art = "face.pdf", white = { from = "art-as-white", hits = 2 } }'
    file.write_text(file.read_text("utf-8").replace('face = "face.pdf"', white), "utf-8")
    written = print_files(read_suite(file), tmp_path / "out", THE_USUAL)
    notes = {each.piece: " ".join(each.notes) for each in written}
    assert "white ink in place of the art's own inks, 2 hits" in notes["outer-face"]
    assert "white ink" not in notes["outer-flap"]


def test_the_sheet_says_what_is_printed(tmp_path: Path) -> None:
    suite = suite_of(tmp_path)
    items = fingerprints(suite)
    standings = status_of(items, read_record(suite.path)).standings
    _, row = item_rows(OrderTold(suite, "2026-09-11", standings, ()))
    assert row["sides"] == "printed on the face and the flap"


def test_a_sides_art_is_never_written_over(tmp_path: Path) -> None:
    read = {each.name for each in inputs_of(suite_of(tmp_path))}
    assert {"face.pdf", "back.pdf", "card.pdf"} <= read


def test_no_piece_has_the_name_of_a_sides_files(tmp_path: Path) -> None:
    twin = '[pieces.outer-face]\nart = "card.pdf"\ncard = "A7"\n'
    with pytest.raises(SuiteError, match='a piece is called "outer-face"'):
        suite_of(tmp_path, twin)


def test_colours_out_of_reach_are_told_of_a_side(tmp_path: Path) -> None:
    """A green no press prints, all over the back; art of another size is told elsewhere."""
    suite_of(tmp_path)
    make_pdf(tmp_path / "back.pdf", FACE, "0 1 0 rg 0 0 369 261 re f")
    make_pdf(tmp_path / "face.pdf", (3, 3), "0 1 0 rg 0 0 369 261 re f")
    context = SuiteContext(read_suite(tmp_path / "suite.toml"), Settings())
    (note,) = check_gamut(context)
    assert note.piece == "envelopes.outer" and note.message.startswith("back: 100 %")
