"""The marks of a processing step in a PDF: its layer by ISO 19593-1, its ink, its overprint."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pikepdf

CUTTING = "Structural/Cutting"
CREASING = "Structural/Creasing"

_SHOWN_AS = {CUTTING: (0, 1, 0, 0), CREASING: (1, 0, 0, 0)}
"""C, M, Y, K on a screen: magenta for what is cut, cyan for what is creased; common practice, no
source."""


def step_layer(pdf: pikepdf.Pdf, name: str, step: str) -> pikepdf.Object:
    """Returns a new optional content group that says it is a step, such as `Structural/Cutting`
    (ISO 19593-1:2018, 6.2: GTS_Metadata)."""
    import pikepdf  # loads slowly

    group, kind = step.split("/")
    told = pikepdf.Dictionary(
        GTS_ProcStepsGroup=pikepdf.Name(f"/{group}"), GTS_ProcStepsType=pikepdf.Name(f"/{kind}")
    )
    return pdf.make_indirect(
        pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String(name), GTS_Metadata=told)
    )


def step_ink(name: str, step: str) -> pikepdf.Array:
    """Returns the colour space of a step's own spot ink (ISO 32000-1 8.6.6.4)."""
    import pikepdf

    full = list(_SHOWN_AS[step])
    tint = pikepdf.Dictionary(FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=full, N=1)
    return pikepdf.Array(
        [pikepdf.Name.Separation, pikepdf.Name(f"/{name}"), pikepdf.Name.DeviceCMYK, tint]
    )


def overprinting() -> pikepdf.Dictionary:
    """Returns a graphics state that paints over, knocks nothing out and is plainly opaque
    (ISO 32000-1 table 58)."""
    import pikepdf

    return pikepdf.Dictionary(
        Type=pikepdf.Name.ExtGState,
        OP=True,
        op=True,
        OPM=1,
        CA=1,
        ca=1,
        BM=pikepdf.Name.Normal,
        SMask=pikepdf.Name("/None"),
    )
