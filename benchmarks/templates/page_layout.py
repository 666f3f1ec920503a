"""A sheet as a script for Scribus, which draws it and exports it."""

from __future__ import annotations

from pathlib import Path

from benchmarks.templates.sheet import INK, Drawn, Sheet, Words
from mockup.geometry.outline import Cubic, Line


def page_layout_script(sheet: Sheet, target: Path) -> str:
    """Returns the script; `target` is the PDF it exports."""
    wide, high = sheet.width_in * 72, sheet.height_in * 72
    lines = [
        "import scribus as s",
        f"s.newDocument(({wide}, {high}), (0, 0, 0, 0), s.PORTRAIT, 1, s.UNIT_POINTS, "
        "s.PAGE_1, 0, 1)",
    ]
    for name, (red, green, blue) in INK.items():
        values = [round((1 - share) * 255) for share in (red, green, blue)]
        lines.append(f's.defineColor("{name}", {values[0]}, {values[1]}, {values[2]}, 0)')
    for layer in sheet.layers:
        lines.append(f"s.createLayer({layer!r})")
    for thing in sheet.things:
        lines.append(f"s.setActiveLayer({thing.layer or 'Background'!r})")
        if isinstance(thing, Words):
            lines += _words(thing)
        elif not thing.hidden:
            for course in thing.courses:
                lines += _drawn(thing, course)
    lines += [
        "p = s.PDFfile()",
        "p.version = 15",
        "p.useLayers = True",
        "p.outdst = 0",
        f"p.file = {str(target)!r}",
        "p.save()",
    ]
    return "\n".join(lines)


def _words(thing: Words) -> list[str]:
    top = thing.at.y * 72 - thing.size_pt
    return [
        f"t = s.createText({thing.at.x * 72:.3f}, {top:.3f}, 260, {thing.size_pt * 1.6:.3f})",
        f"s.setText({thing.text!r}, t)",
        f"s.setFontSize({thing.size_pt}, t)",
        f's.setTextColor("{thing.colour}", t)',
    ]


def _drawn(thing: Drawn, course: tuple[Line | Cubic, ...]) -> list[str]:
    nodes: list[float] = []
    ends = [part.end for part in course]
    starts = [part.start for part in course]
    before = [part.control1 if isinstance(part, Cubic) else part.start for part in course]
    after = [part.control2 if isinstance(part, Cubic) else part.end for part in course]
    # The first course is drawn askew by this version (1.5.8): it is given one of no length.
    points = [starts[0], starts[0], *ends]
    leaving = [starts[0], *before, ends[-1]]
    arriving = [starts[0], starts[0], *after]
    for point, into, away in zip(points, arriving, leaving, strict=True):
        for x, y in (point, into, away):
            nodes += [round(x * 72, 4), round(y * 72, 4)]
    straight = all(isinstance(part, Line) for part in course)
    if straight and not thing.closed:
        flat = [round(value * 72, 4) for point in points[1:] for value in point]
        made = (
            f"o = s.createPolyLine({flat})" if len(points) > 3 else f"o = s.createLine{tuple(flat)}"
        )
    elif straight:
        flat = [round(value * 72, 4) for point in points[1:-1] for value in point]
        made = f"o = s.createPolygon({flat})"
    else:
        made = f"o = s.createBezierLine({nodes})"
    lines = [made, f's.setLineColor("{thing.stroke or "None"}", o)']
    lines.append(f"s.setLineWidth({thing.width_pt if thing.stroke else 0}, o)")
    if thing.stroke and thing.dashes_pt:
        lines.append("s.setLineStyle(s.LINE_DASH, o)")
    if thing.fill:
        lines.append(f's.setFillColor("{thing.fill}", o)')
    elif thing.closed and straight:
        lines.append('s.setFillColor("None", o)')
    return lines
