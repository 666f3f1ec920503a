"""What lies beside the paper in a picture asked for: the scene's things, her own, or none."""

from __future__ import annotations

from pathlib import Path

from mockup.asks.values import PathGiven, path_or_none
from mockup.render.flatlay import Shot, composed
from mockup.render.scenes import Scene, Wish
from mockup.render.things.folder import wishes_of
from mockup.suite.suite import Suite


def things_laid(
    scene: Scene, wanted: bool, own: PathGiven | None, suite: Suite
) -> tuple[Wish, ...]:
    """Returns what is to lie beside the paper: her own where a folder is given, else the scene's
    where they are wanted. Raises RequestError, SuiteError for a drawing that is to lie on a piece
    which the suite has not, InputError, LimitError."""
    folder = path_or_none("things_from", own)
    if folder is not None:
        return wishes_of(folder, [piece.name for piece in suite.pieces])
    return scene.things if wanted else ()


_NO_ROOM = {
    "empty": (
        "no empty stretch of table is large enough for it; take another aspect or arrangement, "
        "draw it smaller, or allow it a run_out in a scene of your own"
    ),
    "under": (
        "no paper hides a part of it and lets the rest be seen whole; take another aspect or "
        "arrangement, or draw it longer"
    ),
    "flap": (
        "no closed envelope shows the tip of its flap free; close one (leave it out of "
        "`[scene] open`), or take another arrangement"
    ),
    "envelope": (
        "no envelope has the postage corner of its address side free; turn one up by "
        '`shown = "face"`, take another arrangement, or draw it smaller'
    ),
    "on": (
        "other paper, a cord or another thing lies at its place on the piece, or the picture ends "
        "there; take another aspect or arrangement, or name another place, or none"
    ),
    "outside": (
        "nowhere beyond the picture does it cast its shadow there; move `at` nearer to the "
        "window's side in a scene of your own"
    ),
}
"""Why a thing found no place, by where it was to lie, and what to do."""


def roomless_told(shot: Shot) -> tuple[str, ...]:
    """Returns a line for every thing that finds no place in a picture: which, why, what to do."""
    if not shot.things:
        return ()
    missed = composed(shot).without_room
    return tuple(f"{Path(each.svg).stem} is not laid: {_NO_ROOM[each.where]}" for each in missed)
