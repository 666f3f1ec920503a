"""Every sheet of paper in a flat-lay: its shape on the table, its art, its stock, how it rests."""

from __future__ import annotations

import math
import zlib
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from shapely import box as shapely_box

from mockup.artwork.page import ArtPage, Placement
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb, parse_hex
from mockup.colour.translucent import film_of
from mockup.envelopes.views import FaceUp, OpenBack
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Line, Shape
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.progress import Progress
from mockup.render.bands import Turn, cut_of, relief_of, turn_of
from mockup.render.composition import Composition, LaidEnvelope, LaidPiece
from mockup.render.cutline import colours_beside, one_tone
from mockup.render.drawn import Drawn
from mockup.render.envelope import liner_art
from mockup.render.faces import BARE_SIDE, Laid, SideShown, lay, pocket_shown, side_shown
from mockup.render.finishing import NOT_WORKED, Worked, worked
from mockup.render.folded import Leaf, Rise, leaves_of, valley
from mockup.render.light.metal import foil
from mockup.render.light.scene import Bow, Crease, Flat, Material, Picture, Sheet
from mockup.render.memory import MEMORY, key_of
from mockup.render.piece import draw_line, line_for
from mockup.render.scenes import Scene
from mockup.render.torn import Tear, tears, torn_press, torn_rings
from mockup.suite.suite import CutLineChoice, Edge, Suite
from mockup.trade.papers import Stock
from mockup.units import MIL_PER_INCH, PT_PER_INCH

# How paper lies: judgements, by eye.
_FLAP_LIFT_IN = 0.01  # an envelope's folds spring open a little
_FOLD_LIFT_IN = 0.008  # a closed card's fold springs open a little
_BEVEL_SHARE = 0.2  # of the caliper: how far a cut edge is rounded
_BOW_IN_MIL = 0.6  # a card's ends rise by this over its caliper in mils: thin stock curls more
_BOW_MOST_IN = 0.05
_BOW_SPREAD = 0.5  # no two cards have dried alike: one curls half as much again, one half as much
_LINER_LIFT_IN = 0.006  # a liner is gummed along its top only
_MOUTH_IN = 0.03  # how far each sheet of an open envelope's mouth gapes, from nothing at its foot
_LINE_LEAST_PX = 2.0  # a cut line's width in the picture, at least
_EVEN_GRAINS = ("smooth", "eggshell")  # of paper that cockles as an envelope's does once folded


@dataclass(frozen=True)
class Paper:
    """A shape of paper on the table, its art if it has any, and how it lies."""

    shape: Shape
    colour: Rgb
    stock: Stock
    lift_in: float
    angle_deg: float
    art: tuple[ArtPage, Placement, Affine] | None = None
    line: CutLineChoice | None = None
    bow: Bow | None = None
    creases: tuple[Crease, ...] = ()
    grain: str = ""
    """An envelope's surface; a card has its stock's."""
    rise: Rise | None = None
    over: tuple[Laid, ...] = ()
    """Flat colours over its art: letters set on it, paper left bare."""
    edge: Edge | None = None
    torn: tuple[Tear, ...] = ()
    turn: Turn | None = None
    """Where it bends down, of a band."""


def papers(
    suite: Suite, scene: Scene, composition: Composition, line: CutLineChoice | None
) -> list[Paper]:
    """Returns every sheet of paper on the table, from the bottom up, `line` along every die."""
    found: list[Paper] = []
    for laid in composition.laid:
        if isinstance(laid, LaidPiece):
            found += _piece(scene, laid, line)
        else:
            found += _envelope(suite, scene, laid, line)
    return found


