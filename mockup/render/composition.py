"""What of a suite lies where on the table: its pieces and open envelopes, arranged."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from mockup.artwork.objects import ArtObject, objects_of
from mockup.artwork.page import ArtPage, Placement
from mockup.envelopes.views import ClosedBack, FaceUp, OpenBack
from mockup.errors import SuiteError, nearest
from mockup.geometry.affine import translation
from mockup.geometry.flatten import Ring, ring
from mockup.geometry.offset import polygons_of
from mockup.geometry.outline import Outline
from mockup.geometry.point import Point
from mockup.render.arrangement import Frame, Item, Placed, arrange
from mockup.render.arrangement.model import place
from mockup.render.faces import EnvelopeView, kept_in_sight, view_of
from mockup.render.folded import Pose, pose_of
from mockup.render.memory import key_of, remembered
from mockup.render.piece import all_located
from mockup.render.scenes import Scene
from mockup.render.things.reading import PlacedThing
from mockup.suite.suite import Envelope, Piece, Suite

_COARSE_IN = 0.01  # arranging needs outlines no finer than this


@dataclass(frozen=True)
class LaidPiece:
    """A piece on the table: its art, and the map from card inches to table inches."""

    piece: Piece
    page: ArtPage
    placement: Placement
    placed: Placed
    role: str
    pose: Pose
    """How it lies; `piece` has the outline that is seen of it."""


@dataclass(frozen=True)
class LaidEnvelope:
    """An envelope on the table: open or closed from the back, or its address side up."""

    envelope: Envelope
    back: EnvelopeView
    placed: Placed


@dataclass(frozen=True)
class Composition:
    """The part of the table that is shown, and what lies on it from the bottom up."""

    frame: Frame
    laid: tuple[LaidPiece | LaidEnvelope, ...]
    things: tuple[PlacedThing, ...] = ()


def compose(suite: Suite, scene: Scene, aspect: float, nth: int) -> Composition:
    """Returns the `nth` best arrangement of a suite, or the places its scene fixes.

    `aspect` is width over height. Raises InputError and LimitError for art that cannot be read,
    SuiteError where the scene fixes a piece the suite has not.
    """
    poses = {piece.name: pose_of(piece) for piece in suite.pieces}
    found = all_located([pose.source for pose in poses.values()])
    arts = dict(zip(poses, found, strict=True))
    marks = dict(zip(poses, objects_of(found), strict=True))
    backs = {envelope.name: view_of(envelope) for envelope in suite.envelopes}
    main = main_piece(suite).name if suite.pieces else ""
    items = [_piece_item(pose, marks[name], main) for name, pose in poses.items()]
    items += [_envelope_item(suite, each, backs[each.name]) for each in suite.envelopes]
    placed_items, frame = _arranged(items, scene, aspect, suite.scene.seed, nth)
    pieces = {f"piece/{name}": pose for name, pose in poses.items()}
    envelopes = {f"envelope/{each.name}": each for each in suite.envelopes}
    laid: list[LaidPiece | LaidEnvelope] = []
    for placed in placed_items:
        if placed.name in pieces:
            pose = pieces[placed.name]
            role = "main" if pose.seen.name == main else "card"
            laid.append(LaidPiece(pose.seen, *arts[pose.seen.name], placed, role, pose))
        else:
            envelope = envelopes[placed.name]
            laid.append(LaidEnvelope(envelope, backs[envelope.name], placed))
    return Composition(frame, tuple(sorted(laid, key=_stands)))


def _stands(laid: LaidPiece | LaidEnvelope) -> bool:
    """Returns whether it stands on the others, and so is drawn over them."""
    return isinstance(laid, LaidPiece) and laid.pose.is_raised


def cropped(composition: Composition, centre: Point, width_in: float) -> Composition:
    """Returns the part of a composition around `centre`, `width_in` wide, of the same aspect."""
    frame = composition.frame
    height_in = width_in * frame.height_in / frame.width_in
    left = min(max(centre.x - width_in / 2, 0.0), frame.width_in - width_in)
    top = min(max(centre.y - height_in / 2, 0.0), frame.height_in - height_in)
    moved = translation(-left, -top)
    laid = tuple(
        replace(each, placed=replace(each.placed, to_table=moved @ each.placed.to_table))
        for each in composition.laid
    )
    things = tuple(replace(each, to_table=moved @ each.to_table) for each in composition.things)
    return Composition(Frame(width_in, height_in, 0.0), laid, things)


def edge_of_interest(composition: Composition, away_deg: float) -> Point:
    """Returns the point of the main piece's cut edge farthest from the light, over other paper.

    `away_deg` is where shadows fall, clockwise from the top of the picture. Without other paper
    under the edge any point of it will do; without a main piece, the middle of the picture.
    """
    frame = composition.frame
    middle = Point(frame.width_in / 2, frame.height_in / 2)
    index = next((k for k, each in enumerate(composition.laid) if _is_main(each)), None)
    if index is None:
        return middle
    points = outline_points(composition.laid[index])
    below = [Polygon(outline_points(each)) for each in composition.laid[:index]]
    over = [any(sheet.contains(ShapelyPoint(point)) for sheet in below) for point in points]
    chosen = points[over] if any(over) else points
    away = math.radians(away_deg)
    farthest = (chosen @ (math.sin(away), -math.cos(away))).argmax()
    return Point(float(chosen[farthest, 0]), float(chosen[farthest, 1]))


def _is_main(laid: LaidPiece | LaidEnvelope) -> bool:
    return isinstance(laid, LaidPiece) and laid.role == "main"


def outline_points(laid: LaidPiece | LaidEnvelope) -> Ring:
    """Returns the outline of what is laid, in table inches, fine enough for arranging."""
    is_piece = isinstance(laid, LaidPiece)
    outline = laid.piece.die.shape.outer if is_piece else _outer(laid.back)
    return ring(outline.mapped(laid.placed.to_table), _COARSE_IN)


def main_piece(suite: Suite) -> Piece:
    """Returns the piece a picture is built around: the largest."""
    return max(suite.pieces, key=lambda piece: piece.die.width_in * piece.die.height_in)


def _arranged(
    items: Sequence[Item], scene: Scene, aspect: float, seed: int, nth: int
) -> tuple[tuple[Placed, ...], Frame]:
    if not scene.places:
        try:
            arrangement = remembered(
                ("arrangement", key_of(items), aspect, seed, nth),
                lambda: arrange(items, aspect, seed, nth),
            )
            return arrangement.placed, arrangement.frame
        except ValueError as error:
            raise SuiteError(f"scene.arrange: {error}") from error
    by_name = {item.name.partition("/")[2]: item for item in items}
    for name in scene.places:
        if name not in by_name:
            raise SuiteError(
                f'scene {scene.name}: fixes a place for "{name}", which the suite has not'
                f"{nearest(name, by_name)}"
            )
    assert scene.width_in is not None  # read_scene asks for it where places are fixed
    return _fixed(by_name, scene), Frame(scene.width_in, scene.width_in / aspect, 0.0)


def _fixed(by_name: Mapping[str, Item], scene: Scene) -> tuple[Placed, ...]:
    order = sorted(scene.places, key=lambda name: scene.places[name].layer)
    return tuple(
        place(by_name[name], scene.places[name].angle_deg, Point(*scene.places[name].at), layer)
        for layer, name in enumerate(order)
    )


def _piece_item(pose: Pose, marks: Sequence[ArtObject], main: str) -> Item:
    piece = pose.seen
    return Item(
        f"piece/{piece.name}",
        ring(piece.die.shape.outer, _COARSE_IN),
        pose.kept_clear(marks),
        "main" if piece.name == main else "card",
    )


def _envelope_item(suite: Suite, envelope: Envelope, back: EnvelopeView) -> Item:
    return Item(
        f"envelope/{envelope.name}",
        ring(_outer(back), _COARSE_IN),
        kept_in_sight(suite, envelope, back),
        "envelope",
        _worth_seeing(back),
    )


def _outer(back: EnvelopeView) -> Outline:
    if isinstance(back, FaceUp):
        return back.sheet.outer
    return back.back_sheet.outer if isinstance(back, OpenBack) else back.body.outer


def _worth_seeing(back: EnvelopeView) -> tuple[Ring, ...]:
    """Returns what should stay in sight: the lined flap, or the flap that closes the envelope; of
    an address side what is on it, which nothing may hide at all."""
    if isinstance(back, FaceUp):
        return ()
    if isinstance(back, ClosedBack):
        return (ring(back.flap.outer, _COARSE_IN),)
    lined = ring(back.liner.outer, _COARSE_IN)
    (left, top), (right, _) = lined.min(axis=0), lined.max(axis=0)
    above_fold = Polygon([(left, top), (right, top), (right, 0), (left, 0)])
    on_flap = polygons_of(Polygon(lined).intersection(above_fold)) if top < 0 else []
    return tuple(np.array(part.exterior.coords[:-1], dtype=np.float64) for part in on_flap)
