"""A sheet as typst markup."""

from __future__ import annotations

from benchmarks.templates.sheet import INK, Drawn, Sheet, Words
from mockup.geometry.outline import Cubic, Line


def typst_text(sheet: Sheet) -> str:
    """Returns markup of a page with what a sheet draws; layers typst has none."""
    parts = [f"#set page(width: {sheet.width_in}in, height: {sheet.height_in}in, margin: 0pt)"]
    for thing in sheet.things:
        if isinstance(thing, Words):
            parts.append(_words(thing))
        elif not thing.hidden:
            parts.append(_drawn(thing))
    return "\n".join(parts)


def _words(thing: Words) -> str:
    top = thing.at.y - thing.size_pt / 72 * 0.75
    said = thing.text.replace("\\", "\\\\").replace('"', '\\"')
    return (
        f"#place(top + left, dx: {thing.at.x:.4f}in, dy: {top:.4f}in, "
        f'text(size: {thing.size_pt}pt, fill: {_rgb(thing.colour)}, "{said}"))'
    )


def _drawn(thing: Drawn) -> str:
    stroke = "none"
    if thing.stroke:
        stroke = f"(paint: {_rgb(thing.stroke)}, thickness: {thing.width_pt}pt"
        if thing.dashes_pt:
            stroke += f", dash: ({', '.join(f'{each}pt' for each in thing.dashes_pt)},)"
        stroke += ")"
    fill = _rgb(thing.fill) if thing.fill else "none"
    steps: list[str] = []
    for course in thing.courses:
        steps.append(f"curve.move({_at(course[0].start)})")
        steps += [_step(part) for part in course]
        if thing.closed:
            steps.append('curve.close(mode: "straight")')
    inside = ", ".join([f"stroke: {stroke}", f"fill: {fill}", 'fill-rule: "even-odd"', *steps])
    return f"#place(top + left, curve({inside}))"


def _step(part: Line | Cubic) -> str:
    if isinstance(part, Line):
        return f"curve.line({_at(part.end)})"
    return f"curve.cubic({_at(part.control1)}, {_at(part.control2)}, {_at(part.end)})"


def _at(point: tuple[float, float]) -> str:
    return f"({point[0]:.6f}in, {point[1]:.6f}in)"


def _rgb(name: str) -> str:
    return "rgb(" + ", ".join(f"{share * 100:.2f}%" for share in INK[name]) + ")"
