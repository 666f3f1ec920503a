"""Rough clear interfaces over a diffuse body: what gets in, what gets out, what shines.

GGX with Smith masking, after Walter et al. 2007 (Microfacet models for refraction); normals are
drawn as Heitz 2018 (Sampling the GGX distribution of visible normals) draws them. The diffuse
body under the interface is the usual linear model: in through the interface, out through it, the
light thrown back inside added up as a geometric series.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
_COSINES = 24  # angles the transmittance is tabled at
_TILTS, _TURNS = 24, 32  # visible normals: so many tilts, each turned so many ways


@dataclass(frozen=True)
class Interface:
    """What an interface does to light, seen from straight above.

    `cosines` and `transmit` table the share let in against the cosine to the normal;
    `transmit_sky` is its cosine-weighted mean; `body` is the factor on albedo / pi for the way out
    straight up; `shine_sky` the share of an even sky mirrored straight up.
    """

    ior: float
    alpha: float
    cosines: Array
    transmit: Array
    transmit_sky: float
    body: float
    shine_sky: float

    def let_in(self, cosine: Array) -> Array:
        """Returns the share of light let in at a cosine to the normal."""
        return np.interp(cosine, self.cosines, self.transmit)


@lru_cache(maxsize=32)
def interface(ior: float, alpha: float) -> Interface:
    """Returns the tabled interface for an index of refraction and a GGX alpha."""
    # Gauss-Legendre over the cosine: the same points table and integrate.
    nodes, weights = np.polynomial.legendre.leggauss(_COSINES)
    mu, weight = (nodes + 1) / 2, weights / 2
    outside = np.array([_split(m, ior, alpha) for m in mu])
    inside = np.array([_split(m, 1 / ior, alpha) for m in mu])
    straight_shine, straight_in = _split(1.0, ior, alpha)
    thrown_back = 2 * float(np.sum(weight * mu * inside[:, 0]))
    return Interface(
        ior,
        alpha,
        np.concatenate([mu, [1.0]]),
        np.concatenate([outside[:, 1], [straight_in]]),
        2 * float(np.sum(weight * mu * outside[:, 1])),
        straight_in / (ior**2 * (1 - thrown_back)),
        straight_shine,
    )


def _split(mu: float, eta: float, alpha: float) -> tuple[float, float]:
    """Returns (share reflected, share let through) for light at cosine `mu`; eta inner / outer."""
    if eta == 1:
        return 0.0, 1.0  # no interface at all
    wi = np.array([np.sqrt(max(0.0, 1 - mu * mu)), 0.0, mu])
    m, share = _visible_normals(wi, alpha)
    c = np.clip(m @ wi, 0, 1)
    reflected, cos_t = fresnel(c, eta)
    out = 2 * c[:, None] * m - wi
    mirrored = reflected * masking(out[:, 2], alpha) * (out[:, 2] > 0)
    through = (c / eta - cos_t)[:, None] * m - wi / eta
    passed = (1 - reflected) * masking(-through[:, 2], alpha) * (through[:, 2] < 0)
    return float(mirrored @ share), float(passed @ share)


def fresnel(cosine: Array, eta: float) -> tuple[Array, Array]:
    """Returns (reflectance of unpolarised light, cosine of the refracted ray): Fresnel, Snell."""
    squared = 1 - (1 - cosine**2) / eta**2
    cos_t = np.sqrt(np.maximum(squared, 0))
    s = (cosine - eta * cos_t) / (cosine + eta * cos_t + 1e-12)
    p = (eta * cosine - cos_t) / (eta * cosine + cos_t + 1e-12)
    return np.where(squared > 0, (s * s + p * p) / 2, 1.0), cos_t


def masking(cosine: Array, alpha: float) -> Array:
    """Returns Smith's masking G1 of GGX for a direction at `cosine` to the normal."""
    c2 = np.clip(cosine, 1e-6, 1) ** 2
    return 2 / (1 + np.sqrt(1 + alpha**2 * (1 - c2) / c2))


def lobe(toward: Array, normal: Array, surface: Interface) -> Array:
    """Returns the specular BRDF times the cosine for light from `toward`, seen from straight up.

    `toward` is (..., 3) unit vectors, `normal` one unit vector: GGX, Cook-Torrance form.
    """
    view = np.array([0.0, 0.0, 1.0])
    half = toward + view
    half /= np.linalg.norm(half, axis=-1, keepdims=True)
    n_h, n_l = half @ normal, np.maximum(toward @ normal, 0)
    a2 = surface.alpha**2
    spread = a2 / (np.pi * (n_h**2 * (a2 - 1) + 1) ** 2)
    shine, _ = fresnel(np.clip(half @ view, 0, 1), surface.ior)
    shadow = masking(n_l, surface.alpha) * masking(normal[2:], surface.alpha)
    return np.where(n_l > 0, shine * spread * shadow / (4 * normal[2]), 0.0)


def _visible_normals(wi: Array, alpha: float) -> tuple[Array, Array]:
    """Returns normals (n, 3) and the share of the visible area from `wi` each stands for (n,).

    Heitz 2018 maps them from the unit disc. Towards its rim GGX's long tail of steep faces makes
    what passes run as the height over the disc, so that the nodes are Gauss-Legendre's in that
    height: even steps of area let 0.6 % too much light in and out again.
    """
    nodes, weights = np.polynomial.legendre.leggauss(_TILTS)
    over, share = (nodes + 1) / 2, weights * (nodes + 1) / 2
    r = np.sqrt(1 - np.repeat(over, _TURNS) ** 2)
    phi = np.tile(2 * np.pi * (np.arange(_TURNS) + 0.5) / _TURNS, _TILTS)
    v = np.array([alpha * wi[0], alpha * wi[1], wi[2]])
    v /= np.linalg.norm(v)
    flat = np.hypot(v[0], v[1])
    t1 = np.array([-v[1], v[0], 0.0]) / flat if flat > 1e-9 else np.array([1.0, 0.0, 0.0])
    t2 = np.cross(v, t1)
    a, b = r * np.cos(phi), r * np.sin(phi)
    s = (1 + v[2]) / 2
    b = (1 - s) * np.sqrt(np.maximum(0, 1 - a * a)) + s * b
    c = np.sqrt(np.maximum(0, 1 - a * a - b * b))
    n = a[:, None] * t1 + b[:, None] * t2 + c[:, None] * v
    n = np.column_stack([alpha * n[:, 0], alpha * n[:, 1], np.maximum(1e-9, n[:, 2])])
    return n / np.linalg.norm(n, axis=1, keepdims=True), np.repeat(share / _TURNS, _TURNS)
