"""SVG turned into vector PDF, so that all art takes one way; nothing outside the file is fetched.

cairosvg draws with the system's cairo. Before it sees a file, the file is measured: its size, its
depth, what its `use` elements unfold to, and every reference it makes.
"""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring

from mockup.errors import InputError, LimitError, SystemLibraryError
from mockup.trade.limits import SVG_MAX_BYTES, SVG_MAX_DEPTH, SVG_MAX_ELEMENTS

_HREFS = ("href", "{http://www.w3.org/1999/xlink}href")
_CSS_URL = re.compile(r"url\(\s*['\"]?\s*([^'\")\s]*)", re.I)
_CSS_IMPORT = re.compile(r"@import", re.I)

CAIRO_MISSING = (
    "the system library cairo is missing; install it with "
    "`apt install libcairo2` (Debian, Ubuntu), `brew install cairo` (macOS), "
    "or the GTK 3 runtime (Windows), then try again"
)


def svg_to_pdf(path: Path) -> bytes:
    """Returns a one-page PDF of an SVG file, at 96 SVG pixels an inch (CSS 2.1 4.3.2).

    Raises InputError for an SVG that is broken, without a size, or that reaches outside itself,
    LimitError for one that is too large or unfolds without end, SystemLibraryError without cairo.
    """
    source = path.read_bytes()
    if len(source) > SVG_MAX_BYTES:
        raise LimitError(f"{path}: the SVG is over {SVG_MAX_BYTES // 1024**2} MB, the limit")
    check_svg(path, source)
    try:
        import cairosvg  # takes a third of a second and needs the system's cairo: only here
    except OSError as error:
        raise SystemLibraryError(CAIRO_MISSING) from error
    try:
        pdf = cairosvg.svg2pdf(bytestring=source, unsafe=False)
    except Exception as error:  # its errors have no common root
        raise InputError(f"{path}: cannot be drawn ({error}); give it width and height") from error
    assert isinstance(pdf, bytes)
    return pdf


def check_svg(path: Path, source: bytes) -> None:
    """Returns nothing; raises InputError or LimitError where an SVG must not be drawn."""
    try:
        root = fromstring(source, forbid_dtd=False, forbid_entities=True, forbid_external=True)
    except ParseError as error:
        raise InputError(f"{path}: is not a well-formed SVG ({error})") from error
    except DefusedXmlException as error:
        raise InputError(f"{path}: the SVG declares entities; save it without them") from error
    except RecursionError as error:
        raise LimitError(f"{path}: the SVG nests deeper than {SVG_MAX_DEPTH}") from error
    _refuse_outside(path, root)
    _refuse_endless(path, root)


def _refuse_outside(path: Path, root: Element) -> None:
    for element in root.iter():
        references = [element.get(name, "") for name in _HREFS]
        styles = [element.text or "", *element.attrib.values()]
        if _CSS_IMPORT.search(element.text or ""):
            raise InputError(f"{path}: the SVG imports a style sheet; write the styles into it")
        for style in styles:
            references += _CSS_URL.findall(style)
        for reference in references:
            if reference and not reference.startswith(("#", "data:")):
                raise InputError(
                    f"{path}: the SVG reaches outside itself for {reference[:60]!r}; "
                    "embed what it needs"
                )


def _refuse_endless(path: Path, root: Element) -> None:
    by_id = {element.get("id", ""): element for element in root.iter()}
    sizes: dict[int, int] = {}

    def unfolded(element: Element, depth: int, open_ids: frozenset[int]) -> int:
        if depth > SVG_MAX_DEPTH:
            raise LimitError(f"{path}: the SVG nests deeper than {SVG_MAX_DEPTH}")
        key = id(element)
        if key in open_ids:
            raise InputError(f"{path}: the SVG refers to itself without end (`use` in a circle)")
        if key not in sizes:
            inside = open_ids | {key}
            total = 1 + sum(unfolded(child, depth + 1, inside) for child in element)
            for target in _targets(element):
                if target in by_id:
                    total += unfolded(by_id[target], depth + 1, inside)
            sizes[key] = total
            if total > SVG_MAX_ELEMENTS:
                raise LimitError(f"{path}: the SVG unfolds to over {SVG_MAX_ELEMENTS} elements")
        return sizes[key]

    unfolded(root, 0, frozenset())


def _targets(element: Element) -> list[str]:
    """Returns the ids an element draws again: by `use`, or as a pattern, marker or mask."""
    hrefs = [element.get(name, "") for name in _HREFS]
    urls = [url for value in element.attrib.values() for url in _CSS_URL.findall(value)]
    return [reference[1:] for reference in (*hrefs, *urls) if reference.startswith("#")]
