"""The table of kinds, and which programs keep what a kind needs."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from benchmarks.templates import kinds, more_kinds
from benchmarks.templates.bases import Made, Told
from benchmarks.templates.programs import KEEPS_LAYERS, KEEPS_SPOTS, WRITES_BOXES

Draws = Callable[[Random, Told], Made]

KINDS: dict[str, tuple[Draws, tuple[str, ...] | None]] = {
    "colours": (kinds.nested_colours, None),
    "dashes": (kinds.nested_dashes, None),
    "all-black": (kinds.nested_all_black, None),
    "legend": (kinds.legend, None),
    "legend-two": (kinds.legend_two, None),
    "legend-words": (kinds.legend_words, None),
    "layers": (kinds.named_layers, KEEPS_LAYERS),
    "spots": (kinds.spots, KEEPS_SPOTS),
    "crop-marks": (kinds.crop_marks, None),
    "page-boxes": (kinds.page_boxes, WRITES_BOXES),
    "filled": (kinds.filled, None),
    "page-filling": (kinds.page_filling, None),
    "drafted": (kinds.drafted, None),
    "two-sizes": (kinds.two_sizes, None),
    "twins": (kinds.twins, None),
    "folded": (kinds.folded, None),
    "measured": (kinds.measured, None),
    "hidden": (kinds.hidden_layers, ("inkscape-plain", "inkscape-own")),
    "labelled": (kinds.labelled, None),
    "art": (kinds.with_art, None),
    "grid": (kinds.guided, None),
    "tag": (kinds.tag, None),
    "tag-layers": (kinds.tag, KEEPS_LAYERS),
    "sheet-frame": (kinds.sheet_frame, None),
    "bare-pair": (kinds.bare_pair, None),
    "other-size": (kinds.other_size, None),
    "fills": (more_kinds.fills, None),
    "swatches": (more_kinds.swatches, None),
    "coloured-labels": (more_kinds.coloured_labels, None),
    "leaders": (more_kinds.leaders, None),
    "page-is-bleed": (more_kinds.page_is_bleed, None),
    "panels": (more_kinds.panels, None),
    "two-up": (more_kinds.two_up, None),
    "perforated": (more_kinds.perforated, None),
    "cased": (more_kinds.cased, None),
    "square-trim": (more_kinds.square_trim, None),
    "round-card": (more_kinds.round_card, None),
    "windowed": (more_kinds.windowed, KEEPS_LAYERS),
}
"""Every kind, and the programs it is for: those that keep what it needs, or all."""
