"""From a page to pixels, drawn straight through the matrix that places it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from mockup.artwork.own_pages import finish_plate, own_pages
from mockup.artwork.page import ArtPage, Placement, trim_matrix
from mockup.colour.plates import FinishPlate, InkPlates, Plate, Plates
from mockup.errors import LimitError
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes, View
from mockup.progress import Progress
from mockup.trade.limits import PICTURE_MAX_PX
from mockup.workshop import crew
from mockup.workshop.job import Job

DRAWN = "mockup.foreign.raster:drawn"
_INKED = "mockup.foreign.raster:inked"
_FINISHES = "mockup.foreign.finish_plates:plates_drawn"
_ALONE = "mockup.foreign.finish_plates:plate_alone"
_OWN_COLOURS = "mockup.foreign.own_colours:in_own_colours"


@dataclass(frozen=True)
class RasterJob:
    """One card's page, where the card lies on it, where the card goes, and the pixels wanted."""

    page: ArtPage
    placement: Placement
    to_view: Affine
    """From card inches (origin top left of the trim) to the inches of the view."""
    view: View


def rasterise(jobs: Sequence[RasterJob], progress: Progress | None = None) -> list[Plates]:
    """Returns every job's page as it goes to its press, or in RGB, its white ink and its finishes,
    those on pages of their own as well; which cannot be written to.

    The press is the file's own, else the art's; a page of RGB, with grey or not, has none. Layers
    as for printing; annotations are left out. Raises InputError for a page with nothing on it, or
    of a finish and not of the card's size, LimitError beyond 150 megapixels, 30 s or 2 GB.
    """
    drawn: list[Plates] = _done(DRAWN, jobs, progress)
    return [_with_own_pages(job, each) for job, each in zip(jobs, drawn, strict=True)]


def ink_plates(jobs: Sequence[RasterJob], progress: Progress | None = None) -> list[InkPlates]:
    """Returns every job's inks, plate by plate. Raises what rasterise raises."""
    return _done(_INKED, jobs, progress)


def finish_plates(jobs: Sequence[RasterJob]) -> list[tuple[FinishPlate, ...]]:
    """Returns the plates of every job's finishes but white, those on pages of their own as well,
    and draws nothing else. Raises what rasterise raises."""
    drawn: list[tuple[FinishPlate, ...]] = _done(_FINISHES, jobs, None)
    return [(*each, *_on_own_pages(job)) for job, each in zip(jobs, drawn, strict=True)]


def own_colours(jobs: Sequence[RasterJob]) -> list[tuple[Bytes, bytes]]:
    """Returns every job's page in sRGB on white by its own profiles, before any press has taken
    it, and the profile of the press it goes to. Raises what rasterise raises."""
    return _done(_OWN_COLOURS, jobs, None)


def _with_own_pages(job: RasterJob, drawn: Plates) -> Plates:
    more = _on_own_pages(job)
    return replace(drawn, finished=(*drawn.finished, *more)) if more else drawn


def _on_own_pages(job: RasterJob) -> list[FinishPlate]:
    own = own_pages(job.page.art.finishing, job.placement)
    jobs = [RasterJob(page, place, job.to_view, job.view) for _, page, place in own]
    plates: list[Plate] = _done(_ALONE, jobs, None) if jobs else []
    pairs = zip(own, plates, strict=True)
    return [finish_plate(said, plate) for (said, *_), plate in pairs if plate.any()]


def _done(task: str, jobs: Sequence[RasterJob], progress: Progress | None) -> list[Any]:
    for job in jobs:
        pixels = job.view.width_px * job.view.height_px
        if pixels > PICTURE_MAX_PX:
            raise LimitError(
                f"{job.page.art.where}: {job.view.width_px} x {job.view.height_px} px is over the "
                f"limit of {PICTURE_MAX_PX // 10**6} megapixels; ask for fewer pixels an inch"
            )
    return crew.done(task, [raster_job(job) for job in jobs], progress)


def raster_job(job: RasterJob) -> Job:
    """Returns the work on one page for a worker: its art, the matrix to pixels, and the pixels."""
    art, view = job.page.art, job.view
    to_pixels = Affine(view.ppi, 0, 0, view.ppi, -view.left_in * view.ppi, -view.top_in * view.ppi)
    matrix = to_pixels @ job.to_view @ trim_matrix(job.placement).inverse()
    given = (matrix, view.width_px, view.height_px)
    printed = (art.press, art.white, art.swatch, art.finishing)
    key = (art.sha256, art.page, art.left_out, *printed, *given)
    return Job((art, *given), art.where, art.sha256, key)
