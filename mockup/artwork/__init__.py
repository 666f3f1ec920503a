"""From PDF and SVG to pixels and objects; the only home of pymupdf and cairosvg."""
