"""Saves scenes by WeasyPrint: a web page with the drawing in it, a TrimBox and a BleedBox."""

import weasyprint

from benchmarks.art.programs.as_svg import svg
from benchmarks.art.programs.tasks import tasks


def draw(scene, out):
    """Saves one scene as PDF."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = (scene[k] for k in ("width", "height"))
    style = (
        f"@page {{ size: {wide}in {high}in; margin: 0; bleed: {edge}in }} body {{ margin: 0 }} "
        f"svg {{ position: absolute; left: -{edge}in; top: -{edge}in }}"
    )
    page = f"<html><style>{style}</style><body>{svg(scene)}</body></html>"
    weasyprint.HTML(string=page).write_pdf(out)


if __name__ == "__main__":
    for scene, out in tasks():
        draw(scene, out)
