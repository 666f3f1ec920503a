"""The walk through an SVG: styles, visibility, colours, sizes; what is refused, and undrawn."""

from __future__ import annotations

import gzip
import time

import pytest

from mockup.errors import InputError, LimitError
from mockup.vector.drawing import Drawing, DrawnShape
from mockup.vector.svg_guard import check_svg
from mockup.vector.svg_reading import read_svg, read_svg_template
from mockup.vector.svg_tree import open_svg
from mockup.vector.svg_undrawn import undrawn_features
from mockup.vector.template import Colour

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
SIZE = 'width="2in" height="2in" viewBox="0 0 200 200"'
RECT = '<rect id="r" class="a b" width="9" height="9"/>'


def svg(body: str, size: str = SIZE) -> bytes:
    return f"{HEAD}{size}>{body}</svg>".encode()


def read(body: str, size: str = SIZE) -> Drawing:
    return read_svg("d.svg", svg(body, size))


def shown(body: str) -> list[DrawnShape]:
    return [shape for shape in read(body).shapes if not shape.hidden]


def fill_of(body: str) -> str:
    (shape,) = read(body).shapes
    if shape.fill is None:
        return "none"
    return "".join(f"{round(255 * share):02x}" for share in shape.fill.values)


@pytest.mark.parametrize(
    ("sheet", "fill"),
    [
        ("rect{fill:#010203}", "010203"),
        (".a{fill:#010203} rect{fill:red}", "010203"),  # a class weighs more than an element
        ("#r{fill:#010203} .a.b{fill:red}", "010203"),
        ("g rect{fill:#010203}", "010203"),
        ("svg > g > rect{fill:#010203}", "010203"),
        ("svg > rect{fill:red}", "000000"),
        ('[class~="b"]{fill:#010203}', "010203"),
        ("rect{fill:#010203 !important} #r{fill:red}", "010203"),
        ("rect{fill:red} rect{fill:#010203}", "010203"),
        ("g{fill:#010203}", "010203"),  # inherited
        ("@media print{rect{fill:#010203}}", "010203"),
        ("@media speech{rect{fill:red}}", "000000"),
        ("rect{{;;}} .a{fill:#010203}", "010203"),
        ("rect:::x{fill:red} .a{fill:#010203}", "010203"),
        ("g{color:#010203} rect{fill:currentcolor}", "010203"),
    ],
)
def test_style_sheets_are_obeyed(sheet: str, fill: str) -> None:
    """CSS Cascade 4, 6; Selectors 4. Expected by hand from the rules."""
    assert fill_of(f"<style>{sheet}</style><g>{RECT}</g>") == fill


def test_a_style_attribute_wins_over_a_sheet_and_a_sheet_over_an_attribute() -> None:
    sheet = "<style>rect{fill:#010203}</style>"
    assert fill_of(sheet + '<rect fill="red" width="9" height="9"/>') == "010203"
    assert fill_of(sheet + '<rect style="fill:#040506" width="9" height="9"/>') == "040506"
    strong = "<style>rect{fill:#010203 !important}</style>"
    assert fill_of(strong + '<rect style="fill:#040506" width="9" height="9"/>') == "010203"


@pytest.mark.parametrize(
    ("written", "fill"),
    [
        ("red", "ff0000"), ("#abc", "aabbcc"), ("#0a0B0c", "0a0b0c"), ("rgb(10,20,30)", "0a141e"),
        ("rgb(100%, 0%, 20%)", "ff0033"), ("rgb(10 20 30)", "0a141e"),
        ("rgb(10% 20% 30%)", "1a334c"), ("rgba(10,20,30,.5)", "0a141e"),
        ("hsl(120, 100%, 50%)", "00ff00"), ("hsl(120deg 100% 50%)", "00ff00"),
        ("#cd853f icc-color(acme, 0.11, 0.48)", "cd853f"), ("none", "none"),
        ("transparent", "none"), ("rgb(300,0,0)", "ff0000"),
    ],
)  # fmt: skip
def test_colours_as_they_are_written(written: str, fill: str) -> None:
    """SVG 1.1 4.2, CSS Color 4, 4 and 5."""
    assert fill_of(f'<rect fill="{written}" width="9" height="9"/>') == fill


