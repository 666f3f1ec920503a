"""A portfolio asked for: the suite composed anew for every ratio, and details of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from mockup.asks.opening import Setting, Writing, open_on_scene
from mockup.asks.things import roomless_told, things_laid
from mockup.asks.values import PathGiven, audience_of, path_of, pixels, text_or_none
from mockup.output.destination import PICTURE, Destination
from mockup.output.files import made_folder, whole_folder
from mockup.output.picture import write_picture
from mockup.pixels import Bytes
from mockup.progress import Progress
from mockup.render.close_ups import subjects_of
from mockup.render.flatlay import Shot, close_up_picture, flatlay_picture
from mockup.render.piece import piece_picture
from mockup.render.scenes import Scene
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX

RATIOS = {"3x2": 3 / 2, "4x5": 4 / 5, "1x1": 1.0, "9x16": 9 / 16, "16x9": 16 / 9}
CLOSE_UP_IN = 3.5  # about how much of the table a close-up shows across
PPI = 300.0
LONG_SIDE_MIN_PX = 200  # judgement: smaller shows no card
BOTH = (".png", ".jpg")
ALONE = (".png",)  # transparent, which JPEG cannot be


@dataclass(frozen=True)
class PortfolioRequest:
    """Pictures to be taken for a website and social pages.

    suite: the suite file. output: the folder to write into, made where it is missing. scene: a
    scene's name or folder, None for the suite's own. long_side_px: 200 to 12000. audience: the
    client is not shown a template's lines left in the art. things: the scene's things beside the
    paper, or paper alone. things_from: a folder of her own SVGs, laid in their stead.
    """

    suite: PathGiven
    output: PathGiven
    scene: str | None = None
    long_side_px: int = 2400
    audience: Audience | str = Audience.CLIENT
    things: bool = True
    things_from: PathGiven | None = None


@dataclass(frozen=True)
class PortfolioAnswer:
    """The files written, in the order they were taken, and lines on what is not shown as it is:
    of pieces, and of the scene's table where its tone was moved away from a paper's.
    `without_room` has one for every thing that found no place in a picture."""

    written: tuple[Path, ...]
    left_out: tuple[str, ...]
    without_room: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Job:
    """One picture to take: its file's name without an ending, its endings, how to take it."""

    name: str
    endings: tuple[str, ...]
    take: Callable[[], Bytes]


def take_portfolio(request: PortfolioRequest, progress: Progress | None = None) -> PortfolioAnswer:
    """Writes every ratio and detail as PNG and JPEG, all or none, and returns the files.

    Pieces alone, on a transparent ground, are PNG only. The scene's things lie beside the paper
    unless that is refused. No cut line is drawn: the paper itself ends there. The same suite gives
    the same bytes. Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    folder = path_of("output", request.output)
    long_side = request.long_side_px
    long_side_px = pixels("long_side_px", long_side, LONG_SIDE_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    opened, scene = open_on_scene(
        path_of("suite", request.suite),
        audience_of(request.audience),
        Writing(lambda suite: _doors(suite, folder), folder),
        Setting(text_or_none("scene", request.scene)),
    )
    things = things_laid(scene, request.things, request.things_from, opened.suite)
    laid = replace(scene, things=things)
    whole = list(_whole(opened.suite, laid, long_side_px))
    jobs = list(_jobs(opened.suite, laid, long_side_px, whole))
    with made_folder(folder), whole_folder(folder) as beside:
        for done, job in enumerate(jobs):
            if progress is not None:
                progress(done / len(jobs))
            _write(beside, job)
    if progress is not None:
        progress(1.0)
    names = [f"{job.name}{ending}" for job in jobs for ending in job.endings]
    return PortfolioAnswer(
        tuple(folder / name for name in names),
        (*opened.left_out, *opened.table),
        _without_room(whole),
    )


def _doors(suite: Suite, folder: Path) -> list[Destination]:
    names = [f"suite-{ratio}" for ratio in RATIOS]
    names += [f"detail-{subject}" for subject in subjects_of(suite)]
    names += [f"envelope-{envelope.name}" for envelope in suite.envelopes]
    files = [f"{name}{ending}" for name in names for ending in BOTH]
    files += [f"piece-{piece.name}{ending}" for piece in suite.pieces for ending in ALONE]
    return [Destination(folder / file, "picture", PICTURE) for file in files]


def _jobs(
    suite: Suite, scene: Scene, long_side_px: int, whole: Iterable[tuple[str, Shot]]
) -> Iterator[_Job]:
    for name, shot in whole:
        yield _Job(name, BOTH, lambda shot=shot: flatlay_picture(shot))
    close = Shot(suite, scene, long_side_px, 3 / 2)
    for subject in subjects_of(suite):
        take = partial(close_up_picture, close, CLOSE_UP_IN, subject)
        yield _Job(f"detail-{subject}", BOTH, take)
    for envelope in suite.envelopes:
        alone = Shot(replace(suite, pieces=(), envelopes=(envelope,)), scene, long_side_px, 3 / 2)
        yield _Job(f"envelope-{envelope.name}", BOTH, lambda alone=alone: flatlay_picture(alone))
    for piece in suite.pieces:
        name = f"piece-{piece.name}"
        yield _Job(name, ALONE, lambda piece=piece: piece_picture(piece, PPI, None))


def _whole(suite: Suite, scene: Scene, long_side_px: int) -> Iterator[tuple[str, Shot]]:
    for name, aspect in RATIOS.items():
        width_px = round(long_side_px * min(1.0, aspect))
        yield f"suite-{name}", Shot(suite, scene, width_px, aspect, things=scene.things)


def _without_room(whole: Iterable[tuple[str, Shot]]) -> tuple[str, ...]:
    """Returns a line for every thing without room, under the pictures it is missing from."""
    missing: dict[str, list[str]] = {}
    for name, shot in whole:
        for line in roomless_told(shot):
            missing.setdefault(line, []).append(name)
    return tuple(f"{', '.join(names)}: {line}" for line, names in missing.items())


def _write(folder: Path, job: _Job) -> None:
    picture = job.take()
    for ending in job.endings:
        write_picture(folder / f"{job.name}{ending}", picture, PPI)
