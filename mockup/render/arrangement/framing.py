"""A frame around a layout: how much of it is paper, how wide its margins are."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mockup.render.arrangement.board import Board, Spot
from mockup.render.arrangement.model import Frame, Score
from mockup.render.arrangement.search import Draft
from mockup.render.arrangement.sprites import CELL_IN

MARGINS = (0.085, 0.07, 0.06)  # least, of the frame's shorter side: of one piece, two, more
FILL_RANGE = (0.6, 0.7)  # share of the picture under paper
FILL = 60.0  # of the share missing or too much
MARGINS_UNLIKE = 8.0  # of their difference, in parts of the shorter side
MARGINS_FREE = 0.02
LEANING = 0.12  # of a turned piece


@dataclass(frozen=True)
class Framed:
    """A layout on a board, and the frame it asks for; the frame's corner in the board's inches."""

    board: Board
    draft: Draft
    order: tuple[int, ...]
    frame: Frame
    left_in: float
    top_in: float
    score: Score
    fill: float


def margin_share(count: int) -> float:
    """Returns the least margin of a picture of so many pieces, in parts of its shorter side."""
    return MARGINS[min(count, len(MARGINS)) - 1]


def framed(board: Board, draft: Draft, aspect: float) -> Framed:
    """Returns the smallest frame that gives a layout its margins, and the layout's score in it."""
    left, top, right, bottom = _extents(board, draft.spots)
    frame = frame_for(right - left, bottom - top, aspect, len(board.pieces), 0.0)
    paper = _union_in2(board, draft.spots)
    frame = frame_for(right - left, bottom - top, aspect, len(board.pieces), paper)
    fill = paper / (frame.width_in * frame.height_in)
    beside = (frame.width_in - right + left) / 2
    above = (frame.height_in - bottom + top) / 2
    unlike = abs(beside - above) / min(frame.width_in, frame.height_in)
    score = Score(
        *board.terms(draft.spots),
        FILL * (max(0.0, FILL_RANGE[0] - fill) + max(0.0, fill - FILL_RANGE[1])),
        MARGINS_UNLIKE * max(0.0, unlike - MARGINS_FREE),
        LEANING * sum(piece.angle_deg != 0 for piece in board.pieces),
    )
    return Framed(board, draft, board.pose.order, frame, left - beside, top - above, score, fill)


def frame_for(width_in: float, height_in: float, aspect: float, count: int, paper: float) -> Frame:
    """Returns the smallest frame of an aspect around a layout of a width and height, with margins;
    `paper` is the area under paper, of which no frame shows more than its range."""
    wide, tall = max(aspect, 1.0), max(1 / aspect, 1.0)  # sides in units of the shorter one
    margin = margin_share(count)
    short = max(width_in / (wide - 2 * margin), height_in / (tall - 2 * margin))
    short = max(short, math.sqrt(paper / FILL_RANGE[1] / (wide * tall)))
    return Frame(short * wide, short * tall, margin * short)


def _extents(board: Board, spots: Sequence[Spot]) -> tuple[float, float, float, float]:
    """Returns the box around all pieces, inches from the board's top left."""
    sizes = [piece.sprite.size for piece in board.pieces]
    middles = [(column * CELL_IN, row * CELL_IN) for row, column in spots]
    pairs = list(zip(middles, sizes, strict=True))
    return (
        min(x - width / 2 for (x, _), (width, _) in pairs),
        min(y - height / 2 for (_, y), (_, height) in pairs),
        max(x + width / 2 for (x, _), (width, _) in pairs),
        max(y + height / 2 for (_, y), (_, height) in pairs),
    )


def _union_in2(board: Board, spots: Sequence[Spot]) -> float:
    under = np.zeros((board.rows + 2, board.columns + 2), dtype=np.bool_)
    for piece, (row, column) in zip(board.pieces, spots, strict=True):
        left, top, right, bottom = piece.sprite.extent
        body = piece.sprite.body
        y, x = body.shape[0] // 2, body.shape[1] // 2
        under[row - top : row + bottom, column - left : column + right] |= body[
            y - top : y + bottom, x - left : x + right
        ]
    return float(under.sum()) * CELL_IN**2
