"""Skins by name: the metals of foils and gilded edges, pigmented foils, spot varnish.

Stamping foil is metal a few hundredths of a micron thick, put on from vapour: silver foil is
aluminium; gold, copper and their kin are aluminium under a dyed lacquer that copies the metal it
is named for, and are shown as that metal. Reflectances straight on are of n and k of Johnson and
Christy 1972 (gold, silver, copper) and Palik 1985 (aluminium), integrated over D65 with the CIE
1931 observer to linear sRGB.
"""

from __future__ import annotations

from mockup.render.light.finish import Rgb, Skin

GOLD: Rgb = (1.022, 0.783, 0.343)
COPPER: Rgb = (0.955, 0.638, 0.538)
ALUMINIUM: Rgb = (0.913, 0.922, 0.924)

_FOIL_ROUGHNESS = 0.07  # GGX alpha of foil on smooth board; judgement, by the width of its glints
_FOIL_IRONS = 0.55  # a hot die flattens the paper under it; judgement
_CLEAR = 0.04  # a lacquer of index 1.5, straight on: ((1.5 - 1) / (1.5 + 1))^2


def _metal(mirrors: Rgb, roughness: float = _FOIL_ROUGHNESS) -> Skin:
    return Skin(mirrors, roughness, _FOIL_IRONS)


def _pigment(body: Rgb) -> Skin:
    return Skin((_CLEAR, _CLEAR, _CLEAR), _FOIL_ROUGHNESS, _FOIL_IRONS, body)


# Alloys and dyed lacquers between the metals: judgements, by eye, from their neighbours.
FOILS: dict[str, Skin] = {
    "gold": _metal(GOLD),
    "pale-gold": _metal((0.98, 0.86, 0.60)),
    "rose-gold": _metal((0.97, 0.70, 0.58)),
    "copper": _metal(COPPER),
    "bronze": _metal((0.72, 0.50, 0.29)),
    "silver": _metal(ALUMINIUM),
    "pewter": _metal((0.46, 0.46, 0.47), 0.12),
    "black": _pigment((0.012, 0.012, 0.013)),
    "white": _pigment((0.80, 0.80, 0.79)),
}

# Ultraviolet-cured varnish, index about 1.5, levelled by its own flow; judgement.
GLOSS = Skin((_CLEAR, _CLEAR, _CLEAR), 0.06, 0.8, clear=True)


def foil(name: str) -> Skin:
    """Returns the skin of a foil by its name; silver where it has none, or none of ours."""
    return FOILS.get(name, FOILS["silver"])
