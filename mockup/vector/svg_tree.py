"""SVG bytes opened safely, and made plain: every style an attribute, every `switch` decided.

What this answers is the only tree there is: what is measured, walked and drawn is the same.
"""

from __future__ import annotations

import re
import zlib
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring

from mockup.errors import InputError, LimitError
from mockup.trade.limits import SVG_MAX_BYTES, SVG_MAX_DEPTH, SVG_MAX_ELEMENTS
from mockup.vector.svg_styles import inline_styles

NAMESPACE = "{http://www.w3.org/2000/svg}"
HREFS = ("href", "{http://www.w3.org/1999/xlink}href")

_GZIP = b"\x1f\x8b"
_MARKS = (b"\xff\xfe", b"\xfe\xff")  # byte order marks of UTF-16
_SHEET = re.compile(rb"<\?xml-stylesheet\b[^>]*?href\s*=\s*[\"']([^\"']{0,60})")


def open_svg(source: bytes) -> Element:
    """Returns the root of an SVG, plain or packed by gzip, with its styles written out.

    Elements that conditions leave out (SVG 1.1 5.8) are gone; style sheets are attributes of what
    they apply to. Raises InputError for what is no SVG, declares entities or takes a style sheet
    from outside; LimitError for one that is too large or too deep.
    """
    root = _parsed(_unpacked(source))
    if tag_of(root) != "svg":
        said = str(root.tag).rpartition("}")[2][:40]
        raise InputError(f"is no SVG (its root is <{said}>); save the art as SVG or PDF")
    _refuse_depth(root)
    inline_styles(root)
    _decide(root)
    _settle_references(root)
    return root


def tag_of(element: Element) -> str:
    """Returns an element's SVG name; empty for what is not SVG: metadata, other vocabularies."""
    tag = str(element.tag)
    if tag.startswith(NAMESPACE):
        return tag[len(NAMESPACE) :]
    return "" if tag.startswith("{") else tag


def href_of(element: Element) -> str:
    """Returns what an element refers to, or nothing."""
    return next((element.attrib[key].strip() for key in HREFS if key in element.attrib), "")


def called(element: Element) -> str:
    """Returns how messages call an element: `<circle id="moon">`."""
    name = " ".join(element.get("id", "").split())[:40]
    return f'<{tag_of(element)} id="{name}">' if name else f"<{tag_of(element)}>"


def _unpacked(source: bytes) -> bytes:
    if source.startswith(_GZIP):
        unpacking = zlib.decompressobj(wbits=31)
        try:
            source = unpacking.decompress(source, SVG_MAX_BYTES + 1)
        except zlib.error as error:
            raise InputError("is damaged where it is packed; save it again") from error
        if not unpacking.eof and len(source) <= SVG_MAX_BYTES:
            raise InputError("is cut short where it is packed; save it again")
    if len(source) > SVG_MAX_BYTES:
        raise LimitError(f"the SVG is over {SVG_MAX_BYTES // 1024**2} MB, the limit; simplify it")
    return source


def _parsed(source: bytes) -> Element:
    if b"\0" in source and b"\0" not in source[:4] and not source.startswith(_MARKS):
        raise InputError("is not a well-formed SVG (it holds NUL bytes); save it again")
    sheet = _SHEET.search(source.partition(b"<svg")[0])
    if sheet:
        said = sheet[1].decode("utf-8", "replace")
        raise InputError(f'the SVG takes a style sheet from outside itself, "{said}"; embed it')
    try:
        # A DOCTYPE may name the published DTD, as most programs write it: none is ever fetched.
        return fromstring(source, forbid_dtd=False, forbid_entities=True, forbid_external=True)
    except ParseError as error:
        raise InputError(f"is not a well-formed SVG ({error}); save it again") from error
    except DefusedXmlException as error:
        raise InputError("the SVG declares entities; save it without them") from error
    except (LookupError, ValueError) as error:  # the parser's own for encodings it has not
        raise InputError(
            f"is written in an encoding that cannot be read ({error}); save it as UTF-8"
        ) from error


def _refuse_depth(root: Element) -> None:
    level, depth, count = [root], 0, 0
    while level:
        depth += 1
        count += len(level)
        if depth > SVG_MAX_DEPTH:
            raise LimitError(f"the SVG nests deeper than {SVG_MAX_DEPTH}; ungroup some of it")
        if count > SVG_MAX_ELEMENTS:
            raise LimitError(f"the SVG has over {SVG_MAX_ELEMENTS} elements; simplify it")
        level = [child for element in level for child in element]


def _decide(root: Element) -> None:
    """Removes what conditions leave out: of a switch all but the first child that can be drawn."""
    for element in list(root.iter()):
        kept = [child for child in element if _meets_conditions(child)]
        if tag_of(element) == "switch":
            kept = [child for child in kept if tag_of(child)][:1]
        if len(kept) < len(element):
            element[:] = kept


def _settle_references(root: Element) -> None:
    """Leaves one reference to an element that has two: `href` (SVG 2, 16.1.6).

    Or what is measured by the one would be drawn by the other.
    """
    for element in root.iter():
        if all(key in element.attrib for key in HREFS):
            del element.attrib[HREFS[1]]


def _meets_conditions(element: Element) -> bool:
    """Returns whether an element's conditions hold: no extensions, and English of languages."""
    if element.get("requiredExtensions") is not None:
        return False
    languages = element.get("systemLanguage")
    return languages is None or any(
        each.strip().lower().startswith("en") for each in languages.split(",")
    )
