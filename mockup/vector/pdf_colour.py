"""Colours a PDF's content sets: its spaces told apart, spot inks by their names (8.6)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pikepdf

from mockup.vector.pdf_objects import entry, items_of, number, word
from mockup.vector.template import Colour, Space

_DEVICE: dict[str, Colour] = {
    "DeviceGray": Colour("gray", (0.0,)),
    "CalGray": Colour("gray", (0.0,)),
    "DeviceRGB": Colour("rgb", (0.0, 0.0, 0.0)),
    "CalRGB": Colour("rgb", (0.0, 0.0, 0.0)),
    "DeviceCMYK": Colour("cmyk", (0.0, 0.0, 0.0, 1.0)),
    "Lab": Colour("lab"),
    "Pattern": Colour("pattern"),
}
_BY_COUNT: dict[int, Space] = {1: "gray", 3: "rgb", 4: "cmyk"}
BLACK = _DEVICE["DeviceGray"]  # what a page begins with (table 52)
NAMES_MAX = 32  # colourants of one DeviceN space (ISO 32000-1 Annex C)


def space_of(name: Any, resources: Any) -> Colour:
    """Returns the colour a space begins with: full tint of its inks (8.6.5.1, 8.6.6.4)."""
    if word(name) in _DEVICE:
        return _DEVICE[word(name)]
    space = entry(entry(resources, "/ColorSpace"), f"/{word(name)}")
    if isinstance(space, pikepdf.Name):
        return _DEVICE.get(word(space), Colour("other"))
    parts = items_of(space)
    if len(parts) < 2:
        return _DEVICE.get(word(parts[0]), Colour("other")) if parts else Colour("other")
    kind = word(parts[0])
    if kind == "Separation":
        return Colour("spot", (1.0,), (word(parts[1]),))
    if kind == "DeviceN":
        names = tuple(word(each) for each in items_of(parts[1])[:NAMES_MAX])
        return Colour("spot", (1.0,) * len(names), names)
    if kind == "ICCBased":
        count = int(number(entry(parts[1], "/N")) or 0)
        return Colour(_BY_COUNT.get(count, "other"), (0.0,) * count if count in _BY_COUNT else ())
    return _DEVICE.get(kind, Colour("other"))


def with_values(colour: Colour, operands: Sequence[Any]) -> Colour:
    """Returns a colour of the same space with the values an SC or SCN operator gives."""
    values = tuple(each for each in map(number, operands) if each is not None)
    return Colour(colour.space, values, colour.names)
