"""What lies beside the paper in a picture asked for: the scene's things, her own, or none."""

from __future__ import annotations

from mockup.asks.values import PathGiven, path_or_none
from mockup.render.scenes import Scene, Wish
from mockup.render.things.folder import wishes_of


def things_laid(scene: Scene, wanted: bool, own: PathGiven | None) -> tuple[Wish, ...]:
    """Returns what is to lie beside the paper: her own where a folder is given, else the scene's
    where they are wanted. Raises RequestError, InputError, LimitError."""
    folder = path_or_none("things_from", own)
    if folder is not None:
        return wishes_of(folder)
    return scene.things if wanted else ()
