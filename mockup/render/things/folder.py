"""A designer's own things: the SVGs of a folder of hers, and where each is to lie."""

from __future__ import annotations

from pathlib import Path

from mockup.errors import InputError, LimitError
from mockup.render.scenes import Wish
from mockup.render.things.reading import read_thing
from mockup.trade.limits import THINGS_MAX

PLACES = ("under", "flap", "envelope")
"""What a file's name may begin with, for another place than the empty table."""


def wishes_of(folder: Path) -> tuple[Wish, ...]:
    """Returns a wish for every SVG of a folder, by name; each is read, so that a broken one is told
    before anything is drawn.

    `under-sprig.svg` is tucked under the paper, `flap-seal.svg` goes on a closed envelope's flap,
    `envelope-stamps.svg` in the postage corner of an address side; all others on the empty table.
    Raises InputError for what is no folder, has no SVG, or an SVG that cannot be read; LimitError.
    """
    if not folder.is_dir():
        raise InputError(f"{folder} is no folder; name one with your SVGs in it")
    try:
        # A name without its drive or root would be looked for beside the scene.
        files = sorted(path for path in folder.absolute().iterdir() if _is_drawing(path))
    except OSError as error:
        raise InputError(f"{folder} cannot be read: {error.strerror}") from error
    if not files:
        raise InputError(f"{folder} has no .svg in it; things are drawn as SVG at their true size")
    if len(files) > THINGS_MAX:
        raise LimitError(f"{folder} has {len(files)} SVGs; the limit is {THINGS_MAX} of a picture")
    for path in files:
        read_thing(str(path), folder)
    return tuple(_wish(path) for path in files)


def _is_drawing(path: Path) -> bool:
    return path.suffix.lower() == ".svg" and not path.name.startswith(".")


def _wish(path: Path) -> Wish:
    first = path.stem.partition("-")[0].lower()
    where = first if first in PLACES else "empty"
    return Wish.model_validate({"svg": str(path), "where": where})