def printed_sheets(
    found: Sequence[Paper],
    sheets: Sequence[Sheet],
    view: View,
    table: Rgb,
    progress: Progress | None = None,
) -> list[Sheet]:
    """Returns the papers' bare `sheets` with what is printed on them and what finishes them.

    Art is drawn at the view's resolution through its placed matrix; `table` is the colour that
    shows beside a card where no paper does. Raises what rasterise raises.
    """
    jobs = {
        index: RasterJob(*each.art, view.within(each.shape.box, 1))
        for index, each in enumerate(found)
        if each.art is not None and _seen(each, view)
    }
    prints = {
        index: _Print(found[index], job, [table, *_colours_under(found, index)])
        for index, job in jobs.items()
    }
    arts: dict[int, _Printed] = {}
    for index, each in prints.items():
        known = MEMORY.recalled(each.key)
        if isinstance(known, _Printed):
            arts[index] = known
    missing = [index for index in prints if index not in arts]
    pixels = rasterise([jobs[index] for index in missing], progress)
    for index, drawn in zip(missing, pixels, strict=True):
        arts[index] = _printed(prints[index], drawn, view)
        MEMORY.keep(prints[index].key, arts[index])
    for index, each in enumerate(found):
        if each.art is None and each.over and _seen(each, view):
            arts[index] = _Printed(_lettered(each, view))
    return [arts[k].on(sheet) if k in arts else sheet for k, sheet in enumerate(sheets)]


@dataclass(frozen=True)
class _Printed:
    """What is on a sheet: its picture, and what its finishes press into it and lay over it."""

    art: Picture
    worked: Worked = NOT_WORKED

    def on(self, sheet: Sheet) -> Sheet:
        """Returns a sheet with all that on it."""
        presses, coats = self.worked.presses, self.worked.coats
        return replace(sheet, art=self.art, presses=presses, coats=coats)


@dataclass(frozen=True)
class _Print:
    """A paper whose art is to be drawn, the job that does it, and the colours it lies on."""

    paper: Paper
    job: RasterJob
    grounds: list[Rgb]

    @cached_property
    def key(self) -> Hashable:
        """All that its picture is made from; a page of art says its file's content itself."""
        paper = self.paper
        made = (
            self.job,
            paper.shape,
            paper.colour,
            paper.line,
            paper.over,
            paper.torn,
            self.grounds,
        )
        return "print", key_of(made)


def _piece(scene: Scene, laid: LaidPiece, line: CutLineChoice | None) -> list[Paper]:
    """Returns the papers of a piece: one, or the panels of a folded card."""
    card = _card(scene, laid, line)
    if laid.pose.of.fold is None:
        return [card]
    leaves = leaves_of(laid.pose, laid.page, laid.placement)
    return [_leaf(card, leaf, laid.placed.to_table, k) for k, leaf in enumerate(leaves)]


def _leaf(card: Paper, leaf: Leaf, to_table: Affine, number: int) -> Paper:
    """Returns a panel of a folded card; it curls only where it is the whole of what is seen."""
    art = leaf.art and (*leaf.art, to_table @ leaf.to_seen)
    return replace(
        card,
        shape=leaf.shape.mapped(to_table),
        lift_in=card.lift_in if number == 0 else _FOLD_LIFT_IN,
        art=art,
        bow=card.bow if number and leaf.rise is None else None,
        creases=(valley(leaf.valley, to_table),) if leaf.valley else (),
        rise=leaf.rise and leaf.rise.mapped(to_table),
    )


def _card(scene: Scene, laid: LaidPiece, line: CutLineChoice | None) -> Paper:
    piece, placed = laid.piece, laid.placed
    return Paper(
        piece.die.shape.mapped(placed.to_table),
        parse_hex(piece.stock.colour_hex),
        piece.stock,
        0.0 if laid.card else scene.lift_in[laid.role],
        placed.angle_deg,
        (laid.page, laid.placement, placed.to_table),
        line,
        _bow(laid.card or laid),
        edge=piece.edge,
        turn=laid.bound and turn_of(laid.bound, placed.to_table),
        torn=tears(piece.torn, piece.die.shape, placed.to_table, piece.name),
    )


