"""Output doors: what is read is never written over, and what cannot be written is told at once."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

import mockup
from mockup import OutputError
from mockup.shipped import shipped

Write = Callable[[Path, str], object]
ASKS: dict[str, tuple[Write, str]] = {
    "flatlay": (lambda s, o: mockup.lay_flatlay(mockup.FlatlayRequest(s, o, 300)), ".png"),
    "proof": (lambda s, o: mockup.write_proof(mockup.ProofRequest(s, o)), ".pdf"),
    "options": (lambda s, o: mockup.show_options(mockup.OptionsRequest(s, "reply", o)), ".pdf"),
    "marked": (lambda s, o: mockup.check_suite(mockup.CheckRequest(s, marked=o)), ".pdf"),
    "shifted": (lambda s, o: mockup.check_suite(mockup.CheckRequest(s, shifted=o)), ".png"),
    "sheet": (lambda s, o: mockup.list_dies(mockup.DiesRequest(s, sheet=o)), ".pdf"),
    "start": (
        lambda s, o: mockup.start_suite(
            mockup.StartRequest([s.parent / "reply.pdf"], o, replace=True)
        ),
        ".toml",
    ),
}


@pytest.fixture
def suite(demo_suite: Path) -> Path:
    """A suite with a template as a die, a scene of its own and a catalogue."""
    folder = demo_suite.parent
    shutil.copytree(shipped("scenes") / "slate", folder / "mine")
    shutil.copytree(shipped("assets_demo") / "printers", folder / "printers")
    drawing = '<path fill="none" stroke="red" stroke-width=".01" d="M1 2L3.5 1L6 2V8H1Z"/>'
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="7in" height="9in" viewBox="0 0 7 9">'
    (folder / "leaf.svg").write_text(f"{head}{drawing}</svg>")
    text = demo_suite.read_text(encoding="utf-8")
    text = text.replace('die = "lancet-arch"', 'die = { file = "leaf.svg" }')
    text = text.replace('name = "limewash"', 'name = "mine"')
    demo_suite.write_text(text, encoding="utf-8")
    return demo_suite


@pytest.mark.parametrize("ask", [name for name in ASKS if name != "start"])
@pytest.mark.parametrize(
    "read", ["suite.toml", "reply.pdf", "liner.pdf", "leaf.svg", "printers/weir-lane.toml"]
)
def test_no_file_that_is_read_is_written_over_by_another_name(
    suite: Path, ask: str, read: str
) -> None:
    write, ending = ASKS[ask]
    if read.startswith("printers") and ask not in ("options", "sheet"):
        pytest.skip("reads no catalogue")
    original = suite.parent / read
    before = original.read_bytes()
    other = suite.parent / f"other{ending}"
    os.link(original, other)
    with pytest.raises(OutputError, match="is read for this"):
        write(suite, str(other))
    other.unlink()
    other.symlink_to(original)
    with pytest.raises(OutputError, match="is a link"):
        write(suite, str(other))
    assert original.read_bytes() == before


def test_start_keeps_its_art_though_told_to_replace(suite: Path) -> None:
    os.link(suite.parent / "reply.pdf", suite.parent / "art.toml")
    with pytest.raises(OutputError, match="is read for this"):
        ASKS["start"][0](suite, str(suite.parent / "art.toml"))


@pytest.mark.parametrize("ask", list(ASKS))
def test_places_that_are_no_file_are_refused_by_name(suite: Path, ask: str) -> None:
    write, ending = ASKS[ask]
    folder = suite.parent
    (folder / f"folder{ending}").mkdir()
    os.mkfifo(folder / f"pipe{ending}")
    (folder / f"dangling{ending}").symlink_to(folder / "nowhere")
    before = sorted(folder.rglob("*"))
    for name, reason in {
        f"folder{ending}": "is a folder",
        f"pipe{ending}": "is a pipe",
        f"dangling{ending}": "is a link",
        f"no/such{ending}": "the folder does not exist",
        f"suite.toml/x{ending}": "is no folder",
        "odd.gif": "is written as",
        "none": "is written as",
    }.items():
        with pytest.raises(OutputError) as caught:
            write(suite, str(folder / name))
        assert reason in str(caught.value) and name in str(caught.value)
    assert sorted(folder.rglob("*")) == before


ORDERS: dict[str, tuple[Write, str]] = {
    "order": (lambda s, o: mockup.order_suite(mockup.OrderRequest(s, o)), ""),
    "portfolio": (lambda s, o: mockup.take_portfolio(mockup.PortfolioRequest(s, o)), ""),
}


@pytest.mark.parametrize("ask", ["flatlay", "proof", "options", "marked", "shifted", *ORDERS])
def test_nothing_but_its_events_is_written_into_a_record(suite: Path, ask: str) -> None:
    """There it would be told of at every `status` as an event that is none."""
    write, ending = {**ASKS, **ORDERS}[ask]
    record = suite.parent / "suite.record"
    record.mkdir()
    (suite.parent / "other").symlink_to(record)
    for folder in (record, suite.parent / "other"):
        with pytest.raises(OutputError, match="lies in the suite's record"):
            write(suite, str(folder / f"mine{ending}" if ending else folder))
    assert not [*record.iterdir()]


def test_a_record_that_is_a_ring_of_links_is_told(suite: Path) -> None:
    (suite.parent / "suite.record").symlink_to("suite.record")
    with pytest.raises(OutputError, match="is a link, which is not written through"):
        ASKS["proof"][0](suite, str(suite.parent / "o.pdf"))


@pytest.mark.parametrize("ending", [".jpg", ".jpeg", ".JPG"])
def test_a_picture_asked_as_jpeg_is_one(
    suite: Path, ending: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    grey = np.full((225, 300, 3), 128, np.uint8)
    monkeypatch.setattr("mockup.asks.flatlay.flatlay_picture", lambda *_: grey)
    out = suite.parent / f"o{ending}"
    ASKS["flatlay"][0](suite, str(out))
    assert out.read_bytes()[:3] == b"\xff\xd8\xff"


def test_the_doors_are_looked_at_before_the_work(
    suite: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def drawn(*_: object) -> None:
        raise AssertionError("something was drawn before the door was looked at")

    monkeypatch.setattr("mockup.asks.flatlay.flatlay_picture", drawn)
    monkeypatch.setattr("mockup.asks.opening.for_client", drawn)
    with pytest.raises(OutputError):
        ASKS["flatlay"][0](suite, str(suite.parent / "no" / "o.png"))


def test_the_mistakes_of_a_suite_and_of_all_it_is_read_with_are_told_together(suite: Path) -> None:
    folder = suite.parent
    text = suite.read_text(encoding="utf-8").replace('card = "A7"', 'card = "Z7"', 1)
    suite.write_text(text.replace('name = "mine"', 'name = "limewash"'), encoding="utf-8")
    catalogue = folder / "printers" / "weir-lane.toml"
    catalogue.write_text(catalogue.read_text(encoding="utf-8") + "\nodd = 1\n", encoding="utf-8")
    scene = folder / "mine" / "scene.toml"
    scene.write_text('aspect = "wide"\n' + scene.read_text(encoding="utf-8"), encoding="utf-8")
    for ask, other in {
        lambda: ASKS["options"][0](suite, str(folder / "o.pdf")): catalogue,
        lambda: ASKS["sheet"][0](suite, str(folder / "o.pdf")): catalogue,
        lambda: mockup.lay_flatlay(
            mockup.FlatlayRequest(suite, folder / "o.png", scene="mine")
        ): scene,
    }.items():
        with pytest.raises(mockup.MockupError) as refused:
            ask()
        assert {each.file for each in refused.value.mistakes} == {str(suite), str(other)}
