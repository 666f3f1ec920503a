"""Which pieces of a suite things can lie on in a picture, and where it is told that one cannot."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mockup.envelopes.views import OpenBack
from mockup.errors import Mistake, SuiteError
from mockup.reading.binding import lying_bound
from mockup.render.faces import view_of
from mockup.render.folded import pose_of
from mockup.render.scenes import Scene, Wish
from mockup.suite.scene_file import SCENE_FILE
from mockup.suite.suite import Suite
from mockup.tables.wording import told

_ANOTHER = "or lay the thing on another piece"


def refuse_unseen(wishes: Sequence[Wish], scene: Scene, suite: Suite) -> None:
    """Raises SuiteError for every thing that is to lie on a piece which the suite has not, or shows
    nowhere to lie on."""
    found = [
        mistake_of(wish, scene, "on", why)
        for wish in wishes
        if wish.on is not None and (why := _unseen(suite, wish.on))
    ]
    if found:
        raise SuiteError(*found)


def mistake_of(wish: Wish, scene: Scene, key: str, sentence: str) -> Mistake:
    """Returns a mistake of a thing: under its key of the scene file, or by her own drawing."""
    if wish not in scene.things or Path(wish.svg).is_absolute():
        return Mistake(sentence, wish.svg)  # its name says where it lies
    where = f"things.{scene.things.index(wish) + 1}.{key}"
    return Mistake(sentence, str(scene.folder / SCENE_FILE), where, str(getattr(wish, key)))


def _unseen(suite: Suite, name: str) -> str:
    """Returns why nothing can lie on a piece, nothing where something can."""
    if name not in (each.name for each in suite.pieces):
        return told(name, "piece", [each.name for each in suite.pieces])
    piece = suite.piece(name)
    for envelope in suite.envelopes:
        view = view_of(envelope, suite.scene.open)
        if envelope.drawn == name and isinstance(view, OpenBack):
            return f'"{name}" is half in its envelope; leave out `drawn`, {_ANOTHER}'
    if pose_of(piece).is_raised:
        return f'"{name}" is shown {piece.shown}: nothing lies on paper that stands; {_ANOTHER}'
    if piece.wraps is not None and not piece.wraps.is_bound:
        return f'"{name}" is not shown, for its cards lie apart; leave out `shown`, {_ANOTHER}'
    for bundle in lying_bound(suite):
        front, *under = bundle.names
        if name in under or piece.over in under:
            return f'"{name}" lies under "{front}" in its band; name that, or the band'
    return ""
