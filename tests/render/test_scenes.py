"""Scene files: the shipped ones are sound, a designer's own is read, mistakes are told."""

import zlib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from mockup.errors import InputError, LimitError, MockupError, SuiteError
from mockup.render.light.plain import plain
from mockup.render.light.scene import LitScene, Photograph
from mockup.render.scenes import parse_aspect, read_scene, scene_names


def own(folder: Path, text: str) -> Path:
    (folder / "mine").mkdir()
    (folder / "mine" / "scene.toml").write_text(text)
    return folder


def test_two_scenes_of_different_character_are_shipped(tmp_path: Path) -> None:
    assert {"limewash", "slate"} <= set(scene_names())
    lime, slate = read_scene("limewash", tmp_path), read_scene("slate", tmp_path)
    assert lime.surface.kind != slate.surface.kind
    assert lime.window.azimuth_deg != slate.window.azimuth_deg


def test_a_designers_own_scene_lies_beside_the_suite(tmp_path: Path) -> None:
    scene = read_scene("mine", own(tmp_path, 'aspect = "4:5"\n[lift]\nmain_in = 0.3\n'))
    assert scene.aspect == pytest.approx(0.8)
    assert scene.lift_in["main"] == 0.3


def test_an_unknown_scene_gets_the_nearest_name(tmp_path: Path) -> None:
    with pytest.raises(SuiteError, match='no scene called "limewsh"; did you mean "limewash"'):
        read_scene("limewsh", tmp_path)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("colour = 3\n", 'colour: no key called "colour"; allowed: about, aspect'),
        ("[window]\nelevation_deg = 95\n", "window.elevation_deg: 95"),
        ('[sky]\ncolour = "blue"\n', "six hex digits"),
        ("[places.card]\nat = [1, 2]\n", "width_in, the table's width in inches, is missing"),
        ("[window\n", "line 1, column 8"),
    ],
)
def test_a_mistake_in_a_scene_is_told(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(SuiteError) as caught:
        read_scene("mine", own(tmp_path, text))
    assert told in str(caught.value)
    assert "scene.toml" in str(caught.value)


def test_aspects() -> None:
    assert parse_aspect("9:16") == 0.5625
    for text in ("4/5", "1:9", "0:1", "a:b"):
        with pytest.raises(SuiteError, match="not an aspect"):
            parse_aspect(text)


def test_a_photograph_taken_from_above_is_the_table_at_its_own_scale(tmp_path: Path):
    """A red inch at the left of a white photograph of 50 pixels an inch is a red inch here too."""
    folder = tmp_path / "mine"
    folder.mkdir()
    pixels = np.full((200, 300, 3), 255, np.uint8)
    pixels[:, :50] = (200, 30, 30)
    Image.fromarray(pixels).save(folder / "table.png")
    written = '[surface]\nphotograph = "table.png"\nppi = 50\n'
    (folder / "scene.toml").write_text(written, encoding="utf-8")
    scene = read_scene("mine", tmp_path)
    table = plain(LitScene(6.0, 4.0, (), scene.surface, scene.window, scene.sky), 20.0)
    red = table[:, :, 1] < 128
    assert red[:, :20].all()
    assert not red[:, 20:].any()
    # What a cut line must stand out from: its mean in light, a sixth of it red.
    assert 200 < scene.surface_colour[1] < 250


def test_a_photograph_is_turned_as_its_camera_was_held(tmp_path: Path) -> None:
    """Exif 2.32, Orientation 6: the stored picture's left column is the top of what was seen."""
    folder = own(tmp_path, '[surface]\nphotograph = "table.png"\nppi = 50\n') / "mine"
    pixels = np.full((200, 300, 3), 255, np.uint8)
    pixels[:, :50] = (200, 30, 30)
    note = Image.Exif()
    note[0x0112] = 6
    Image.fromarray(pixels).save(folder / "table.png", exif=note)
    photograph = read_scene("mine", tmp_path).surface.kind
    assert isinstance(photograph, Photograph)
    red = photograph.pixels[:, :, 1] < 128
    assert red.shape == (300, 200) and red[:50].all() and not red[50:].any()


def test_a_photograph_is_read_by_the_profile_it_holds(tmp_path: Path) -> None:
    """sRGB with its red and green primaries exchanged (ICC.1:2022, 9.2: rXYZ, gXYZ): red is green.
    One that is no profile counts as none."""
    folder = own(tmp_path, '[surface]\nphotograph = "table.png"\nppi = 50\n') / "mine"
    plain_srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    head, rest = plain_srgb[:132], plain_srgb[132:]
    exchanged = (
        rest.replace(b"rXYZ", b"?", 1).replace(b"gXYZ", b"rXYZ", 1).replace(b"?", b"gXYZ", 1)
    )
    for profile, seen in ((head + exchanged, (30, 200, 30)), (b"none", (200, 30, 30))):
        Image.new("RGB", (90, 60), (200, 30, 30)).save(folder / "table.png", icc_profile=profile)
        photograph = read_scene("mine", tmp_path).surface.kind
        assert isinstance(photograph, Photograph)
        assert np.abs(photograph.pixels[0, 0].astype(int) - seen).max() <= 2


@pytest.mark.parametrize(
    ("side_px", "error", "told"),
    [
        (13_000, LimitError, "150 megapixels"),
        (60_000, LimitError, "150 megapixels"),  # which its library refuses before our limit does
        (300, InputError, "cannot be read as a JPEG"),
    ],
)
def test_a_photograph_that_is_too_large_is_not_told_as_broken(
    tmp_path: Path, side_px: int, error: type[MockupError], told: str
) -> None:
    """A PNG of which only the head is there (PNG 3, 11.2.1), its sides as said."""
    folder = own(tmp_path, '[surface]\nphotograph = "table.png"\nppi = 50\n') / "mine"
    Image.new("RGB", (8, 8)).save(folder / "table.png")
    head = b"IHDR" + side_px.to_bytes(4, "big") * 2 + b"\x08\x02\0\0\0"
    written = (folder / "table.png").read_bytes()
    checked = head + zlib.crc32(head).to_bytes(4, "big")
    (folder / "table.png").write_bytes(written[:12] + checked + written[33:])
    with pytest.raises(error, match=told):
        read_scene("mine", tmp_path)
