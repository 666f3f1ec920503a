"""The demo: the Tide Mill Supper laid into a folder, and all that is drawn from it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from mockup.errors import OutputError
from mockup.output.files import made_folder, whole_file
from mockup.output.options import draw_options
from mockup.output.png import write_png
from mockup.output.proof import write_proof
from mockup.reading.showing import for_client
from mockup.render.flatlay import Shot, flatlay_picture
from mockup.render.piece import piece_picture
from mockup.render.scenes import read_scene
from mockup.shipped import shipped
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite

Progress = Callable[[float], None]

SUITE_FILE = "suite.toml"
PIECE_PPI = 300.0
OPTIONS_PX = 2400


def lay_out_demo(folder: Path) -> list[Path]:
    """Returns the demo's suite file and art, copied into a folder; files that exist are kept.

    Raises OutputError where they cannot be written.
    """
    made_folder(folder)
    source = shipped("assets_demo")
    laid: list[Path] = []
    printers = sorted(source.glob("printers/*.toml"))
    made_folder(folder / "printers")
    for original in [source / SUITE_FILE, *sorted(source.glob("*.pdf")), *printers]:
        copy = folder / original.relative_to(source)
        if not copy.exists():
            _copied(original, copy)
        laid.append(copy)
    return laid


def draw_demo(folder: Path, width_px: int, progress: Progress) -> list[Path]:
    """Returns the pictures and the proof drawn from the suite file in a folder.

    Raises what reading the suite, drawing and writing raise.
    """
    suite = for_client(read_suite(folder / SUITE_FILE))
    flatlay, proof = folder / "flatlay.png", folder / "proof.pdf"
    scene = read_scene(suite.scene.name, folder)
    shot = Shot(suite, scene, width_px, line=suite.cut_line)
    picture = flatlay_picture(shot, progress)
    write_png(flatlay, picture, PIECE_PPI)
    write_proof(suite, proof, picture)
    options = folder / "options.png"
    usual = (None, ())  # the catalogues laid beside the suite
    draw_options(folder / SUITE_FILE, suite.pieces[0].name, options, (), False, usual, OPTIONS_PX)
    return [flatlay, proof, _drawn_piece(suite, folder), options]


def _drawn_piece(suite: Suite, folder: Path) -> Path:
    piece = suite.pieces[0]
    path = folder / f"{piece.name}.png"
    write_png(path, piece_picture(piece, PIECE_PPI, suite.cut_line), PIECE_PPI)
    return path


def _copied(original: Path, copy: Path) -> None:
    try:
        with whole_file(copy) as beside:
            shutil.copyfile(original, beside)
    except OSError as error:
        raise OutputError(f"{copy}: cannot be written ({error.strerror})") from error
