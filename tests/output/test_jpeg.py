"""JPEG files as an outside reader sees them."""

from __future__ import annotations

import io

import numpy as np
from PIL import Image, ImageCms

from mockup.output.jpeg import jpeg_bytes


def test_a_jpeg_carries_its_profile_its_resolution_and_whole_colour() -> None:
    """Single red pixels on white keep their colour; halved colour (4:2:0) would wash them out."""
    picture = np.full((32, 32, 3), 255, np.uint8)
    picture[::4, ::4] = (200, 0, 0)
    with Image.open(io.BytesIO(jpeg_bytes(picture, 300))) as read:
        assert read.info["dpi"] == (300, 300)
        profile = ImageCms.ImageCmsProfile(io.BytesIO(read.info["icc_profile"]))
        assert "sRGB" in ImageCms.getProfileDescription(profile)
        pixels = np.asarray(read.convert("RGB")).astype(int)
    reds = pixels[::4, ::4]
    assert (reds[..., 0] - reds[..., 1]).mean() > 120
    assert np.abs(pixels - picture).mean() < 12
