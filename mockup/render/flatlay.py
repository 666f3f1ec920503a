"""The flat-lay: the whole suite from above on a table, in a window's light, at true scale."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from shapely import box as shapely_box

from mockup.artwork.page import ArtPage, Placement
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.ink import on_stock
from mockup.colour.srgb import Rgb, parse_hex
from mockup.envelopes.views import ClosedBack, OpenBack
from mockup.errors import LimitError
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Shape
from mockup.pixels import Bytes, View
from mockup.render.composition import (
    Composition,
    LaidEnvelope,
    LaidPiece,
    compose,
    cropped,
    edge_of_interest,
)
from mockup.render.envelope import liner_art
from mockup.render.light import light
from mockup.render.light.scene import Flat, LitScene, Material, Picture, Plane, Sheet
from mockup.render.light.settle import settle
from mockup.render.piece import draw_line, line_for
from mockup.render.scenes import Scene, Wish
from mockup.render.thing_places import place_things
from mockup.render.thing_sheets import footprint, sheets_of
from mockup.render.things import PlacedThing
from mockup.suite.suite import CutLineChoice, Suite
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX, PICTURE_MAX_PX
from mockup.trade.papers import Stock
from mockup.units import MIL_PER_INCH

Progress = Callable[[float], None]

_FLAP_LIFT_IN = 0.01  # an envelope's folds spring open a little
_BEVEL_SHARE = 0.2  # of the caliper: how far a cut edge is rounded; a judgement


@dataclass(frozen=True)
class _Drawn:
    """A shape of paper on the table, its art if it has any, and how it is stacked."""

    shape: Shape
    colour: Rgb
    stock: Stock
    lift_in: float
    angle_deg: float
    art: tuple[ArtPage, Placement, Affine] | None = None
    line: CutLineChoice | None = None


@dataclass(frozen=True)
class Shot:
    """One picture to take: which suite on which scene, how wide, its aspect, its cut line.

    `aspect` is width over height; the scene's own where it is None. `line` is the cut line drawn
    along every die; a picture for a portfolio has none. `things` are what the scene wants beside
    the paper: none in a client's proof.
    """

    suite: Suite
    scene: Scene
    width_px: int
    aspect: float | None = None
    line: CutLineChoice | None = None
    things: tuple[Wish, ...] = ()


def flatlay_picture(shot: Shot, progress: Progress | None = None) -> Bytes:
    """Returns the suite on the scene's table, lit: (h, w, 3) uint8 sRGB.

    Raises InputError, LimitError and SuiteError as its parts do.
    """
    return _lit(shot, composed(shot), progress)


def plain_picture(shot: Shot, progress: Progress | None = None) -> Bytes:
    """Returns the same composition under flat light, for judging colour: (h, w, 3) uint8 sRGB."""
    from mockup.render.light import plain

    lit, ppi = lit_scene(shot, composed(shot), progress)
    return plain(lit, ppi)


def close_up_picture(shot: Shot, width_in: float, progress: Progress | None = None) -> Bytes:
    """Returns `width_in` inches of the table where the main piece's edge crosses others' paper."""
    composition = composed(shot)
    edge = edge_of_interest(composition, shot.scene.window.azimuth_deg + 180)
    return _lit(shot, cropped(composition, edge, width_in), progress)


def composed(shot: Shot) -> Composition:
    """Returns what lies where in a picture. Raises LimitError for one too large to take."""
    aspect = shot.scene.aspect if shot.aspect is None else shot.aspect
    _refuse_size(shot.width_px, round(shot.width_px / aspect))
    composition = compose(shot.suite, shot.scene, aspect, shot.suite.scene.arrange)
    things = place_things(shot.things, shot.scene, composition)
    return replace(composition, things=things)


def lit_scene(
    shot: Shot, composition: Composition, progress: Progress | None = None
) -> tuple[LitScene, float]:
    """Returns a composition's sheets on their table, ready to be lit, and the pixels an inch."""
    scene, frame = shot.scene, composition.frame
    ppi = shot.width_px / frame.width_in
    view = View(0.0, 0.0, shot.width_px, round(frame.height_in * ppi), ppi)
    drawn = _drawn(shot, composition)
    arts = _arts(drawn, view, scene.surface_colour, progress)
    sheets = [_sheet(each, art) for each, art in zip(drawn, arts, strict=True)]
    lit = LitScene(
        view.width_in,
        view.height_in,
        _stacked(sheets, [each.lift_in for each in drawn], composition.things, view),
        scene.surface,
        scene.window,
        scene.sky,
        shot.suite.scene.seed + 1,
    )
    return lit, ppi


def _stacked(
    papers: list[Sheet], lifts_in: list[float], things: tuple[PlacedThing, ...], view: View
) -> tuple[Sheet, ...]:
    """Returns all sheets at rest, bottom to top: things under the paper, paper, things on it."""
    under = [thing for thing in things if thing.under]
    over = [thing for thing in things if not thing.under]
    rested = settle([*papers, *map(footprint, over)], [*lifts_in, *(t.lift_in for t in over)])
    sheets = [sheet for thing in under for sheet in sheets_of(thing, view, Plane())]
    sheets += rested[: len(papers)]
    for thing, print_ in zip(over, rested[len(papers) :], strict=True):
        sheets += sheets_of(thing, view, print_.plane)
    return tuple(sheets)


