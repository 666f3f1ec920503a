"""Finishes with a page of their own go along to the printer as files of their own, and are named
on the order's sheet."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from mockup.errors import InputError, SuiteError
from mockup.ordering.sheets import sheets_of
from mockup.output.order_told import finishes_ordered
from mockup.output.print_files import print_file_doors, print_files
from mockup.printers.files_asked import FilesAsked
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf

ALONE = FilesAsked(("art-alone",))


def suite_of(tmp_path: Path, **foil: object) -> Suite:
    make_pdf(tmp_path / "menu.pdf", size_in=(2.25, 3.25), pages=2)
    make_pdf(tmp_path / "foil.pdf", **{"size_in": (2.25, 3.25), **foil})
    file = tmp_path / "suite.toml"
    file.write_text(
        'title = "Supper"\n[pieces.menu]\nart = "menu.pdf"\ncard = "2 x 3 in"\nquantity = 20\n'
        'finish = ["letterpress", { as = "foil", art = "foil.pdf", metal = "rose-gold" }, '
        '{ as = "foil", page = 2, metal = "gold" }]\nedge = "copper"\ntorn = ["top", "left"]\n'
    )
    return read_suite(file)


def test_each_page_is_a_print_file_with_the_same_trim(tmp_path: Path) -> None:
    suite = suite_of(tmp_path)
    names = ["menu", "menu-foil", "menu-foil-2"]
    doors = print_file_doors(suite, tmp_path / "out", ALONE)
    assert [door.path.name for door in doors] == [f"{name}-art.pdf" for name in names]
    files = print_files(suite, tmp_path / "out", ALONE)
    assert [each.piece for each in files] == names
    assert [each.path for each in files] == [door.path for door in doors]
    trims = []
    for each in files:
        with pikepdf.open(each.path) as pdf:
            trims.append([float(side) for side in pdf.pages[0].trimbox])
    assert trims[0] == trims[1] == trims[2] == pytest.approx([9, 9, 153, 225])


def test_a_page_of_another_size_is_refused(tmp_path: Path) -> None:
    suite = suite_of(tmp_path, size_in=(3.25, 2.25))
    with pytest.raises(InputError, match=r"foil\.pdf, page 1.*the sides are swapped"):
        sheets_of(suite)


def test_the_order_names_metals_edges_and_torn_sides(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path).pieces
    assert finishes_ordered(piece) == [
        "foil (rose gold, gold)", "letterpress", "copper edges", "torn: left top",
    ]  # fmt: skip


def test_a_piece_cannot_have_the_name_of_such_a_file(tmp_path: Path) -> None:
    suite_of(tmp_path)
    file = tmp_path / "suite.toml"
    file.write_text(f'{file.read_text()}[pieces.menu-foil]\nart = "menu.pdf"\ncard = "2 x 3 in"\n')
    with pytest.raises(SuiteError, match='a piece is called "menu-foil"'):
        read_suite(file)
