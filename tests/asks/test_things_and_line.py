"""What a flat-lay has beside paper: a cut line where light is flat, and things that are nobody's."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from mockup.asks import flatlay, portfolio
from mockup.asks.things import things_laid
from mockup.errors import SuiteError
from mockup.render.flatlay import Shot, composed
from mockup.render.scenes import read_scene, scene_names
from mockup.suite.reading import read_suite
from mockup.suite.scene_file import thing_names

BLANK = np.zeros((150, 200, 3), np.uint8)
OF_THE_DEMO = {"seal", "barley", "stamps"}


@pytest.mark.parametrize(
    ("plain", "cut_line", "drawn"),
    [
        (False, None, False),
        (True, None, True),
        (False, True, True),
        (True, False, False),
    ],
)
def test_a_cut_line_is_drawn_under_flat_light_or_when_asked_for(
    plain: bool, cut_line: bool | None, drawn: bool, art: Path, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    shots: list[Shot] = []

    def taken(shot: Shot, progress: object = None) -> np.ndarray:
        shots.append(shot)
        return np.zeros((150, 200, 3), np.uint8)

    monkeypatch.setattr(flatlay, "flatlay_picture", taken)
    monkeypatch.setattr(flatlay, "plain_picture", taken)
    request = flatlay.FlatlayRequest(
        art / "suite.toml", tmp_path / "o.png", 200, plain=plain, cut_line=cut_line
    )
    flatlay.lay_flatlay(request)
    assert (shots[0].line is not None) == drawn


def test_a_portfolio_without_things_has_none(
    art: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shots: list[Shot] = []

    def taken(shot: Shot, *more: object) -> np.ndarray:
        shots.append(shot)
        return np.zeros((150, 200, 3), np.uint8)

    monkeypatch.setattr(portfolio, "flatlay_picture", taken)
    monkeypatch.setattr(portfolio, "close_up_picture", taken)
    request = portfolio.PortfolioRequest(
        art / "suite.toml", tmp_path / "out", long_side_px=200, things=False
    )
    portfolio.take_portfolio(request)
    assert shots
    assert all(shot.things == () for shot in shots)


LARGE = """<svg xmlns="http://www.w3.org/2000/svg" width="{0}in" height="{0}in" viewBox="0 0 9 9">
<rect width="9" height="9" fill="#884422"/></svg>"""


def own_things(folder: Path, **sizes_in: float) -> Path:
    folder.mkdir()
    for name, size_in in sizes_in.items():
        (folder / f"{name.replace('_', '-')}.svg").write_text(LARGE.format(size_in))
    return folder


def test_a_thing_without_room_is_told_with_what_to_do(
    art: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(flatlay, "flatlay_picture", lambda *a: np.zeros((150, 200, 3), np.uint8))
    folder = own_things(tmp_path / "own", tray=40, coin=0.3, envelope_coin=0.3, flap_tray=30)
    request = flatlay.FlatlayRequest(
        art / "suite.toml", tmp_path / "o.png", 200, things_from=folder
    )
    told = flatlay.lay_flatlay(request).without_room
    assert [line.partition(":")[0] for line in told] == [
        "envelope-coin is not laid",  # the demo shows no address side
        "flap-tray is not laid",
        "tray is not laid",
    ]
    assert 'shown = "face"' in told[0] and "[scene] open" in told[1] and "smaller" in told[2]


def test_where_all_is_laid_nothing_is_told(
    art: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(flatlay, "flatlay_picture", lambda *a: np.zeros((150, 200, 3), np.uint8))
    request = flatlay.FlatlayRequest(art / "suite.toml", tmp_path / "o.png", 200, things=True)
    assert flatlay.lay_flatlay(request).without_room == ()


def test_a_portfolio_tells_from_which_pictures_a_thing_is_missing(
    art: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for taker in ("flatlay_picture", "close_up_picture"):
        monkeypatch.setattr(portfolio, taker, lambda *a: np.zeros((150, 200, 3), np.uint8))
    monkeypatch.setattr(portfolio, "RATIOS", {"3x2": 3 / 2, "9x16": 9 / 16})
    folder = own_things(tmp_path / "own", tray=40)
    request = portfolio.PortfolioRequest(
        art / "suite.toml", tmp_path / "out", long_side_px=200, things_from=folder
    )
    (line,) = portfolio.take_portfolio(request).without_room
    assert line.startswith("suite-3x2, suite-9x16: tray is not")


def test_her_own_things_lie_in_the_stead_of_the_scenes(art: Path) -> None:
    scene, suite = read_scene("granary", art), read_suite(art / "suite.toml")
    own = things_laid(scene, False, art / "things", suite)
    assert {Path(wish.svg).stem for wish in own} == OF_THE_DEMO
    assert things_laid(scene, True, None, suite) == scene.things
    assert things_laid(scene, False, None, suite) == ()


def test_her_own_seal_goes_on_the_piece_its_name_says_or_is_refused_by_its_name(
    art: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of the demo's details card no inch and a half is free of type in the middle."""
    monkeypatch.setattr(flatlay, "flatlay_picture", lambda shot, _: (composed(shot), BLANK)[1])
    request = flatlay.FlatlayRequest(art / "suite.toml", tmp_path / "o.png", 200)
    own = own_things(tmp_path / "own", on_reply_top_right_dot=0.3)
    laid = flatlay.lay_flatlay(replace(request, things_from=own))
    assert laid.without_room == ()
    own = own_things(tmp_path / "middle", on_details_middle_dot=1.5)
    with pytest.raises(SuiteError, match=r'on-details-middle-dot\.svg: it would hide type "'):
        flatlay.lay_flatlay(replace(request, things_from=own))
    other = own_things(tmp_path / "other", on_menu_dot=0.3)
    with pytest.raises(
        SuiteError,
        match=r'on-menu-dot\.svg: by its name it lies on a piece: no piece called "menu"',
    ):
        flatlay.lay_flatlay(replace(request, things_from=other))


def test_what_is_the_demo_s_is_in_the_demo_alone(art: Path) -> None:
    assert {path.stem for path in (art / "things").glob("*.svg")} == OF_THE_DEMO
    assert not set(thing_names()) & OF_THE_DEMO


@pytest.mark.parametrize("name", scene_names())
def test_no_shipped_scene_lays_what_is_the_demo_s(name: str, art: Path) -> None:
    wanted = {wish.svg for wish in read_scene(name, art).things}
    assert wanted
    assert not wanted & OF_THE_DEMO
