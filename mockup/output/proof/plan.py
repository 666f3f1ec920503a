"""What a proof is made from, and what a page of it is before it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from mockup.artwork.raster import RasterJob
from mockup.checks.finding import Finding
from mockup.colour.plates import Plates
from mockup.output.marked import is_on
from mockup.output.pdf import Pdf
from mockup.pixels import Bytes
from mockup.record.fingerprint import envelope_name
from mockup.record.revisions import Issue
from mockup.suite.audience import Audience
from mockup.suite.suite import Envelope, Piece, SideName, Suite
from mockup.trade.tolerances import SAFE


@dataclass(frozen=True)
class Telling:
    """All a proof tells, and whom. `flatlay` is the cover's picture, (h, w, 3) uint8 sRGB.

    `issue` is what the proof bears: its revision, its day, every fingerprint.
    `watermark` goes across every page, and holds art to a proof's resolution. `extra` makes the
    pages that are there when asked for: each answers pages, which stand after the envelopes.
    For the studio also: findings, the margin they were measured with, and prices by piece.
    """

    suite: Suite
    flatlay: Bytes
    issue: Issue
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

    def code(self, item: Piece | Envelope) -> str:
        """Returns the short fingerprint of a piece or an envelope."""
        name = item.name if isinstance(item, Piece) else envelope_name(item)
        return self.issue.codes[name]

    def numbered(self, side: Piece) -> list[tuple[int, Finding]]:
        """Returns the findings on a side of a piece with the numbers they have in the list."""
        return [(n, each) for n, each in enumerate(self.findings, 1) if is_on(side, each)]

    def numbered_on(self, envelope: Envelope, side: SideName) -> list[tuple[int, Finding]]:
        """Returns the findings on a printed side of an envelope with their numbers in the list."""
        name = envelope_name(envelope)
        numbered = enumerate(self.findings, 1)
        return [(n, each) for n, each in numbered if (each.piece, each.side) == (name, side)]


@dataclass(frozen=True)
class Page:
    """A page before it is drawn: its title, its size in inches, the drawings of art it needs, and
    how it is drawn from them. `of` is what the cover lists it by."""

    title: str
    width_in: float
    height_in: float
    draw: Callable[[Pdf, Sequence[Plates]], None]
    jobs: tuple[RasterJob, ...] = ()
    of: Piece | Envelope | None = None
