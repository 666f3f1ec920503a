"""All that is known of one page: what was read of it, and what follows, each from what is above."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import shapely

from mockup.artwork.finishes import PlatesNamed
from mockup.artwork.inspection import Inspection, Painted
from mockup.artwork.page import ArtPage, Placement
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.dies.family import Die
from mockup.geometry.point import Box
from mockup.reading.bleed_edges import ShortBleed, short_edges
from mockup.reading.bleed_picture import short_stretches
from mockup.reading.codes import Code, find_codes
from mockup.reading.die_zones import DieZones
from mockup.reading.image_marks import image_marks
from mockup.reading.marks import Marks, sort_marks
from mockup.reading.part import read_parts
from mockup.reading.parts import Parts
from mockup.reading.sight import Inked, Sight
from mockup.reading.template_lines import TemplateLines, find_template_lines
from mockup.reading.type_lines import LetterLine, letter_lines
from mockup.suite.suite import Piece


@dataclass(frozen=True)
class PageFacts:
    """One piece's page. The fields were read; the properties follow from them, worked out once.

    `safe_in` is the margin the safe zone is drawn at, inches. `misfit` says why the card cannot be
    found on the page; the placement is then a guess, centred. `inked` is there where the page's
    inks may add up to much.
    """

    piece: Piece
    safe_in: float
    art: ArtPage
    placement: Placement
    misfit: str | None
    inspection: Inspection
    sight: Sight
    inked: Inked | None
    plates: Plates
    """The page drawn, as `sight` is."""
    undrawn: tuple[str, ...] = ()
    """What the art asks for that is not drawn, in words."""
    finishes: PlatesNamed = ()
    """The colourants that are a finish's plate, and whose."""
    white_lost: float = 0.0
    """The share of the white plates that art over them knocks out."""
    finish_misfits: tuple[str, ...] = ()
    """Why the pages of finishes do not fit the card, of each that does not: they are left out."""

    @property
    def has_finishes(self) -> bool:
        """Whether any plate is a finish's other than white ink, or the suite says of one."""
        return bool(self.piece.art.finishing) or any(what != "white" for _, what in self.finishes)

    @cached_property
    def printed(self) -> Sight:
        """The page as printed on the piece's own stock."""
        return Sight(self.plates.on(parse_hex(self.piece.stock.colour_hex)), self.sight.view)

    @cached_property
    def zones(self) -> DieZones:
        """The die's outlines on this page."""
        return self.zones_of(self.piece.die)

    def zones_of(self, die: Die) -> DieZones:
        """Returns the outlines another die would have on this page."""
        return zones_on(self.art, self.placement, die, self.safe_in, self.piece.bleed_in)

    @cached_property
    def margins(self) -> tuple[float, float, float, float]:
        """How far the page goes beyond the card: left, up, right, down, inches."""
        return self.placement.trim.margins_in(self.art.visible)

    @cached_property
    def bleed_on_page(self) -> float:
        """The least of the margins, within the file's BleedBox where it has one, inches."""
        if self.art.bleed is None:
            return min(self.margins)
        return min(*self.margins, *self.placement.trim.margins_in(self.art.bleed))

    @cached_property
    def off_centre(self) -> tuple[float, float]:
        """How far right and down of the page's middle the card lies, inches."""
        left, up, right, down = self.margins
        return (left - right) / 2, (up - down) / 2

    @cached_property
    def template_lines(self) -> TemplateLines:
        """A template's lines and marks in the art."""
        return find_template_lines(self.inspection, self.zones)

    @cached_property
    def parts(self) -> Parts:
        """Everything painted as art, sorted by where it lies to the cut."""
        return Parts(read_parts(self.inspection, self.zones, self.template_lines.painted))

    @cached_property
    def short_ends(self) -> dict[int, ShortBleed]:
        """Which parts end along the cut before the bleed does, and where."""
        return short_edges(self.parts, self.zones, self.sight)

    @cached_property
    def short_stretches(self) -> list[ShortBleed]:
        """Where along the cut art ends before the bleed does."""
        no_art = self.template_lines.painted
        ends = self.short_ends.values()
        return short_stretches(self.parts, ends, no_art, self.zones, self.sight)

    @cached_property
    def marks(self) -> Marks:
        """What has to stay clear of the cut, and the borders along it."""
        in_images = image_marks(self.inspection, self.zones, self.sight)
        ends = self.short_ends
        lines, codes = self.letter_lines, self.codes
        return sort_marks(self.parts, ends, in_images, lines, codes, self.zones, self.sight)

    @cached_property
    def letter_lines(self) -> list[LetterLine]:
        """The lines of type, live or outlined."""
        return letter_lines(self.parts)

    @cached_property
    def codes(self) -> list[Code]:
        """The codes that machines read."""
        return find_codes(self.inspection, self.sight)


def zones_on(
    art: ArtPage, placement: Placement, die: Die, safe_in: float, bleed_in: float
) -> DieZones:
    """Returns a die's outlines where the card lies on a page."""
    trim, page = placement.trim, art.visible
    around = Box(
        page.left - trim.left,
        page.top - trim.top,
        page.right - trim.left,
        page.bottom - trim.top,
    )
    return DieZones(die.shape, safe_in, bleed_in, around)


def on_card(page: PageFacts) -> list[Painted]:
    """Returns what of a page lies on the card or its bleed at all."""
    card = shapely.box(*page.zones.shape.box.grown(page.piece.bleed_in))
    return [p for p in page.inspection.painted if card.intersects(shapely.box(*p.box))]
