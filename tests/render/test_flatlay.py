"""The flat-lay against itself: what changes with one thing, and only that.

Every sheet has its place fixed by a scene, apart from the others, so that a place in the picture
is known without asking the program.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from shapely import Point, contains_xy

from mockup.dies import make_die
from mockup.geometry.flatten import polygon
from tests.conftest import ART, make_pdf
from tests.golden.recipes import lay_out
from tests.mockup_command import made
from tests.pictures import BOX_PX, apart, difference, linear, read

WIDTH_PX, TABLE_IN = 720, 24.0
PPI = WIDTH_PX / TABLE_IN
MIDDLES = {"outer": (5, 6), "envelope": (5, 13.5), "invitation": (12, 5), "details": (18, 4.5),
           "reply": (18.5, 11)}  # fmt: skip
SIZES = {"invitation": (5, 7), "details": (4.25, 5.5), "reply": (4.875, 3.5),
         "outer": (7.25, 9.4), "envelope": (5.125, 3.625)}  # fmt: skip
DIES = {
    "invitation": make_die("lancet-arch", 5, 7),
    "details": make_die("rectangle", 4.25, 5.5),
    "reply": make_die("ticket-corner", 4.875, 3.5, {"radius": 0.5}),
}
PLACES = "".join(f"[places.{name}]\nat = [{x}, {y}]\n" for name, (x, y) in MIDDLES.items())
SCENE = 'aspect = "3:2"\nwidth_in = 24\n[surface]\nkind = "plaster"\ncolour = "#c8c3bc"\n'
LINE = '\n[cut_line]\ncolour = "#d01c6a"\nwidth = "2 pt"\n'

Picture = NDArray[np.uint8]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo suite with a broad line of one colour, on a table with fixed places."""
    folder = tmp_path_factory.mktemp("flatlay")
    lay_out(folder)
    (folder / "table").mkdir()
    (folder / "table" / "scene.toml").write_text(SCENE + PLACES)
    # In a scene's places a piece and an envelope of one name are one: the envelope takes another.
    text = (ART / "suite.toml").read_text().replace("[envelopes.reply]", "[envelopes.envelope]")
    (folder / "suite.toml").write_text(text.replace('"limewash"', '"table"') + LINE)
    return folder


@pytest.fixture(scope="module")
def plain(folder: Path) -> Picture:
    return taken(folder, "plain", "--plain")


@pytest.fixture(scope="module")
def lit(folder: Path) -> Picture:
    return taken(folder, "lit")


def taken(folder: Path, name: str, *more: str, **changes: str) -> Picture:
    """Returns the picture of the suite, its text changed by `old=new` pairs told in `changes`."""
    suite = folder / f"{name}.toml"
    text = (folder / "suite.toml").read_text()
    for old, new in changes.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    suite.write_text(text)
    options = ("--width", str(WIDTH_PX), *more)
    return read(made(folder / f"{name}.png", "flatlay", suite, *options, cwd=folder))


def part(picture: Picture, name: str, inset_in: float = 0.0) -> Picture:
    """Returns the part of a picture a sheet's box fills, less an inset (more, where negative)."""
    (x, y), (wide, high) = MIDDLES[name], SIZES[name]
    across, down = wide / 2 - inset_in, high / 2 - inset_in
    rows = slice(round((y - down) * PPI), round((y + down) * PPI))
    return picture[rows, round((x - across) * PPI) : round((x + across) * PPI)]


def mean(picture: Picture) -> NDArray[np.float64]:
    return linear(picture).reshape(-1, 3).mean(axis=0)


def changed(one: Picture, other: Picture) -> NDArray[np.bool_]:
    """Returns which pixels of two pictures differ by more than a level."""
    return np.abs(one.astype(int) - other.astype(int)).max(axis=2) > 1


def spread(mask: NDArray[np.bool_], name: str, inset_in: float) -> NDArray[np.bool_]:
    """Returns a mask without what lies in a sheet's box."""
    outside = mask.copy()
    part(outside, name, inset_in)[:] = False
    return outside


@pytest.mark.parametrize("name", MIDDLES)
def test_every_sheet_lies_on_the_table(name: str, plain: Picture, lit: Picture) -> None:
    for picture in (plain, lit):
        table = picture[-30:, -30:].reshape(-1, 3).mean(axis=0)
        own = part(picture, name, 1.4)
        assert apart(own.reshape(-1, 3).mean(axis=0), table) > 4


def test_another_stock_changes_that_card_alone(folder: Path, plain: Picture) -> None:
    text = 'art = "details.pdf"\ncard = "A2"               # 4.25 x 5.5\nstock = "smooth-120-white"'
    kraft = taken(
        folder, "kraft", "--plain", **{text: text.replace("smooth-120-white", "kraft-100")}
    )
    differs = changed(kraft, plain)
    assert not spread(differs, "details", -0.05).any()
    assert part(differs, "details", 0.1).mean() > 0.8
    white, brown = mean(part(plain, "details", 0.3)), mean(part(kraft, "details", 0.3))
    assert (brown < white).all() and brown[2] / white[2] < brown[0] / white[0]


