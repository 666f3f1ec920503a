"""Scenes asked for: the tables a suite can be laid on, each with a plain card in its light."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.asks.gallery_request import GalleryRequest, looked_at
from mockup.output.gallery import Gallery, Sample, write_gallery
from mockup.progress import Progress
from mockup.render.samples import TABLE_IN, scene_sample
from mockup.render.scenes import Scene, read_scene, scene_names
from mockup.trade.papers import stock

_ACROSS = 2
_HIGH_IN = 3.5 * TABLE_IN[1] / TABLE_IN[0]


class ScenesRequest(GalleryRequest):
    """The scenes to be listed; see GalleryRequest."""


@dataclass(frozen=True)
class ScenesAnswer:
    """The scenes there are, and the file written."""

    scenes: tuple[Scene, ...]
    written: Path | None


def list_scenes(request: ScenesRequest, progress: Progress | None = None) -> ScenesAnswer:
    """Returns the scenes there are, and draws them where that is asked.

    Raises RequestError, SuiteError, LimitError, OutputError.
    """
    looked = looked_at(request)
    scenes = tuple(read_scene(name, Path()) for name in scene_names())
    if looked.output is not None:
        card = stock("eggshell-110-ivory")
        samples: list[Sample] = []
        for number, scene in enumerate(scenes, 1):
            samples.append(Sample(scene.name, (scene.about,), scene_sample(scene, card)))
            if progress is not None:
                progress(0.9 * number / len(scenes))
        about = "Six inches of each table, with a plain ivory card in its own light."
        gallery = Gallery("Scenes", about, samples, _ACROSS, _HIGH_IN)
        write_gallery(looked.output, gallery, looked.width_px)
    if progress is not None:
        progress(1.0)
    return ScenesAnswer(scenes, looked.output)