def _bow(laid: LaidPiece) -> Bow:
    """Returns a card's curl along its longer side: more or less, by the card's name."""
    die, placed = laid.piece.die, laid.placed
    centre = placed.to_table.point(Point(die.width_in / 2, die.height_in / 2))
    upright = 90.0 if die.height_in > die.width_in else 0.0
    own = zlib.crc32(laid.piece.name.encode()) % 1000 / 999
    spread = 1 + _BOW_SPREAD * (2 * own - 1)
    rise_in = min(_BOW_IN_MIL / laid.piece.stock.caliper_mil * spread, _BOW_MOST_IN)
    half_in = max(die.width_in, die.height_in) / 2
    return Bow(centre.x, centre.y, placed.angle_deg + upright, half_in, rise_in)


def _envelope(
    suite: Suite, scene: Scene, laid: LaidEnvelope, line: CutLineChoice | None
) -> list[Paper]:
    envelope, back = laid.envelope, laid.back
    to_table, angle = laid.placed.to_table, laid.placed.angle_deg
    opened = isinstance(back, OpenBack)
    hinge = (_hinge(back.fold, to_table),) if opened else ()

    def paper(
        shape: Shape,
        lift_in: float,
        creases: tuple[Crease, ...] = (),
        shown: SideShown = BARE_SIDE,
        bow: Bow | None = None,
    ) -> Paper:
        on_table, stock = shape.mapped(to_table), envelope.stock
        grain = "envelope" if stock.grain in _EVEN_GRAINS else stock.grain
        sheet = Paper(
            on_table, envelope.colour, stock, lift_in, angle, None, None, bow, creases, grain
        )
        return _with_side(sheet, shown, to_table)

    lift_in = scene.lift_in["envelope"]
    if isinstance(back, FaceUp):
        shown = side_shown(suite, envelope, "face")
        return [paper(back.sheet, lift_in), paper(back.sheet, _FLAP_LIFT_IN, shown=shown)]
    found = [paper(back.back_sheet if opened else back.body, lift_in, hinge)]
    if opened and envelope.liner is not None:
        liner = envelope.liner
        page, placement, to_back = liner_art(envelope, liner, suite.bleed_in)
        art = (page, placement, to_table @ to_back)
        shape, colour = back.liner.mapped(to_table), parse_hex(liner.stock.colour_hex)
        lift_in = _LINER_LIFT_IN
        found.append(Paper(shape, colour, liner.stock, lift_in, angle, art, creases=hinge))
    if laid.drawn is not None:
        found.append(_in_envelope(laid.drawn, to_table, line))
    pocket = pocket_shown(suite, envelope, opened)
    mouth = _mouth(back, to_table, angle) if isinstance(back, OpenBack) else None
    folded = (*back.side_flaps, back.bottom_flap)
    found += [paper(each, _FLAP_LIFT_IN, shown=pocket, bow=mouth) for each in folded]
    if not opened:
        found.append(paper(back.flap, _FLAP_LIFT_IN, shown=side_shown(suite, envelope, "flap")))
    return found


def _with_side(sheet: Paper, shown: SideShown, to_table: Affine) -> Paper:
    """Returns a sheet of an envelope with what is seen of its side."""
    over = tuple(each.mapped(to_table) for each in shown.over)
    if shown.art is None:
        return replace(sheet, over=over)
    page, placement, to_side = shown.art
    return replace(sheet, art=(page, placement, to_table @ to_side), over=over)


def _in_envelope(drawn: Drawn, to_table: Affine, line: CutLineChoice | None) -> Paper:
    """Returns a card in an open envelope; a folded one is twice as thick."""
    piece, placed = drawn.piece, to_table @ drawn.to_back
    stock = piece.stock
    if piece.fold is not None:
        stock = replace(stock, caliper_mil=2 * stock.caliper_mil)
    turn = math.degrees(math.atan2(placed.b, placed.a))
    art = (drawn.page, drawn.placement, placed)
    shape, colour = piece.die.shape.mapped(placed), parse_hex(stock.colour_hex)
    return Paper(shape, colour, stock, 0.0, turn, art, line)


