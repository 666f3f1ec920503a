"""PNG files read back with Pillow: pixels, profile, resolution; the same bytes each time."""

import io
import warnings
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from mockup.errors import OutputError
from mockup.output.files import whole_file, write_whole
from mockup.output.png import png_bytes, write_png

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour


@pytest.mark.parametrize("shape", [(1, 1, 3), (7, 5, 4), (300, 17, 3), (513, 64, 4)])
def test_pixels_come_back(shape: tuple[int, int, int]) -> None:
    picture = np.random.default_rng(1).integers(0, 256, shape, np.uint8)
    read = Image.open(io.BytesIO(png_bytes(picture, 300)))
    assert np.array_equal(np.asarray(read), picture)


def test_resolution_and_profile_are_embedded() -> None:
    read = Image.open(io.BytesIO(png_bytes(np.zeros((4, 4, 3), np.uint8), 300)))
    assert read.info["dpi"] == pytest.approx((300, 300), abs=0.02)  # whole pixels a metre
    profile = ImageCms.ImageCmsProfile(io.BytesIO(read.info["icc_profile"]))
    assert "sRGB" in ImageCms.getProfileDescription(profile)


def test_the_profile_is_srgb_by_its_numbers() -> None:
    """LittleCMS takes colours through it to Lab; IEC 61966-2-1 by colour-science says the same."""
    read = Image.open(io.BytesIO(png_bytes(np.zeros((4, 4, 3), np.uint8), 300)))
    own = ImageCms.ImageCmsProfile(io.BytesIO(read.info["icc_profile"]))
    to_lab = ImageCms.buildTransform(
        own, ImageCms.createProfile("LAB"), "RGB", "LAB", ImageCms.Intent.RELATIVE_COLORIMETRIC
    )
    colours = np.random.default_rng(3).integers(0, 256, (8, 8, 3), np.uint8)
    stored = np.asarray(ImageCms.applyTransform(Image.fromarray(colours), to_lab))
    found = np.dstack([stored[..., 0] / 2.55, stored[..., 1:].astype(np.int8).astype(float)])
    space, d50 = colour.RGB_COLOURSPACES["sRGB"], np.array([0.34567, 0.35850])
    xyz = colour.RGB_to_XYZ(colours / 255, space, d50, "Bradford", apply_cctf_decoding=True)
    assert np.abs(found - colour.XYZ_to_Lab(xyz, d50)).max() < 1  # whole units of a and b


def test_the_same_picture_gives_the_same_bytes() -> None:
    picture = np.full((64, 64, 3), 120, np.uint8)
    assert png_bytes(picture, 300) == png_bytes(picture, 300)


def test_a_folder_that_does_not_exist(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="the folder does not exist"):
        write_png(tmp_path / "none" / "a.png", np.zeros((1, 1, 3), np.uint8), 72)


def test_a_folder_in_the_files_place(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="is a folder"):
        write_whole(tmp_path, b"")


def test_nothing_is_left_where_the_work_fails(tmp_path: Path) -> None:
    target = tmp_path / "a.txt"
    target.write_text("as it was")
    with pytest.raises(RuntimeError), whole_file(target) as beside:
        beside.write_text("half")
        raise RuntimeError
    assert target.read_text() == "as it was"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]
