"""`mockup papers`: the papers a suite file can name."""

from __future__ import annotations

from typing import Any

from mockup.cli import console
from mockup.cli.gallery_options import GalleryFile, GalleryJson, GalleryUnits, GalleryWidth


def papers(
    output: GalleryFile = None,
    units: GalleryUnits = "in",
    width: GalleryWidth = 2000,
    json: GalleryJson = False,
) -> None:
    """List the papers there are, with their weight and thickness; -o draws them."""
    from mockup.asks.papers import PapersRequest, about, list_papers
    from mockup.units import Unit, format_caliper, in_to_mm

    answer = list_papers(PapersRequest(output, units, width))
    if json:
        rows: list[dict[str, Any]] = [
            {
                "name": paper.name,
                "about": paper.about,
                "gsm": paper.gsm,
                "caliper_mil": round(paper.caliper_mil, 3),
                "caliper_um": round(in_to_mm(paper.caliper_mil), 1),
                "colour": paper.colour_hex,
                "colour_source": paper.colour_source,
                "texture": paper.grain,
                "source": paper.source,
            }
            for paper in answer.papers
        ]
        console.say_json({"papers": rows, "written": answer.written and str(answer.written)})
        return
    told: Unit = "mm" if units == "mm" else "in"
    if answer.written is not None:
        console.say(f"{answer.written}: {len(answer.papers)} papers")
        return
    console.say_rows(
        ("paper", "g/m\u00b2", "thick", "what"),
        [
            (
                each.name,
                f"{each.gsm:.0f}",
                format_caliper(each.caliper_mil, told),
                about(each),
            )
            for each in answer.papers
        ],
    )
