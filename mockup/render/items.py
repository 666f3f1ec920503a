"""What of a suite is laid, as items for the arrangement: outlines, what stays in sight, roles."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from shapely.geometry import Polygon

from mockup.artwork.objects import ArtObject
from mockup.envelopes.spec import FLAP_DEPTH, EnvelopeSpec
from mockup.envelopes.views import ClosedBack, FaceUp, OpenBack
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import Ring, ring
from mockup.geometry.offset import polygons_of
from mockup.geometry.outline import Outline
from mockup.geometry.point import Box
from mockup.reading.binding import stand_in
from mockup.reading.main_piece import inferred_main
from mockup.reading.overlaid import Overlay
from mockup.render.arrangement import Item
from mockup.render.drawn import Drawn, in_sight, outline
from mockup.render.faces import EnvelopeView, kept_in_sight
from mockup.render.folded import Pose
from mockup.suite.scene_reading import ENVELOPES
from mockup.suite.suite import Envelope, Piece, Suite

ROUGH_FLAP = 2 / 3  # of the height: between the depths of the trade's flaps
COARSE_IN = 0.01  # arranging needs outlines no finer than this


def main_piece(suite: Suite) -> Piece:
    """Returns the piece a picture is built around: the one the suite names, else the invitation by
    its name or the size of its type; what it is seen with, where it lies over or within another.

    Raises InputError and LimitError for art that cannot be read.
    """
    named = [piece for piece in suite.pieces if piece.name == suite.scene.main]
    main = named[0] if named else inferred_main(suite.pieces)
    return suite.piece(stand_in(suite, main.name))


def piece_item(pose: Pose, marks: Sequence[ArtObject], main: str) -> Item:
    """Returns a card as it lies: its type, drawings, borders and holes are kept clear."""
    shape = pose.seen.die.shape
    holes = (Polygon(ring(hole, COARSE_IN)).bounds for hole in shape.holes)
    return Item(
        piece_key(pose.of.name),
        ring(shape.outer, COARSE_IN),
        (*pose.kept_clear(marks), *(Box(*bounds) for bounds in holes)),
        "main" if pose.of.name == main else "card",
    )


def with_sheet(
    item: Item, overlay: Overlay | None, pose: Pose | None, marks: Mapping[str, Sequence[ArtObject]]
) -> Item:
    """Returns a card's item with what nothing may hide of the sheet that lies over it."""
    if overlay is None or pose is None:
        return item
    kept = (_moved(each, overlay.to_card) for each in pose.kept_clear(marks[pose.of.name]))
    return replace(item, keep_clear=(*item.keep_clear, *kept))


def _moved(kept: Ring | Box, shift: Affine) -> Ring | Box:
    if not isinstance(kept, Box):
        return mapped_ring(kept, shift)
    return kept.moved(shift.e, shift.f)


def envelope_item(
    suite: Suite, envelope: Envelope, view: EnvelopeView, drawn: Drawn | None, main: str
) -> Item:
    """Returns an envelope: its flap, or the lining on it, is worth seeing; with a card half drawn
    out of it, that card stands for both."""
    key = envelope_key(envelope.name)
    if drawn is None or not isinstance(view, OpenBack):
        kept = kept_in_sight(suite, envelope, view)
        return laid_envelope(key, envelope.spec, view, kept)
    return Item(
        key,
        mapped_ring(outline(view, drawn), drawn.to_item),
        tuple(mapped_ring(each, drawn.to_item) for each in in_sight(view, drawn)),
        "main" if drawn.piece.name == main else "card",
    )


def mapped_ring(points: Ring, affine: Affine) -> Ring:
    """Returns a ring's image under an affine map."""
    linear = np.array([[affine.a, affine.b], [affine.c, affine.d]])
    return points @ linear + (affine.e, affine.f)


def laid_envelope(
    name: str, spec: EnvelopeSpec, view: EnvelopeView, kept: tuple[Box, ...] = ()
) -> Item:
    """Returns an envelope of a spec as an item; `kept` is what nothing may hide of it."""
    rim = ring(outer_of(view), COARSE_IN)
    rough = _rough(name, spec) if isinstance(view, OpenBack) else None
    return Item(name, rim, kept, "envelope", _worth_seeing(spec, view), rough=rough)


def _rough(name: str, spec: EnvelopeSpec) -> Item:
    """Returns an open envelope of this size with a flap between the shallow and the deep ones."""
    width, height = spec.width_in, spec.height_in
    tip = (width / 2, -ROUGH_FLAP * height)
    rim = np.array([(0, 0), tip, (width, 0), (width, height), (0, height)], dtype=np.float64)
    return Item(name, rim, (), "envelope", (rim[:3] * 0.9 + (0.05 * width, 0.0),))


def outer_of(view: EnvelopeView) -> Outline:
    """Returns the outline of an envelope as it is laid."""
    if isinstance(view, FaceUp):
        return view.sheet.outer
    return view.back_sheet.outer if isinstance(view, OpenBack) else view.body.outer


def above_of(suite: Suite) -> tuple[tuple[str, str], ...]:
    """Returns the items that lie over others, the higher first, among what the suite has."""
    known = {each.name: piece_key(stand_in(suite, each.name)) for each in suite.pieces}
    known |= {str(e.drawn): envelope_key(e.name) for e in suite.envelopes if e.drawn in known}
    known |= {f"{ENVELOPES}{each.name}": envelope_key(each.name) for each in suite.envelopes}
    pairs = suite.scene.above
    both = [(known[a], known[b]) for a, b in pairs if a in known and b in known]
    return tuple(pair for pair in both if pair[0] != pair[1])


def piece_key(name: str) -> str:
    """Returns what a piece is called among the items."""
    return f"piece/{name}"


def envelope_key(name: str) -> str:
    """Returns what an envelope is called among the items."""
    return f"envelope/{name}"


def _worth_seeing(spec: EnvelopeSpec, back: EnvelopeView) -> tuple[Ring, ...]:
    """Returns what should stay in sight: the lined flap, or where flaps close an envelope; of an
    address side what is on it, which nothing may hide at all.

    Of a closed one the deepest flap there is is taken, so that another flap moves nothing.
    """
    if isinstance(back, FaceUp):
        return ()
    if isinstance(back, ClosedBack):
        width, tip = spec.width_in, max(FLAP_DEPTH.values()) * spec.height_in
        return (np.array([(0.0, 0.0), (width, 0.0), (width / 2, tip)], dtype=np.float64),)
    lined = ring(back.liner.outer, COARSE_IN)
    (left, top), (right, _) = lined.min(axis=0), lined.max(axis=0)
    above_fold = Polygon([(left, top), (right, top), (right, 0), (left, 0)])
    on_flap = polygons_of(Polygon(lined).intersection(above_fold)) if top < 0 else []
    return tuple(np.array(part.exterior.coords[:-1], dtype=np.float64) for part in on_flap)
