"""Limits of print and cutting, each with its unit and its source; where none is published, it says.

The printer's own numbers go before any of these.
"""

from __future__ import annotations

from dataclasses import dataclass

from mockup.units import mm_to_in

COMMON = "common practice, no source"


@dataclass(frozen=True)
class Limit:
    """A number of the trade: value, unit, and the source a reader can look up."""

    value: float
    unit: str
    source: str

    @property
    def published(self) -> bool:
        """Whether a source exists beyond the habit of the trade."""
        return self.source != COMMON


# Cutting. Bleed and safe margin are twice the cut shift, so the worst cut still keeps half of each.
CUT_SHIFT = Limit(1 / 16, "in", COMMON)
CUT_SHIFT_GOOD = Limit(1 / 32, "in", COMMON)
BLEED = Limit(1 / 8, "in", COMMON)
BLEED_METRIC = Limit(mm_to_in(3), "in", "MedienStandard Druck (bvdm), 3 mm")
SAFE = Limit(1 / 8, "in", COMMON)
SAFE_MM = 3.0  # what printers who measure in millimetres ask; common practice, no source
SAFE_BORDER = Limit(1 / 4, "in", COMMON)
SAFE_MARGINS = (
    SAFE, SAFE_BORDER, BLEED_METRIC, Limit(mm_to_in(5), "in", COMMON), Limit(3 / 16, "in", COMMON),
)  # fmt: skip
TURN = Limit(0.25, "°", COMMON)  # of the cut: 0.03 in over the length of an A7 card
LOOKS_WRONG = Limit(1 / 32, "in", COMMON)  # type nearer the cut than this
TEARS = Limit(1 / 32, "in", COMMON)  # a bridge of paper this thin tears out
CALIPERS_A_SLOT = 3.0  # common practice, no source: a slot is thrice as wide as stock is thick
TEMPLATE_LINE = Limit(2, "pt", COMMON)  # the thickest that lines of a template are drawn
CROP_MARK_LENGTHS = (Limit(0.04, "in", COMMON), Limit(0.6, "in", COMMON))  # shortest, longest
SMALLEST_SLOT = Limit(3 / 32, "in", COMMON)  # also the least between two rules of a steel die
FOLD_CLEAR = Limit(1 / 8, "in", COMMON)  # from type to a fold
SCORED_ABOVE = Limit(200, "g/m\u00b2", COMMON)  # heavier paper is scored before it is folded
REGISTER = Limit(mm_to_in(0.10), "in", "ISO 12647-2:2013, from memory")

# Type and lines.
TYPE_POSITIVE = Limit(6, "pt", "Flexography: Principles & Practices, vol. 1")
TYPE_REVERSED = Limit(8, "pt", "Flexography: Principles & Practices, vol. 1")
TYPE_RICH_BLACK = Limit(9.0, "pt", "Ghent Workgroup GWG2015 4.16, small type of several inks")
SIZE_PER_X_HEIGHT = 1 / 0.45  # type size over x-height of usual faces; common practice, no source
X_HEIGHT = Limit(
    mm_to_in(1.4), "in", "Legge & Bigelow 2011, J. Vision 11(5):8: 0.2 degree at 40 cm"
)
CONTRAST_SMALL = Limit(4.5, "to 1", "W3C WCAG 2.2, 1.4.3, for screens: here advice")
CONTRAST_LARGE = Limit(3.0, "to 1", "W3C WCAG 2.2, 1.4.3, for screens: here advice")
LARGE_TYPE_PT = 18.0  # W3C WCAG 2.2, large scale (text)
LINE_POSITIVE = Limit(0.25, "pt", COMMON)
LINE_REVERSED = Limit(0.5, "pt", COMMON)

# Pictures and ink.
IMAGE_PPI = Limit(300, "ppi", "MedienStandard Druck (bvdm): 2 pixels a line at 60 lines/cm")
IMAGE_PPI_LOW = Limit(224, "ppi", "Ghent Workgroup GWG2015 4.26, warning")
IMAGE_PPI_STOP = Limit(149, "ppi", "Ghent Workgroup GWG2015 4.26, error")
BITMAP_PPI_LOW = Limit(799, "ppi", "Ghent Workgroup GWG2015 4.27, warning; from memory")
BITMAP_PPI_STOP = Limit(549, "ppi", "Ghent Workgroup GWG2015 4.27, error; from memory")
BITMAP_PPI = Limit(1200, "ppi", COMMON)
IMAGE_SKIPPED_PX = 16  # GWG2015 3.15: images this small are not judged
TOTAL_INK = Limit(320, "%", "Ghent Workgroup GWG2015 4.22, mean over any 15 mm²")
BEYOND_SHARE = Limit(0.02, "of the area", COMMON)  # of colours out of reach: less is not told
TOTAL_INK_PATCH_IN = mm_to_in(15**0.5)  # side of the square the mean is taken over

# Codes.
CODE_SIDE = Limit(0.6, "in", COMMON)  # of a matrix code read at arm's length by a telephone
CODE_MODULE = Limit(mm_to_in(0.33), "in", COMMON)  # the dots of a matrix code
CODE_BAR = Limit(mm_to_in(0.264), "in", "GS1 General Specifications, EAN at 80 %; from memory")
CODE_CONTRAST = Limit(0.4, "of reflectance", "ISO/IEC 15415 and 15416, grade C; from memory")

# Envelopes.
WALLS = 2  # plane geometry: a face and a back; seams and flap overlap are not under the cards
WALLS_AT_FLAP = 4  # common practice, no source: face, back, and the flap over the bottom flap
ENVELOPE_SIZE = Limit(mm_to_in(1.5), "in", "DIN 680:2008 4.1, outer size either way")


def iso_216_tolerance(side_in: float) -> Limit:
    """Returns how far a side of a trimmed ISO sheet may be off, either way, inches."""
    side_mm = side_in / mm_to_in(1)
    # The steps are closed above; the margin keeps 150 mm, held in inches, on its side.
    for up_to_mm, tolerance_mm in ((150, 1.5), (600, 2.0)):
        if side_mm <= up_to_mm + 1e-6:
            return Limit(mm_to_in(tolerance_mm), "in", "ISO 216:2007")
    return Limit(mm_to_in(3), "in", "ISO 216:2007")
