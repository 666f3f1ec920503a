"""The pages of an envelope at true size: addressed and closed, then open with its liner."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.colour.plates import Plates
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.proof.envelope_sights import Sight, closed_sight, face_sight, open_sight
from mockup.output.proof.grid import LABEL, RULER_TAIL_IN, draw_check, draw_title
from mockup.output.proof.layout import Layout, is_folded, laid_out
from mockup.output.proof.notes import Note, draw_notes
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.voices import folded_words, inside_notes, outside_notes
from mockup.output.proof.words import size_told
from mockup.suite.suite import Envelope

_BASELINE_IN = 0.2  # from a drawing to its caption's baseline
_OPTICAL_MIDDLE = 0.36

_NotesOf = Callable[[Telling, Envelope, str], tuple[Note, ...]]


def envelope_pages(telling: Telling, envelope: Envelope) -> list[Page]:
    """Returns the pages of an envelope. Raises what reading its liner's and its sides' art
    raises."""
    rows = [face_sight(telling, envelope)]
    closed = closed_sight(telling, envelope)
    both = _planned(telling, envelope, envelope.title, [*rows, closed], outside_notes)
    inside = [open_sight(telling, envelope)]
    if is_folded(telling.suite.paper, both.layout):
        outside = _planned(telling, envelope, envelope.title, rows, outside_notes)
        inside = [closed, *inside]
    else:
        outside = both
    opened = _planned(telling, envelope, f"{envelope.title}, open", inside, inside_notes)
    return [_page(telling, outside), _page(telling, opened)]


@dataclass(frozen=True)
class _Planned:
    envelope: Envelope
    title: str
    sights: tuple[Sight, ...]
    layout: Layout
    notes: tuple[Note, ...]


def _planned(
    telling: Telling, envelope: Envelope, title: str, sights: Sequence[Sight], notes_of: _NotesOf
) -> _Planned:
    paper, units = telling.suite.paper, telling.suite.units
    notes = notes_of(telling, envelope, "")
    pictures = [each.picture for each in sights]
    layout = laid_out(paper, title, pictures, notes, RULER_TAIL_IN)
    if is_folded(paper, layout):
        longer = notes_of(telling, envelope, folded_words(paper, layout, units))
        layout = laid_out(paper, title, pictures, longer, RULER_TAIL_IN)
        notes = notes_of(telling, envelope, folded_words(paper, layout, units))
    layout = layout.lowered(_OPTICAL_MIDDLE * max(0.0, layout.spare.height))
    return _Planned(envelope, title, tuple(sights), layout, notes)


def _page(telling: Telling, planned: _Planned) -> Page:
    layout, envelope = planned.layout, planned.envelope

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, planned.title)
        left = list(drawn)
        for sight, place in zip(planned.sights, layout.places, strict=True):
            own, left = left[: len(sight.jobs)], left[len(sight.jobs) :]
            with pdf.element("Figure", _alt(telling, envelope, sight.caption)):
                sight.paint(pdf, place, own)
            with pdf.element("Caption"):
                y = place.y + sight.height_in + _BASELINE_IN
                pdf.text(Point(place.x, y), sight.caption, LABEL)
        draw_notes(pdf, layout.columns, planned.notes)
        draw_check(pdf, telling.suite.units)

    jobs = tuple(job for sight in planned.sights for job in sight.jobs)
    return Page(planned.title, layout.width_in, layout.height_in, draw, jobs, envelope)


def _alt(telling: Telling, envelope: Envelope, caption: str) -> str:
    size = size_told(envelope.spec.width_in, envelope.spec.height_in, telling.suite.units)
    return f"{envelope.title} at true size, {size}: {caption[:1].lower()}{caption[1:]}"
