"""CIELAB and XYZ under D50, the colours of print, and sRGB seen from there."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import Rgb, from_light, linear

Numbers = NDArray[np.float64]

D50 = np.array([0.9642, 1.0, 0.8249])
"""XYZ of the perfect white diffuser under D50, Y = 1 (ICC.1:2001-04, 6.4.2.1)."""

_EPSILON, _KAPPA = 216 / 24389, 24389 / 27  # CIE 15:2004, 8.2.1.1, as exact fractions

# Linear sRGB (IEC 61966-2-1) and linear Rec. 2020 (ITU-R BT.2020-2) to XYZ under D65; Bradford's
# cone responses (ICC.1:2001-04, Annex E), which move D65 to D50.
_SRGB = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], np.float64
)
_BT2020 = np.array(
    [[0.636958, 0.144617, 0.168881], [0.262700, 0.677998, 0.059302], [0, 0.028073, 1.060985]],
    np.float64,
)
_BRADFORD = np.array(
    [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]], np.float64
)


def _under_d50(to_xyz: Numbers) -> Numbers:
    """Returns a matrix to XYZ under D50 from one to XYZ under D65; its white is D50 exactly."""
    white = to_xyz.sum(axis=1)
    scale = np.diag((_BRADFORD @ D50) / (_BRADFORD @ white))
    adapted = np.linalg.inv(_BRADFORD) @ scale @ _BRADFORD @ to_xyz
    return adapted * (D50 / adapted.sum(axis=1))[:, None]


SRGB_TO_XYZ = _under_d50(_SRGB)
"""(3, 3): linear sRGB to XYZ under D50."""

WIDE_TO_XYZ = _under_d50(_BT2020)
"""(3, 3): linear Rec. 2020 to XYZ under D50."""

_XYZ_TO_SRGB = np.linalg.inv(SRGB_TO_XYZ)


def xyz_of_lab(lab: Numbers) -> Numbers:
    """Returns XYZ under D50, Y = 1 for white, of CIELAB; both (..., 3) (CIE 15:2004, 8.2.1)."""
    y = (lab[..., 0] + 16) / 116
    f = np.stack([y + lab[..., 1] / 500, y, y - lab[..., 2] / 200], axis=-1)
    return np.where(f**3 > _EPSILON, f**3, (116 * f - 16) / _KAPPA) * D50


def lab_of_xyz(xyz: Numbers) -> Numbers:
    """Returns CIELAB of XYZ under D50, Y = 1 for white; both (..., 3) (CIE 15:2004, 8.2.1)."""
    share = xyz / D50
    f = np.where(share > _EPSILON, np.cbrt(share), (_KAPPA * share + 16) / 116)
    x, y, z = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1)


def xyz_of_rgb(colour: Rgb) -> Numbers:
    """Returns XYZ under D50 of an sRGB colour, (3,)."""
    return SRGB_TO_XYZ @ linear(colour).astype(np.float64)


def rgb_of_xyz(xyz: Numbers) -> Rgb:
    """Returns the sRGB colour nearest to XYZ under D50, channels clipped."""
    encoded = from_light(np.clip(_XYZ_TO_SRGB @ xyz, 0, 1))
    red, green, blue = (int(value) for value in np.rint(255 * encoded))
    return red, green, blue
