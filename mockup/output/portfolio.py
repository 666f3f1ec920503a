"""Pictures for a portfolio: the suite composed anew for every ratio, and details of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.output.files import made_folder
from mockup.output.jpeg import write_jpeg
from mockup.output.png import write_png
from mockup.pixels import Bytes
from mockup.render.flatlay import Shot, close_up_picture, flatlay_picture
from mockup.render.piece import piece_picture
from mockup.render.scenes import Scene
from mockup.suite.suite import Suite

Progress = Callable[[float], None]

RATIOS = {"3x2": 3 / 2, "4x5": 4 / 5, "1x1": 1.0, "9x16": 9 / 16, "16x9": 16 / 9}
CLOSE_UP_IN = 3.5  # how much of the table a close-up shows across
PPI = 300.0


@dataclass(frozen=True)
class _Job:
    """One picture to take: its file's name without an ending, and how to take it."""

    name: str
    take: Callable[[], Bytes]


def write_portfolio(
    suite: Suite, scene: Scene, folder: Path, long_side_px: int, progress: Progress
) -> list[Path]:
    """Returns the files written into a folder: every ratio and detail as PNG and JPEG.

    Pieces alone, on a transparent ground, are PNG only. The long side of each flat-lay is
    `long_side_px`, and the scene's things lie beside the paper. No cut line is drawn: the paper
    itself ends there. The same suite gives the same bytes. Raises what drawing and writing raise.
    """
    made_folder(folder)
    jobs = list(_jobs(suite, scene, long_side_px))
    written: list[Path] = []
    for done, job in enumerate(jobs):
        progress(done / len(jobs))
        written += _written(folder / job.name, job.take())
    progress(1.0)
    return written


def _jobs(suite: Suite, scene: Scene, long_side_px: int) -> Iterator[_Job]:
    for name, aspect in RATIOS.items():
        width_px = round(long_side_px * min(1.0, aspect))
        shot = Shot(suite, scene, width_px, aspect, things=scene.things)
        yield _Job(f"suite-{name}", lambda shot=shot: flatlay_picture(shot))
    close = Shot(suite, scene, long_side_px, 3 / 2)
    yield _Job("detail-edge", lambda: close_up_picture(close, CLOSE_UP_IN))
    for envelope in suite.envelopes:
        alone = Shot(replace(suite, pieces=(), envelopes=(envelope,)), scene, long_side_px, 3 / 2)
        yield _Job(f"envelope-{envelope.name}", lambda alone=alone: flatlay_picture(alone))
    for piece in suite.pieces:
        yield _Job(f"piece-{piece.name}", lambda piece=piece: piece_picture(piece, PPI, None))


def _written(stem: Path, picture: Bytes) -> list[Path]:
    png = stem.with_name(f"{stem.name}.png")
    write_png(png, picture, PPI)
    if picture.shape[2] == 4:  # JPEG knows no transparency
        return [png]
    jpeg = stem.with_name(f"{stem.name}.jpg")
    write_jpeg(jpeg, picture, PPI)
    return [png, jpeg]
