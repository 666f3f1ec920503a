"""A painted dusk over the creek: washes of mist laid over one another, computed as pixels.

The painter mixes light; the finished sheet is separated once, for the press the pages name, and
runs out into the ink of the ground it is placed on.
"""

from __future__ import annotations

import io

import numpy as np
from exchange import PROFILE
from numpy.typing import NDArray
from palette import INK, MIST, OAT, RUST, Ink
from PIL import Image, ImageCms, ImageDraw
from scipy.ndimage import gaussian_filter, gaussian_filter1d

Field = NDArray[np.float64]

# Far to near: where the land lies and swells, its trees (shares of the height), strength, colour.
LAND = (
    (0.480, 0.034, 0.000, 0.24, MIST),
    (0.535, 0.024, 0.006, 0.40, MIST),
    (0.580, 0.013, 0.011, 0.36, INK),
    (0.622, 0.006, 0.000, 0.72, INK),
)


def painted(width: float, height: float, ppi: int, seed: int) -> bytes:
    """Returns the dusk as a JPEG of inks, width x height inches at ppi, fading to oat below."""
    w, h = round(width * ppi), round(height * ppi)
    rng = np.random.default_rng(seed)
    y, x = np.mgrid[0:h, 0:w] / ppi
    picture = np.ones((h, w, 3)) * _tint(OAT)
    picture = _sky(picture, x, y, height, rng)
    picture = _shores(picture, x, y, height, ppi, rng)
    picture = _mill(picture, height, ppi)
    picture = _creek(picture, x, y, height, ppi, rng)
    picture = _paper(picture, ppi, rng)
    inks = _faded(_separated(picture), x, y, height, ppi, rng)
    pixels = np.clip(np.rint(inks * 255), 0, 255).astype(np.uint8)
    data = io.BytesIO()
    Image.fromarray(pixels, "CMYK").save(
        data, "JPEG", quality=88, subsampling=0, optimize=True, dpi=(ppi, ppi)
    )
    return data.getvalue()


def _tint(ink: Ink) -> Field:
    return np.array(ink.light) / 255


def _laid(picture: Field, ink: Ink, amount: Field) -> Field:
    """Returns picture with a transparent wash over it: paint multiplies what is below."""
    wash = 1 - amount[..., None] * (1 - _tint(ink) / _tint(OAT))
    return picture * wash


def _cloud(shape: tuple[int, ...], rng: np.random.Generator, across: float, down: float) -> Field:
    """Returns soft noise of unit deviation, its hills across x down pixels wide."""
    noise = gaussian_filter(rng.standard_normal(shape), (down, across), mode="wrap")
    return noise / noise.std()


def _sky(picture: Field, x: Field, y: Field, height: float, rng: np.random.Generator) -> Field:
    drift = _cloud(y.shape, rng, 150, 22)
    high = np.clip(1 - y / (0.62 * height), 0, 1) ** 1.4
    picture = _laid(picture, MIST, np.clip(0.72 * high + 0.09 * drift * (0.3 + high), 0, 1))
    warm = np.exp(-(((y - 0.50 * height) / (0.16 * height)) ** 2))
    picture = _laid(picture, RUST, np.clip(0.20 * warm + 0.05 * drift * warm, 0, 1))
    moon = np.hypot(x - 0.705 * x.max(), y - 0.305 * height)
    halo = np.exp(-((moon / 0.34) ** 2))
    disc = np.clip((0.128 - moon) / 0.006 + 0.5, 0, 1)
    pale = _tint(OAT) * 0.5 + 0.5
    picture = picture + (pale - picture) * (0.35 * halo)[..., None]
    return picture + (pale - picture) * (0.93 * disc)[..., None]


def _shores(
    picture: Field, x: Field, y: Field, height: float, ppi: int, rng: np.random.Generator
) -> Field:
    """Washes of land, the far ones pale; each pools at its upper edge and thins below."""
    count = x.shape[1]
    for base, swell, trees, strength, ink in LAND:
        broad = _rough(count, 0.80 * ppi, rng)
        crowns = np.sqrt(np.clip(_rough(count, 0.018 * ppi, rng) + 0.5, 0, None))
        wooded = np.clip(_rough(count, 0.30 * ppi, rng) + 0.3, 0, 1.3)
        ground = height * (base - swell * broad)
        top = ground - trees * height * crowns * wooded
        depth, down = y - top[None, :], y - (ground - 0.02)[None, :]
        edge = np.clip(depth * ppi / 2.4 + 0.5, 0, 1)
        body = np.exp(-np.clip(down, 0, None) / (0.06 * height))
        pool = 0.16 * np.exp(-np.clip(depth, 0, None) / 0.012)
        bloom = 1 + 0.16 * _cloud(y.shape, rng, 34, 14)
        picture = _laid(picture, ink, np.clip(strength * edge * (body + pool) * bloom, 0, 1))
    return picture


