"""Overprint, spots, blending and spaces beside a second renderer that simulates overprint.

Ghostscript, as it is found on the machine, draws the same pages for the same press without
anti-aliasing of its own; compared are the process inks, pixel by pixel, away from edges.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from mockup.colour.press import COATED
from tests.colour.press_pages import SIDE_PT, Page, drawn, field_at, inks, write
from tests.foreign.test_presses import CASES, COATED_ICC, RESOURCES, pressed, with_streams
from tests.foreign.test_whites import RESOURCES as FINISHES

GHOSTSCRIPT = shutil.which("gs")
pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(GHOSTSCRIPT is None, reason="Ghostscript (gs) is not on this machine"),
]

EDGE_PX = 1
STEP = 2  # of 255: rounding, twice
SHARE = 0.99

# Pages that more than a line of content makes; what their inks are is held in test_presses.py.
TINT = "<</FunctionType 4/Domain[0 1 0 1]/Range[0 1 0 1 0 1 0 1]>>"
# Black and white alone: of a mask's grey Ghostscript takes the light, MuPDF the number.
SOFT = (
    "<</Type/XObject/Subtype/Form/BBox[0 0 120 120]/Group<</S/Transparency/CS/DeviceGray>>>>",
    f"1 g {field_at(1)} f 0 g {field_at(2)} f".encode(),
)


def _device_n(path: Path) -> Path:
    return with_streams(
        path,
        f"0 1 0 0 k 0 0 120 120 re f q /Over gs /N cs 0.6 0.5 scn {field_at(1)} f Q "
        f"q /N cs 0.6 0.5 scn {field_at(2)} f Q",
        "<</ExtGState<</Over<</OP true/op true>>>>"
        "/ColorSpace<</N[/DeviceN[/Cyan/Gold]/DeviceCMYK {tint}]>>>>",
        tint=(TINT, b"{ 0 exch 0 }"),
    )


def _soft_mask(path: Path) -> Path:
    return with_streams(
        path,
        f"/Soft gs 1 0.4 0 0 k {field_at(1)} f {field_at(2)} f",
        "<</ExtGState<</Soft<</SMask<</S/Luminosity/G {mask}>>>>>>>>",
        mask=SOFT,
    )


def _profiled(name: str, fill: str) -> Callable[[Path], Path]:
    def make(path: Path) -> Path:
        return with_streams(
            path,
            f"{fill} {field_at(1)} f 0 0 0 0.3 k {field_at(2)} f",
            f"<</ColorSpace<</{name}[/ICCBased {{profile}}]>>>>",
            profile=("<</N 4>>", COATED_ICC),
        )

    return make


def _lab(path: Path) -> Path:
    return with_streams(
        path,
        f"/L cs 60 20 10 scn {field_at(1)} f 40 -10 20 scn {field_at(2)} f 0 0 0 0.5 k {field_at(3)} f",
        "<</ColorSpace<</L[/Lab<</WhitePoint[0.9642 1 0.8249]/Range[-128 127 -128 127]>>]>>>>",
    )


PAGES: dict[str, Callable[[Path], Path]] = {
    "DeviceN": _device_n,
    "soft mask": _soft_mask,
    "DefaultCMYK": _profiled("DefaultCMYK", "0.2 0.4 0.6 0.1 k"),
    "ICCBased": _profiled("S", "/S cs 0.2 0.4 0.6 0.1 scn"),
}


def by_ghostscript(path: Path, device: str) -> Path:
    """Returns where Ghostscript has written a page for the coated press, 36 pixels an inch."""
    assert GHOSTSCRIPT is not None
    made = path.with_suffix(".tif")
    profile = COATED.profile
    subprocess.run(
        [
            *(GHOSTSCRIPT, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-r36"),
            *(f"--permit-file-read={profile}", f"-sDEVICE={device}", "-dOverprint=/simulate"),
            *(f"-sDefaultCMYKProfile={profile}", f"-sOutputICCProfile={profile}"),
            *(f"-sOutputFile={made}", str(path)),
        ],
        check=True,
        capture_output=True,
        timeout=60,
    )
    return made


def process_of(path: Path) -> NDArray[np.int16]:
    with Image.open(by_ghostscript(path, "tiff32nc")) as picture:
        return np.asarray(picture).astype(np.int16)


def off_edges(process: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Returns which pixels have none of another colour beside them."""
    flat = np.ones(process.shape[:2], bool)
    for axis in (0, 1):
        for by in (-EDGE_PX, EDGE_PX):
            flat &= (np.roll(process, by, axis) == process).all(axis=2)
    return flat


def assert_agree(path: Path, step: int) -> None:
    ours = pressed(path, COATED).process
    theirs = process_of(path)
    assert ours.shape == theirs.shape == (SIDE_PT // 2, SIDE_PT // 2, 4)
    flat = off_edges(ours)
    assert flat.mean() > 0.7
    off = np.abs(ours.astype(np.int16) - theirs).max(axis=2)[flat]
    assert (off <= step).mean() >= SHARE, (path.name, int(off.max()), float((off > step).mean()))


@pytest.mark.parametrize("name", CASES)
def test_inks_over_inks(tmp_path: Path, name: str) -> None:
    content = f"1 0 0 0 k 0 0 120 120 re f q {CASES[name][0].format(f=field_at(1))} Q"
    assert_agree(write(tmp_path / "art.pdf", Page(content, RESOURCES, COATED_ICC)), STEP)


@pytest.mark.parametrize("name", PAGES)
def test_spaces_and_masks(tmp_path: Path, name: str) -> None:
    assert_agree(PAGES[name](tmp_path / "art.pdf"), STEP)


def test_lab(tmp_path: Path) -> None:
    """Both separate it by LittleCMS, with the black points brought together."""
    assert_agree(_lab(tmp_path / "art.pdf"), STEP)


def test_a_white_plate(tmp_path: Path) -> None:
    content = (
        f"0 0 1 0 k {field_at(0)} f {field_at(1)} f {field_at(2)} f "
        f"q /Over gs /W cs 1 scn {field_at(1)} f Q /W cs 0.5 scn {field_at(2)} f {field_at(3)} f "
        f"1 scn {field_at(4)} f {field_at(5)} f 1 0 0 0 k {field_at(4)} f /Over gs {field_at(5)} f"
    )
    path = write(tmp_path / "art.pdf", Page(content, FINISHES, COATED_ICC))
    made = by_ghostscript(path, "tiffsep")
    with Image.open(made.with_stem(f"{made.stem}(White)")) as picture:
        theirs = 255 - np.asarray(picture.convert("L")).astype(np.int16)
    white = drawn(path, COATED).white
    assert white is not None
    flat = off_edges(white.plate[:, :, None])
    assert (np.abs(white.plate.astype(np.int16) - theirs)[flat] <= STEP).mean() >= SHARE


def test_plates(tmp_path: Path) -> None:
    content = f"/S cs 0.7 scn {field_at(1)} f /F cs 0.3 scn {field_at(2)} f"
    path = write(tmp_path / "art.pdf", Page(content, FINISHES, COATED_ICC))
    made = by_ghostscript(path, "tiffsep")
    ours = {spot.name: spot.plate for spot in inks(path, COATED).spots}
    for name in ("Tide", "Gold foil"):
        with Image.open(made.with_stem(f"{made.stem}({name})")) as picture:
            theirs = 255 - np.asarray(picture.convert("L")).astype(np.int16)
        flat = off_edges(ours[name][:, :, None])
        assert (np.abs(ours[name].astype(np.int16) - theirs)[flat] <= STEP).mean() >= SHARE
