"""A designer's own things: the SVGs of a folder of hers, and where each is to lie."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from mockup.errors import InputError, LimitError, Mistake, SuiteError
from mockup.render.scenes import Wish
from mockup.render.things.reading import read_thing
from mockup.suite.scene_file import PLACE_WORDS
from mockup.tables.wording import told
from mockup.trade.limits import THINGS_MAX

PLACES = ("under", "flap", "envelope")
"""What a file's name may begin with, for another place than the empty table."""

_ON = "on-"


def wishes_of(folder: Path, pieces: Sequence[str]) -> tuple[Wish, ...]:
    """Returns a wish for every SVG of a folder, by name; each is read, so that a broken one is told
    before anything is drawn. `pieces` are the names of the suite's.

    `under-sprig.svg` is tucked under the paper, `flap-seal.svg` goes on a closed envelope's flap,
    `envelope-stamps.svg` in the postage corner of an address side, `on-details-seal.svg` and
    `on-details-top-right-seal.svg` on the piece called details; all others on the empty table.
    Raises SuiteError for a name that begins with `on-` and no piece's; InputError for what is no
    folder, has no SVG, or an SVG that cannot be read; LimitError.
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
    return tuple(_wish(path, pieces) for path in files)


def _is_drawing(path: Path) -> bool:
    return path.suffix.lower() == ".svg" and not path.name.startswith(".")


def _wish(path: Path, pieces: Sequence[str]) -> Wish:
    said = path.stem.lower()
    if said.startswith(_ON):
        on, rest = _begun(said.removeprefix(_ON), pieces)
        if on is None:
            no_piece = told(rest.partition("-")[0], "piece", pieces)
            raise SuiteError(Mistake(f"by its name it lies on a piece: {no_piece}", str(path)))
        place, _ = _begun(rest, PLACE_WORDS)
        return Wish.model_validate({"svg": str(path), "where": "on", "on": on, "place": place})
    first = said.partition("-")[0]
    where = first if first in PLACES else "empty"
    return Wish.model_validate({"svg": str(path), "where": where})


def _begun(said: str, words: Iterable[str]) -> tuple[str | None, str]:
    """Returns the longest of some words that a name begins with, None for none, and the rest."""
    begun = [word for word in words if f"{said}-".startswith(f"{word}-")]
    word = max(begun, key=len, default=None)
    return word, said if word is None else said.removeprefix(word).removeprefix("-")
