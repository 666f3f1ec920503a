"""The flat-lay asked for: the whole suite on a table, in one picture."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.artwork.finishes import finishes_lit, finishes_told
from mockup.asks.colour import colour_told
from mockup.asks.opening import Setting, Writing, open_on_scene
from mockup.asks.things import roomless_told, things_laid
from mockup.asks.values import (
    PathGiven,
    audience_of,
    path_of,
    pixels,
    text_or_none,
    whole,
    yes_or_no,
)
from mockup.checks.enclosure import too_small_told
from mockup.output.destination import PICTURE, Destination
from mockup.output.picture import write_picture
from mockup.progress import Progress
from mockup.render.flatlay import Shot, flatlay_picture, plain_picture
from mockup.render.scenes import Scene, parse_aspect
from mockup.suite.audience import Audience
from mockup.suite.backs import with_backs
from mockup.suite.schema import ARRANGE_MAX
from mockup.suite.suite import Suite
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX

WIDTH_MIN_PX = 200  # judgement: smaller shows no card
PPI = 300.0  # written into the file, for programs that place it at a size


@dataclass(frozen=True)
class FlatlayRequest:
    """A flat-lay to be laid.

    suite: the suite file. output: a .png or .jpg to write. width_px: 200 to 12000 pixels. scene: a
    scene's name or folder, None for the suite's own. aspect: width to height, `"4:5"`, None for the
    scene's own. arrange: the N-th best arrangement, 1 to 50, None for the suite's own. plain: flat
    light, for judging colour. cut_line: a thin line along every die; None draws it under flat light
    only: in a window's light the paper ends by its own edge and shadow, as it will on a table.
    things: the scene's things beside the paper. things_from: a folder of her own SVGs, laid in
    their stead. audience: the client is not shown a template's lines left in the art. backs:
    cards' printed backs as well, beside their fronts.
    """

    suite: PathGiven
    output: PathGiven
    width_px: int = 3000
    scene: str | None = None
    aspect: str | None = None
    arrange: int | None = None
    plain: bool = False
    cut_line: bool | None = None
    things: bool = False
    audience: Audience | str = Audience.CLIENT
    backs: bool = False
    things_from: PathGiven | None = None


@dataclass(frozen=True)
class FlatlayAnswer:
    """The file written, its size, and a line for every piece of which marks are not shown,
    and one for every name taken in one of its meanings.

    `cuts` has a line for every die from a template: which path of it is the cut; `colour` one for
    every press by which colours are shown.
    """

    written: Path
    width_px: int
    height_px: int
    left_out: tuple[str, ...]
    taken: tuple[str, ...] = ()
    too_small: tuple[str, ...] = ()
    """A line for every envelope that what it holds does not go into."""
    cuts: tuple[str, ...] = ()
    colour: tuple[str, ...] = ()
    without_room: tuple[str, ...] = ()
    """A line for every thing that found no place beside the paper, with what to do."""


def lay_flatlay(request: FlatlayRequest, progress: Progress | None = None) -> FlatlayAnswer:
    """Writes a flat-lay and returns what was written.

    Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    output = path_of("output", request.output)
    width_px = pixels("width_px", request.width_px, WIDTH_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    aspect = text_or_none("aspect", request.aspect)
    ratio = None if aspect is None else parse_aspect(aspect)
    destination = Destination(output, "flat-lay", PICTURE)
    opened, scene = open_on_scene(
        path_of("suite", request.suite),
        audience_of(request.audience),
        Writing(lambda suite: [destination]),
        _setting(request),
    )
    draw = plain_picture if request.plain else flatlay_picture
    suite = with_backs(opened.suite) if yes_or_no("backs", request.backs) else opened.suite
    shot = _shot(request, suite, scene, width_px, ratio)
    picture = draw(shot, progress)
    write_picture(output, picture, PPI)
    height_px, width_px = picture.shape[:2]
    told = (opened.left_out, opened.taken, too_small_told(opened.suite), opened.cuts)
    finished = finishes_told if request.plain else finishes_lit
    colour = (*colour_told(opened.suite, finished), *opened.table)
    return FlatlayAnswer(output, width_px, height_px, *told, colour, roomless_told(shot))


def _setting(request: FlatlayRequest) -> Setting:
    arrange = request.arrange
    nth = None if arrange is None else whole("arrange", arrange, 1, ARRANGE_MAX)
    return Setting(text_or_none("scene", request.scene), nth)


def _shot(
    request: FlatlayRequest, suite: Suite, scene: Scene, width_px: int, aspect: float | None
) -> Shot:
    wanted = request.plain if request.cut_line is None else request.cut_line
    line = suite.cut_line if wanted else None
    things = things_laid(scene, request.things, request.things_from, suite)
    return Shot(suite, scene, width_px, aspect, line, things)
