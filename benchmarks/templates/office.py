"""A sheet as a flat drawing of an office suite (OpenDocument 1.2, .fodg)."""

from __future__ import annotations

from html import escape

from benchmarks.templates.sheet import INK, Drawn, Sheet, Words
from mockup.geometry.outline import Cubic, Line
from mockup.geometry.point import box_of

_SPACES = " ".join(
    f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for short, name in (
        ("office", "office"),
        ("draw", "drawing"),
        ("style", "style"),
        ("text", "text"),
        ("svg", "svg-compatible"),
        ("fo", "xsl-fo-compatible"),
    )
)
_UNITS = 100_000  # path units an inch


def office_drawing(sheet: Sheet) -> str:
    """Returns the text of a drawing with a sheet on its one page."""
    styles: list[str] = []
    dashes: list[str] = []
    body: list[str] = []
    for number, thing in enumerate(sheet.things):
        layer = f' draw:layer="{escape(thing.layer)}"' if thing.layer else ""
        if isinstance(thing, Words):
            styles.append(_words_style(number, thing))
            body.append(_words(number, thing, layer))
            continue
        if thing.hidden:
            continue
        if thing.dashes_pt:
            on, off = thing.dashes_pt[0], thing.dashes_pt[-1]
            dashes.append(
                f'<draw:stroke-dash draw:name="dash{number}" draw:style="rect" draw:dots1="1" '
                f'draw:dots1-length="{on}pt" draw:distance="{off}pt"/>'
            )
        styles.append(_drawn_style(number, thing))
        body += [_drawn(number, course, thing.closed, layer) for course in thing.courses]
    layers = "".join(f'<draw:layer draw:name="{escape(name)}"/>' for name in sheet.layers)
    page = f'fo:page-width="{sheet.width_in}in" fo:page-height="{sheet.height_in}in"'
    return (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document {_SPACES} office:version="1.2" '
        'office:mimetype="application/vnd.oasis.opendocument.graphics">'
        f"<office:styles>{''.join(dashes)}</office:styles>"
        '<office:automatic-styles><style:page-layout style:name="PL">'
        f'<style:page-layout-properties {page} fo:margin="0in"/></style:page-layout>'
        f"{''.join(styles)}</office:automatic-styles>"
        f"<office:master-styles><draw:layer-set>{layers}</draw:layer-set>"
        '<style:master-page style:name="M" style:page-layout-name="PL"/></office:master-styles>'
        f'<office:body><office:drawing><draw:page draw:master-page-name="M">{"".join(body)}'
        "</draw:page></office:drawing></office:body></office:document>"
    )


def _drawn_style(number: int, thing: Drawn) -> str:
    words = []
    if thing.stroke is None:
        words.append('draw:stroke="none"')
    else:
        kind = f'draw:stroke="dash" draw:stroke-dash="dash{number}"' if thing.dashes_pt else ""
        words.append(kind or 'draw:stroke="solid"')
        words.append(
            f'svg:stroke-width="{thing.width_pt}pt" svg:stroke-color="{_hex(thing.stroke)}"'
        )
    words.append(
        f'draw:fill="solid" draw:fill-color="{_hex(thing.fill)}"'
        if thing.fill
        else 'draw:fill="none"'
    )
    return (
        f'<style:style style:name="g{number}" style:family="graphic">'
        f"<style:graphic-properties {' '.join(words)}/></style:style>"
    )


def _drawn(number: int, course: tuple[Line | Cubic, ...], closed: bool, layer: str) -> str:
    if len(course) == 1 and isinstance(course[0], Line):
        (x0, y0), (x1, y1) = course[0].start, course[0].end
        ends = f'svg:x1="{x0:.5f}in" svg:y1="{y0:.5f}in" svg:x2="{x1:.5f}in" svg:y2="{y1:.5f}in"'
        return f'<draw:line draw:style-name="g{number}"{layer} {ends}/>'
    box = box_of(point for part in course for point in part.extremes())
    wide, high = max(box.width, 1e-4), max(box.height, 1e-4)

    def at(point: tuple[float, float]) -> str:
        return f"{(point[0] - box.left) * _UNITS:.0f} {(point[1] - box.top) * _UNITS:.0f}"

    words = [f"M{at(course[0].start)}"]
    for part in course:
        if isinstance(part, Line):
            words.append(f"L{at(part.end)}")
        else:
            words.append(f"C{at(part.control1)} {at(part.control2)} {at(part.end)}")
    data = "".join([*words, "Z"] if closed else words)
    return (
        f'<draw:path draw:style-name="g{number}"{layer} svg:x="{box.left:.5f}in" '
        f'svg:y="{box.top:.5f}in" svg:width="{wide:.5f}in" svg:height="{high:.5f}in" '
        f'svg:viewBox="0 0 {wide * _UNITS:.0f} {high * _UNITS:.0f}" svg:d="{data}"/>'
    )


def _words_style(number: int, thing: Words) -> str:
    return (
        f'<style:style style:name="g{number}" style:family="graphic"><style:graphic-properties '
        'draw:stroke="none" draw:fill="none" fo:padding="0in"/>'
        "</style:style>"
        f'<style:style style:name="t{number}" style:family="text"><style:text-properties '
        f'fo:font-size="{thing.size_pt}pt" fo:color="{_hex(thing.colour)}"/></style:style>'
    )


def _words(number: int, thing: Words, layer: str) -> str:
    high = thing.size_pt / 72 * 1.2
    return (
        f'<draw:frame draw:style-name="g{number}"{layer} svg:x="{thing.at.x:.4f}in" '
        f'svg:y="{thing.at.y - high * 0.8:.4f}in" svg:width="3in" svg:height="{high:.4f}in">'
        f'<draw:text-box><text:p><text:span text:style-name="t{number}">{escape(thing.text)}'
        "</text:span></text:p></draw:text-box></draw:frame>"
    )


def _hex(name: str | None) -> str:
    return "#" + "".join(f"{round(share * 255):02x}" for share in INK[name or "black"])
