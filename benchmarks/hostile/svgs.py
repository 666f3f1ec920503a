"""Hostile SVGs: bombs, outside references, odd sizes, broken markup."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path

Make = Callable[[Path], None]
NS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(body: str, size: str = 'width="5.25in" height="7.25in" viewBox="0 0 105 145"') -> Make:
    return lambda path: path.write_text(f"<svg {NS} {size}>{body}</svg>", encoding="utf-8") and None


def raw(content: bytes) -> Make:
    return lambda path: path.write_bytes(content) and None


def uses(depth: int, wide: int) -> str:
    body = '<rect id="a0" width="9" height="9"/>'
    for k in range(depth):
        body += f'<g id="a{k + 1}">' + f'<use xlink:href="#a{k}"/>' * wide + "</g>"
    return body


def patterns(depth: int) -> str:
    body = ""
    for k in range(depth):
        body += (
            f'<pattern id="p{k}" width=".01" height=".01"><rect width="9" height="9" '
            f'fill="url(#p{k + 1})"/></pattern>'
        )
    return body + '<rect width="99" height="99" fill="url(#p0)"/>'


ENTITIES = (
    '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">'
    + "".join(f'<!ENTITY {chr(98 + k)} "{f"&{chr(97 + k)};" * 10}">' for k in range(9))
    + f"]><svg {NS} width='5.25in' height='7.25in'><text>&j;</text></svg>"
)
RECT = '<rect x="20" y="20" width="40" height="40"/>'
CASES: dict[str, Make] = {
    "sound": svg(RECT),
    "empty": raw(b""),
    "not-xml": raw(b"<svg"),
    "html": raw(b"<!doctype html><html><body><svg></svg></body></html>"),
    "no-size": svg(RECT, ""),
    "viewbox-only": svg(RECT, 'viewBox="0 0 378 522"'),
    "percent": svg(RECT, 'width="100%" height="100%" viewBox="0 0 504 696"'),
    "zero": svg(RECT, 'width="0" height="0"'),
    "negative": svg(RECT, 'width="-5in" height="7in"'),
    "huge": svg(RECT, 'width="1e9in" height="1e9in"'),
    "nan": svg(RECT, 'width="nan" height="inf"'),
    "tiny": svg(RECT, 'width="0.001in" height="0.001in"'),
    "viewbox-zero": svg(RECT, 'width="5.25in" height="7.25in" viewBox="0 0 0 0"'),
    "viewbox-words": svg(RECT, 'width="5.25in" height="7.25in" viewBox="a b c d"'),
    "use-bomb": svg(uses(9, 10) + '<use xlink:href="#a9"/>'),
    "use-bomb-shallow": svg(uses(4, 60) + '<use xlink:href="#a4"/>'),
    "use-itself": svg('<g id="a"><use href="#a"/></g>'),
    "use-ring": svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'),
    "use-missing": svg('<use href="#nowhere"/>' + RECT),
    "pattern-bomb": svg(patterns(12)),
    "pattern-itself": svg(
        '<pattern id="p" width="1" height="1"><rect width="9" height="9" fill="url(#p)"/></pattern><rect width="99" height="99" fill="url(#p)"/>'
    ),
    "mask-itself": svg(
        '<mask id="m"><rect width="9" height="9" mask="url(#m)"/></mask><rect width="99" height="99" mask="url(#m)"/>'
    ),
    "clip-itself": svg(
        '<clipPath id="c" clip-path="url(#c)"><rect width="9" height="9"/></clipPath><rect width="99" height="99" clip-path="url(#c)"/>'
    ),
    "marker-bomb": svg(
        '<marker id="m"><path d="M0 0L1 1" marker-start="url(#m)"/></marker><path marker-mid="url(#m)" d="M0 0'
        + "L1 1" * 5000
        + '"/>'
    ),
    "deep": svg("<g>" * 5000 + RECT + "</g>" * 5000),
    "deep-300": svg("<g>" * 300 + RECT + "</g>" * 300),
    "entities": raw(ENTITIES.encode()),
    "external-entity": raw(
        f'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg {NS} width="5.25in" height="7.25in"><text>&x;</text></svg>'.encode()
    ),
    "external-dtd": raw(
        f'<!DOCTYPE svg SYSTEM "http://example.org/x.dtd"><svg {NS} width="5.25in" height="7.25in">{RECT}</svg>'.encode()
    ),
    "image-http": svg('<image href="http://example.org/x.png" width="9" height="9"/>'),
    "image-file": svg('<image href="file:///etc/passwd" width="9" height="9"/>'),
    "image-data-noise": svg(
        '<image href="data:image/png;base64,AAAA" width="9" height="9"/>' + RECT
    ),
    "use-http": svg('<use href="http://example.org/x.svg#a"/>'),
    "style-import": svg("<style>@import url(http://example.org/x.css);</style>" + RECT),
    "style-broken": svg("<style>.a{fill:;;}}} @media{{</style>" + RECT),
    "link": svg(f'<a href="https://example.org/">{RECT}</a>'),
    "script": svg("<script>while(1);</script>" + RECT),
    "foreign": svg(
        '<foreignObject width="9" height="9"><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>'
        + RECT
    ),
    "filter-blur": svg(
        '<filter id="f"><feGaussianBlur stdDeviation="3"/></filter><rect filter="url(#f)" x="20" y="20" width="40" height="40"/>'
    ),
    "path-broken": svg('<path d="M 0 0 L 10 X"/>' + RECT),
    "path-words": svg('<path d="hello"/>' + RECT),
    "path-long": svg('<path d="M0 0' + "L1 1L99 99" * 200_000 + '"/>'),
    "path-arcs": svg('<path d="M0 0' + "A1 1 0 0 1 9 9A1 1 0 0 1 0 0" * 20_000 + '"/>'),
    "path-huge": svg('<path d="M0 0L1e308 1e308L-1e308 0Z"/>' + RECT),
    "transform-broken": svg('<g transform="rotate(a) scale()">' + RECT + "</g>"),
    "transform-huge": svg('<g transform="scale(1e200)">' + RECT + "</g>"),
    "transform-zero": svg('<g transform="scale(0)">' + RECT + "</g>" + RECT),
    "colours": svg(
        '<rect fill="rgb(10% 20% 30%)" width="40" height="40"/><rect fill="hsl(20deg 10% 10%)" x="30" width="9" height="9"/><rect fill="oklch(1 2 3)" y="30" width="9" height="9"/>'
    ),
    "dashes": svg('<path d="M0 0L99 99" stroke="black" stroke-dasharray="0.0000001"/>'),
    "dashes-negative": svg(
        '<path d="M0 0L99 99" stroke="black" stroke-dasharray="-1 nan"/>' + RECT
    ),
    "wide-stroke": svg('<path d="M0 0L99 99" stroke="black" stroke-width="1e30"/>' + RECT),
    "text": svg('<text x="20" y="40" font-family="No Such Face">word</text>'),
    "gzip": lambda p: (
        p.write_bytes(
            gzip.compress(f"<svg {NS} width='5.25in' height='7.25in'>{RECT}</svg>".encode())
        )
        and None
    ),
    "gzip-bomb": lambda p: (
        p.write_bytes(gzip.compress(b"<svg>" + b" " * (200 << 20) + b"</svg>")) and None
    ),
    "large": raw(b"<svg>" + b" " * (11 << 20) + b"</svg>"),
    "utf-16": raw(
        f'<?xml version="1.0" encoding="utf-16"?><svg {NS} width="5.25in" height="7.25in">{RECT}</svg>'.encode(
            "utf-16"
        )
    ),
    "encoding-lie": raw(
        f'<?xml version="1.0" encoding="utf-32-odd"?><svg {NS} width="5.25in" height="7.25in">{RECT}</svg>'.encode()
    ),
    "nul": raw(f"<svg {NS} width='5.25in' height='7.25in'>\0{RECT}</svg>".encode()),
    "control-id": svg('<g id="&#x9;cut&#xA;x">' + RECT + "</g>"),
}
