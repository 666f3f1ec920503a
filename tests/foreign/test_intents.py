"""Odd output intents and spaces: of RGB, several, grey alone, inks named one by one."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from mockup.artwork.art import art_of
from mockup.artwork.press import presses_of
from mockup.colour.plates import Pressed
from mockup.colour.press import COATED, UNCOATED
from tests.colour.press_pages import (
    Page,
    at,
    drawn,
    field_at,
    light_profile,
    with_intents,
    write,
)
from tests.foreign.test_presses import percent, pressed, with_streams

COATED_ICC, UNCOATED_ICC = (press.profile.read_bytes() for press in (COATED, UNCOATED))
WIDE = light_profile()
RGB = (128, 77, 51)
FILL = f"0.502 0.302 0.2 rg {field_at(0)} f"


def by_littlecms(target: str | bytes) -> list[int]:
    """Returns what LittleCMS makes of RGB of the wide profile: on the screen, or for a press."""
    own = ImageCms.ImageCmsProfile(io.BytesIO(WIDE))
    other = (
        ImageCms.createProfile("sRGB")
        if isinstance(target, str)
        else ImageCms.ImageCmsProfile(io.BytesIO(target))
    )
    flags = ImageCms.Flags.BLACKPOINTCOMPENSATION | ImageCms.Flags.HIGHRESPRECALC
    mode = "RGB" if isinstance(target, str) else "CMYK"
    way = ImageCms.buildTransform(own, other, "RGB", mode, 1, flags)
    pixel = ImageCms.applyTransform(Image.new("RGB", (1, 1), RGB), way).getpixel((0, 0))
    assert isinstance(pixel, tuple)
    return [int(value) for value in pixel]


def test_an_intent_of_rgb_says_what_rgb_is(tmp_path: Path) -> None:
    """ISO 19005-2, 6.2.4.3: device RGB means the output intent's."""
    found = drawn(write(tmp_path / "art.pdf", Page(FILL, {}, WIDE, 3))).drawn
    assert isinstance(found, np.ndarray)
    assert at(found, 0) == pytest.approx(by_littlecms("sRGB"), abs=3)


def test_it_says_so_beside_ink_too(tmp_path: Path) -> None:
    """The press takes its place as the file's intent, and its RGB is separated from what it was."""
    content = f"{FILL} 0.2 0.4 0.6 0.1 k {field_at(1)} f"
    path = write(tmp_path / "art.pdf", Page(content, {}, WIDE, 3))
    found = pressed(path, COATED).process
    expected = [value / 2.55 for value in by_littlecms(COATED_ICC)]
    assert percent(found, 0) == pytest.approx(expected, abs=3)
    assert percent(found, 1) == pytest.approx((20, 40, 60, 10), abs=0.5)


@pytest.mark.parametrize(
    ("intents", "name", "because"),
    [
        ([("GTS_PDFA1", WIDE, 3), ("GTS_PDFX", COATED_ICC, 4)], "FOGRA39L", "the file's own"),
        ([("GTS_PDFX", COATED_ICC, 4), ("GTS_PDFA1", WIDE, 3)], "FOGRA39L", "the file's own"),
        ([("GTS_PDFX", b"noise", 4), ("GTS_PDFX", COATED_ICC, 4)], "FOGRA39L", "the file's own"),
        ([("GTS_PDFX", UNCOATED_ICC, 4), ("X", COATED_ICC, 4)], "FOGRA29L", "the file's own"),
        ([("GTS_PDFA1", WIDE, 3), ("GTS_PDFX", b"noise", 4)], "FOGRA29L", "assumed"),
    ],
    ids=["rgb first", "rgb last", "broken first", "two presses", "none usable"],
)
def test_of_several_intents_the_first_usable_press_is_taken(
    tmp_path: Path, intents: list[tuple[str, bytes, int]], name: str, because: str
) -> None:
    path = write(tmp_path / "art.pdf", Page(f"0.2 0.4 0.6 0.1 k {field_at(0)} f"))
    (shown,) = presses_of([art_of(with_intents(path, *intents))])
    assert shown is not None
    assert shown.name.startswith(name)
    assert shown.because.startswith(because)
    assert percent(pressed(path).process, 0) == pytest.approx((20, 40, 60, 10), abs=0.5)


def test_an_intent_of_grey_is_no_press(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"0 1 0 0 k {field_at(0)} f", {}, b"x" * 200, 1))
    (shown,) = presses_of([art_of(path)])
    assert shown is not None
    assert shown.because.startswith("assumed")


def test_grey_alone_goes_on_the_plate_of_black(tmp_path: Path) -> None:
    """It looks as the same tint of K does, not as the screen's grey."""
    grey = write(tmp_path / "grey.pdf", Page(f"0 g {field_at(0)} f 0.6 g {field_at(1)} f"))
    ink = write(
        tmp_path / "ink.pdf", Page(f"0 0 0 1 k {field_at(0)} f 0 0 0 0.4 k {field_at(1)} f")
    )
    assert percent(pressed(grey).process, 0) == pytest.approx((0, 0, 0, 100), abs=0.5)
    assert percent(pressed(grey).process, 1) == pytest.approx((0, 0, 0, 40), abs=0.5)
    looks = [drawn(path).on_white.astype(int) for path in (grey, ink)]
    assert np.abs(looks[0] - looks[1]).max() <= 2  # a step of 255 in the ink


def test_grey_beside_rgb_is_the_screens(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"{FILL} 0.6 g {field_at(1)} f"))
    found = drawn(path).drawn
    assert not isinstance(found, Pressed)
    assert at(found, 1) == pytest.approx([153, 153, 153], abs=1)


def test_inks_of_nchannel_are_those_it_names(tmp_path: Path) -> None:
    """ISO 32000-1, 8.6.6.5: process colourants go on their own plates, the spot by its tint."""
    function = "<</FunctionType 4/Domain[0 1 0 1 0 1]/Range[0 1 0 1 0 1 0 1]>>"
    attributes = (
        "<</Subtype/NChannel/Process<</ColorSpace/DeviceCMYK/Components[/Cyan/Magenta/Yellow"
        "/Black]>>/Colorants<</Gold[/Separation/Gold/DeviceCMYK<</FunctionType 2/Domain[0 1]"
        "/C0[0 0 0 0]/C1[0 0.2 1 0]/N 1>>]>>>>"
    )
    path = with_streams(
        tmp_path / "art.pdf",
        f"/N cs 0.6 0.3 0 scn {field_at(1)} f 0 0 1 scn {field_at(2)} f",
        f"<</ColorSpace<</N[/DeviceN[/Cyan/Black/Gold]/DeviceCMYK {{tint}}{attributes}]>>>>",
        tint=(function, b"{ dup 0.2 mul exch 3 -1 roll }"),
    )
    found = pressed(path).process
    assert percent(found, 2) == pytest.approx((0, 20, 100, 0), abs=1)
    assert percent(found, 1) == pytest.approx((60, 0, 0, 30), abs=1)
