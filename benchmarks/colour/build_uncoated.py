"""Builds the profile of uncoated paper from its measured patches: the one the program ships.

`python -m benchmarks.colour.build_uncoated FOGRA29L.ti3 -o FOGRA29L_uncoated.icc`

From ink to colour: a smooth surface through the patches' CIELAB (radial basis functions), read at
the nodes of a grid. From colour to ink: at every node of a grid in CIELAB the black of a separation
for coated paper is kept as far as it can be, and inks are sought that print the colour, or the
nearest there is.
"""

from __future__ import annotations

import argparse
import io
import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms
from scipy.interpolate import RBFInterpolator, RegularGridInterpolator

from benchmarks.colour.patches import Patches, read_patches
from mockup.colour.icc_writing import encoded_lab, press_profile, table_tag
from mockup.colour.lab import D50, lab_of_xyz
from mockup.colour.press import COATED

GRID = 11
LAB_GRID = 21
STEPS = 60
BLACK_HELD = 4.0  # judgement: a whole black too much or too little weighs as much as this in CIELAB
NAME = "FOGRA29L uncoated"
RIGHTS = (
    "Made for Mockup from FOGRA29L characterisation data; zlib licence, see the README beside it"
)
STRAIGHT = np.array([0.0, 1.0])

Numbers = NDArray[np.float64]


def surface(patches: Patches) -> RBFInterpolator:
    """Returns a smooth map from inks to CIELAB relative to the paper, through the patches."""
    inks, where = np.unique(patches.inks, axis=0, return_index=True)
    lab = lab_of_xyz(patches.xyz / patches.paper * D50)[where]
    lab[(inks == 0).all(axis=1)] = (100, 0, 0)
    return RBFInterpolator(inks, lab, kernel="cubic", degree=1)


def nodes_of(patches: Patches) -> Numbers:
    """Returns the grid's CIELAB, (g, g, g, g, 3)."""
    at = np.linspace(0, 1, GRID)
    grid = np.stack(np.meshgrid(at, at, at, at, indexing="ij"), axis=-1)
    lab = surface(patches)(grid.reshape(-1, 4)).reshape((*grid.shape[:-1], 3))
    lab[0, 0, 0, 0] = (100, 0, 0)
    return lab


def separation(nodes: Numbers) -> Numbers:
    """Returns the inks for every node of a grid in CIELAB, (n, n, n, 4)."""
    at = np.linspace(0, 1, LAB_GRID)
    shares = np.stack(np.meshgrid(at, at, at, indexing="ij"), axis=-1).reshape(-1, 3)
    wanted = np.clip(
        shares * np.array([100, 255, 255]) * (65535 / 65280) - (0, 128, 128),
        (0, -128, -128),
        (100, 127, 127),
    )
    # Its darkest stands where coated paper's does, so that dark colours have as much black.
    darkest = nodes[..., 0].min()
    reach = np.array([100 / (100 - darkest), 1, 1])
    inks = _coated_inks(
        np.clip((wanted - (darkest, 0, 0)) * reach, (0, -128, -128), (100, 127, 127))
    )
    axis = np.linspace(0, 1, GRID)
    printed = RegularGridInterpolator((axis,) * 4, nodes)
    inks = _sought(printed, wanted, inks)
    inks[(wanted[:, 0] >= 100)] = 0
    return inks.reshape((LAB_GRID,) * 3 + (4,))


def _coated_inks(lab: Numbers) -> Numbers:
    """Returns a coated press's separation of CIELAB, black point to black point."""
    pixels = np.rint(lab * np.array([2.55, 1, 1]) + np.array([0, 128, 128])).clip(0, 255)
    picture = Image.frombytes(
        "LAB",
        (len(lab), 1),
        (pixels.astype(np.uint8) + np.array([0, 128, 128], np.uint8)).tobytes(),
    )
    flags = ImageCms.Flags.BLACKPOINTCOMPENSATION
    profile = ImageCms.ImageCmsProfile(io.BytesIO(COATED.profile.read_bytes()))
    way = ImageCms.buildTransform(
        ImageCms.createProfile("LAB"),
        profile,
        "LAB",
        "CMYK",
        ImageCms.Intent.RELATIVE_COLORIMETRIC,
        flags,
    )
    return np.asarray(ImageCms.applyTransform(picture, way)).reshape(-1, 4) / 255


def _sought(printed: RegularGridInterpolator, wanted: Numbers, first: Numbers) -> Numbers:
    """Returns inks that print what is wanted, or the nearest: damped least squares, all nodes
    together, each ink within 0 to 1, black held to the first guess where nothing is lost by it."""
    best, damping = first.copy(), np.full(len(first), 10.0)

    def off(inks: Numbers) -> Numbers:
        held = BLACK_HELD * (first[:, 3:] - inks[:, 3:])
        return np.concatenate([wanted - printed(inks), held], axis=1)

    error = (off(best) ** 2).sum(axis=1)
    for _ in range(STEPS):
        slopes = np.stack([_slope(printed, best, ink) for ink in range(4)], axis=-1)
        held = np.broadcast_to([0, 0, 0, BLACK_HELD], (len(best), 1, 4))
        slopes = np.concatenate([slopes, held], axis=1)
        turned = slopes.transpose(0, 2, 1)
        square = turned @ slopes + damping[:, None, None] * np.eye(4) * 100
        step = np.linalg.solve(square, turned @ off(best)[..., None])[..., 0]
        tried = np.clip(best + step, 0, 1)
        found = (off(tried) ** 2).sum(axis=1)
        better = found < error
        best[better], error = tried[better], np.where(better, found, error)
        damping = np.clip(np.where(better, damping / 3, damping * 4), 1e-3, 1e6)
    return best


def _slope(printed: RegularGridInterpolator, inks: Numbers, ink: int) -> Numbers:
    low, high = inks.copy(), inks.copy()
    low[:, ink], high[:, ink] = (
        np.clip(inks[:, ink] - 0.01, 0, 1),
        np.clip(inks[:, ink] + 0.01, 0, 1),
    )
    return (printed(high) - printed(low)) / (high[:, ink] - low[:, ink])[:, None]


def build(patches: Patches) -> bytes:
    """Returns the profile's bytes."""
    nodes = nodes_of(patches)
    from_ink = table_tag(np.tile(STRAIGHT, (4, 1)), encoded_lab(nodes))
    to_ink = table_tag(np.tile(STRAIGHT, (3, 1)), separation(nodes))
    return press_profile(NAME, RIGHTS, patches.paper, from_ink, to_ink)


def main() -> None:
    """Writes the profile."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("patches", type=Path)
    parser.add_argument("-o", "--output", type=Path, required=True)
    given = parser.parse_args(sys.argv[1:])
    given.output.write_bytes(build(read_patches(given.patches)))


if __name__ == "__main__":
    main()
