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
CATALOGUES_MAX = 100  # of a folder; judgement: more than anybody buys from
TOML_MAX_BYTES = 1024**2  # suite, scene and catalogue files are a few kB
TOML_MAX_DEPTH = 16  # tables and lists inside one another; the suite file needs six
PHOTOGRAPH_MAX_BYTES = 128 * 1024**2  # a table's photograph, as a camera saves it
SVG_SHAPES_MAX = 20_000  # elements of a template or a thing, after every `use` has been unfolded
SVG_PATH_MAX_CHARACTERS = 2 * 1024**2  # of one path's data: some 200,000 segments
SVG_CSS_DEPTH_MAX = 32  # brackets within brackets in a style sheet
SVG_SELECTORS_MAX = 5_000
SVG_SELECTOR_TRIES_MAX = 20_000_000  # selectors by elements they may apply to: some four seconds
SVG_DECLARATIONS_MAX = 1_000_000  # of style sheets, at every element they apply to
SVG_NUMBER_MAX = 1e9
TEMPLATE_SEGMENTS_MAX = 200_000  # lines and curves of a template, all paths together
THINGS_MAX = 64  # of one picture; judgement: beyond any table
THING_SEGMENTS_MAX = 20_000  # lines and curves; judgement: many times the finest thing shipped
PDF_FORM_DEPTH_MAX = 16
PDF_FORMS_MAX = 2_000
PDF_OPERATORS_MAX = 1_000_000
PDF_CONTENT_MAX_BYTES = 32 * 1024**2  # of a template's drawing, unpacked: over a million operators
PDF_LAYERS_MAX = 1_000  # that one path lies on; judgement: a CAD drawing has a few hundred in all
PDF_DASHES_MAX = 16  # lengths kept of a pattern of dashes; PostScript took 11
PDF_GROUP_DEPTH_MAX = 32  # memberships and visibility expressions within one another
FARTHEST_IN = 10_000.0  # a point of a template or thing beyond this lies off any page
