"""A die as a file for a printer: SVG, or PDF with the cutting step of ISO 19593-1 on a spot ink."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

from mockup.dies.family import Die
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Line, Outline
from mockup.geometry.path_data import drawable, svg_path
from mockup.units import PT_PER_INCH

if TYPE_CHECKING:
    import pikepdf

MARGIN_IN = 0.5  # room around the die on its page
LINE_PT = 0.5  # common practice: die lines are drawn 0.25 to 1 pt
INK = "Die line"
_TENTH_MICRON_PT = 6  # decimals of a point


def die_svg(die: Die) -> str:
    """Returns an SVG file of a die at true size, its outline in a group called `die-line`.

    Arcs are written as cubics, 4.2e-6 of their radius off.
    """
    width, height = die.width_in + 2 * MARGIN_IN, die.height_in + 2 * MARGIN_IN
    to_points = Affine(
        PT_PER_INCH, 0, 0, PT_PER_INCH, MARGIN_IN * PT_PER_INCH, MARGIN_IN * PT_PER_INCH
    )
    box = f"0 0 {width * PT_PER_INCH:.9g} {height * PT_PER_INCH:.9g}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.9g}in" height="{height:.9g}in" '
        f'viewBox="{box}">\n<g id="die-line" fill="none" stroke="#c2185b" '
        f'stroke-width="{LINE_PT}">\n<path d="{svg_path(die.shape, to_points)}"/>\n</g>\n</svg>\n'
    )


def die_pdf(die: Die) -> bytes:
    """Returns a PDF of a die at true size on a page with 1/2 in of room, trim box on the die.

    The outline is stroked, overprinting, in a Separation on a layer that says it is the cutting
    step (GTS_Metadata, ISO 19593-1:2018).
    """
    import pikepdf  # loads slowly

    pdf = pikepdf.new()
    room = MARGIN_IN * PT_PER_INCH
    width, height = die.width_in * PT_PER_INCH, die.height_in * PT_PER_INCH
    page = pdf.add_blank_page(page_size=(width + 2 * room, height + 2 * room))
    page.trimbox = pikepdf.Rectangle(room, room, room + width, room + height)
    layer = _cutting_layer(pdf)
    pdf.Root.OCProperties = pikepdf.Dictionary(
        OCGs=[layer], D=pikepdf.Dictionary(Order=[layer], ON=[layer], OFF=[])
    )
    tint = pikepdf.Dictionary(FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 1, 0, 0], N=1)
    page.Resources = pikepdf.Dictionary(
        ColorSpace=pikepdf.Dictionary(
            Die=pikepdf.Array(
                [pikepdf.Name.Separation, pikepdf.Name("/" + INK), pikepdf.Name.DeviceCMYK, tint]
            )
        ),
        ExtGState=pikepdf.Dictionary(
            Over=pikepdf.Dictionary(Type=pikepdf.Name.ExtGState, OP=True, op=True, OPM=1)
        ),
        Properties=pikepdf.Dictionary(Cut=layer),
    )
    to_points = Affine(PT_PER_INCH, 0, 0, -PT_PER_INCH, room, room + height)
    paths = "\n".join(_path(outline.mapped(to_points)) for outline in die.shape.outlines)
    content = f"/OC /Cut BDC q /Over gs /Die CS 1 SCN {LINE_PT} w\n{paths}\nS Q EMC\n"
    page.Contents = pdf.make_stream(content.encode("ascii"))
    file = BytesIO()
    pdf.save(file, deterministic_id=True)
    return file.getvalue()


def _cutting_layer(pdf: pikepdf.Pdf) -> pikepdf.Object:
    """Returns an optional content group that says it is the cutting step."""
    import pikepdf

    return pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.OCG,
            Name=INK,
            GTS_Metadata=pikepdf.Dictionary(
                GTS_ProcStepsGroup=pikepdf.Name.Structural, GTS_ProcStepsType=pikepdf.Name.Cutting
            ),
        )
    )


def _path(outline: Outline) -> str:
    parts = drawable(outline)
    lines = [f"{_xy(*parts[0].start)} m"]
    for part in parts:
        if isinstance(part, Line):
            lines.append(f"{_xy(*part.end)} l")
        else:
            lines.append(f"{_xy(*part.control1)} {_xy(*part.control2)} {_xy(*part.end)} c")
    return "\n".join([*lines, "h"])


def _xy(x: float, y: float) -> str:
    return f"{x:.{_TENTH_MICRON_PT}f} {y:.{_TENTH_MICRON_PT}f}"
