"""A sheet as the SVG a designer's program would begin from: layers as its groups."""

from __future__ import annotations

from html import escape
from itertools import groupby

from benchmarks.templates.sheet import INK, Drawn, Sheet, Words
from mockup.geometry.outline import Cubic, Line

_SPACES = (
    'xmlns="http://www.w3.org/2000/svg" '
    'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"'
)


def svg_text(sheet: Sheet) -> str:
    """Returns an SVG of a sheet, in its unit, with layers where the sheet has them."""
    scale = 25.4 if sheet.unit == "mm" else 1.0
    wide, high = sheet.width_in * scale, sheet.height_in * scale
    parts = [
        f'<svg {_SPACES} width="{wide:g}{sheet.unit}" height="{high:g}{sheet.unit}" '
        f'viewBox="0 0 {wide:g} {high:g}">'
    ]
    for number, (layer, things) in enumerate(groupby(sheet.things, lambda each: each.layer)):
        inside = list(things)
        hidden = any(isinstance(each, Drawn) and each.hidden for each in inside)
        style = ' style="display:none"' if hidden else ""
        name = f' inkscape:groupmode="layer" inkscape:label="{escape(layer)}"' if layer else ""
        parts.append(f'<g id="layer{number}"{name}{style}>')
        parts += [_thing(each, scale) for each in inside]
        parts.append("</g>")
    return "\n".join([*parts, "</svg>"])


def _thing(thing: Drawn | Words, scale: float) -> str:
    if isinstance(thing, Words):
        return (
            f'<text x="{thing.at.x * scale:.4f}" y="{thing.at.y * scale:.4f}" '
            f'font-family="DejaVu Sans" font-size="{thing.size_pt / 72 * scale:.4f}" '
            f'fill="{_hex(thing.colour)}">{escape(thing.text)}</text>'
        )
    style = [f"fill:{_hex(thing.fill)}", f"stroke:{_hex(thing.stroke)}"]
    style.append(f"stroke-width:{thing.width_pt / 72 * scale:.5f}")
    if thing.dashes_pt:
        dashes = ",".join(f"{each / 72 * scale:.4f}" for each in thing.dashes_pt)
        style.append(f"stroke-dasharray:{dashes}")
    data = " ".join(_course(course, thing.closed, scale) for course in thing.courses)
    return f'<path d="{data}" style="{";".join(style)}"/>'


def _course(course: tuple[Line | Cubic, ...], closed: bool, scale: float) -> str:
    def at(point: tuple[float, float]) -> str:
        return f"{point[0] * scale:.5f},{point[1] * scale:.5f}"

    words = [f"M {at(course[0].start)}"]
    for part in course:
        if isinstance(part, Line):
            words.append(f"L {at(part.end)}")
        else:
            words.append(f"C {at(part.control1)} {at(part.control2)} {at(part.end)}")
    return " ".join([*words, "Z"] if closed else words)


def _hex(name: str | None) -> str:
    if name is None:
        return "none"
    return "#" + "".join(f"{round(share * 255):02x}" for share in INK[name])
