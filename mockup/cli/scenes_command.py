"""`mockup scenes`: the scenes a suite can be laid on."""

from __future__ import annotations

from typing import Any

from mockup.cli import console
from mockup.cli.gallery_options import GalleryFile, GalleryJson, GalleryWidth
from mockup.cli.ready import make_ready


def scenes(
    output: GalleryFile = None,
    width: GalleryWidth = 2000,
    json: GalleryJson = False,
) -> None:
    """List the scenes there are; -o draws each with a plain card in its light."""
    make_ready()
    from mockup.asks.scenes import ScenesRequest, list_scenes

    answer = list_scenes(ScenesRequest(output, width_px=width))
    if json:
        rows: list[dict[str, Any]] = [
            {
                "name": scene.name,
                "about": scene.about,
                "aspect": round(scene.aspect, 4),
                "folder": str(scene.folder),
                "things": [wish.svg for wish in scene.things],
            }
            for scene in answer.scenes
        ]
        console.say_json({"scenes": rows, "written": answer.written and str(answer.written)})
        return
    if answer.written is not None:
        console.say(f"{answer.written}: {len(answer.scenes)} scenes")
        return
    console.say_rows(("scene", "what"), [(each.name, each.about) for each in answer.scenes])