def test_a_colour_that_cannot_be_read_is_kept_as_it_is_written() -> None:
    (shape,) = read('<rect fill="oklch(1 2 3)" width="9" height="9"/>').shapes
    assert shape.fill == Colour("other", (), ("oklch(1 2 3)",))


@pytest.mark.parametrize(
    ("body", "count"),
    [
        (f'<g display="none">{RECT}</g>', 0),
        (f"<style>.a{{display:none}}</style>{RECT}", 0),
        (f'<g display="none"><g display="inline">{RECT}</g></g>', 0),
        (f'<g visibility="hidden">{RECT}</g>', 0),
        (f'<g visibility="collapse">{RECT}</g>', 0),
        ('<g visibility="hidden"><rect visibility="visible" width="9" height="9"/></g>', 1),
        (f"<defs>{RECT}</defs>", 0),
        (f'<defs>{RECT}</defs><use href="#r"/><use xlink:href="#r" x="9"/>', 2),
        (f"<switch><foreignObject requiredExtensions='x'/>{RECT}{RECT}</switch>", 1),
        (f"<switch><g systemLanguage='de'>{RECT}</g><g>{RECT}{RECT}</g></switch>", 2),
        ('<g transform="scale(0)"><rect width="9" height="9"/></g>', 0),
        (f'<a href="https://example.org/">{RECT}</a>', 1),
    ],
)
def test_what_is_hidden_is_not_shown(body: str, count: int) -> None:
    """SVG 1.1 11.5 (display, visibility), 5.8 (switch), 5.5 (defs), 14.1 (a link draws)."""
    assert len(shown(body)) == count


def test_a_hidden_shape_is_kept_as_such_in_a_template() -> None:
    template = read_svg_template("d.svg", svg(f'<g id="cut" display="none">{RECT}</g>'))
    assert [(path.hidden, path.layers[0]) for path in template.paths] == [(True, "cut")]


def test_strokes_are_inches_and_names_and_data_are_handed_down() -> None:
    (shape,) = read(
        '<g id="die" data-lift-in="0.1"><path data-x="y" transform="scale(2)" d="M0 0H9" fill="none" '
        'stroke="#f00" stroke-width="3" stroke-dasharray="4 2 1" stroke-linecap="round"/></g>'
    ).shapes
    assert shape.stroke is not None
    assert shape.stroke.width_in == pytest.approx(0.06)
    assert shape.stroke.dashes_in == pytest.approx([0.08, 0.04, 0.02] * 2)
    assert (shape.stroke.cap, shape.names) == ("round", ("die",))
    assert dict(shape.data) == {"data-lift-in": "0.1", "data-x": "y"}


@pytest.mark.parametrize(
    ("size", "inches"),
    [
        ('width="5in" height="7in"', (5, 7)),
        ('viewBox="0 0 480 672"', (5, 7)),
        ('width="100%" height="100%" viewBox="0 0 480 672"', (5, 7)),
        ('width="10in" viewBox="0 0 480 672"', (10, 14)),
        ('style="width:480px;height:672px"', (5, 7)),
        ('width="127mm" height="17.78cm" viewBox="0 0 1 1"', (5, 7)),
    ],
)
def test_sizes(size: str, inches: tuple[float, float]) -> None:
    drawing = read(RECT, size)
    assert (drawing.width_in, drawing.height_in) == pytest.approx(inches)


