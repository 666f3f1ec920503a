"""The conditions that come with the program, against the measured patches they are made of."""

import numpy as np
import pytest
from scipy.interpolate import RegularGridInterpolator

from benchmarks.colour.build_uncoated import GRID, build, nodes_of
from benchmarks.colour.papers import MEASURED
from benchmarks.colour.patches import Patches, read_patches
from mockup.colour.difference import difference
from mockup.colour.icc_reading import Condition, read_condition
from mockup.colour.lab import D50, lab_of_xyz, xyz_of_lab
from mockup.colour.press import COATED, UNCOATED

PATCHES = read_patches(MEASURED / "FOGRA29L.ti3")


def looked_up(condition: Condition, inks: np.ndarray) -> np.ndarray:
    """Returns CIELAB of inks, read straight off the table, a line from node to node."""
    axis = np.linspace(0, 1, condition.table.shape[0])
    at = np.linspace(0, 1, condition.curves.shape[1])
    places = [np.interp(inks[:, k], at, condition.curves[k]) for k in range(4)]
    surface = RegularGridInterpolator((axis,) * 4, lab_of_xyz(condition.table))
    return surface(np.stack(places, axis=-1))


@pytest.mark.parametrize(
    ("press", "name", "mean"), [(UNCOATED, "FOGRA29L", 0.05), (COATED, "FOGRA39L", 0.2)]
)
def test_a_condition_is_its_measured_patches(press, name: str, mean: float) -> None:
    """Measured: FOGRA29 mean CIEDE2000 0.03, most 0.17 of 1,485; FOGRA39 0.15 and 0.57 of 1,617."""
    patches = read_patches(MEASURED / f"{name}.ti3")
    condition = read_condition(press.profile.read_bytes())
    off = difference(looked_up(condition, patches.inks), patches.lab)
    assert off.mean() < mean
    assert off.max() < 0.7


def test_patches_that_were_held_out_are_found_again() -> None:
    """A fifth held out. Measured: mean 0.06, 95th percentile 0.14; published tables are smoothed,
    so that this says little of a press."""
    held = np.zeros(len(PATCHES.inks), bool)
    held[np.random.default_rng(0).permutation(len(held))[::5]] = True
    held &= (PATCHES.inks != 0).any(axis=1)
    kept = Patches(PATCHES.inks[~held], PATCHES.xyz[~held], PATCHES.lab[~held])
    xyz = xyz_of_lab(nodes_of(kept)) * kept.paper / D50
    surface = RegularGridInterpolator((np.linspace(0, 1, GRID),) * 4, lab_of_xyz(xyz))
    off = difference(surface(PATCHES.inks[held]), PATCHES.lab[held])
    assert held.sum() > 250
    assert off.mean() < 0.1
    assert np.quantile(off, 0.95) < 0.3


def test_the_uncoated_table_is_what_its_builder_makes() -> None:
    made = xyz_of_lab(nodes_of(PATCHES)) * PATCHES.paper / D50
    shipped = read_condition(UNCOATED.profile.read_bytes())
    assert difference(lab_of_xyz(made), lab_of_xyz(shipped.table)).max() < 0.05
    assert shipped.paper == pytest.approx(PATCHES.paper, abs=1e-4)


@pytest.mark.slow
def test_the_uncoated_profile_rebuilds() -> None:
    made, shipped = build(PATCHES), UNCOATED.profile.read_bytes()
    assert len(made) == len(shipped)
    off = np.frombuffer(made, ">u2").astype(int) - np.frombuffer(shipped, ">u2").astype(int)
    assert (np.abs(off) > 655).mean() < 0.01  # a hundredth of an ink


def test_colours_separated_for_uncoated_paper_print_as_themselves() -> None:
    """There and back through LittleCMS, of colours that can be printed. Measured: mean 1.0."""
    from PIL import Image, ImageCms

    flags = ImageCms.Flags.BLACKPOINTCOMPENSATION | ImageCms.Flags.HIGHRESPRECALC
    profile, screen = str(UNCOATED.profile), ImageCms.createProfile("sRGB")
    there = ImageCms.buildTransform(screen, profile, "RGB", "CMYK", 1, flags)
    back = ImageCms.buildTransform(profile, screen, "CMYK", "RGB", 1, flags)

    def trip(picture: Image.Image) -> Image.Image:
        return ImageCms.applyTransform(ImageCms.applyTransform(picture, there), back)

    noise = np.random.default_rng(4).integers(0, 256, (64, 64, 3), dtype=np.uint8)
    once = trip(Image.fromarray(noise))
    from skimage.color import deltaE_ciede2000, rgb2lab

    labs = [rgb2lab(np.asarray(each)) for each in (once, trip(once))]
    assert deltaE_ciede2000(*labs).mean() < 1.5
    white = ImageCms.applyTransform(Image.new("RGB", (1, 1), (255, 255, 255)), there)
    assert white.getpixel((0, 0)) == (0, 0, 0, 0)
