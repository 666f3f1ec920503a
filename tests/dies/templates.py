"""Templates as different open programs save them: each draws a known die its own way.

`PRODUCERS` maps a name to a function (die, path) that writes the template. Every one draws the
true outline from the die's segments, arcs as cubics 4.2e-6 of their radius off.
"""

import io
import math

import pikepdf

from mockup.geometry.affine import IDENTITY, Affine
from mockup.geometry.outline import Arc, Line
from mockup.geometry.path_data import drawable, svg_path


def _onto(context, outline, affine):
    """Draws an outline with any object that has move_to, line_to, curve_to and close."""
    parts = drawable(outline.mapped(affine))
    context.move_to(*parts[0].start)
    for part in parts:
        if isinstance(part, Line):
            context.line_to(*part.end)
        else:
            context.curve_to(*part.control1, *part.control2, *part.end)
    context.close_path()


def cairo_pdf(die, path):
    import cairocffi

    surface = cairocffi.PDFSurface(str(path), 8.5 * 72, 11 * 72)
    context = cairocffi.Context(surface)
    context.set_line_width(0.5)
    for outline in die.shape.outlines:
        _onto(context, outline, Affine(72, 0, 0, 72, 90, 108))
    context.set_dash([6, 3])
    context.stroke()
    surface.finish()


def cairo_svg(die, path):
    import cairocffi

    surface = cairocffi.SVGSurface(str(path), 8.5 * 72, 11 * 72)
    context = cairocffi.Context(surface)
    context.set_source_rgb(0.9, 0.9, 0.8)
    context.translate(40, 50)
    context.scale(72, 72)
    for outline in die.shape.outlines:
        _onto(context, outline, IDENTITY)
    context.set_fill_rule(cairocffi.FILL_RULE_EVEN_ODD)
    context.fill()
    surface.finish()


def cairosvg_pdf(die, path):
    """An SVG of nested and skewing transforms, turned into PDF by cairosvg."""
    import cairosvg

    undo = (Affine(1, 0.2, -0.1, 1.1, 3, 4) @ Affine(0.9, 0, 0.3, 0.9, 0, 0)).inverse()
    data = svg_path(die.shape, undo)
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="10in" height="12in" viewBox="0 0 10 12">'
        '<g transform="translate(1.5,2)"><g transform="matrix(1 .2 -.1 1.1 3 4)">'
        '<g transform="matrix(.9 0 .3 .9 0 0)">'
        f'<path d="{data}" fill="none" stroke="#c00" stroke-width=".01"/></g></g></g></svg>'
    )
    path.write_bytes(cairosvg.svg2pdf(bytestring=svg.encode()))


class _ReportLabPath:
    def __init__(self, path):
        self.move_to, self.line_to = path.moveTo, path.lineTo
        self.curve_to, self.close_path = path.curveTo, path.close


def _reportlab(path, die, turn):
    from reportlab.lib.colors import CMYKColorSep
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(path), pagesize=(9 * 72, 12 * 72))
    canvas.setPageRotation(turn)
    canvas.setFillColorRGB(0.97, 0.95, 0.9)
    canvas.rect(0, 0, 9 * 72, 12 * 72, stroke=0, fill=1)  # a ground as large as the page
    canvas.setStrokeColorRGB(0, 0, 0)
    canvas.rect(20, 20, 8 * 72, 11 * 72)  # a frame larger than the die
    canvas.setStrokeColor(CMYKColorSep(0, 1, 0, 0, spotName="Die Cut"))
    canvas.setDash(4, 2)
    to_points = Affine(72, 0, 0, -72, 100, 700)
    drawing = canvas.beginPath()
    for outline in die.shape.outlines:
        _onto(_ReportLabPath(drawing), outline, to_points)
    canvas.drawPath(drawing, stroke=1, fill=0)
    canvas.setStrokeColor(CMYKColorSep(1, 0, 0, 0, spotName="Bleed"))
    width, height = die.width_in + 0.25, die.height_in + 0.25
    canvas.rect(91, 709, 72 * width, -72 * height)
    canvas.save()


def reportlab_spot(die, path):
    _reportlab(path, die, 0)


