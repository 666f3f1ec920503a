"""What of a suite lies where on the table: its pieces and open envelopes, arranged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from shapely import Polygon

from mockup.artwork.objects import ArtObject, objects_of
from mockup.artwork.page import ArtPage, Placement
from mockup.envelopes.views import OpenBack
from mockup.errors import SuiteError, nearest
from mockup.geometry.affine import Affine, translation
from mockup.geometry.flatten import Ring, ring
from mockup.geometry.point import Point
from mockup.geometry.union import rim_of
from mockup.reading.binding import Bound, lying_bound
from mockup.reading.overlaid import Overlay, overlays
from mockup.render.arrangement import Frame, Item, Placed, arrange
from mockup.render.arrangement.model import place
from mockup.render.bands import bound_item, seen_of
from mockup.render.cords import corded, laid_cord, loop_of
from mockup.render.drawn import Drawn, drawn_card
from mockup.render.drawn import outline as drawn_outline
from mockup.render.faces import EnvelopeView, view_of
from mockup.render.folded import Pose, pose_of
from mockup.render.items import (
    COARSE_IN,
    above_of,
    envelope_item,
    envelope_key,
    main_piece,
    mapped_ring,
    outer_of,
    piece_item,
    piece_key,
    with_sheet,
)
from mockup.render.memory import key_of, remembered
from mockup.render.piece import all_located
from mockup.render.scenes import Scene, Wish
from mockup.render.things.reading import PlacedThing
from mockup.suite.suite import Envelope, Piece, Suite


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
    card: LaidPiece | None = None
    """The card it lies on and curls with: of a sheet that is seen through, of bound cards."""
    bound: Bound | None = None
    """Of a band, what it goes round; `piece` is then what of the strip is seen."""


@dataclass(frozen=True)
class LaidEnvelope:
    """An envelope on the table: open or closed from the back, or its address side up."""

    envelope: Envelope
    back: EnvelopeView
    placed: Placed
    drawn: Drawn | None = None
    """The card that is half drawn out of it."""
    role: str = "envelope"


@dataclass(frozen=True)
class Composition:
    """The part of the table that is shown, and what lies on it from the bottom up."""

    frame: Frame
    laid: tuple[LaidPiece | LaidEnvelope, ...]
    things: tuple[PlacedThing, ...] = ()
    without_room: tuple[Wish, ...] = ()
    """What was to lie beside the paper and found no place."""


def compose(suite: Suite, scene: Scene, aspect: float, nth: int) -> Composition:
    """Returns the `nth` best arrangement of a suite, or the places its scene fixes.

    `aspect` is width over height. Raises InputError and LimitError for art that cannot be read,
    SuiteError where the scene fixes a piece the suite has not.
    """
    poses = {
        piece.name: pose_of(piece)
        for piece in suite.pieces
        if piece.wraps is None or piece.wraps.is_bound  # an open strip is nothing to lay down
    }
    found = all_located([pose.source for pose in poses.values()])
    arts = dict(zip(poses, found, strict=True))
    marks = dict(zip(poses, objects_of(found), strict=True))
    backs = {each.name: view_of(each, suite.scene.open) for each in suite.envelopes}
    main = main_piece(suite).name if suite.pieces else ""
    drawn: dict[str, Drawn] = {}
    for envelope in suite.envelopes:
        name, back = envelope.drawn, backs[envelope.name]
        if name is not None and isinstance(back, OpenBack):
            pose = poses.pop(name)
            drawn[envelope.name] = drawn_card(envelope, back, pose.of, arts[name], marks[name])
    bundles = {each.cards[0].name: each for each in lying_bound(suite)}
    inner = _without_bound(poses, bundles.values())
    over = {each.card.name: each for each in overlays(suite)}
    sheets = {name: poses.pop(each.sheet.name) for name, each in over.items()}
    items = [
        with_sheet(
            corded(piece_item(pose, marks[name], main), pose.seen),
            over.get(name),
            sheets.get(name),
            marks,
        )
        for name, pose in poses.items()
    ]
    items = [_bundled(item, bundles, marks) for item in items]
    items += [
        envelope_item(suite, each, backs[each.name], drawn.get(each.name), main)
        for each in suite.envelopes
    ]
    wanted = _Wanted(aspect, suite.scene.seed, nth, above_of(suite))
    placed_items, frame = _arranged(items, scene, wanted)
    pieces = {piece_key(name): pose for name, pose in poses.items()}
    envelopes = {envelope_key(each.name): each for each in suite.envelopes}
    laid: list[LaidPiece | LaidEnvelope] = []
    for placed in placed_items:
        if placed.name in pieces:
            pose = pieces[placed.name]
            role = "main" if pose.seen.name == main else "card"
            card = LaidPiece(pose.seen, *arts[pose.seen.name], placed, role, pose)
            bundle = bundles.get(pose.of.name)
            stack = [card] if bundle is None else bound_pieces(card, bundle, inner, arts)
            if pose.of.name in over:
                sheet = sheets[pose.of.name]
                art = arts[sheet.of.name]
                under = len(stack) if bundle is None else len(stack) - 1  # a band goes round both
                stack.insert(under, _on_card(card, over[pose.of.name], sheet, art))
            laid += stack
        else:
            envelope = envelopes[placed.name]
            held, back = drawn.get(envelope.name), backs[envelope.name]
            role = "main" if held is not None and held.piece.name == main else "envelope"
            laid.append(LaidEnvelope(envelope, back, _turned(placed, held), held, role))
    return Composition(frame, tuple(sorted(laid, key=_stands)))


def _without_bound(poses: dict[str, Pose], bundles: Iterable[Bound]) -> dict[str, Pose]:
    """Returns the poses of bands and of the cards under front ones, taken from all."""
    names = [name for each in bundles for name in (*each.names[1:], each.band.name)]
    return {name: poses.pop(name) for name in names}


def _bundled(
    item: Item, bundles: Mapping[str, Bound], marks: Mapping[str, Sequence[ArtObject]]
) -> Item:
    """Returns a card's item, or that of all it is bound with."""
    bundle = bundles.get(item.name.partition("/")[2])
    return item if bundle is None else bound_item(item, bundle, marks[bundle.band.name])


