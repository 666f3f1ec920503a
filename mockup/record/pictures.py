"""Small pictures of what was proofed: kept in the record, for a later proof to be compared with.

A picture is named by its piece and its fingerprint, not by a revision: what did not change is kept
once, and two people's records go together without one picture taking the other's place.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from PIL import Image, UnidentifiedImageError
from PIL.PngImagePlugin import PngInfo

from mockup.comparing.wording import Word
from mockup.errors import InputError, LimitError, Mistake, MockupError
from mockup.pixels import Bytes
from mockup.record.fingerprint import Named
from mockup.record.folder import PICTURES
from mockup.record.kept_words import words_kept, words_written
from mockup.record.reading import Record
from mockup.record.writing import make_lasting, write_lasting
from mockup.sources import is_there, read_whole

PPI = 300.0
"""At which a picture is kept, true to size: at less a comma is not told from a full stop."""

PX_MAX = 9_000_000  # judgement: A4 at 300 pixels an inch is 8.7 million; larger ones are coarser
FILE_MAX_BYTES = 54 * 1024**2  # of PX_MAX pixels that no packing makes smaller, and a half more
_PACKING = (
    4  # of 9; measured on the demo: 3 hundredths larger than at the usual 6, in 0.7 of its time
)
_WORDS = "words"  # the keyword of the text that lies in the file (PNG, 11.3.3.4: iTXt)
_METRES_PER_INCH = 0.0254
_PLAIN = re.compile(r"[^a-z0-9._-]")


@dataclass(frozen=True)
class Kept:
    """A picture kept: (h, w, 4) sRGB, straight alpha, clear outside the cut; its resolution; and
    the words of its live type, boxes in inches from its top left."""

    picture: Bytes
    ppi: float
    words: tuple[Word, ...] = ()


def kept_ppi(width_in: float, height_in: float) -> float:
    """Returns at which resolution a piece of a size is kept: PPI, or less for a very large one."""
    return min(PPI, math.sqrt(PX_MAX / (width_in * height_in)))


def picture_file(record: Record, item: Named) -> Path:
    """Returns the file a picture of a piece as it is now is, or would be, kept in."""
    name = _PLAIN.sub("-", item.name.lower())
    code = item.fingerprint.digest[:16]
    return record.folder / PICTURES / f"{name}-{code}.png"


def keep_picture(record: Record, item: Named, kept: Kept) -> Path:
    """Returns the file a piece's picture is kept in, written unless it is there already.

    Raises OutputError.
    """
    file = picture_file(record, item)
    if is_there(file) and not file.is_symlink():
        return file
    packed = io.BytesIO()
    dpi = (kept.ppi, kept.ppi)
    texts = PngInfo()
    if said := words_written(kept.words):
        texts.add_itxt(_WORDS, said, zip=True)
    image = Image.fromarray(kept.picture)
    image.save(packed, "PNG", dpi=dpi, compress_level=_PACKING, pnginfo=texts)
    make_lasting(record.folder)
    return write_lasting(file.parent, file.name, packed.getvalue())


def of_back(item: Named) -> Named:
    """Returns what the picture of a piece's back is kept by: its piece, under a name of its own."""
    return replace(item, name=f"{item.name}-back", title=f"{item.title}, back")


def kept_back(record: Record, revision: int, name: str) -> Kept | None:
    """Returns the picture of a piece's back as a revision showed it; None and raises as
    kept_picture."""
    return _kept(record, revision, name, of_back)


def kept_picture(record: Record, revision: int, name: str) -> Kept | None:
    """Returns the picture of a piece, its front where it has a back, as a revision showed it.

    None where no such proof is in the record, or the piece is not on it, or its picture was not
    kept or is there no more. Raises InputError and LimitError for one that cannot be read.
    """
    return _kept(record, revision, name, lambda item: item)


def _kept(record: Record, revision: int, name: str, by: Callable[[Named], Named]) -> Kept | None:
    proof = record.proof(revision)
    item = None if proof is None else proof.item(name)
    if item is None:
        return None
    file = picture_file(record, by(item))
    return _read(file) if is_there(file) else None


def _read(file: Path) -> Kept:
    content = read_whole(file, FILE_MAX_BYTES)
    try:
        with Image.open(io.BytesIO(content), formats=("PNG",)) as image:
            if image.width * image.height > 2 * PX_MAX:
                raise _too_large(file, f"{image.width} x {image.height} px")
            dpi = image.info.get("dpi", (PPI, PPI))
            words = words_kept(str(image.info.get(_WORDS, "")))
            return Kept(np.asarray(image.convert("RGBA")), float(dpi[0]), words)
    except Image.DecompressionBombError as error:
        raise _too_large(file, "far too large") from error
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        raise _broken(file) from error


def _too_large(file: Path, size: str) -> MockupError:
    return LimitError(Mistake(f"is {size}; a kept picture has {PX_MAX} px or fewer", str(file)))


def _broken(file: Path) -> MockupError:
    said = "is no picture of this record any more; the next proof keeps one again if it is deleted"
    return InputError(Mistake(said, str(file)))