def _mill(picture: Field, height: float, ppi: int) -> Field:
    """The mill far off on its bank, one stroke of the brush; its corners softened by the wash."""
    roofs = [(0.0, 0.0), (0.0, 0.062), (0.048, 0.105), (0.096, 0.062), (0.11, 0.062), (0.11, 0.10)]
    roofs += [(0.135, 0.155), (0.20, 0.155), (0.222, 0.195), (0.244, 0.155), (0.335, 0.155)]
    roofs += [(0.36, 0.10), (0.36, 0.0)]
    h, w = picture.shape[:2]
    large = Image.new("L", (2 * w, 2 * h))
    foot, left = 0.626 * height, 0.93
    outline = [(2 * ppi * (left + x), 2 * ppi * (foot - y)) for x, y in roofs]
    ImageDraw.Draw(large).polygon(outline, fill=255)
    shape = np.asarray(large.resize((w, h), Image.Resampling.BOX), dtype=float) / 255
    return _laid(picture, INK, 0.80 * gaussian_filter(shape, ppi / 260))


def _rough(count: int, length: float, rng: np.random.Generator) -> Field:
    """Returns smooth noise along a line of count pixels, of unit deviation."""
    line = gaussian_filter1d(rng.standard_normal(count * 3), length)[count : 2 * count]
    return line / line.std() - line.mean() / line.std()


def _creek(
    picture: Field, x: Field, y: Field, height: float, ppi: int, rng: np.random.Generator
) -> Field:
    """The water: level strokes that thin toward the reader, and the moon's broken path."""
    water = 0.635 * height
    depth = np.clip((y - water) / (height - water), 0, 1)
    below = np.clip((y - water) * ppi / 3, 0, 1)
    strokes = _cloud(y.shape, rng, 120, 2.4) + 0.8 * _cloud(y.shape, rng, 260, 9)
    tone = 0.40 * (1 - depth) ** 0.9 + 0.15 * strokes * (1 - 0.4 * depth)
    picture = _laid(picture, INK, np.clip(tone, 0, 1) * below)
    reach = 0.07 + 0.22 * depth
    path = np.exp(-(((x - 0.705 * x.max()) / reach) ** 2))
    sparkle = np.clip(0.5 + 0.8 * _cloud(y.shape, rng, 26, 2.2), 0, 1)
    pale = _tint(OAT) * 0.7 + 0.3
    return picture + (pale - picture) * (0.8 * path * sparkle * below)[..., None]


def _paper(picture: Field, ppi: int, rng: np.random.Generator) -> Field:
    """Pigment settles in the paper's tooth: most where the wash is neither bare nor full."""
    tooth = _cloud(picture.shape[:2], rng, ppi / 260, ppi / 260)
    bloom = _cloud(picture.shape[:2], rng, ppi / 9, ppi / 9)
    depth = (_tint(OAT) - picture).mean(axis=2).clip(0)
    grain = 0.10 * tooth + 0.035 * bloom
    return picture * (1 - grain * np.minimum(depth, 0.35))[..., None]


def _separated(picture: Field) -> Field:
    """Returns a picture of light as inks 0..1 of the press: relative, black point compensated."""
    light = np.clip(np.rint(picture * 255), 0, 255).astype(np.uint8)
    inks = ImageCms.profileToProfile(
        Image.fromarray(light),
        ImageCms.createProfile("sRGB"),
        str(PROFILE),
        renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
        outputMode="CMYK",
        flags=ImageCms.Flags.BLACKPOINTCOMPENSATION | ImageCms.Flags.HIGHRESPRECALC,
    )
    return np.asarray(inks) / 255


def _faded(
    inks: Field, x: Field, y: Field, height: float, ppi: int, rng: np.random.Generator
) -> Field:
    """The wash runs out into bare oat along a wet, uneven lower edge."""
    wet = gaussian_filter1d(rng.standard_normal(x.shape[1]), 0.16 * ppi)
    ragged = _cloud(y.shape, rng, 70, 5)
    end = height * (0.955 + 0.035 * wet / wet.std())[None, :] + 0.035 * ragged
    kept = np.clip((end - y) / (0.20 * height), 0, 1)
    kept = kept * kept * (3 - 2 * kept)
    return inks * kept[..., None] + np.array(OAT.cmyk) / 100 * (1 - kept[..., None])
