"""Images placed in an SVG, decoded before they are drawn: what draws them tells a broken one as a
want of memory, or in words of its own.
"""

from __future__ import annotations

import io
import struct
import warnings
import zlib
from xml.etree.ElementTree import Element

from PIL import Image

from mockup.errors import InputError
from mockup.trade.limits import PICTURE_MAX_PX
from mockup.vector.svg_images import held_image
from mockup.vector.svg_tree import called, tag_of

# What Pillow raises for broken files: of its own it has only the first, an OSError.
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, struct.error, zlib.error)


def refuse_broken_images(root: Element) -> None:
    """Raises InputError for an image in an SVG that cannot be decoded.

    One of over 150 megapixels is left to the limit on memory.
    """
    sound: set[bytes] = set()
    for element in root.iter():
        content = held_image(element) if tag_of(element) == "image" else None
        if content and content not in sound:
            _refuse_broken(element, content)
            sound.add(content)


def _refuse_broken(element: Element, content: bytes) -> None:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            picture = Image.open(io.BytesIO(content))
            if picture.width * picture.height <= PICTURE_MAX_PX:
                picture.load()
    except Image.DecompressionBombError:
        return
    except _BROKEN as error:
        said = f"{called(element)}: the image in it cannot be decoded; place it again"
        raise InputError(said) from error
