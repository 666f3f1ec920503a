"""What a printer says the files must be: with or without the cut line, bleed, names of inks."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

Variant = Literal["art-alone", "cut-line"]
VARIANTS: tuple[Variant, ...] = ("art-alone", "cut-line")
BOTH = "both"

CUT_NAME, FOLD_NAME = "Cut", "Crease"
INK_NAME = r"^[!-~](?:[ -~]{0,58}[!-~])?$"  # judgement: what every program shows as it is written
_RESERVED = ("all", "none", "cyan", "magenta", "yellow", "black")  # ISO 32000-1 8.6.6.4
_INK = re.compile(INK_NAME)


@dataclass(frozen=True)
class FilesAsked:
    """How print files are made: which variants, type as outlines or live, how much bleed (None:
    what the suite says), what the inks of the cut and of the folds are called."""

    variants: tuple[Variant, ...] = ("cut-line",)
    outlined: bool = False
    bleed_in: float | None = None
    cut_name: str = CUT_NAME
    fold_name: str = FOLD_NAME


THE_USUAL = FilesAsked()
"""What is made where no printer is named, or its catalogue says nothing of files."""


def variants_of(word: str) -> tuple[Variant, ...]:
    """Returns the variants that a word asks for: one of them, or both."""
    return VARIANTS if word == BOTH else tuple(each for each in VARIANTS if each == word)


def is_spot_name(name: str) -> bool:
    """Returns whether a name can be that of an ink of its own: none of the process inks, and none
    of the names that mean all inks, or no ink."""
    return bool(_INK.match(name)) and name.casefold() not in _RESERVED