def reportlab_turned(die, path):
    """The page is shown turned by 90 degrees, so the truth is turned the other way first."""
    _reportlab(path, _turned(die, 270), 90)


def _turned(die, degrees):
    from mockup.dies import Die
    from mockup.geometry.affine import rotation, translation

    turned = die.shape.mapped(rotation(degrees))
    box = turned.box
    moved = turned.mapped(translation(-box.left, -box.top))
    return Die(die.name, box.width, box.height, die.parameters, moved)


class _MuPdfShape:
    def __init__(self, shape):
        self._shape = shape

    def move_to(self, x, y):
        self._start = self._here = (x, y)

    def line_to(self, x, y):
        self._here = self._shape.draw_line(self._here, (x, y))

    def curve_to(self, a, b, c, d, e, f):
        self._here = self._shape.draw_bezier(self._here, (a, b), (c, d), (e, f))

    def close_path(self):
        if math.dist(self._here, self._start) > 1e-9:
            self._shape.draw_line(self._here, self._start)


def mupdf_layer(die, path):
    """A layer called "Stanzkontur", and on another layer a frame that is not the cut."""
    import pymupdf

    document = pymupdf.open()
    page = document.new_page(width=700, height=900)
    art, cut = document.add_ocg("Artwork"), document.add_ocg("Stanzkontur", on=False)
    page.draw_rect(pymupdf.Rect(10, 10, 690, 890), color=(0, 0, 1), oc=art)
    for outline in die.shape.outlines:
        shape = page.new_shape()
        _onto(_MuPdfShape(shape), outline, Affine(72, 0, 0, 72, 77, 66))
        shape.finish(color=(1, 0, 0), width=0.25, dashes="[3 2] 0", closePath=True, oc=cut)
        shape.commit()
    page.set_rotation(180)
    document.save(str(path))


def mupdf_layer_seen_turned(die, path):
    mupdf_layer(_turned(die, 180), path)


def _operators(outline, affine):
    out = io.StringIO()

    class Pen:
        def move_to(self, x, y):
            out.write(f"{x:.6f} {y:.6f} m\n")

        def line_to(self, x, y):
            out.write(f"{x:.6f} {y:.6f} l\n")

        def curve_to(self, *v):
            out.write(" ".join(f"{x:.6f}" for x in v) + " c\n")

        def close_path(self):
            out.write("h\n")

    _onto(Pen(), outline, affine)
    return out.getvalue()


def _step(pdf, name, group, kind):
    return pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.OCG,
            Name=name,
            GTS_Metadata=pikepdf.Dictionary(
                GTS_ProcStepsGroup=pikepdf.Name("/" + group),
                GTS_ProcStepsType=pikepdf.Name("/" + kind),
            ),
        )
    )


def by_hand_steps(die, path):
    """Processing steps under plain names, UserUnit 2, an off-origin media box; names mislead."""
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(400, 500))
    page.MediaBox = pikepdf.Array([-50, 30, 350, 530])
    page.obj.UserUnit = 2
    cut = _step(pdf, "L1", "Structural", "Cutting")
    drill = _step(pdf, "L2", "Structural", "Drilling")
    bleed = _step(pdf, "L3", "Structural", "Bleed")
    safe = _step(pdf, "L4", "Positions", "ContentArea")
    decoy = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name="die cut"))
    page.Resources = pikepdf.Dictionary(
        Properties=pikepdf.Dictionary(C=cut, D=drill, B=bleed, S=safe, X=decoy)
    )
    place = Affine(36, 0, 0, -36, 10, 450)
    outer, *holes = die.shape.outlines
    w, h = die.width_in, die.height_in
    content = "/OC /X BDC 0 0 300 400 re S EMC\n"
    content += f"/OC /C BDC q .5 w {_operators(outer, place)} S Q EMC\n"
    for hole in holes:
        content += f"/OC /D BDC {_operators(hole, place)} S EMC\n"
    content += f"/OC /B BDC {10 - 4.5} {450 + 4.5} {36 * w + 9} {-36 * h - 9} re S EMC\n"
    content += f"/OC /S BDC {10 + 4.5} {450 - 4.5} {36 * w - 9} {-36 * h + 9} re S EMC\n"
    page.Contents = pdf.make_stream(content.encode())
    pdf.save(path)


