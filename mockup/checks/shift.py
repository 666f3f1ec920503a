"""Die shift: cutting wanders and turns a little. The worst case, and a run of pieces tried."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.settings import Settings
from mockup.geometry.affine import Affine
from mockup.geometry.point import Point
from mockup.reading.die_zones import DieZones
from mockup.trade.tolerances import CUT_SHIFT, Limit

CHECK = "shift"
# Common practice, no source: two in three pieces within half the wander either way, nineteen in
# twenty within all of it.
SIGMAS = 2.0
SURE_SIGMAS = 6.0  # two in a thousand million lie further, by the normal law
THIN_IN = 0.02  # judgement: a third of the usual wander; nearer points are cut alike
NEARLY_IN = 0.12  # judgement: nearly twice the usual wander; what lies deeper is never cut first
NOTED_SHARE = 0.001  # judgement: one piece in a run of a thousand
WARNED_SHARE = 0.01  # judgement: one piece in a hundred


@dataclass(frozen=True)
class Run:
    """Pieces cut one after another. `moves` is (n, 3): how far the cut went right and down, inches,
    and how far it turned, degrees clockwise; `clearances` (n,) the least distance of anything
    important from the cut, inches, negative where it is cut."""

    moves: NDArray[np.float64]
    clearances: NDArray[np.float64]

    def share_under(self, distance_in: float) -> float:
        """Returns the share of pieces with something important nearer the cut than a distance."""
        return float((self.clearances < distance_in).mean())

    def chosen(self) -> tuple[int, int, int]:
        """Returns the numbers of the best, the typical and the worst piece."""
        order = np.lexsort((np.hypot(*self.moves[:, :2].T), -self.clearances))
        return int(order[0]), int(order[len(order) // 2]), int(order[-1])


def check_shift(context: PageContext) -> list[Finding]:
    """Returns what a cut that wanders would do to what has to stay clear of it."""
    settings, zones = context.settings, context.page.zones
    points = rim_points(context.page.marks.points, zones, settings)
    if not len(points):
        return []
    nearest = zones.signed(points).min()
    if nearest >= settings.safe_in:
        return []  # a margin of twice the wander is four standard deviations
    if nearest < 0:
        return []  # every piece has it cut, as `safe` tells
    worst, at = worst_case(points, zones, settings.cut_shift_in, settings.turn_deg)
    run = try_run(points, zones, settings)
    cut, near = run.share_under(0.0), run.share_under(settings.near_in)
    if near < NOTED_SHARE:
        return []
    severity = Severity.WARN if cut >= WARNED_SHARE else Severity.NOTE
    message = (
        f"of {settings.run} copies {cut * 100:.1f} % lose something and {near * 100:.1f} % have "
        f"something nearer the cut than {settings.length(settings.near_in)}, where cutting wanders "
        f"by {settings.length(settings.cut_shift_in)}"
    )
    keep = settings.length(2 * settings.cut_shift_in)
    fix = f"keep what matters {keep} from the cut, or cut more truly"
    limit = Limit(0.0, "in", CUT_SHIFT.source)
    return [found(CHECK, severity, context.page.piece.name, message, fix, limit, worst, at)]


def run_of(context: PageContext) -> Run:
    """Returns a run of a piece's page. Where nothing important comes near the cut, its clearances
    are those of the whole art's outline; on a bare page, of the middle of the card."""
    points = rim_points(context.page.marks.points, context.page.zones, context.settings)
    if not len(points):
        points = _hull(context.page.marks.points)
    if not len(points):
        points = np.array([context.page.zones.shape.box.centre])
    return try_run(points, context.page.zones, context.settings)


def _hull(points: NDArray[np.float64]) -> NDArray[np.float64]:
    return shapely.get_coordinates(shapely.convex_hull(shapely.multipoints(points)))


def rim_points(
    points: NDArray[np.float64], zones: DieZones, settings: Settings
) -> NDArray[np.float64]:
    """Returns the points that a wandering cut could come near, thinned to one each 0.02 in.

    Empty where none comes near in six standard deviations.
    """
    if not len(points):
        return points
    box = zones.shape.box
    turn_in = math.radians(settings.turn_deg) * math.hypot(box.width, box.height) / 2
    reach = settings.near_in + SURE_SIGMAS / SIGMAS * (settings.cut_shift_in + turn_in)
    calm = zones.inside(reach)
    if not calm.is_empty:
        points = points[~shapely.contains_xy(calm, points[:, 0], points[:, 1])]
    if not len(points):
        return points
    signed = zones.signed(points)
    kept = signed < signed.min() + NEARLY_IN
    points, signed = points[kept], signed[kept]
    cells = np.floor(points / THIN_IN).astype(np.int64)
    order = np.lexsort((signed, cells[:, 1], cells[:, 0]))
    cells, points = cells[order], points[order]
    first = np.concatenate([[True], (np.diff(cells, axis=0) != 0).any(axis=1)])
    return points[first]


def worst_case(
    points: NDArray[np.float64], zones: DieZones, shift_in: float, turn_deg: float
) -> tuple[float, Point]:
    """Returns the least distance from the cut that any shift of `shift_in`, with a turn either way,
    can leave, inches; and where on the art that is.

    A shift straight at the nearest point of the cut takes all its length off the distance.
    """
    least, place = math.inf, Point(0, 0)
    for turn in (-turn_deg, 0.0, turn_deg):
        moved = _as_cut(points, np.array([[0.0, 0.0, turn]]), zones)[0]
        signed = zones.signed(moved) - shift_in
        k = int(np.argmin(signed))
        if signed[k] < least:
            least, place = float(signed[k]), Point(float(points[k][0]), float(points[k][1]))
    return least, place


def try_run(points: NDArray[np.float64], zones: DieZones, settings: Settings) -> Run:
    """Returns a run of pieces, the same for the same seed.

    Shifts across and down and the turn are independent and normal; `cut_shift_in` and `turn_deg`
    are two standard deviations of each.
    """
    random = np.random.default_rng(settings.seed)
    spread = np.array([settings.cut_shift_in, settings.cut_shift_in, settings.turn_deg]) / SIGMAS
    moves = random.standard_normal((settings.run, 3)) * spread
    moved = _as_cut(points, moves, zones)
    signed = zones.signed(moved.reshape(-1, 2)).reshape(settings.run, len(points))
    return Run(moves, signed.min(axis=1))


def cut_affine(move: NDArray[np.float64], zones: DieZones) -> Affine:
    """Returns the map from a true cut to one that went by (right, down, degrees clockwise)."""
    across, down, turn_deg = (float(v) for v in move)
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    cx, cy = zones.shape.box.centre
    return Affine(
        cos, sin, -sin, cos, cx - cos * cx + sin * cy + across, cy - sin * cx - cos * cy + down
    )


def _as_cut(
    points: NDArray[np.float64], moves: NDArray[np.float64], zones: DieZones
) -> NDArray[np.float64]:
    """Returns (moves, points, 2): the art as the moved die sees it."""
    centre = np.array(zones.shape.box.centre)
    back = points[None, :, :] - centre - moves[:, None, :2]
    cos, sin = np.cos(np.radians(moves[:, 2])), np.sin(np.radians(moves[:, 2]))
    x = back[..., 0] * cos[:, None] + back[..., 1] * sin[:, None]
    y = -back[..., 0] * sin[:, None] + back[..., 1] * cos[:, None]
    return np.stack([x, y], axis=-1) + centre
