"""The flat-lay: the whole suite from above on a table, in a window's light, at true scale."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from mockup.colour.srgb import Rgb
from mockup.errors import LimitError
from mockup.geometry.flatten import rings
from mockup.pixels import Bytes, View
from mockup.progress import Progress
from mockup.render.close_ups import Subject, close_up
from mockup.render.composition import Composition, compose, cords_on
from mockup.render.folded import Rise, at_rest
from mockup.render.light import lit_while, plain
from mockup.render.light.scene import Flat, LitScene, Plane, Rings, Sheet
from mockup.render.memory import key_of, remembered
from mockup.render.scenes import Scene, Wish
from mockup.render.sheets import Paper, bare_sheet, papers, printed_sheets
from mockup.render.things.on_shown import refuse_unseen
from mockup.render.things.places import place_things
from mockup.render.things.reading import PlacedThing
from mockup.render.things.sheets import footprint, props_of, sheets_of
from mockup.suite.suite import CutLineChoice, Suite
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX, PICTURE_MAX_PX


@dataclass(frozen=True, eq=False)
class Shot:
    """One picture to take: which suite on which scene, how wide, its aspect, its cut line.

    A shot is like no other, so that what was worked out for it is known again by the shot itself.

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
    lit, ppi = lit_scene(shot, composed(shot), progress)
    return plain(lit, ppi)


def close_up_picture(
    shot: Shot, width_in: float, subject: Subject = "edge", progress: Progress | None = None
) -> Bytes:
    """Returns about `width_in` inches of the table around a subject, no word of type cut: the main
    piece's edge across others' paper, a lining, a hole."""
    away_deg = shot.scene.window.azimuth_deg + 180
    return _lit(shot, close_up(composed(shot), subject, width_in, away_deg), progress)


@lru_cache(maxsize=8)
def composed(shot: Shot) -> Composition:
    """Returns what lies where in a picture; asked again of the same shot, the same.

    Raises LimitError for one too large to take, SuiteError for a thing that cannot lie on the piece
    it names.
    """
    aspect = shot.scene.aspect if shot.aspect is None else shot.aspect
    _refuse_size(shot.width_px, round(shot.width_px / aspect))
    refuse_unseen(shot.things, shot.scene, shot.suite)
    composition = compose(shot.suite, shot.scene, aspect, shot.suite.scene.arrange)
    found = place_things(shot.things, shot.scene, composition)
    things = tuple(each for each in found if each is not None)
    missed = tuple(w for w, each in zip(shot.things, found, strict=True) if each is None)
    return replace(composition, things=(*cords_on(composition), *things), without_room=missed)


def lit_scene(
    shot: Shot, composition: Composition, progress: Progress | None = None
) -> tuple[LitScene, float]:
    """Returns a composition's sheets on their table, ready to be lit, and the pixels an inch."""
    laid = _laid(shot, composition)
    return laid.printed(progress), laid.view.ppi


@dataclass(frozen=True)
class _Laid:
    """What lies on a table, nothing printed yet: the papers, and where they are in `bare`."""

    bare: LitScene
    found: list[Paper]
    first: int
    view: View
    table: Rgb

    def printed(self, progress: Progress | None) -> LitScene:
        """Returns the scene with what is printed on its papers. Raises what rasterise raises."""
        sheets, past = self.bare.sheets, self.first + len(self.found)
        papers = printed_sheets(
            self.found, sheets[self.first : past], self.view, self.table, progress
        )
        return replace(self.bare, sheets=(*sheets[: self.first], *papers, *sheets[past:]))


def _laid(shot: Shot, composition: Composition) -> _Laid:
    scene, frame = shot.scene, composition.frame
    ppi = shot.width_px / frame.width_in
    view = View(0.0, 0.0, shot.width_px, round(frame.height_in * ppi), ppi)
    found = papers(shot.suite, scene, composition, shot.line)
    under, rested, over = _stacked(found, composition.things, view)
    lit = LitScene(
        view.width_in,
        view.height_in,
        (*under, *rested, *over),
        scene.surface,
        scene.window,
        scene.sky,
        shot.suite.scene.seed + 1,
    )
    return _Laid(lit, found, len(under), view, scene.surface_colour)


def _stacked(
    found: list[Paper], things: tuple[PlacedThing, ...], view: View
) -> tuple[list[Sheet], list[Sheet], list[Sheet]]:
    """Returns all sheets at rest, bottom to top: things under the paper, paper, things on it."""
    papers = [bare_sheet(each, view) for each in found]
    under = [thing for thing in things if thing.under]
    over = [thing for thing in things if not thing.under]
    props = [prop for thing in under for prop in props_of(thing, papers)]
    resting = [*props, *papers, *map(footprint, over)]
    lifts = [*(0.0 for _ in props), *(each.lift_in for each in found), *(t.lift_in for t in over)]
    rises = [*(None for _ in props), *(_rise(each) for each in found), *(None for _ in over)]
    # Where a thing rests has nothing to do with its picture, nor paper with its colour.
    shapes = [replace(sheet, art=Flat((0, 0, 0)), relief=None) for sheet in resting]
    planes = remembered(
        ("settled", key_of(shapes), key_of(lifts), key_of(rises)),
        lambda: at_rest(shapes, lifts, rises),
    )
    rested = [replace(sheet, plane=plane) for sheet, plane in zip(resting, planes, strict=True)]
    rested = rested[len(props) :]
    below = [sheet for thing in under for sheet in sheets_of(thing, view, Plane())]
    above = [
        sheet
        for thing, print_ in zip(over, rested[len(papers) :], strict=True)
        for sheet in sheets_of(thing, view, print_.plane)
    ]
    return below, rested[: len(papers)], above


def _rise(paper: Paper) -> tuple[Rise, Rings] | None:
    """Returns how a paper stands, and the outline it stands with, where it does."""
    rise = paper.rise
    if rise is None:
        return None
    return rise, () if rise.footprint is None else rings(rise.footprint)


def _lit(shot: Shot, composition: Composition, progress: Progress | None) -> Bytes:
    laid = _laid(shot, composition)
    return lit_while(laid.bare, laid.view.ppi, laid.printed, progress)


def _refuse_size(width_px: int, height_px: int) -> None:
    if width_px > FLATLAY_WIDTH_MAX_PX or width_px * height_px > PICTURE_MAX_PX:
        raise LimitError(
            f"{width_px} x {height_px} px is over the limit of {FLATLAY_WIDTH_MAX_PX} px width and "
            f"{PICTURE_MAX_PX // 10**6} megapixels; ask for a smaller --width"
        )
