"""A print file's steps read by the reader of templates, against the die they were drawn from."""

from __future__ import annotations

import math
from collections.abc import Sequence

from mockup.artwork.art import Art
from mockup.artwork.inspection import Inspection
from mockup.artwork.print_copy import StepLines
from mockup.errors import LimitError, Mistake, RefusedError, quoted
from mockup.geometry.affine import translation
from mockup.geometry.outline import Segment
from mockup.geometry.path_data import drawn_segments
from mockup.geometry.point import Point
from mockup.ordering.drafts import Draft
from mockup.sources import read_whole
from mockup.trade.limits import FILE_MAX_BYTES
from mockup.vector.template import TemplatePath
from mockup.workshop import crew
from mockup.workshop.job import Job

_TEMPLATE = "mockup.vector.pdf_page:read_pdf_template"
_LAST = "mockup.vector.pdf_page:read_last_drawing"
WITHIN_IN = 2e-5  # judgement: half a micrometre; a page's numbers are written to a thousandth of it


def refuse_other_steps(draft: Draft, art: Art, own: Inspection) -> list[str]:
    """Returns the checks passed, in words. Raises RefusedError where a step is not as it was drawn.

    Art of more lines than a template may have is passed over; the steps come last.
    """
    steps = draft.order.steps
    if not steps:
        return []
    name, source = draft.file_name, read_whole(art.path, FILE_MAX_BYTES)
    try:
        (template,) = crew.done(_TEMPLATE, [Job((name, source, 1), name, art.sha256)])
    except LimitError:
        (template,) = crew.done(_LAST, [Job((name, source), name, art.sha256)])
    for step in steps:
        paths = [each for each in template.paths if step.step in each.steps]
        _refuse_paths(draft, step, paths)
        _refuse_printed(draft, step, own)
    return [f"{_called(step)} read back as {step.step}, {WITHIN_IN:g} in" for step in steps]


def _refuse_paths(draft: Draft, step: StepLines, paths: Sequence[TemplatePath]) -> None:
    trim = draft.sheet.placement.trim
    home = translation(trim.left, trim.top)
    runs = [each.segments for each in step.outlines] + list(step.courses)
    if len(paths) != len(runs):
        raise _refused(draft, f"{_called(step)} has {len(paths)} lines, not {len(runs)}")
    for path, run in zip(paths, runs, strict=True):
        if path.layers != (step.layer,) or path.inks != (step.name,) or path.filled:
            raise _refused(draft, f"{_called(step)} is not on its own layer and in its own ink")
        wanted = _places([part.mapped(home) for part in run])
        found = _places(path.segments)
        if len(found) != len(wanted) or any(
            math.dist(one, other) > WITHIN_IN for one, other in zip(found, wanted, strict=True)
        ):
            raise _refused(draft, f"{_called(step)} is not where the die has it")


def _refuse_printed(draft: Draft, step: StepLines, own: Inspection) -> None:
    """Raises RefusedError unless a step is there, is seen, does not print, and overprints."""
    if any(each.layer == step.layer for each in own.painted):
        raise _refused(draft, f"{_called(step)} would be printed")
    lines = [each for each in own.hidden if each.layer == step.layer]
    if not lines or not all(each.overprint and each.pen is not None for each in lines):
        raise _refused(draft, f"{_called(step)} knocks out what lies under it")


def _places(segments: Sequence[Segment]) -> list[Point]:
    """Returns the ends and middles of a run's segments as they are drawn, none of no length."""
    found: list[Point] = []
    for part in drawn_segments(segments):
        if math.dist(part.start, part.end) > WITHIN_IN:
            found += [part.start, part.at(0.5), part.end]
    return found


def _called(step: StepLines) -> str:
    return f"the step {quoted(step.name)}"


def _refused(draft: Draft, what: str) -> RefusedError:
    said = f"read again, {what}; nothing is written; save the art again as PDF"
    return RefusedError(Mistake(said, draft.file_name))