def test_the_cut_line_runs_along_every_die_and_nowhere_else(folder: Path, plain: Picture) -> None:
    """Without a line the picture is the same but for 2 pt, two pixels at least, on each die."""
    bare = taken(folder, "bare", "--plain", "--no-cut-line")
    differs = changed(bare, plain)
    near = np.zeros_like(differs)
    for name, die in DIES.items():
        (x, y), (wide, high) = MIDDLES[name], SIZES[name]
        shape = polygon(die.shape)
        for ring in (shape.exterior, *shape.interiors):
            for step in np.arange(0, ring.length, 0.1):
                on: Point = ring.interpolate(step)
                column = int((x - wide / 2 + on.x) * PPI)
                row = int((y - high / 2 + on.y) * PPI)
                around = np.s_[row - 1 : row + 2, column - 1 : column + 2]
                assert differs[around].any(), (name, on)
        rows, columns = np.mgrid[: differs.shape[0], : differs.shape[1]]
        across = (columns + 0.5) / PPI - (x - wide / 2)
        down = (rows + 0.5) / PPI - (y - high / 2)
        near |= contains_xy(shape.boundary.buffer(max(1 / 72, 1 / PPI) + 1 / PPI), across, down)
    assert not (differs & ~near).any()
    # Half the line lies inside the die: the pixels there take on its colour, at full strength.
    edge = part(plain, "details", 0)[20:-20, 0].reshape(-1, 3).mean(axis=0)
    without = part(bare, "details", 0)[20:-20, 0].reshape(-1, 3).mean(axis=0)
    line = np.array([0xD0, 0x1C, 0x6A])
    assert apart(edge, line) < apart(without, line) - 5


def test_the_liners_art_shows_in_the_open_envelope_alone(folder: Path, plain: Picture) -> None:
    make_pdf(folder / "red.pdf", (12, 12), "1 0 0 rg 0 0 864 864 re f")
    red = taken(folder, "red", "--plain", **{'liner = "liner.pdf"': 'liner = "red.pdf"'})
    differs = changed(red, plain)
    assert not spread(differs, "outer", 0).any()
    middle = red[round(3.4 * PPI) : round(4.4 * PPI), round(4.6 * PPI) : round(5.4 * PPI)]
    reds = mean(middle)
    assert reds[0] > 5 * reds[1] and reds[0] > 5 * reds[2]
    # The liner keeps off the flap's gummed edge: what is left of the envelope there is not red.
    assert 0.1 < part(differs, "outer").mean() < 0.5


def test_the_closed_envelopes_flap_is_seen_by_its_edges(lit: Picture) -> None:
    """The pointed flap's edges are darker or lighter than the paper beside them."""
    own = linear(part(lit, "envelope", 0.3)).mean(axis=2)
    grain = np.median(np.abs(np.diff(own, axis=1)))
    assert np.abs(np.diff(own, axis=1)).max() > 6 * grain


def test_shadows_fall_away_from_the_window(plain: Picture, lit: Picture) -> None:
    """A scene's window is at the upper left if it does not say: shadows fall right and down."""
    (x, y), (wide, high) = MIDDLES["details"], SIZES["details"]
    rows = slice(round((y - 1.5) * PPI), round((y + 1.5) * PPI))
    right = slice(round((x + wide / 2) * PPI) + 1, round((x + wide / 2) * PPI) + 3)
    left = slice(round((x - wide / 2) * PPI) - 3, round((x - wide / 2) * PPI) - 1)
    below = slice(round((y + high / 2) * PPI) + 1, round((y + high / 2) * PPI) + 3)
    above = slice(round((y - high / 2) * PPI) - 3, round((y - high / 2) * PPI) - 1)
    columns = slice(round((x - 1.5) * PPI), round((x + 1.5) * PPI))
    for shaded, open_ in (((rows, right), (rows, left)), ((below, columns), (above, columns))):
        assert mean(lit[shaded]).sum() < 0.93 * mean(lit[open_]).sum()
        assert mean(plain[shaded]).sum() == pytest.approx(
            mean(plain[open_]).sum(), rel=0.05
        )  # its plaster is not even


@pytest.mark.parametrize("name", ["invitation", "details"])
def test_light_keeps_a_cards_colours(name: str, plain: Picture, lit: Picture) -> None:
    """Under the window a card's colours are its own under even light, times one factor.

    The reply card is left out: of ink as dark as its, paper's shine is a good part.
    """
    own, even = (mean(part(picture, name, 0.8)) for picture in (lit, plain))
    ratio = own / even
    assert np.ptp(ratio) / ratio.mean() < 0.08
    assert 0.7 < ratio.mean() < 1.1


def test_slate_changes_the_table_and_leaves_the_ink(folder: Path, plain: Picture) -> None:
    (folder / "dark").mkdir()
    scene = SCENE.replace("plaster", "slate").replace('colour = "#c8c3bc"\n', "")
    (folder / "dark" / "scene.toml").write_text(scene + PLACES)
    dark = taken(folder, "slate", "--plain", "--scene", "dark")
    assert mean(dark[-60:, -60:]).sum() < 0.5 * mean(plain[-60:, -60:]).sum()
    for name in DIES:
        assert not changed(part(dark, name, 1.4), part(plain, name, 1.4)).any()


def test_the_second_arrangement_is_another(folder: Path) -> None:
    suite = ART / "suite.toml"
    first, second = (
        read(
            made(
                folder / f"{nth}.png",
                "flatlay",
                suite,
                "--plain",
                "--width",
                "200",
                "--arrange",
                nth,
            )
        )
        for nth in ("1", "2")
    )
    assert (difference(first, second).boxes > 5).mean() > 0.1
    assert BOX_PX == 4


def test_things_lie_on_the_table_only_when_asked_for(folder: Path, plain: Picture) -> None:
    """With things, paper keeps its place and its colours; something else is on the table."""
    thing = '[[things]]\nsvg = "twine"\nwhere = "empty"\n'
    (folder / "strewn").mkdir()
    (folder / "strewn" / "scene.toml").write_text(SCENE + PLACES + thing)
    without = taken(folder, "tidy", "--plain", "--scene", "strewn")
    assert not changed(without, plain).any()
    strewn = changed(taken(folder, "strewn", "--plain", "--scene", "strewn", "--things"), plain)
    assert strewn.mean() > 0.001
    for name in DIES:
        assert not part(strewn, name).any()
