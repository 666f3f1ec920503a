"""What foils look like: metals and pigments, by their names in the languages of `vocabulary`.

Common practice, no source: makers of foil sell hundreds of shades under names of their own.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal, get_args

from mockup.trade.vocabulary import plain_words

Metal = Literal["rose-gold", "gold", "silver", "copper", "bronze", "black", "white", "clear"]
"""Four metals and rose gold; black and white pigment; and gloss without any colour."""

METALS: tuple[Metal, ...] = get_args(Metal)
TRUE_METALS: frozenset[Metal] = frozenset(("rose-gold", "gold", "silver", "copper", "bronze"))

FLAT_HEX: dict[Metal, str] = {
    "rose-gold": "#c9917c",
    "gold": "#c6a04c",
    "silver": "#b7b9bb",
    "copper": "#b87048",
    "bronze": "#94713d",
    "black": "#1c1b1a",
    "white": "#f4f3f0",
}
"""A flat colour that stands for each where no light falls on it; judgement, by eye. Clear foil has
none."""

_WORDS: dict[Metal, str] = {
    "gold": "gold golden goldene goldfolie or doree oro dorata dorado dourado ouro goud gouden "
    "goudfolie zloto zloty zlota guld guldfolie zlata zlato zlaty",
    "silver": "silver silber silbern silberfolie argent argente argento argentata plata plateado "
    "prata prateado zilver zilveren zilverfolie srebro srebrny srebrna silverfolie solv solvfolie "
    "stribro stribrna stribrny",
    "copper": "copper kupfer kupferfolie cuivre cuivree rame ramata cobre koper koperfolie miedz "
    "miedziany koppar kopparfolie kobber med medena",
    "bronze": "bronze bronzo bronce brons braz brazowy bronz",
    "black": "black schwarz schwarze noir noire nero nera negro negra preto preta zwart zwarte "
    "czarny czarna svart sort cerna cerny",
    "white": "white weiss weisse blanc blanche bianco bianca blanco blanca branco branca wit witte "
    "bialy biala vit hvid bila bily",
    "clear": "clear klar transparent transparente trasparente transparant przezroczysty "
    "pruhledna farblos incolore",
}
_ROSE_WORDS = "rose rosegold rotgold roze rosa rosado rosato rozowe rozowy ruzove"


@lru_cache(maxsize=4096)
def metal_named(name: str) -> Metal | None:
    """Returns the metal or pigment that a name of a foil says, or None. White gold is gold."""
    words = plain_words(name)
    if "rosegold" in words or "rotgold" in words:
        return "rose-gold"
    found: Metal | None = next(
        (metal for metal, names in _WORDS.items() if _set(names) & {*words}), None
    )
    return "rose-gold" if found == "gold" and _set(_ROSE_WORDS) & {*words} else found


@cache
def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())
