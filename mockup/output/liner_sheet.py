"""A liner's template as a file to lay art on: PDF or SVG at true size, the trim box on the cut."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import escape

from mockup.colour.srgb import Rgb
from mockup.envelopes.liner_template import LinerTemplate, liner_template, moved
from mockup.envelopes.spec import EnvelopeSpec
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Shape
from mockup.geometry.path_data import svg_path
from mockup.geometry.point import Box, Point
from mockup.output.files import write_whole
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.typography import QUIET, Style, wrapped
from mockup.units import PT_PER_INCH, Unit, format_length, format_size

_TITLE = Style("light", 18, 22)
_FINE = Style("text", 8.5, 11, QUIET)
_LABEL = Style("caps", 8, 10, QUIET, 0.05)

_MARGIN_IN = 0.75  # holds the gum, which lies outside the liner
_HEAD_IN = 0.8  # of the title, down to the topmost line
_CUT: Rgb = (20, 20, 20)
_BLEED: Rgb = (170, 40, 40)
_FOLD: Rgb = (20, 90, 150)
_SEEN: Rgb = (250, 241, 222)
_HIDDEN: Rgb = (226, 226, 226)
_GUM: Rgb = (196, 212, 196)
_LINE_PT = 0.75
_BLEED_DASH_IN = (0.06, 0.04)
_FOLD_DASH_IN = (0.14, 0.05, 0.02, 0.05)


@dataclass(frozen=True)
class LinerSheet:
    """What a template is drawn of: the envelope as it is called, its measures, the art's bleed,
    and what lengths are told in."""

    envelope: str
    spec: EnvelopeSpec
    bleed_in: float
    units: Unit


def write_liner(path: Path, sheet: LinerSheet) -> Box:
    """Writes a liner's template as .pdf or .svg; returns the liner's box, inches.

    Raises OutputError where the file cannot be written.
    """
    template = liner_template(sheet.spec, sheet.bleed_in)
    box = template.cut.box
    head_in = _HEAD_IN + box.top - min(box.top - sheet.bleed_in, template.gum.box.top)
    size = (box.width + 2 * _MARGIN_IN, box.height + head_in + _foot_in(sheet, box))
    placed = moved(template, Point(_MARGIN_IN, head_in))
    if path.suffix.lower() == ".svg":
        write_whole(path, _svg(sheet, placed, size).encode())
    else:
        _write_pdf(path, sheet, placed, size)
    return box


def title_told(sheet: LinerSheet) -> str:
    """Returns what a template is of: `Liner of the A7 envelope, deep-pointed flap`."""
    return f"Liner of the {sheet.envelope} envelope, {sheet.spec.flap} flap"


def about_told(sheet: LinerSheet, box: Box) -> str:
    """Returns what a designer does with a template, and what she must not trust it in."""
    size = format_size(box.width, box.height, sheet.units)
    bleed = format_length(sheet.bleed_in, sheet.units)
    return (
        f"{size}, true size. Art reaches {bleed} beyond the cut, to the dashed red line. What is "
        "tinted cream is seen when the envelope is open, grey lies in the pocket; green is the "
        "flap's gum, which stays bare. The dash and dot line is the fold. Take all of this out "
        "before you save the art. Makers cut each their own way, and these measures are common "
        "practice: hold a real envelope before liners are cut."
    )


def _foot_in(sheet: LinerSheet, box: Box) -> float:
    lines = wrapped(about_told(sheet, box), _FINE, box.width)
    return 0.35 + len(lines) * _FINE.leading_in + 0.35


def _write_pdf(
    path: Path, sheet: LinerSheet, placed: LinerTemplate, size: tuple[float, float]
) -> None:
    title, box = title_told(sheet), placed.cut.box
    with whole_pdf(path, title, "", "Template of a liner") as pdf:
        pdf.begin_page(*size, title, box)
        pdf.paragraph(Point(_MARGIN_IN, 0.55), title, _TITLE, box.width)
        for shapes, colour in _fills(placed):
            for shape in shapes:
                pdf.fill(shape, colour)
        for shape in placed.bleed:
            pdf.stroke(shape, _BLEED, _LINE_PT, _BLEED_DASH_IN)
        pdf.rule(placed.fold.start, placed.fold.end, _LINE_PT, _FOLD, _FOLD_DASH_IN)
        pdf.stroke(placed.cut, _CUT, _LINE_PT)
        for at, text in _labels(placed):
            pdf.text(at, text, _LABEL, "centre")
        _about(pdf, sheet, box)


def _about(pdf: Pdf, sheet: LinerSheet, box: Box) -> None:
    at = Point(box.left, box.bottom + 0.42)
    pdf.paragraph(at, about_told(sheet, box), _FINE, box.width)


def _fills(placed: LinerTemplate) -> Iterable[tuple[Iterable[Shape], Rgb]]:
    return ((placed.gum,), _GUM), (placed.seen, _SEEN), (placed.hidden, _HIDDEN)


def _labels(placed: LinerTemplate) -> list[tuple[Point, str]]:
    middle, fold_y = placed.cut.box.centre.x, placed.fold.start.y
    return [
        (Point(middle, fold_y - 0.08), "fold"),
        (Point(middle, (fold_y + placed.cut.box.top) / 2 + 0.1), "seen on the flap"),
        (Point(middle, placed.cut.box.bottom - 0.3), "hidden in the pocket"),
    ]


def _svg(sheet: LinerSheet, placed: LinerTemplate, size: tuple[float, float]) -> str:
    """Returns the template as SVG, each kind of line in a group of its name."""
    to_pt = Affine(PT_PER_INCH, 0, 0, PT_PER_INCH, 0, 0)
    wide, high = size

    def paths(shapes: Iterable[Shape]) -> str:
        return "".join(f'<path d="{svg_path(shape, to_pt)}"/>' for shape in shapes)

    def stroke(name: str, colour: Rgb, inner: str, dash_in: tuple[float, ...] = ()) -> str:
        dashes = " ".join(f"{each * PT_PER_INCH:.4g}" for each in dash_in)
        dash = f' stroke-dasharray="{dashes}"' if dash_in else ""
        return (
            f'<g id="{name}" fill="none" stroke="{_hex(colour)}" stroke-width="{_LINE_PT}"'
            f"{dash}>{inner}</g>\n"
        )

    def fill(name: str, colour: Rgb, shapes: Iterable[Shape]) -> str:
        return f'<g id="{name}" fill="{_hex(colour)}" fill-rule="evenodd">{paths(shapes)}</g>\n'

    start, end = to_pt.point(placed.fold.start), to_pt.point(placed.fold.end)
    fold = f'<path d="M {start.x:.6g} {start.y:.6g} L {end.x:.6g} {end.y:.6g}"/>'
    texts = "".join(
        f'<text x="{at.x * PT_PER_INCH:.6g}" y="{at.y * PT_PER_INCH:.6g}">{escape(text)}</text>'
        for at, text in _labels(placed)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.9g}in" height="{high:.9g}in" '
        f'viewBox="0 0 {wide * PT_PER_INCH:.9g} {high * PT_PER_INCH:.9g}">\n'
        f"<title>{escape(title_told(sheet))}</title>\n"
        f"<desc>{escape(about_told(sheet, placed.cut.box))}</desc>\n"
        + fill("gum", _GUM, (placed.gum,))
        + fill("seen", _SEEN, placed.seen)
        + fill("hidden", _HIDDEN, placed.hidden)
        + stroke("bleed", _BLEED, paths(placed.bleed), _BLEED_DASH_IN)
        + stroke("fold", _FOLD, fold, _FOLD_DASH_IN)
        + stroke("cut", _CUT, paths((placed.cut,)))
        + f'<g id="labels" font-family="sans-serif" font-size="8" text-anchor="middle" '
        f'fill="{_hex(QUIET)}">{texts}</g>\n</svg>\n'
    )


def _hex(colour: Rgb) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)
