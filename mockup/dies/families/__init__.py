"""The table of families. A new one is a function and an entry in a file here, and a line below."""

from __future__ import annotations

from mockup.dies.families.arches import (
    QUARTER_ARCH,
    ROUND_ARCH,
    SEGMENTAL_ARCH,
    THREE_CENTRED_ARCH,
    TWIN_ARCH,
)
from mockup.dies.families.corners import (
    CHAMFERED_CORNER,
    NOTCHED_CORNER,
    ROUNDED_CORNER,
    TICKET_CORNER,
)
from mockup.dies.families.plain import GABLE, HEXAGON, RECTANGLE, TAG
from mockup.dies.families.pointed import LANCET_ARCH, OGEE_ARCH, TREFOIL_TOP
from mockup.dies.families.rounds import CIRCLE, ELLIPSE, STADIUM, SUPERELLIPSE
from mockup.dies.families.scallops import SCALLOPED_CIRCLE, SCALLOPED_EDGE
from mockup.dies.families.waves import OGEE_LABEL, PETAL, WAVY_EDGE
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
        SUPERELLIPSE,
        STADIUM,
        ROUND_ARCH,
        SEGMENTAL_ARCH,
        THREE_CENTRED_ARCH,
        LANCET_ARCH,
        OGEE_ARCH,
        TWIN_ARCH,
        QUARTER_ARCH,
        TREFOIL_TOP,
        SCALLOPED_EDGE,
        SCALLOPED_CIRCLE,
        WAVY_EDGE,
        OGEE_LABEL,
        HEXAGON,
        GABLE,
        TAG,
        PETAL,
    )
}
