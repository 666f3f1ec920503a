"""How every ask opens what it draws: reads it, looks at the doors, sees it as its audience does.

The order is part of the promise: a file that cannot be written is refused before a page is drawn,
and what a client is not to see is taken out before anything is drawn for her.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.inputs import inputs_of
from mockup.errors import both
from mockup.output.destination import Destination, refuse_inputs, refuse_unfit
from mockup.reading.showing import for_client, left_out_told, undrawn_told
from mockup.record.folder import refuse_into_record
from mockup.render.scenes import Scene, read_scene
from mockup.render.tones import set_apart
from mockup.suite.audience import Audience
from mockup.suite.die_reading import cuts_told
from mockup.suite.reading import read_suite, with_scene
from mockup.suite.scene_file import read_scene_file
from mockup.suite.suite import CutLineChoice, Piece, SceneChoice, Suite

Doors = Callable[[Suite], Sequence[Destination]]
"""Answers which files will be written for a suite that has been read."""


@dataclass(frozen=True)
class Opened:
    """A suite as its audience sees it, a line for every piece of which something is not shown
    (marks of a template, what its file asks for that is not drawn), and one for every name that
    was taken in one of its meanings."""

    suite: Suite
    left_out: tuple[str, ...]
    table: tuple[str, ...] = ()
    """A line where the scene's table was moved in tone, away from a paper of nearly its colour."""

    @property
    def taken(self) -> tuple[str, ...]:
        """How names with two meanings were taken."""
        return tuple(f"{p.name}: {p.card_told}" for p in self.suite.pieces if p.card_told)

    @property
    def cuts(self) -> tuple[str, ...]:
        """A line for every piece whose die is a template's: which path of it is the cut."""
        return cuts_told((piece.name, piece.die) for piece in self.suite.pieces)


@dataclass(frozen=True)
class Setting:
    """A scene and an arrangement other than the suite's own; None keeps its own."""

    scene: str | None = None
    arrange: int | None = None


@dataclass(frozen=True)
class Writing:
    """What an ask writes: `doors` tells the files, `folder` is the one they are made in, if any,
    and `also_read` are files read beside the suite's own."""

    doors: Doors
    folder: Path | None = None
    also_read: tuple[Path, ...] = ()


def open_suite(path: Path, audience: Audience, writing: Writing) -> Opened:
    """Returns a suite for its audience. Raises what reading it and its art raises, OutputError."""
    return _shown(read_suite(path), audience, writing, ())


def open_on_scene(
    path: Path, audience: Audience, writing: Writing, setting: Setting
) -> tuple[Opened, Scene]:
    """Returns a suite for its audience, and the scene it is laid on. Raises as open_suite does."""
    other = setting.scene
    own, _ = both(lambda: read_suite(path), lambda: other and read_scene_file(other, path.parent))
    suite = with_scene(own, other, setting.arrange)
    own_scene = read_scene(suite.scene.name, path.parent)
    opened = _shown(suite, audience, writing, own_scene.sources)
    scene, moved = set_apart(own_scene, opened.suite)
    return replace(opened, table=moved), scene


def open_piece(piece: Piece, line: CutLineChoice, audience: Audience, writing: Writing) -> Opened:
    """Returns a suite of one piece that no suite file tells of, for its audience."""
    scene = SceneChoice("", 1, 0)
    alone = (piece,)
    suite = Suite(
        piece.art.path, piece.title, None, None, "", piece.bleed_in, alone, (), line, scene, ""
    )
    return _shown(suite, audience, writing, ())


def _shown(
    suite: Suite, audience: Audience, writing: Writing, scene_files: Sequence[Path]
) -> Opened:
    wanted = writing.doors(suite)
    refuse_unfit(wanted, writing.folder)
    refuse_inputs(wanted, [*inputs_of(suite), *scene_files, *writing.also_read])
    refuse_into_record(suite.path, [each.path for each in wanted])
    undrawn = undrawn_told(suite)
    if audience is Audience.STUDIO:
        return Opened(suite, tuple(undrawn))
    shown = for_client(suite)
    return Opened(shown, (*left_out_told(shown), *undrawn))
