"""How much the program takes on. Judgements, set where no honest print file comes near."""

from __future__ import annotations

PAGE_SIDE_MIN_PT = 3.0
PAGE_SIDE_MAX_PT = 14_400.0  # ISO 32000-1 Annex C: the largest page of a PDF without UserUnit
PICTURE_MAX_PX = 150_000_000
FLATLAY_WIDTH_MAX_PX = 12_000
PAGE_SECONDS = 30.0
WORKER_MEMORY_BYTES = 2 * 1024**3
PAGES_MAX = 200
FILE_MAX_BYTES = 512 * 1024**2
SVG_MAX_BYTES = 10 * 1024**2
SVG_MAX_DEPTH = 256
SVG_MAX_ELEMENTS = 200_000  # after every `use` has been unfolded
TOML_MAX_BYTES = 1024**2  # suite, scene and catalogue files are a few kB
TOML_MAX_DEPTH = 12  # tables and lists inside one another; the suite file needs five
PHOTOGRAPH_MAX_BYTES = 128 * 1024**2  # a table's photograph, as a camera saves it
