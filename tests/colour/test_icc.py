"""Reading a press's profile: what LittleCMS and the measurements say of it, and broken ones."""

import io
import struct

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms

from mockup.colour.difference import difference
from mockup.colour.icc_reading import Condition, read_condition
from mockup.colour.icc_writing import encoded_lab, press_profile, table_tag
from mockup.colour.lab import D50, lab_of_xyz
from mockup.colour.press import COATED, UNCOATED
from mockup.colour.printing import printed
from mockup.colour.srgb import Rgb
from mockup.errors import InputError

ICC = COATED.profile.read_bytes()
STRAIGHT = np.tile(np.array([0.0, 1.0]), (4, 1))


def test_the_name_and_the_paper_of_a_profile() -> None:
    """FOGRA39's paper is CIELAB 95, 0, -2 (its characterisation data)."""
    condition = read_condition(ICC)
    assert condition.name == "FOGRA39L Coated"
    assert lab_of_xyz(condition.paper) == pytest.approx((95, 0, -2), abs=0.05)


def test_what_is_written_is_read_again() -> None:
    nodes = lab_of_xyz(read_condition(ICC).table)[::2, ::2, ::2, ::2]
    tag = table_tag(STRAIGHT, encoded_lab(nodes))
    back = read_condition(press_profile("ours", "none", D50, tag, tag))
    assert back.name == "ours"
    assert np.abs(lab_of_xyz(back.table) - nodes).max() < 0.01


def version_4(nodes: np.ndarray, gamma: float) -> bytes:
    """Returns a profile with an `mAB ` table: curves of a gamma, a grid, straight curves at the
    end (ICC.1:2010, 10.12)."""
    power = b"para" + bytes(4) + struct.pack(">HHi", 0, 0, round(gamma * 65536))
    line = b"curv" + bytes(4) + struct.pack(">I", 0)
    shares = np.clip((nodes + np.array([0, 128, 128])) / (100, 255, 255), 0, 1)
    clut = bytes(nodes.shape[:4]) + bytes(12) + bytes([2, 0, 0, 0])
    clut += np.rint(shares * 65535).astype(">u2").tobytes()
    clut += bytes(-len(clut) % 4)
    b_at, clut_at = 32, 32 + 3 * len(line)
    a_at = clut_at + len(clut)
    head = b"mAB " + bytes(4) + bytes([4, 3, 0, 0])
    tag = head + struct.pack(">5I", b_at, 0, 0, clut_at, a_at) + 3 * line + clut + 4 * power
    to_ink = table_tag(np.tile(np.array([0.0, 1.0]), (3, 1)), np.zeros((2, 2, 2, 4)))
    made = bytearray(press_profile("four", "none", D50 * 0.9, tag, to_ink))
    made[8] = 4
    return bytes(made)


@pytest.mark.parametrize(
    "steps",
    [(2, 2, 2, 2), (1, 1, 1, 2), (2, 1, 1, 4)],
    ids=["equal", "black halved", "unequal"],
)
def test_a_profile_of_version_4_is_read_as_littlecms_reads_it(steps: tuple[int, ...]) -> None:
    """Also one whose grid has more nodes along one ink than along another."""
    nodes = lab_of_xyz(read_condition(ICC).table)[tuple(slice(None, None, k) for k in steps)].copy()
    nodes[0, 0, 0, 0] = (100, 0, 0)
    assert_as_littlecms(version_4(nodes, 1.8), 3)


def test_a_grid_without_a_common_one_is_read_nearly_so() -> None:
    """Nodes at sevenths and eighths have none in common under 57; measured here: 99 % within 4."""
    table = lab_of_xyz(read_condition(ICC).table)
    at = np.linspace(0, 8, 8)
    low = np.minimum(at.astype(int), 7)
    share = (at - low)[:, None, None, None, None]
    nodes = table[low] + (table[low + 1] - table[low]) * share
    nodes[0, 0, 0, 0] = (100, 0, 0)
    assert nodes.shape == (8, 9, 9, 9, 3)
    assert_as_littlecms(version_4(nodes, 1.8), 5)


def assert_as_littlecms(content: bytes, most: int) -> None:
    """Asserts that of noise 99 % of bytes are within `most` of what LittleCMS makes of it."""
    condition = read_condition(content)
    assert len(set(condition.table.shape[:4])) == 1
    assert condition.paper == pytest.approx(D50 * 0.9, abs=1e-3)
    noise = np.random.default_rng(2).integers(0, 256, (40, 40, 4), dtype=np.uint8)
    picture = Image.frombytes("CMYK", (40, 40), noise.tobytes())
    flags = ImageCms.Flags.NOWHITEONWHITEFIXUP | ImageCms.Flags.HIGHRESPRECALC
    way = ImageCms.buildTransform(
        ImageCms.ImageCmsProfile(io.BytesIO(content)),
        ImageCms.createProfile("sRGB"),
        "CMYK",
        "RGB",
        ImageCms.Intent.ABSOLUTE_COLORIMETRIC,
        flags,
    )
    theirs = np.asarray(ImageCms.applyTransform(picture, way)).astype(int)
    grey: Rgb = (243, 243, 243)  # D50 times 0.9: the paper, so that ink is left as it is
    ours = printed(noise, condition, grey).astype(int)
    assert np.abs(ours - theirs).mean() < 0.5
    assert np.quantile(np.abs(ours - theirs), 0.99) <= most


@pytest.mark.parametrize("press", [COATED, UNCOATED], ids=["coated", "uncoated"])
def test_a_profile_says_of_its_solids_what_was_measured(press: object) -> None:
    """CIELAB of FOGRA39's and FOGRA29's solid inks, from their characterisation data."""
    measured = {
        "coated": {0: (55, -37, -50), 1: (48, 74, -3), 2: (89, -5, 93), 3: (16, 0, 0)},
        "uncoated": {3: (31.88, 2.05, 2.08), 1: (55.04, 59.46, -4.0)},
    }
    which = "coated" if press is COATED else "uncoated"
    table = lab_of_xyz(read_condition(press.profile.read_bytes()).table)  # type: ignore[attr-defined]
    for ink, lab in measured[which].items():
        at = [0, 0, 0, 0]
        at[ink] = -1
        off = difference(table[tuple(at)], np.array(lab, np.float64))
        assert off < 1.0, (which, ink, table[tuple(at)])


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "no ICC profile"),
        (b"%PDF-1.7" + bytes(400), "no ICC profile"),
        (
            ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(),
            "no profile of a CMYK",
        ),
        (press_profile("x", "y", D50, table_tag(STRAIGHT, np.zeros((2, 2, 2, 2, 3)))), "and back"),
        (ICC[:60_000], "broken"),
    ],
)
def test_what_is_no_press_is_told(content: bytes, told: str) -> None:
    with pytest.raises(InputError, match=told):
        read_condition(content)


@settings(max_examples=60, deadline=None)
@given(st.integers(128, 60_000), st.binary(min_size=1, max_size=40), st.booleans())
def test_damage_is_told_or_read_but_no_fault_of_ours(at: int, noise: bytes, cut: bool) -> None:
    hurt = ICC[:at] if cut else ICC[:at] + noise + ICC[at + len(noise) :]
    try:
        condition = read_condition(hurt)
    except InputError as error:
        assert "\n" not in str(error)
    else:
        assert isinstance(condition, Condition) and np.isfinite(condition.table).all()