def by_hand_forms(die, path):
    """A form within a form, each with a matrix and the inner one on a layer by membership."""
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(612, 792))
    layer = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name="FUSTELLA"))
    member = pikepdf.Dictionary(Type=pikepdf.Name.OCMD, OCGs=[layer])
    turn = Affine(0, 1, -1, 0, 0, 0)
    inner = pikepdf.Stream(
        pdf,
        "".join(_operators(o, turn.inverse()) for o in die.shape.outlines).encode() + b"s",
        Type=pikepdf.Name.XObject,
        Subtype=pikepdf.Name.Form,
        BBox=[-100, -100, 100, 100],
        Matrix=list(turn),
        OC=member,
    )
    outer = pikepdf.Stream(
        pdf,
        b"q 2 0 0 2 0 0 cm /Inner Do Q 5 5 400 600 re S",
        Type=pikepdf.Name.XObject,
        Subtype=pikepdf.Name.Form,
        BBox=[-1000, -1000, 1000, 1000],
        Matrix=[1, 0, 0, -1, 0, 0],
        Resources=pikepdf.Dictionary(XObject=pikepdf.Dictionary(Inner=inner)),
    )
    page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(Outer=outer))
    page.Contents = pdf.make_stream(b"q 36 0 0 36 60 700 cm /Outer Do Q")
    pdf.save(path)


def by_hand_devicen(die, path):
    """A DeviceN space that holds the die ink, painted with v, y and re in a cropped, turned page."""
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(800, 900))
    page.CropBox = pikepdf.Array([20, 30, 780, 880])
    page.Rotate = 270
    tint = pikepdf.Stream(pdf, b"{pop pop 0 1 0 0}", FunctionType=4)
    tint.Domain, tint.Range = pikepdf.Array([0, 1, 0, 1]), pikepdf.Array([0, 1] * 4)
    inks = pikepdf.Array([pikepdf.Name("/Varnish"), pikepdf.Name("/CutContour")])
    space = pikepdf.Array([pikepdf.Name.DeviceN, inks, pikepdf.Name.DeviceCMYK, tint])
    page.Resources = pikepdf.Dictionary(ColorSpace=pikepdf.Dictionary(DN=space))
    turned = _turned(die, 90)
    place = Affine(72, 0, 0, -72, 100, 800)
    drawn = "".join(_operators(outline, place) for outline in turned.shape.outlines)
    content = f"0 0 0 RG 40 40 700 800 re S /DN CS 0 1 SCN {drawn} S"
    page.Contents = pdf.make_stream(content.encode())
    pdf.save(path)


def fonttools_svg(die, path):
    """Path data written by fontTools' SVG pen, in a view of millimetres."""
    from fontTools.pens.svgPathPen import SVGPathPen

    pen = SVGPathPen(None, ntos=lambda v: f"{v:.5f}")
    for outline in die.shape.outlines:
        parts = drawable(outline.mapped(Affine(25.4, 0, 0, 25.4, 30, 20)))
        pen.moveTo(parts[0].start)
        for part in parts:
            if isinstance(part, Line):
                pen.lineTo(part.end)
            else:
                pen.curveTo(part.control1, part.control2, part.end)
        pen.closePath()
    path.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" '
        f'viewBox="0 0 210 297"><path d="{pen.getCommands()}"/></svg>',
        encoding="utf-8",
    )


def reportlab_svg(die, path):
    """ReportLab's drawing model written by its SVG renderer."""
    from reportlab.graphics import renderSVG
    from reportlab.graphics.shapes import Drawing
    from reportlab.graphics.shapes import Path as Drawn
    from reportlab.lib.colors import black

    drawn = Drawn(fillColor=None, strokeColor=black, strokeWidth=0.3)

    class Pen:
        move_to, line_to = staticmethod(drawn.moveTo), staticmethod(drawn.lineTo)
        curve_to, close_path = staticmethod(drawn.curveTo), staticmethod(drawn.closePath)

    for outline in die.shape.outlines:
        # This writer's pixels are drawn as 96 to the inch, which SVG says they are.
        _onto(Pen, outline, Affine(96, 0, 0, -96, 50, 800))
    drawing = Drawing(700, 900)
    drawing.add(drawn)
    renderSVG.drawToFile(drawing, str(path))


