"""The demo asked for: the Tide Mill Supper laid into a folder, and all that is drawn from it."""

from __future__ import annotations

import shutil
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.flatlay import WIDTH_MIN_PX
from mockup.asks.issuing import open_issue, refuse_sent, sent
from mockup.asks.opening import Opened, Setting, Writing, open_on_scene
from mockup.asks.options import OptionsRequest, show_options
from mockup.asks.values import PathGiven, audience_of, date_of, path_of, pixels
from mockup.output import proof
from mockup.output.destination import CUT_OUT, PDF, PICTURE, Destination, refuse_unfit
from mockup.output.files import made_folder, whole_file, whole_folder
from mockup.output.png import write_png
from mockup.output.proof import Telling
from mockup.pixels import Bytes
from mockup.progress import Progress, part
from mockup.render.flatlay import Shot, flatlay_picture
from mockup.render.piece import piece_picture
from mockup.render.scenes import Scene
from mockup.shipped import shipped
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX

SUITE_FILE = "suite.toml"
FLATLAY, PROOF, OPTIONS = "flatlay.png", "proof.pdf", "options.png"
PPI = 300.0
OPTIONS_PX = 2400
_FLATLAY_SHARE = 0.7  # of the time, about


@dataclass(frozen=True)
class DemoRequest:
    """The demo to be laid: the folder, made where it is missing, and the flat-lay's width."""

    folder: PathGiven
    width_px: int = 3000
    audience: Audience | str = Audience.CLIENT


@dataclass(frozen=True)
class DemoAnswer:
    """The suite file, ready to be changed, what was drawn from it, lines on what is not shown."""

    suite: Path
    written: tuple[Path, ...]
    left_out: tuple[str, ...]


def lay_demo(request: DemoRequest, progress: Progress | None = None) -> DemoAnswer:
    """Lays the demo's suite file, art and catalogues into a folder, and draws them.

    Files of the suite that are there already are kept, so that a designer's changes are drawn.
    Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    folder = path_of("folder", request.folder)
    width_px = pixels("width_px", request.width_px, WIDTH_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    audience = audience_of(request.audience)
    suite_file = folder / SUITE_FILE
    laid = [Destination(copy, "file of the demo", (copy.suffix,)) for _, copy in _missing(folder)]
    refuse_unfit([*laid, *_doors(None, folder)], folder)
    with made_folder(folder):
        _lay_files(folder)
        writing = Writing(lambda suite: _doors(suite, folder), folder)
        opened, scene = open_on_scene(suite_file, audience, writing, Setting())
        with whole_folder(folder) as beside:
            names = _drawn(opened, scene, width_px, beside, progress)
            asked = OptionsRequest(
                suite_file,
                opened.suite.pieces[0].name,
                beside / OPTIONS,
                width_px=OPTIONS_PX,
                audience=audience,
            )
            show_options(asked)
    if progress is not None:
        progress(1.0)
    written = tuple(folder / name for name in (*names, OPTIONS))
    return DemoAnswer(suite_file, written, opened.left_out)


def _doors(suite: Suite | None, folder: Path) -> list[Destination]:
    pictures = [Destination(folder / name, "picture", PICTURE) for name in (FLATLAY, OPTIONS)]
    wanted = [*pictures, Destination(folder / PROOF, "proof", PDF)]
    if suite is not None:
        wanted.append(Destination(folder / _piece_file(suite), "piece", CUT_OUT))
    return wanted


def _piece_file(suite: Suite) -> str:
    return f"{suite.pieces[0].name}.png"


def _missing(folder: Path) -> list[tuple[Path, Path]]:
    """Returns each file of the demo that is not in the folder yet, and its place there."""
    source = shipped("assets_demo")
    catalogues = [*sorted(source.glob("printers/*.toml")), *sorted(source.glob("papers/*.toml"))]
    things = sorted(source.glob("things/*.svg"))
    files = [source / SUITE_FILE, *sorted(source.glob("*.pdf")), *catalogues, *things]
    places = [(original, folder / original.relative_to(source)) for original in files]
    return [(original, copy) for original, copy in places if not copy.exists()]


def _lay_files(folder: Path) -> None:
    for original, copy in _missing(folder):
        with made_folder(copy.parent), whole_file(copy) as beside:
            shutil.copyfile(original, beside)


def _drawn(
    opened: Opened, scene: Scene, width_px: int, folder: Path, progress: Progress | None
) -> list[str]:
    suite = opened.suite
    shot = Shot(suite, scene, width_px, line=suite.cut_line)
    picture = flatlay_picture(shot, part(progress, 0.0, _FLATLAY_SHARE))
    write_png(folder / FLATLAY, picture, PPI)
    written = _prove(opened, folder, picture, part(progress, _FLATLAY_SHARE, 1.0))
    piece = suite.pieces[0]
    write_png(folder / _piece_file(suite), piece_picture(piece, PPI, suite.cut_line), PPI)
    return [FLATLAY, written, _piece_file(suite)]


def _prove(opened: Opened, folder: Path, picture: Bytes, progress: Progress | None) -> str:
    """Writes the proof and returns its file's name: by its number where another went before it."""
    issuing = open_issue(opened.suite, Audience.CLIENT, date_of("date", None))
    issue = issuing.issue
    first = all(each.revision == issue.revision for each in issuing.record.proofs)
    name = PROOF if first else issuing.usual_name.name
    refuse_sent(issuing, opened.suite.path.parent / name)
    telling = Telling(replace(opened.suite, revision=issue.told), picture, issue)
    with sent(issuing, folder / name) as beside:
        proof.write_proof(telling, beside, progress)
    return name
