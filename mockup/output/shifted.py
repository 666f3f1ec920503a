"""A run of pieces seen: the best, the typical and the worst cut of every piece, side by side."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from mockup.artwork.raster import RasterJob, rasterise
from mockup.checks.running import try_runs
from mockup.checks.settings import Settings
from mockup.checks.shift import Run, cut_affine
from mockup.colour.appearance import appearance
from mockup.colour.srgb import parse_hex
from mockup.output.picture import write_picture
from mockup.output.typography import INK, QUIET
from mockup.pixels import Bytes, View
from mockup.progress import Progress
from mockup.reading.die_zones import DieZones
from mockup.reading.page import placed
from mockup.render.piece import PAPER_WHITE, cut_out, line_for, piece_view
from mockup.suite.suite import CutLineChoice, Piece, Suite

PPI = 150.0
GAP_PX = 60
HEAD_PX = 70
GROUND = (238, 237, 234)
NAMES = ("best", "typical", "worst")
_FONT = Path(__file__).parent / "fonts" / "AlegreyaSans-Regular.ttf"
_SIZE_PX = 24


def write_shifted(
    path: Path, suite: Suite, settings: Settings, progress: Progress | None = None
) -> None:
    """Writes one picture: a row for every piece, its best, typical and worst cut out of the run.

    Raises OutputError, and what reading and drawing the art raises.
    """
    fronts = [piece.sides[0] for piece in suite.pieces]
    runs = try_runs(fronts, settings, progress)
    rows = [
        _row(piece, run, suite.cut_line, settings) for piece, run in zip(fronts, runs, strict=True)
    ]
    width = max(row.width for row in rows)
    sheet = Image.new("RGB", (width, sum(row.height for row in rows) + GAP_PX), GROUND)
    top = 0
    for row in rows:
        sheet.paste(row, (0, top))
        top += row.height
    write_picture(path, np.asarray(sheet), PPI)


def _row(piece: Piece, run: Run, choice: CutLineChoice, settings: Settings) -> Image.Image:
    chosen = run.chosen()
    view = piece_view(piece.die.shape, PPI, choice.width_pt)
    cuts = _cuts(piece, [run.moves[k] for k in chosen], view, choice, settings)
    step = view.width_px + GAP_PX
    size = (GAP_PX + 3 * step, HEAD_PX + GAP_PX + view.height_px)
    row = Image.new("RGB", size, GROUND)
    pen, font = ImageDraw.Draw(row), ImageFont.truetype(str(_FONT), _SIZE_PX)
    for place, (name, k, cut) in enumerate(zip(NAMES, chosen, cuts, strict=True)):
        left = GAP_PX + place * step
        told = _told(run, k, settings)
        pen.text((left, GAP_PX / 2), f"{piece.title}, {name}", INK, font)
        pen.text((left, GAP_PX / 2 + 32), told, QUIET, font)
        picture = Image.fromarray(cut)
        row.paste(picture, (left, HEAD_PX + GAP_PX // 2), picture)
    return row


def _told(run: Run, k: int, settings: Settings) -> str:
    """Returns how one cut of a run lay, and how clear it left what matters."""
    across, down, turn = (float(v) for v in run.moves[k])
    length = settings.length
    ways = ((across, "right", "left"), (down, "down", "up"))
    moved = ", ".join(f"{length(abs(by))} {on if by >= 0 else back}" for by, on, back in ways)
    clear = float(run.clearances[k])
    kept = f"{length(clear)} clear" if clear >= 0 else f"{length(-clear)} cut off"
    return f"{moved}, turned {turn:+.2f}\u00b0: {kept}"


def _cuts(
    piece: Piece,
    moves: Sequence[np.ndarray],
    view: View,
    choice: CutLineChoice,
    settings: Settings,
) -> list[Bytes]:
    """Returns the piece cut at each move: the die stays in its place, the art goes."""
    art, placement, _ = placed(piece)
    shape = piece.die.shape
    zones = DieZones(shape, settings.safe_in, piece.bleed_in, shape.box.grown(piece.bleed_in))
    jobs = [RasterJob(art, placement, cut_affine(m, zones).inverse(), view) for m in moves]
    cuts: list[Bytes] = []
    for plates in rasterise(jobs):
        picture = appearance(plates, parse_hex(piece.stock.colour_hex))
        line = line_for(shape, picture, view, (PAPER_WHITE,), choice)
        cuts.append(cut_out(picture, shape, line, view))
    return cuts
