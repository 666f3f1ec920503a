"""The table of families. A new one is a function and an entry in a file here, and a line below."""

from __future__ import annotations

from mockup.dies.families.arches import LANCET_ARCH, ROUND_ARCH
from mockup.dies.families.corners import (
    CHAMFERED_CORNER,
    NOTCHED_CORNER,
    ROUNDED_CORNER,
    TICKET_CORNER,
)
from mockup.dies.families.plain import RECTANGLE
from mockup.dies.families.rounds import CIRCLE, ELLIPSE, STADIUM
from mockup.dies.families.scallops import SCALLOPED_EDGE
from mockup.dies.family import Family

FAMILIES: dict[str, Family] = {
    family.name: family
    for family in (
        RECTANGLE,
        ROUNDED_CORNER,
        TICKET_CORNER,
        NOTCHED_CORNER,
        CHAMFERED_CORNER,
        ELLIPSE,
        CIRCLE,
        STADIUM,
        ROUND_ARCH,
        LANCET_ARCH,
        SCALLOPED_EDGE,
    )
}
