"""Things of a designer's own folder: each where its name says, and none broken."""

import shutil
from pathlib import Path

import pytest

from mockup.errors import InputError, LimitError, SuiteError
from mockup.render.things import folder as folders
from mockup.render.things.folder import wishes_of


def test_a_name_says_where_a_thing_goes(art: Path, tmp_path: Path) -> None:
    seal = art / "things" / "seal.svg"
    for name in ("under-sprig.svg", "flap-seal.SVG", "envelope-post.svg", "flaps.svg"):
        shutil.copy(seal, tmp_path / name)
    (tmp_path / "notes.txt").write_text("no drawing")
    (tmp_path / "._flaps.svg").write_text("what a file system leaves beside a file")
    found = {Path(wish.svg).name: wish.where for wish in wishes_of(tmp_path, ())}
    assert found == {
        "under-sprig.svg": "under",
        "flap-seal.SVG": "flap",
        "envelope-post.svg": "envelope",
        "flaps.svg": "empty",
    }


def test_a_folder_named_from_where_one_stands_is_found(
    art: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As it is typed: the drawings are read from there, and not from beside the scene."""
    shutil.copytree(art / "things", tmp_path / "own")
    monkeypatch.chdir(tmp_path)
    (seal,) = [wish for wish in wishes_of(Path("own"), ()) if wish.svg.endswith("seal.svg")]
    assert Path(seal.svg) == tmp_path / "own" / "seal.svg"


def test_a_broken_drawing_is_told_by_its_file(tmp_path: Path) -> None:
    (tmp_path / "sprig.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'><path d=")
    with pytest.raises(InputError, match="sprig.svg"):
        wishes_of(tmp_path, ())


def test_a_folder_that_holds_no_drawing_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is no folder"):
        wishes_of(tmp_path / "nowhere", ())
    with pytest.raises(InputError, match=r"has no \.svg"):
        wishes_of(tmp_path, ())


def test_more_drawings_than_a_picture_takes_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(folders, "THINGS_MAX", 1)
    for name in ("a.svg", "b.svg"):
        (tmp_path / name).write_text("<svg/>")
    with pytest.raises(LimitError, match="has 2 SVGs; the limit is 1"):
        wishes_of(tmp_path, ())


def test_a_name_says_on_which_piece_and_where_on_it(art: Path, tmp_path: Path) -> None:
    """The longest name of a piece is meant, and the longest word of a place."""
    seal = art / "things" / "seal.svg"
    names = {
        "on-band-seal.svg": ("band", None),
        "ON-Band.svg": ("band", None),
        "on-band-top-seal.svg": ("band", "top"),
        "on-band-top-edge-seal.svg": ("band", "top-edge"),
        "on-details-card-top-left.svg": ("details-card", "top-left"),
        "on-details-topiary.svg": ("details", None),
    }
    for name in names:
        shutil.copy(seal, tmp_path / name)
    pieces = ("details", "details-card", "band")
    wishes = wishes_of(tmp_path, pieces)
    assert {Path(wish.svg).name: (wish.on, wish.place) for wish in wishes} == names
    assert {wish.where for wish in wishes} == {"on"}


def test_a_name_of_no_piece_is_told_by_its_file(art: Path, tmp_path: Path) -> None:
    shutil.copy(art / "things" / "seal.svg", tmp_path / "on-bnad-seal.svg")
    with pytest.raises(
        SuiteError,
        match=r'on-bnad-seal\.svg: by its name it lies on a piece: no piece called "bnad"; did you mean "band"',
    ):
        wishes_of(tmp_path, ("menu", "band"))
