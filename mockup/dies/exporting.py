"""A die as a file for a printer: SVG, or PDF with the cutting step of ISO 19593-1 on a spot ink."""

from __future__ import annotations

from io import BytesIO

from mockup.dies.family import Die
from mockup.dies.step_layers import CUTTING, overprinting, step_ink, step_layer
from mockup.geometry.affine import Affine
from mockup.geometry.path_data import pdf_path, svg_path
from mockup.units import PT_PER_INCH

MARGIN_IN = 0.5  # room around the die on its page
LINE_PT = 0.5  # common practice: die lines are drawn 0.25 to 1 pt
INK = "Die line"


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
    layer = step_layer(pdf, INK, CUTTING)
    pdf.Root.OCProperties = pikepdf.Dictionary(
        OCGs=[layer], D=pikepdf.Dictionary(Order=[layer], ON=[layer], OFF=[])
    )
    page.Resources = pikepdf.Dictionary(
        ColorSpace=pikepdf.Dictionary(Die=step_ink(INK, CUTTING)),
        ExtGState=pikepdf.Dictionary(Over=overprinting()),
        Properties=pikepdf.Dictionary(Cut=layer),
    )
    to_points = Affine(PT_PER_INCH, 0, 0, -PT_PER_INCH, room, room + height)
    paths = "\n".join(
        f"{pdf_path(outline.segments, to_points)}\nh" for outline in die.shape.outlines
    )
    content = f"/OC /Cut BDC q /Over gs /Die CS 1 SCN {LINE_PT} w\n{paths}\nS Q EMC\n"
    page.Contents = pdf.make_stream(content.encode("ascii"))
    file = BytesIO()
    pdf.save(file, deterministic_id=True)
    return file.getvalue()
