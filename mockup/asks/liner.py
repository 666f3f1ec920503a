"""A liner's template asked for, by an envelope's size and flap, or by a suite's envelope."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import PathGiven, choice_of, path_of, text_of, text_or_none
from mockup.envelopes.spec import FLAPS, envelope_spec
from mockup.errors import Mistake, RequestError, SuiteError, nearest
from mockup.output.destination import Destination, refuse_unfit
from mockup.output.liner_sheet import LinerSheet, write_liner
from mockup.progress import Progress
from mockup.suite.audience import Audience
from mockup.suite.suite import Envelope
from mockup.trade.sizes import ISO_269, METRIC, envelope_size, plain_name
from mockup.units import Unit, mm_to_in

TEMPLATE = (".pdf", ".svg")
SUITE_ENDING = ".toml"


@dataclass(frozen=True)
class LinerRequest:
    """A liner's template to be drawn.

    envelope: a size, `"A7"`, `"C6"` or `"130 x 180 mm"`, or a suite file. output: a .pdf or .svg
    to write. name: of a suite file, the envelope's name there, None where it has only one. flap:
    of a size, "straight", "pointed" or "deep-pointed".
    """

    envelope: PathGiven
    output: PathGiven
    name: str | None = None
    flap: str | None = None


@dataclass(frozen=True)
class LinerAnswer:
    """The file written, the envelope as it is called, its flap, the liner's size, and what lengths
    are told in."""

    written: Path
    envelope: str
    flap: str
    width_in: float
    height_in: float
    bleed_in: float
    units: Unit


def draw_liner(request: LinerRequest, progress: Progress | None = None) -> LinerAnswer:
    """Writes a liner's template and returns what was drawn.

    Raises RequestError, SuiteError, InputError, OutputError.
    """
    output = path_of("output", request.output)
    name, flap = text_or_none("name", request.name), text_or_none("flap", request.flap)
    destination = Destination(output, "liner's template", TEMPLATE)
    asked = str(path_of("envelope", request.envelope))
    if asked.lower().endswith(SUITE_ENDING):
        sheet = _of_suite(Path(asked), name, flap, destination)
    else:
        refuse_unfit([destination])
        sheet = _of_size(text_of("envelope", asked), name, flap)
    box = write_liner(output, sheet)
    if progress is not None:
        progress(1.0)
    return LinerAnswer(
        output, sheet.envelope, sheet.spec.flap, box.width, box.height, sheet.bleed_in, sheet.units
    )


def _of_size(text: str, name: str | None, flap: str | None) -> LinerSheet:
    if name is not None:
        said = f'"{name}" names an envelope of a suite; name its suite file before it'
        raise RequestError(Mistake(said, "", "name", name))
    size = envelope_size(text)
    is_metric = size.source in (ISO_269, METRIC) or text.strip().lower().endswith(("mm", "cm"))
    units: Unit = "mm" if is_metric else "in"
    kind = choice_of("flap", flap or "pointed", FLAPS)
    spec = envelope_spec(size.width_in, size.height_in, kind, units=units)
    bleed_in = mm_to_in(3) if is_metric else 0.125  # common practice
    return LinerSheet(plain_name(size.name, units), spec, bleed_in, units)


def _of_suite(
    path: Path, name: str | None, flap: str | None, destination: Destination
) -> LinerSheet:
    if flap is not None:
        said = f"{path} says its envelopes' flaps; leave --flap out, or change it there"
        raise RequestError(Mistake(said, "", "flap", flap))
    # No art is drawn: the outline is the studio's and the client's alike.
    suite = open_suite(path, Audience.STUDIO, Writing(lambda read: [destination])).suite
    envelope = _envelope(path, suite.envelopes, name)
    return LinerSheet(envelope.size.name, envelope.spec, suite.bleed_in, suite.units)


def _envelope(path: Path, envelopes: tuple[Envelope, ...], name: str | None) -> Envelope:
    known = {each.name: each for each in envelopes}
    if name is None and len(known) == 1:
        return envelopes[0]
    if name in known:
        return known[name]
    if not known:
        raise SuiteError(f"{path}: has no envelope; name a size, as A7")
    there = f"; there are {', '.join(known)}"
    if name is None:
        raise SuiteError(f"{path}: has several envelopes; name one{there}")
    raise SuiteError(f'{path}: no envelope called "{name}"{nearest(name, known) or there}')
