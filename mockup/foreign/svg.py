"""SVG turned into vector PDF, so that all art takes one way; nothing outside the file is fetched.

cairosvg draws with the system's cairo. It is handed the tree that was measured, its styles written
out and its size given, never the bytes themselves.
"""

from __future__ import annotations

import sys
from base64 import b64decode
from urllib.parse import unquote_to_bytes
from xml.etree.ElementTree import Element, tostring

from mockup.errors import InputError, LimitError, SystemLibraryError, with_file
from mockup.foreign.svg_pictures import refuse_broken_images
from mockup.trade.limits import SVG_PATH_MAX_CHARACTERS
from mockup.vector.svg_colour import COLOUR_KEYS, is_known
from mockup.vector.svg_guard import refuse_harm
from mockup.vector.svg_tree import called, open_svg, tag_of
from mockup.vector.svg_undrawn import undrawn_features
from mockup.vector.svg_view import page_size

CAIRO_MISSING = (
    "the system library cairo is missing; install it with "
    "`apt install libcairo2` (Debian, Ubuntu), `brew install cairo` (macOS), "
    "or the GTK 3 runtime (Windows), then try again"
)
# Cairo's names of its states (cairo_status_t), and what in an SVG brings each about.
_MEANINGS = {
    "INVALID_MATRIX": "something in it is scaled to nothing",
    "FREETYPE": "type in it is of a size or a face that cannot be drawn",
    "INVALID_SIZE": "something in it is too large",
}
_FRAMES = 5_000  # cairosvg calls itself some five times a level, and 256 levels are taken


def svg_to_pdf(name: str, content: bytes) -> bytes:
    """Returns a one-page PDF of an SVG, at 96 SVG pixels an inch (CSS 2.1 4.3.2).

    Raises InputError for an SVG that is broken, without a size, or that reaches outside itself,
    LimitError for one that is too large or unfolds without end, SystemLibraryError without cairo.
    """
    try:
        return _drawn(_prepared(content))
    except (InputError, LimitError) as error:
        raise with_file(error, name) from error


def undrawn_of(content: bytes) -> tuple[str, ...]:
    """Returns what an SVG's painted elements ask for that is not drawn, in words."""
    return undrawn_features(open_svg(content))


def _prepared(content: bytes) -> bytes:
    """Returns an SVG checked and made plain, with the size it is to be drawn at."""
    root = open_svg(content)
    refuse_harm(root)
    refuse_broken_images(root)
    size = page_size(root)
    root.set("width", repr(size.width_px))
    root.set("height", repr(size.height_px))
    for element in root.iter():
        _refuse_value(element)
    return tostring(root)


def _refuse_value(element: Element) -> None:
    """Raises where cairosvg would draw something else, or not end."""
    if not tag_of(element):
        return
    if len(element.get("d", "")) > SVG_PATH_MAX_CHARACTERS:
        raise LimitError(
            f"{called(element)}: its path data is over {SVG_PATH_MAX_CHARACTERS // 1024**2} MB, "
            "the limit; simplify it"
        )
    for key in COLOUR_KEYS.intersection(element.keys()):
        paint = element.get(key, "")
        if not is_known(paint) and "var(" not in paint and "context-" not in paint:
            raise InputError(
                f'{called(element)}: {key}: "{paint[:40]}" is no colour that can be read; '
                "write it as #rrggbb"
            )


def _drawn(content: bytes) -> bytes:
    try:
        import cairosvg  # takes a third of a second and needs the system's cairo: only here
    except OSError as error:
        raise SystemLibraryError(CAIRO_MISSING) from error
    frames = sys.getrecursionlimit()
    sys.setrecursionlimit(max(frames, _FRAMES))
    try:
        pdf = cairosvg.surface.PDFSurface.convert(
            bytestring=content, unsafe=False, url_fetcher=_held
        )
    except MemoryError:
        raise
    except Exception as error:  # its errors, cairo's and those of its image reader have no root
        raise InputError(f"cannot be drawn{_meant(error)}; save the art as PDF instead") from error
    finally:
        sys.setrecursionlimit(frames)
    assert isinstance(pdf, bytes)
    return pdf


def _meant(error: Exception) -> str:
    """Returns what a complaint means, in brackets; of one nobody foresaw, nothing: its words are
    the library's own, and no help."""
    if isinstance(error, RecursionError):
        return " (parts of it refer to each other without end)"
    said = str(error)
    return next((f" ({told})" for word, told in _MEANINGS.items() if word in said), "")


def _held(url: str, _kind: str) -> bytes:
    """Returns what a data URL holds (RFC 2397). The library's own reader would open a connection
    for it, which no worker may."""
    head, _, body = url.partition(",")
    if not head.startswith("data:"):
        raise ValueError("it refers outside itself")
    held = unquote_to_bytes(body)
    return b64decode(held) if "base64" in head else held
