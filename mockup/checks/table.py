"""The table of checks. A new one is a function in a file here, and a line below."""

from __future__ import annotations

from collections.abc import Callable

from mockup.checks.bands import check_bands
from mockup.checks.beside import check_beside
from mockup.checks.bleed import check_bleed
from mockup.checks.die_sense import check_die
from mockup.checks.enclosure import check_enclosure
from mockup.checks.envelope_sides import check_sides
from mockup.checks.envelope_type import check_type
from mockup.checks.finding import Finding
from mockup.checks.finish_edges import check_finish_edges
from mockup.checks.finish_plates import check_finish_plates
from mockup.checks.folds import check_folds
from mockup.checks.gamut import check_gamut
from mockup.checks.left_in import check_left_in
from mockup.checks.liners import check_liners
from mockup.checks.minimum import check_minimum
from mockup.checks.names import check_names
from mockup.checks.overlays import check_overlays
from mockup.checks.page_context import PageContext
from mockup.checks.post import check_post
from mockup.checks.print_sense import check_print_sense
from mockup.checks.safe import check_safe
from mockup.checks.shift import check_shift
from mockup.checks.size import check_size
from mockup.checks.suite_context import SuiteContext
from mockup.checks.undrawn import check_undrawn

PAGE_CHECKS: dict[str, Callable[[PageContext], list[Finding]]] = {
    "size": check_size,
    "left-in": check_left_in,
    "bleed": check_bleed,
    "safe": check_safe,
    "shift": check_shift,
    "die": check_die,
    "fold": check_folds,
    "print": check_print_sense,
    "undrawn": check_undrawn,
    "finish plates": check_finish_plates,
    "finish edges": check_finish_edges,
}
"""What is asked of every piece's page."""

SUITE_CHECKS: dict[str, Callable[[SuiteContext], list[Finding]]] = {
    "names": check_names,
    "enclosure": check_enclosure,
    "liners": check_liners,
    "faces": check_sides,
    "type": check_type,
    "overlay": check_overlays,
    "band": check_bands,
    "beside": check_beside,
    "minimum": check_minimum,
    "gamut": check_gamut,
    "post": check_post,
}
"""What is asked of the suite as a whole."""

WITHOUT_PLACE = ("size", "die", "print", "undrawn")
"""What can still be asked when the card cannot be found on its page."""