REFUSED = [
    ('<image href="http://example.org/a.png"/>', SIZE, r"<image>.*outside itself.*example\.org/a\.png"),
    ('<use href="b.svg#x"/>', SIZE, "<use>.*outside itself"),
    ('<use href="data:image/svg+xml,x#a"/>', SIZE, "<use>.*outside itself"),
    ('<rect fill="url(http://a.b/c#d)" width="9" height="9"/>', SIZE, "<rect>.*outside itself"),
    ("<style>rect{fill:u\\72l(http://a.b/c#d)}</style>" + RECT, SIZE, "outside itself"),
    ("<style>@im\\70ort 'a.css';</style>", SIZE, "imports a style sheet"),
    ('<image href="data:image/png;base64,AA"/>', SIZE, "cannot be decoded"),
    (RECT, "", "give it width and height"),
    (RECT, 'width="0" height="9"', "give it width and height"),
    (RECT, 'width="nan" height="9"', '"nan" is not a length'),
    (RECT, 'width="9" height="9" viewBox="0 0 0 9"', 'viewBox: "0 0 0 9" has no size'),
    (RECT, 'width="9" height="9" viewBox="a b"', "viewBox.*not four numbers"),
    ('<path id="p" d="M0 0L1e99 0"/>', SIZE, '<path id="p">: 1e.99 lies beyond any page'),
    ('<path d="M0 0L9e8 0"/>', SIZE, "<path>: draws beyond any page"),
    ('<g transform="scale(1e200)"/>', SIZE, "<g>: 1e.200 lies beyond any page"),
    ('<rect width="9" height="x"/>', SIZE, '<rect>: "x" is not a length'),
]  # fmt: skip


@pytest.mark.parametrize(("body", "size", "said"), REFUSED)
def test_what_is_refused_is_told_with_its_place(body: str, size: str, said: str) -> None:
    with pytest.raises(InputError, match=rf"^d\.svg: .*{said}"):
        read(body, size)


@pytest.mark.parametrize(
    ("source", "said"),
    [
        (b"<html><svg/></html>", "is no SVG .its root is <html>"),
        (b"", "not a well-formed SVG"),
        (b"<svg>\0</svg>", "NUL"),
        (b'<?xml version="1.0" encoding="odd"?><svg/>', "encoding"),
        (b'<!DOCTYPE s [<!ENTITY a "b">]><svg>&a;</svg>', "declares entities"),
        (b'<?xml-stylesheet href="a.css"?><svg/>', 'style sheet from outside itself, "a.css"'),
        (gzip.compress(b"<svg></svg>", mtime=0)[:-9], "cut short|damaged"),
    ],
)
def test_files_that_are_no_svg(source: bytes, said: str) -> None:
    with pytest.raises(InputError, match=said):
        check_svg("d.svg", source)


CLASSED = '<g class="a"/>'
BIT = '<path d="M0 0L1 1"/>'


def _uses(depth: int, wide: int) -> str:
    body = '<g id="a0"/>'
    for k in range(depth):
        body += f'<g id="a{k + 1}">' + f'<use href="#a{k}"/>' * wide + "</g>"
    return body + f'<use href="#a{depth}"/>'


@pytest.mark.parametrize(
    "source",
    [
        svg(_uses(9, 10)),
        svg(_uses(400, 1)),
        svg("<g>" * 5000 + "</g>" * 5000),
        svg('<path d="M0 0' + "L1 1" * 2_500_000 + '"/>'),
        svg('<path d="M0 0' + "L1 1" * 700_000 + '"/>'),
        svg('<g id="a"><use href="#a"/></g>'),
        svg("<style>" + "a{" * 99 + "</style>"),
        svg("<style>" + ".a" * 999 + "{fill:red}</style>"),
        gzip.compress(b"<svg>" + b" " * (60 << 20) + b"</svg>"),
        svg(f'<marker id="m">{RECT * 99}</marker><path marker-mid="url(#m)" d="M0 0{"L1 1" * 5000}"/>'),
        svg(f'<marker id="m">{RECT * 99}</marker><g marker-mid="url(#m)"><path d="M0 0{"L1 1" * 5000}"/></g>'),
        svg(f'<marker id="m">{RECT * 999}</marker><g marker-start="url(#m)">{BIT * 999}</g>'),
        svg(f'<pattern id="p">{RECT * 999}</pattern><g style="fill:url(#p)">{RECT * 999}</g>'),
        svg('<g fill="url(#p)"><pattern id="p"><rect width="9" height="9"/></pattern><rect width="9" height="9"/></g>'),
        svg('<rect id="b"/><g id="a"><use href="#a" xlink:href="#b"/></g>'),
        svg(f"<style>{'.a{fill:red}' * 4900}</style>{CLASSED * 20_000}"),
        svg(f"<style>{'[x]{fill:red}' * 4900}</style>{CLASSED * 20_000}"),
        svg(f"<style>g:has(g:has(.b)){{fill:red}}</style>{('<g>' * 100 + '</g>' * 100) * 20}"),
        svg(f"<style>.b g g g g g{{fill:red}}</style>{('<g>' * 100 + '</g>' * 100) * 20}"),
        svg(f"<style>.b ~ .a{{fill:red}}</style>{CLASSED * 9_000}"),
        svg(f"<style>.a:nth-last-of-type(2n){{fill:red}}</style>{CLASSED * 9_000}"),
        svg(f"<style>.a{{{'a:1;' * 5_000}}}</style>{CLASSED * 20_000}"),
    ],
    ids=["uses", "chain", "deep", "large", "path", "ring", "brackets", "selector", "gzip", "marker",
         "marker handed down", "markers handed down", "patterns handed down", "ring handed down", "two references",
         "classes", "attributes", "has", "descendants", "siblings", "counted", "declarations"],
)  # fmt: skip
def test_what_never_ends_is_refused_at_once(source: bytes) -> None:
    before = time.monotonic()
    with pytest.raises(LimitError):
        read_svg("d.svg", source)
    assert time.monotonic() - before < 5