def _mouth(back: OpenBack, to_table: Affine, angle_deg: float) -> Bow:
    """Returns the curl of an open envelope's pocket, by which its throat stands off the liner."""
    box = back.bottom_flap.box
    foot = to_table.point(Point((box.left + box.right) / 2, box.bottom))
    return Bow(foot.x, foot.y, angle_deg + 90.0, box.height, _MOUTH_IN)


def _hinge(fold: Line, to_table: Affine) -> Crease:
    start, end = to_table.point(fold.start), to_table.point(fold.end)
    return Crease((start.x, start.y), (end.x, end.y))


def _seen(each: Paper, view: View) -> bool:
    own = view.within(each.shape.box, 1)
    return own.width_px > 0 and own.height_px > 0


def _colours_under(found: Sequence[Paper], index: int) -> list[Rgb]:
    """Returns the colours of the papers a sheet lies on."""
    box = shapely_box(*found[index].shape.box)
    return [each.colour for each in found[:index] if shapely_box(*each.shape.box).intersects(box)]


def _printed(print_: _Print, plates: Plates, view: View) -> _Printed:
    each, own = print_.paper, print_.job.view
    printed = np.array(appearance(plates, each.colour))
    lay(printed, own, each.over)
    if each.line is not None:
        line = line_for(each.shape, printed, own, print_.grounds, each.line)
        if line.casing is not None:
            grounds = np.array(print_.grounds, np.uint8)
            width_pt = each.line.width_pt
            line = one_tone(line, colours_beside(each.shape, (printed, own), grounds, width_pt))
        # The sheet's edge cuts off the outer half: of less than a pixel inside, beads are left.
        width_pt = max(line.width_pt, _LINE_LEAST_PX * PT_PER_INCH / own.ppi)
        cut = each.shape if each.turn is None else cut_of(each.shape, each.turn)
        draw_line(printed, cut, replace(line, width_pt=width_pt), own)
    place = own.offset_in(view)
    caliper_in = each.stock.caliper_mil / MIL_PER_INCH
    done = worked(plates.finished, caliper_in, *place)
    if each.torn:
        thin = torn_press(each.torn, own, caliper_in, view)
        done = replace(done, presses=(*done.presses, thin))
    return _Printed(Picture(printed, *place), done)


def _lettered(each: Paper, view: View) -> Picture:
    """Returns a sheet without art, what lies over it on its own colour."""
    own = view.within(each.shape.box, 1)
    picture = np.full((own.height_px, own.width_px, 3), each.colour, np.uint8)
    lay(picture, own, each.over)
    left_px, top_px = own.offset_in(view)
    return Picture(picture, left_px, top_px)


def bare_sheet(each: Paper, view: View) -> Sheet:
    """Returns a paper as a sheet for the light, nothing printed on it, not yet at rest."""
    own = view.within(each.shape.box, 1)
    stock = each.stock
    thickness_in = stock.caliper_mil / MIL_PER_INCH * (each.rise.upright if each.rise else 1.0)
    material = Material(
        grain=each.grain or stock.grain,
        bevel_in=thickness_in * _BEVEL_SHARE,
        edge_rgb=each.edge.colour if each.edge else None,
        edge_skin=foil(each.edge.metal) if each.edge and each.edge.metal else None,
        film=film_of(stock.translucency, each.colour),
    )
    return Sheet(
        torn_rings(rings(each.shape), each.torn),
        Flat(each.colour),
        thickness_in=thickness_in,
        material=material,
        angle_deg=each.angle_deg,
        bow=each.bow,
        creases=each.creases,
        folded=bool(each.grain),
        relief=relief_of(each.turn, own, view) if each.turn and _seen(each, view) else None,
    )