def _svg_arcs(outline):
    """Path data with true elliptical arcs, in inches."""
    words = [f"M{outline.segments[0].start.x:.8f} {outline.segments[0].start.y:.8f}"]
    for segment in outline.segments:
        if isinstance(segment, Arc):
            rx, ry = math.hypot(*segment.u), math.hypot(*segment.v)
            turn = math.degrees(math.atan2(segment.u.y, segment.u.x))
            for part in range(2):  # an arc of a whole turn has no ends to be told by
                end = segment.at((part + 1) / 2)
                large = int(abs(segment.sweep_deg) / 2 > 180)
                sweep = int(segment.sweep_deg > 0)
                words.append(
                    f"A{rx:.8f} {ry:.8f} {turn:.6f} {large} {sweep} {end.x:.8f} {end.y:.8f}"
                )
        else:
            words.append(f"L{segment.end.x:.8f},{segment.end.y:.8f}")
    return " ".join([*words, "z"])


def by_hand_svg_use(die, path):
    """A symbol drawn by `use` inside a nested view, in a group labelled as the die layer."""
    data = " ".join(_svg_arcs(outline) for outline in die.shape.outlines)
    path.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" '
        'width="16in" height="20in" viewBox="0 0 160 200">'
        f'<defs><symbol id="s" viewBox="0 0 20 20"><path id="p" d="{data}"/></symbol></defs>'
        '<rect width="150" height="190" fill="none" stroke="#000"/>'
        '<g inkscape:label="Die line" fill="none" stroke="red" stroke-dasharray="2 1">'
        '<svg x="10" y="10" width="100" height="100" viewBox="0 0 10 10">'
        '<use xlink:href="#s" x="1" y="1" width="20" height="20"/></svg></g></svg>',
        encoding="utf-8",
    )


def by_hand_svg_loose(die, path):
    """Every segment a path of its own, ends rounded to a thousandth, order and direction mixed."""
    pieces = []
    for outline in die.shape.outlines:
        for k, part in enumerate(drawable(outline)):
            part = part.reversed() if k % 3 == 0 else part
            (a, b), (c, d) = (tuple(round(v, 3) for v in p) for p in (part.start, part.end))
            if isinstance(part, Line):
                pieces.append(f'<line x1="{a}" y1="{b}" x2="{c}" y2="{d}"/>')
            else:
                (e, f), (g, h) = part.control1, part.control2
                pieces.append(f'<path d="M{a} {b} C {e:.4f} {f:.4f} {g:.4f} {h:.4f} {c} {d}"/>')
    pieces.sort()
    path.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="9in" viewBox="-1 -1 8 9">'
        '<rect x="-.9" y="-.9" width="7.8" height="8.8" fill="none" stroke="#999"/>'
        f'<g id="cut-line" fill="none" stroke="#f0f">{"".join(pieces)}</g></svg>',
        encoding="utf-8",
    )


PRODUCERS = {
    "cairo PDF, dashed": (cairo_pdf, "pdf"),
    "cairo SVG, filled": (cairo_svg, "svg"),
    "cairosvg PDF, nested transforms": (cairosvg_pdf, "pdf"),
    "ReportLab, spot ink, dashed": (reportlab_spot, "pdf"),
    "ReportLab, spot ink, page turned": (reportlab_turned, "pdf"),
    "ReportLab SVG": (reportlab_svg, "svg"),
    "MuPDF, layer, page turned": (mupdf_layer_seen_turned, "pdf"),
    "by hand, processing steps, UserUnit": (by_hand_steps, "pdf"),
    "by hand, forms in forms, membership": (by_hand_forms, "pdf"),
    "by hand, DeviceN, crop box, turned": (by_hand_devicen, "pdf"),
    "fontTools SVG in millimetres": (fonttools_svg, "svg"),
    "by hand, SVG symbol by use, arcs": (by_hand_svg_use, "svg"),
    "by hand, SVG loose segments": (by_hand_svg_loose, "svg"),
}