def test_a_sheet_as_drawing_programs_write_it_is_obeyed() -> None:
    sheet = "".join(f".st{k}{{fill:#{k:06x};stroke:none}}" for k in range(400))
    body = "".join(f'<g><rect class="st{k % 400}" width="9" height="9"/></g>' for k in range(900))
    shapes = read_svg("d.svg", svg(f"<style>{sheet} g rect{{opacity:1}}</style>{body}")).shapes
    assert shapes[9].fill == Colour("rgb", (0, 0, 9 / 255))


def test_lines_and_curves_are_counted_over_all_paths(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("mockup.vector.svg_reading.TEMPLATE_SEGMENTS_MAX", 100)
    read_svg("d.svg", svg(f'<path d="M0 0{"L1 1L9 9" * 10}"/>' * 5))
    with pytest.raises(LimitError, match=r"d.svg: draws over 100 lines and curves"):
        read_svg("d.svg", svg(f'<path d="M0 0{"L1 1L9 9" * 10}"/>' * 6))


def test_what_is_handed_down_is_counted_where_it_is_drawn_alone() -> None:
    grid = f'<marker id="m">{RECT * 999}</marker><pattern id="p">{RECT * 999}</pattern>'
    empty = '<g marker-start="url(#m)" fill="url(#p)"/>' * 999
    unmarked = '<rect fill="none" marker-start="url(#m)" width="9" height="9"/>' * 999
    own = f'<g fill="url(#p)">{unmarked}</g>'
    read_svg("d.svg", svg(grid + empty + own))


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ('<filter id="f"/><rect filter="url(#f)"/>', ("a filter (blur, shadow)",)),
        ('<defs><rect filter="url(#f)"/></defs>', ()),
        ('<g display="none"><foreignObject/></g>', ()),
        ("<foreignObject/>", ("text laid out as on a web page (foreignObject)",)),
        ('<mask id="m"><rect fill="#888"/></mask><g mask="url(#m)"/>', ("a mask of greys",)),
        ('<mask id="m"><rect fill="white"/></mask><g mask="url(#m)"/>', ()),
        ('<mask id="m"><rect fill="#888"/></mask><g/>', ()),
        ('<g style="mix-blend-mode:multiply"/>', ("a blend mode",)),
        ('<rect><animate attributeName="x"/></rect>', ("animation",)),
        ('<rect style="fill:var(--ink)"/>', ("CSS variables",)),
        ('<text><textPath href="#p">x</textPath></text>', ("text on a path",)),
        ('<defs><g id="u"><set/></g></defs><use href="#u"/>', ("animation",)),
        (RECT, ()),
    ],
)
def test_what_is_not_drawn_is_told_where_it_is_painted(body: str, said: tuple[str, ...]) -> None:
    assert undrawn_features(open_svg(svg(body))) == said
