"""Images placed in an SVG as data: told by their first bytes, never by their label."""

from __future__ import annotations

import base64
import binascii
from urllib.parse import unquote_to_bytes
from xml.etree.ElementTree import Element  # the type alone: nothing is parsed here

from mockup.errors import InputError
from mockup.vector.svg_tree import called, href_of

# PNG 3, 5.2; JPEG (ITU T.81 B.1.1.3); GIF89a 17; TIFF 6.0, 2; WebP's and BMP's own descriptions.
_BEGINNINGS = (
    b"\x89PNG\r\n\x1a\n",
    b"\xff\xd8\xff",
    b"GIF87a",
    b"GIF89a",
    b"II*\0",
    b"MM\0*",
    b"BM",
)
_DRAWINGS = (b"<svg", b"<?xml", b"<!DOC", b"\x1f\x8b")  # the last is gzip: packed SVG


def refuse_image(element: Element, reference: str) -> None:
    """Raises InputError where the data an image element holds is no image of pixels.

    What is no PNG, JPEG, GIF, TIFF, WebP or BMP would be handed on to whatever program reads it: an
    SVG is drawn unmeasured, EPS is a program to be run.
    """
    content = _content(reference)
    if content is None or not content.strip():
        raise InputError(f"{called(element)}: the image in it cannot be decoded; place it again")
    if content.startswith(_BEGINNINGS) or (content[:4] == b"RIFF" and content[8:12] == b"WEBP"):
        return
    if content.lstrip().startswith(_DRAWINGS) or b"<svg" in content:
        raise InputError(
            f"{called(element)}: an SVG is placed as an image in it; paste its shapes instead"
        )
    raise InputError(
        f"{called(element)}: the image in it is no PNG, JPEG, GIF, TIFF, WebP or BMP, whatever its "
        "label; place it again as one of them"
    )


def held_image(element: Element) -> bytes | None:
    """Returns the bytes of the image an element holds as data, None where it holds none."""
    reference = href_of(element)
    return _content(reference) if reference.startswith("data:") else None


def _content(reference: str) -> bytes | None:
    """Returns the bytes of a data URL (RFC 2397), or None where they cannot be decoded."""
    head, _, body = reference.partition(",")
    content = unquote_to_bytes(body)
    if not head.endswith(";base64"):
        return content
    try:
        return base64.decodebytes(content)
    except binascii.Error:
        return None