def _lit(shot: Shot, composition: Composition, progress: Progress | None) -> Bytes:
    lit, ppi = lit_scene(shot, composition, _part(progress, 0.0, 0.4))
    return light(lit, ppi, _part(progress, 0.4, 1.0))


def _refuse_size(width_px: int, height_px: int) -> None:
    if width_px > FLATLAY_WIDTH_MAX_PX or width_px * height_px > PICTURE_MAX_PX:
        raise LimitError(
            f"{width_px} x {height_px} px is over the limit of {FLATLAY_WIDTH_MAX_PX} px width and "
            f"{PICTURE_MAX_PX // 10**6} megapixels; ask for a smaller --width"
        )


def _drawn(shot: Shot, composition: Composition) -> list[_Drawn]:
    """Returns every sheet of paper on the table, from the bottom up."""
    drawn: list[_Drawn] = []
    for laid in composition.laid:
        if isinstance(laid, LaidPiece):
            drawn.append(_drawn_piece(shot, laid))
        else:
            drawn += _drawn_envelope(shot.suite, shot.scene, laid)
    return drawn


def _drawn_piece(shot: Shot, laid: LaidPiece) -> _Drawn:
    piece, placed = laid.piece, laid.placed
    return _Drawn(
        piece.die.shape.mapped(placed.to_table),
        parse_hex(piece.stock.colour_hex),
        piece.stock,
        shot.scene.lift_in[laid.role],
        placed.angle_deg,
        (laid.page, laid.placement, placed.to_table),
        shot.line,
    )


def _drawn_envelope(suite: Suite, scene: Scene, laid: LaidEnvelope) -> list[_Drawn]:
    envelope, back = laid.envelope, laid.back
    to_table, angle = laid.placed.to_table, laid.placed.angle_deg

    def paper(shape: Shape, lift_in: float) -> _Drawn:
        return _Drawn(shape.mapped(to_table), envelope.colour, envelope.stock, lift_in, angle)

    lowest = back.back_sheet if isinstance(back, OpenBack) else back.body
    sheets = [paper(lowest, scene.lift_in["envelope"])]
    if isinstance(back, OpenBack) and envelope.liner is not None:
        liner = envelope.liner
        page, placement, to_back = liner_art(envelope, liner, suite.bleed_in)
        art = (page, placement, to_table @ to_back)
        shape, colour = back.liner.mapped(to_table), parse_hex(liner.stock.colour_hex)
        sheets.append(_Drawn(shape, colour, liner.stock, 0.0, angle, art))
    folded = [*back.side_flaps, back.bottom_flap]
    if isinstance(back, ClosedBack):
        folded.append(back.flap)
    return [*sheets, *(paper(flap, _FLAP_LIFT_IN) for flap in folded)]


def _arts(
    drawn: list[_Drawn], view: View, table: Rgb, progress: Progress | None
) -> list[Picture | None]:
    """Returns the art of every sheet at the picture's own resolution, through its placed matrix."""
    jobs = {
        index: RasterJob(*each.art, view.within(each.shape.box, 1))
        for index, each in enumerate(drawn)
        if each.art is not None and _seen(each, view)
    }
    pixels = dict(zip(jobs, rasterise(list(jobs.values()), progress), strict=True))
    return [
        _printed(each, pixels[index], jobs[index].view, view, [table, *_under(drawn, index)])
        if index in jobs
        else None
        for index, each in enumerate(drawn)
    ]


def _seen(each: _Drawn, view: View) -> bool:
    own = view.within(each.shape.box, 1)
    return own.width_px > 0 and own.height_px > 0


def _under(drawn: list[_Drawn], index: int) -> list[Rgb]:
    """Returns the colours of the papers a sheet lies on."""
    box = shapely_box(*drawn[index].shape.box)
    return [each.colour for each in drawn[:index] if shapely_box(*each.shape.box).intersects(box)]


def _printed(each: _Drawn, picture: Bytes, own: View, view: View, grounds: list[Rgb]) -> Picture:
    printed = np.array(on_stock(picture, each.colour))
    if each.line is not None:
        line = line_for(each.shape, printed, own, grounds, each.line)
        draw_line(printed, each.shape, line, own)
    left_px, top_px = own.offset_in(view)
    return Picture(printed, left_px, top_px)


def _sheet(each: _Drawn, art: Picture | None) -> Sheet:
    outlines: tuple[NDArray[np.float64], ...] = rings(each.shape)
    thickness_in = each.stock.caliper_mil / MIL_PER_INCH
    material = Material(grain=each.stock.grain, bevel_in=thickness_in * _BEVEL_SHARE)
    return Sheet(
        outlines,
        art or Flat(each.colour),
        thickness_in=thickness_in,
        material=material,
        angle_deg=each.angle_deg,
    )


def _part(progress: Progress | None, start: float, end: float) -> Progress | None:
    if progress is None:
        return None
    return lambda share: progress(start + (end - start) * share)