def bound_pieces(
    front: LaidPiece,
    bundle: Bound,
    inner: Mapping[str, Pose],
    arts: Mapping[str, tuple[ArtPage, Placement]],
) -> list[LaidPiece]:
    """Returns bound cards from the lowest to the front one, then their band: one stack."""
    to_table, stack = front.placed.to_table, list[LaidPiece]()
    for card in reversed(bundle.cards[1:]):
        pose = inner[card.name]
        placed = _at(front, card.name, to_table @ bundle.under_front(card))
        lowest = stack[0] if stack else None
        stack.append(LaidPiece(pose.seen, *arts[card.name], placed, "card", pose, lowest))
    stack.append(replace(front, card=stack[0] if stack else None))
    band = bundle.band
    placed = _at(front, band.name, to_table @ bundle.to_card)
    art, pose = arts[band.name], inner[band.name]
    return [*stack, LaidPiece(seen_of(bundle), *art, placed, "card", pose, stack[0], bundle)]


def _at(front: LaidPiece, name: str, to_table: Affine) -> Placed:
    return replace(front.placed, name=piece_key(name), to_table=to_table)


def _on_card(
    card: LaidPiece, overlay: Overlay, pose: Pose, art: tuple[ArtPage, Placement]
) -> LaidPiece:
    """Returns a sheet that is seen through as it lies on its card."""
    to_table = card.placed.to_table @ overlay.to_card
    placed = replace(card.placed, name=piece_key(pose.of.name), to_table=to_table)
    return LaidPiece(pose.seen, *art, placed, "over", pose, card)


def _turned(placed: Placed, card: Drawn | None) -> Placed:
    """Returns where an envelope lies: its card was arranged upright, and may lie on its side."""
    if card is None:
        return placed
    turned = placed.to_table @ card.to_item
    return replace(placed, to_table=turned, angle_deg=placed.angle_deg + card.turn_deg)


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


def is_main(laid: LaidPiece | LaidEnvelope) -> bool:
    """Returns whether it is what the picture is built around, or the main card is drawn from it."""
    return laid.role == "main"


def outline_points(laid: LaidPiece | LaidEnvelope) -> Ring:
    """Returns the outline of what is laid, in table inches, fine enough for arranging."""
    is_piece = isinstance(laid, LaidPiece)
    if not is_piece and laid.drawn is not None and isinstance(laid.back, OpenBack):
        return mapped_ring(drawn_outline(laid.back, laid.drawn), laid.placed.to_table)
    loop = loop_of(laid.piece) if is_piece else None
    if is_piece and loop is not None:
        card = Polygon(ring(laid.piece.die.shape.outer, COARSE_IN))
        rim = rim_of([card, loop.area.buffer(COARSE_IN)])
        return mapped_ring(rim, laid.placed.to_table)
    outline = laid.piece.die.shape.outer if is_piece else outer_of(laid.back)
    return ring(outline.mapped(laid.placed.to_table), COARSE_IN)


def cords_on(composition: Composition) -> tuple[PlacedThing, ...]:
    """Returns the cords of what is laid, as things on the table."""
    cords = (
        laid_cord(each.piece, each.placed.to_table)
        for each in composition.laid
        if isinstance(each, LaidPiece)
    )
    return tuple(each for each in cords if each is not None)


class _Wanted(NamedTuple):
    """Which arrangement is wanted, as `arrange` is told it."""

    aspect: float
    seed: int
    nth: int
    above: tuple[tuple[str, str], ...]


def _arranged(
    items: Sequence[Item], scene: Scene, wanted: _Wanted
) -> tuple[tuple[Placed, ...], Frame]:
    if not scene.places:
        try:
            arrangement = remembered(
                ("arrangement", key_of(items), *wanted), lambda: arrange(items, *wanted)
            )
            return arrangement.placed, arrangement.frame
        except ValueError as error:
            raise SuiteError(f"scene.arrange: {error}") from error
    by_name = {item.name.partition("/")[2]: item for item in items}
    for name in scene.places:
        if name not in by_name:
            raise SuiteError(
                f'scene {scene.name}: fixes a place for "{name}", which the suite has not, or '
                f"shows with another card{nearest(name, by_name)}"
            )
    assert scene.width_in is not None  # read_scene asks for it where places are fixed
    return _fixed(by_name, scene), Frame(scene.width_in, scene.width_in / wanted.aspect, 0.0)


def _fixed(by_name: Mapping[str, Item], scene: Scene) -> tuple[Placed, ...]:
    order = sorted(scene.places, key=lambda name: scene.places[name].layer)
    return tuple(
        place(by_name[name], scene.places[name].angle_deg, Point(*scene.places[name].at), layer)
        for layer, name in enumerate(order)
    )
