"""The piece a suite is about: the invitation, by its name, else by the size of its type."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mockup.artwork.inspection import Painted, inspect
from mockup.reading.lettering import letter_chains
from mockup.reading.page import placed
from mockup.suite.suite import Piece
from mockup.trade.tolerances import SIZE_PER_X_HEIGHT
from mockup.trade.vocabulary import INVITATION
from mockup.units import PT_PER_INCH

WITHIN = 0.95  # judgement: type of nearly one size is of one size; then the larger card leads


def inferred_main(pieces: Sequence[Piece]) -> Piece:
    """Returns the only piece whose name says that it is the invitation, else the one with the
    largest type; of those alike, or without type, the largest card.

    Raises InputError and LimitError for art that cannot be read.
    """
    called = [piece for piece in pieces if _says_invitation(piece)]
    among = called or list(pieces)
    if len(among) == 1:
        return among[0]
    sizes = [largest_type_pt(piece) for piece in among]
    most = max(sizes) * WITHIN
    large = [piece for piece, size in zip(among, sizes, strict=True) if size >= most]
    return max(large, key=lambda piece: piece.die.width_in * piece.die.height_in)


def largest_type_pt(piece: Piece) -> float:
    """Returns the size of a card's largest type in points, outlined type by the usual height of its
    letters; 0 for a card without. Raises InputError and LimitError as reading pages does."""
    page, placement, _ = placed(piece)
    painted = inspect(page.art, placement).painted
    live = [p.lettering.size_pt for p in painted if p.lettering and p.lettering.text.strip()]
    return max((*live, *_outlined_pt(painted)), default=0.0)


def _outlined_pt(painted: Sequence[Painted]) -> list[float]:
    filled = [p for p in painted if p.kind == "path" and p.pen is None]
    rings = [ring for each in filled for ring in each.rings if len(ring)]
    if not rings:
        return []
    boxes = np.array([(*ring.min(axis=0), *ring.max(axis=0)) for ring in rings])
    heights = [
        float(np.median(boxes[row][:, 3] - boxes[row][:, 1])) for row in letter_chains(boxes)
    ]
    return [height * PT_PER_INCH * SIZE_PER_X_HEIGHT for height in heights]


def _says_invitation(piece: Piece) -> bool:
    words = f"{piece.name} {piece.title}".casefold().replace("-", " ").replace("_", " ").split()
    return any(word in INVITATION for word in words)
