"""Finishes beyond ink, by the names of plates and layers: white, foil, letterpress, emboss."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal, get_args

from mockup.trade.metals import TRUE_METALS, metal_named
from mockup.trade.vocabulary import STEPS, Meaning, name_meaning, plain_words

Finish = Literal["white", "foil", "varnish", "letterpress", "deboss", "emboss"]
"""What a piece may have beside its ink, or done with it: letterpress is ink, pressed in. Varnish is
spot gloss; an embossing is raised, a debossing sunk, both blind: what has ink in it is letterpress,
or has a plate of that ink as well."""

FINISHES: tuple[Finish, ...] = get_args(Finish)
INKED: frozenset[Finish] = frozenset(("white", "letterpress"))
"""Finishes whose plates are ink."""

WITHOUT_COLOUR: frozenset[Finish] = frozenset(("varnish", "deboss", "emboss"))
"""Finishes that lay no colour down: whatever their plates are drawn in, nothing of it prints."""

NOT_TINTED: frozenset[Finish] = frozenset(("white", *WITHOUT_COLOUR))
"""Finishes whose plates are never shown in the tint they are drawn in: white looks as white ink."""

_KIN: dict[Finish, Finish] = {"deboss": "emboss", "emboss": "deboss"}

# White, in the vocabulary's languages and genders, and the white that goes under ink.
_WHITES = (
    "white weiss weisse weisses blanc blanche bianco bianca blanco blanca branco branca wit "
    "witte bialy biala biale biel vit vitt vita hvid hvidt hvide bily bila bile deckweiss "
    "vorweiss unterdruckweiss underwhite dekwit tackvit daekhvid"
)
# What stands beside it: that it covers, that it is an ink; in the same languages.
_BESIDE = (
    "opaque opak opake deckend deckende couvrant couvrante opaco opaca coprente cubriente "
    "dekkend dekkende kryjacy kryjaca tackande daekkende kryci ink inks inkt tinta inchiostro "
    "encre farbe farba farg farve barva spot plate underprint underbase base layer ebene kanal "
    "channel print colour color"
)


@lru_cache(maxsize=4096)
def finish_named(name: str) -> Finish | None:
    """Returns the finish that one name of an ink or a layer says, or None."""
    words = set(plain_words(name))
    said = _finish(name_meaning(name))
    if said is not None and said != "white":
        return said
    if metal_named(name) in TRUE_METALS:
        return None  # white gold is a metal, whatever the vocabulary makes of its first word
    bare = words - _set(_BESIDE)
    return "white" if said == "white" or (bare and bare <= _set(_WHITES)) else None


def finish_of_step(step: str | None) -> Finish | None:
    """Returns the finish a processing step is for, by `Group/Type` or `Group` (ISO 19593-1)."""
    return None if step is None or step.endswith("Free") else _finish(STEPS.get(step))


def is_kin(one: Finish, other: Finish) -> bool:
    """Returns whether a word for one finish may mean the other: people say emboss for both ways."""
    return one == other or _KIN.get(one) == other


def _finish(meaning: Meaning | None) -> Finish | None:
    return next((each for each in FINISHES if each == meaning), None)


@cache
def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())
