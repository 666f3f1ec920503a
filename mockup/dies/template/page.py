"""A template's page as it is weighed: its outlines, its short lines, its labels and sizes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import islice

from mockup.dies.template.legend import Label, SizeSaid, labels_of, lengths_said, sizes_said
from mockup.dies.template.rings import SPECK_IN, Ring, lines_of, path_box
from mockup.geometry.outline import Line
from mockup.geometry.point import Box
from mockup.trade.tolerances import CROP_MARK_LENGTHS
from mockup.units import Unit
from mockup.vector.template import Template, TemplatePath

SIZE_WITHIN_IN = 0.02  # inch and millimetre names of one card differ by less
WEIGHED_MAX = 2000  # judgement: of lines, or of small shapes; more are art
_ROUND_OF = (1, 2, 4, 8)  # arcs or cubics that programs draw a circle of
_HOLE_SHARE = 0.25  # judgement: holes and slots take up less of a card


@dataclass(frozen=True, eq=False)
class Page:
    """A template's page as it is weighed: its outlines, and what it says of them."""

    template: Template
    paths: tuple[TemplatePath, ...]
    outlines: tuple[Ring, ...]
    card_in: tuple[float, float] | None
    unit: Unit

    @cached_property
    def labels(self) -> list[Label]:
        """What its labels say of its lines."""
        return labels_of(self.template, self.outlines)

    @cached_property
    def sizes(self) -> list[SizeSaid]:
        """The sizes it states."""
        return sizes_said(self.template)

    @cached_property
    def lengths(self) -> list[float]:
        """The lengths it states, one by one."""
        return lengths_said(self.template)

    @cached_property
    def lines(self) -> list[tuple[TemplatePath, Box]]:
        """Its single straight lines, each with its box."""
        single = (path for path in lines_of(self.paths) if len(path.segments) == 1)
        straight = (path for path in single if isinstance(path.segments[0], Line))
        return [(path, path_box(path)) for path in islice(straight, WEIGHED_MAX)]

    @cached_property
    def crop_lines(self) -> list[Box]:
        """Its short level and upright lines."""
        shortest, longest = (limit.value for limit in CROP_MARK_LENGTHS)
        return [
            box
            for _, box in self.lines
            if min(box.width, box.height) < 0.004
            and shortest <= max(box.width, box.height) <= 2 * longest
        ]

    def is_page(self, ring: Ring) -> bool:
        """Returns whether an outline is the page's own edge."""
        box = ring.box
        return (
            abs(box.left) + abs(box.top) < SIZE_WITHIN_IN
            and abs(box.width - self.template.width_in) < SIZE_WITHIN_IN
            and abs(box.height - self.template.height_in) < SIZE_WITHIN_IN
            and len(ring.outline.segments) <= 5
        )

    def is_holed(self, ring: Ring) -> bool:
        """Returns whether small outlines in one are painted with it, or a circle drawn as it is."""
        return any(self._is_hole_of(ring, path, box) for path, box in self._small)

    def _is_hole_of(self, ring: Ring, path: TemplatePath, box: Box) -> bool:
        outer, centre = ring.box, box.centre
        if box.width * box.height > _HOLE_SHARE * outer.width * outer.height:
            return False
        if not (outer.left < centre.x < outer.right and outer.top < centre.y < outer.bottom):
            return False
        if path.painted in ring.painted:
            return True
        circle = abs(box.width - box.height) < 0.003 and len(path.segments) in _ROUND_OF
        cut = ring.seen_path
        same = path.stroke is not None and path.stroke == cut.stroke and path.fill == cut.fill
        return circle and same and path.dashes_in == cut.dashes_in

    @cached_property
    def _small(self) -> list[tuple[TemplatePath, Box]]:
        """Closed paths as large as holes and slots are, with their boxes."""
        boxes = ((path, path_box(path)) for path in self.paths if path.closed or path.filled)
        small = ((p, box) for p, box in boxes if SPECK_IN < max(box.width, box.height) < 2.5)
        return list(islice(small, WEIGHED_MAX))

    def has_card_size(self, ring: Ring) -> bool:
        """Returns whether an outline has the card's size; False where no card is known."""
        return self.card_in is not None and same_size(ring.size_in, self.card_in)


def same_size(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Returns whether two sizes are one but for rounding and units."""
    return all(abs(a - b) <= SIZE_WITHIN_IN for a, b in zip(one, other, strict=True))
