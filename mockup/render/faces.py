"""The outside of an envelope in a flat-lay: which side lies up, its art, and the type set on it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np

from mockup.artwork.objects import keep_clear, objects_of
from mockup.artwork.page import ArtPage, Placement
from mockup.colour.srgb import Rgb, decode, encode, linear
from mockup.envelopes.flap import closed_flap
from mockup.envelopes.lettering import letters
from mockup.envelopes.views import ClosedBack, FaceUp, OpenBack, closed_back, face_up, open_back
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import ring
from mockup.geometry.outline import Outline
from mockup.geometry.point import Box, Point, box_of
from mockup.pixels import Bytes, View
from mockup.reading.envelope_sides import PrintedSide, printed_side, side_up
from mockup.reading.envelope_type import SetType, type_on
from mockup.render.coverage import coverage
from mockup.suite.outside import EnvelopeSide
from mockup.suite.suite import Envelope, Suite
from mockup.trade.postal import postage_corner

EnvelopeView = OpenBack | ClosedBack | FaceUp
"""An envelope as it lies: open from the back, closed, or with its address side up."""

_FINE_PX = 0.02  # how far a letter's polygon may lie from its curve


@dataclass(frozen=True)
class Laid:
    """One flat colour laid over a sheet: the outlines of a letter, or of paper left bare."""

    outlines: tuple[Outline, ...]
    colour: Rgb

    def mapped(self, affine: Affine) -> Laid:
        """Returns the image under an affine map."""
        return Laid(tuple(each.mapped(affine) for each in self.outlines), self.colour)

    @property
    def box(self) -> Box:
        """The smallest box around it."""
        return box_of(corner for each in self.outlines for corner in each.box.corners())


@dataclass(frozen=True)
class SideShown:
    """What is seen of a side of an envelope: its art and where it goes, and what lies over that."""

    art: tuple[ArtPage, Placement, Affine] | None = None
    over: tuple[Laid, ...] = ()


BARE_SIDE = SideShown()


def view_of(envelope: Envelope, opened: Collection[str] | None = None) -> EnvelopeView:
    """Returns an envelope's sheets as it lies, by `side_up`."""
    lies = side_up(envelope, opened)
    if lies == "face":
        return face_up(envelope.spec)
    return open_back(envelope.spec) if lies == "open" else closed_back(envelope.spec)


def side_shown(suite: Suite, envelope: Envelope, side: EnvelopeSide) -> SideShown:
    """Returns what is seen of a side, inches from its top left as it is seen closed.

    Raises InputError for art of another size than the side's.
    """
    printed = printed_side(envelope, side, suite.bleed_in)
    return SideShown(_art_of(printed), _letters_of(type_on(suite, envelope, side)))


def pocket_shown(suite: Suite, envelope: Envelope, opened: bool) -> SideShown:
    """Returns what is seen of the pocket: art of the whole back, none where the flap lay on it."""
    printed = printed_side(envelope, "flap", suite.bleed_in)
    if printed is None or not printed.over_pocket:
        return BARE_SIDE
    bare = Laid(closed_flap(envelope.spec).outlines, envelope.colour)
    return SideShown(_art_of(printed), (bare,) if opened else ())


def _art_of(printed: PrintedSide | None) -> tuple[ArtPage, Placement, Affine] | None:
    """Returns a side's page, where the side lies on it, and the map to the side."""
    return printed and (printed.page, printed.placement, printed.to_side)


def _letters_of(blocks: Sequence[SetType]) -> tuple[Laid, ...]:
    """Returns the letters of lines of type, each in its ink's colour."""
    return tuple(Laid(each, set_.colour) for set_ in blocks for each in letters(set_.block))


def kept_in_sight(suite: Suite, envelope: Envelope, view: EnvelopeView) -> tuple[Box, ...]:
    """Returns what no higher piece may hide of an envelope as it lies: type set on the side that
    is seen, what its art draws there, and the corner where its stamp goes. A back printed all
    over may be covered as any ground.

    Raises what reading the art raises.
    """
    if isinstance(view, OpenBack):
        return ()
    side: EnvelopeSide = "face" if isinstance(view, FaceUp) else "flap"
    boxes = [each.block.box for each in type_on(suite, envelope, side)]
    boxes += _drawn_on(printed_side(envelope, side, suite.bleed_in))
    if side == "face":
        boxes.append(postage_corner(envelope.spec.width_in, envelope.spec.height_in).box)
    return tuple(boxes)


def _drawn_on(printed: PrintedSide | None) -> list[Box]:
    """Returns the boxes of the type and drawings of a side's art, inches of the side."""
    if printed is None or printed.over_pocket:
        return []
    die = printed.piece.die
    (marks,) = objects_of([(printed.page, printed.placement)])
    at = printed.to_side.point(Point(0, 0))
    return [
        Box(box.left + at.x, box.top + at.y, box.right + at.x, box.bottom + at.y)
        for box in keep_clear(marks, die.width_in, die.height_in)
    ]


def lay(picture: Bytes, view: View, over: Sequence[Laid]) -> None:
    """Lays flat colours over an opaque (h, w, 3) picture, in place, in linear light, by exact
    coverage."""
    fine_in = _FINE_PX / view.ppi
    for each in over:
        own = view.within(each.box, 1)
        if not (own.width_px and own.height_px):
            continue
        left, top = own.offset_in(view)
        part = picture[top : top + own.height_px, left : left + own.width_px]
        share = coverage([ring(outline, fine_in) for outline in each.outlines], own)[..., None]
        touched = share[..., 0] > 0
        mixed = decode(part[touched]) * (1 - share[touched]) + linear(each.colour) * share[touched]
        part[touched] = encode(mixed.astype(np.float32))
