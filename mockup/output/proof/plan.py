"""What a proof is made from, and what a page of it is before it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from mockup.artwork.raster import RasterJob
from mockup.checks.finding import Finding
from mockup.colour.plates import Plates
from mockup.geometry.point import Box
from mockup.output.pdf import Pdf
from mockup.pixels import Bytes
from mockup.suite.audience import Audience
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.trade.tolerances import SAFE


@dataclass(frozen=True)
class Telling:
    """All a proof tells, and whom. `flatlay` is the cover's picture, (h, w, 3) uint8 sRGB.

    `watermark` goes across every page, and holds art to a proof's resolution. `extra` makes the
    pages that are there when asked for: each answers pages, which stand after the envelopes.
    For the studio also: findings, the margin they were measured with, and prices by piece.
    """

    suite: Suite
    flatlay: Bytes
    audience: Audience = Audience.CLIENT
    watermark: str | None = None
    extra: Sequence[Callable[[Telling], Sequence[Page]]] = ()
    findings: Sequence[Finding] = ()
    safe_in: float = SAFE.value
    prices: Mapping[str, tuple[str, ...]] = field(default_factory=dict[str, tuple[str, ...]])

    @property
    def for_studio(self) -> bool:
        """Whether the studio reads it: she is told lines, numbers, findings and prices."""
        return self.audience is Audience.STUDIO

    def numbered(self, piece: str) -> list[tuple[int, Finding]]:
        """Returns a piece's findings with the numbers they have in the list."""
        return [(n, each) for n, each in enumerate(self.findings, 1) if each.piece == piece]


@dataclass(frozen=True)
class Place:
    """A place on a page for an answer: what is asked there, and its box, inches from the top left.

    `kind` is "choice" for a box to be ticked, "line" or "text" for words.
    """

    name: str
    kind: str
    box: Box


@dataclass(frozen=True)
class Page:
    """A page before it is drawn: its title, its size in inches, the drawings of art it needs, and
    how it is drawn from them. `of` is what the cover lists it by; `places` are for answers."""

    title: str
    width_in: float
    height_in: float
    draw: Callable[[Pdf, Sequence[Plates]], None]
    jobs: tuple[RasterJob, ...] = ()
    of: Piece | Envelope | None = None
    places: tuple[Place, ...] = ()
