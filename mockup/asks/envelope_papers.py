"""An envelope's papers asked for: its liner and what it holds beside the papers it could have."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import (
    PathGiven,
    audience_of,
    path_of,
    path_or_none,
    pixels,
    text_of,
    texts_of,
)
from mockup.colour.beside import Lab, Verdict
from mockup.colour.lab import rgb_of_xyz, xyz_of_lab
from mockup.colour.srgb import Rgb, parse_hex, to_hex
from mockup.errors import Mistake, RequestError, SuiteError, both, nearest
from mockup.output.colour_words import LABELS, NO_CONTRACT, lab_told, verdict_told
from mockup.output.destination import PICTURE_OR_PDF, Destination
from mockup.output.envelope_sheet import EnvelopeSheet, Offered, write_envelope_sheet
from mockup.output.proof.words import sentence
from mockup.printers.paper_catalogue import (
    HOW_TO_ADD,
    Paper,
    catalogue_files,
    catalogue_place,
    find_papers,
    nearest_paper,
    paper_named,
)
from mockup.progress import Progress
from mockup.reading.beside import (
    Pair,
    SuiteColours,
    lab_of_paper,
    pairs_on,
    suite_colours,
    worst,
)
from mockup.sources import is_there
from mockup.suite.audience import Audience
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.tables.reading import read_toml
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX
from mockup.trade.papers import PAPER_COLOURS, paper_colour

WIDTH_MIN_PX = 600  # judgement: narrower, the names under the envelopes cannot be read
MOST = 12
GIVEN = "as given"
_ENVELOPES = "envelopes."  # as findings call them
UNMEASURED = "unmeasured example"


@dataclass(frozen=True)
class EnvelopePapersRequest:
    """Papers of an envelope to be shown.

    suite: the suite file. envelope: its name there. output: a .png, .jpg or .pdf to write. colours:
    up to twelve, each the name of a paper of the catalogues or of a generic colour, or `#rrggbb`;
    none for up to twelve of the catalogues', the clearest first. papers: a folder of catalogues, or
    one; None for `papers` beside the suite or in the working folder. width_px: of a picture, 600 to
    12000. audience: the studio is also told figures.
    """

    suite: PathGiven
    envelope: str
    output: PathGiven
    colours: Iterable[str] = ()
    papers: PathGiven | None = None
    width_px: int = 3300
    audience: Audience | str = Audience.CLIENT


@dataclass(frozen=True)
class ShownPaper:
    """One paper on the sheet: its number there, its name, its merchant (empty for none), its colour
    on a screen and as CIELAB under D50, how that is known, whether the envelope has it now, what it
    is taken for beside the art (None where there is no art), and its least pair by CIEDE2000."""

    number: int
    name: str
    merchant: str
    colour_hex: str
    lab: Lab
    measured: str
    present: bool
    verdict: Verdict | None
    difference: float | None
    told: tuple[str, ...]


@dataclass(frozen=True)
class EnvelopePapersAnswer:
    """The file written, its scale (1 is true size), the papers in their order, what of the art is
    not shown, and how a catalogue is added where there is none."""

    written: Path
    scale: float
    papers: tuple[ShownPaper, ...]
    left_out: tuple[str, ...]
    advice: str = ""


@dataclass(frozen=True)
class _Candidate:
    name: str
    merchant: str
    lab: Lab
    rgb: Rgb
    measured: str


@dataclass(frozen=True)
class _Judged:
    candidate: _Candidate
    pairs: tuple[Pair, ...]

    @property
    def least(self) -> Pair | None:
        """The pair that looks least meant."""
        return max(self.pairs, key=_rank, default=None)


def show_envelope_papers(
    request: EnvelopePapersRequest, progress: Progress | None = None
) -> EnvelopePapersAnswer:
    """Writes an envelope's papers and returns what is shown, the clearest beside its art first.

    Raises RequestError, SuiteError for an unknown envelope, colour or catalogue, InputError,
    LimitError, OutputError.
    """
    path, output = path_of("suite", request.suite), path_of("output", request.output)
    name, asked = text_of("envelope", request.envelope), _colours_asked(request)
    width_px = pixels("width_px", request.width_px, WIDTH_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    audience = audience_of(request.audience)
    place = path_or_none("papers", request.papers)
    destination = Destination(output, "sheet of papers", PICTURE_OR_PDF)
    found = catalogue_place(place, path)
    writing = Writing(
        lambda suite: [destination], also_read=tuple(catalogue_files(found)) if found else ()
    )
    opened, papers = both(
        lambda: open_suite(path, audience, writing), lambda: find_papers(place, path)
    )
    suite, envelope = opened.suite, envelope_named(opened.suite, name)
    candidates = _candidates(asked, papers)
    colours = suite_colours(suite)
    judged = sorted((_judged(colours, envelope, each) for each in candidates), key=_order)[:MOST]
    studio = audience is Audience.STUDIO
    shown = tuple(_shown(number, each, envelope, studio) for number, each in enumerate(judged, 1))
    pieces = colours.told_of(envelope)
    offered = [
        Offered(paper.name, each.candidate.rgb, paper.told)
        for paper, each in zip(shown, judged, strict=True)
    ]
    about = _about(papers, studio)
    sheet = EnvelopeSheet(suite, envelope, _largest(pieces), offered, about, studio)
    scale = write_envelope_sheet(output, sheet, width_px)
    if progress is not None:
        progress(1.0)
    advice = "" if papers else sentence(HOW_TO_ADD)
    return EnvelopePapersAnswer(output, scale, shown, opened.left_out, advice)


def _colours_asked(request: EnvelopePapersRequest) -> tuple[str, ...]:
    asked = texts_of("colours", request.colours)
    if len(asked) > MOST:
        said = f"{len(asked)} colours are more than a sheet holds; name at most {MOST}"
        raise RequestError(Mistake(said, "", "colours", str(len(asked))))
    return asked


def is_envelope(suite: PathGiven, name: str) -> bool:
    """Returns whether a name in a suite file can only be an envelope's: `envelopes.outer`, or a
    name that no piece has. Raises SuiteError for a file that is no TOML."""
    path = path_of("suite", suite)
    if name.startswith(_ENVELOPES) or not is_there(path):
        return name.startswith(_ENVELOPES)
    raw = read_toml(path)
    pieces, envelopes = raw.get("pieces"), raw.get("envelopes")
    is_piece = isinstance(pieces, dict) and name in pieces
    return not is_piece and isinstance(envelopes, dict) and name in envelopes


def envelope_named(suite: Suite, name: str) -> Envelope:
    """Returns an envelope by its name, also as findings call it: `envelopes.outer`.

    Raises SuiteError.
    """
    known = {each.name: each for each in suite.envelopes}
    plain = name.removeprefix(_ENVELOPES)
    if plain in known:
        return known[plain]
    if not known:
        raise SuiteError(f"{suite.path}: has no envelope; add one, [envelopes.outer]")
    hint = nearest(plain, known) or f"; there are {', '.join(known)}"
    raise SuiteError(f'{suite.path}: no envelope called "{name}"{hint}')


def _candidates(asked: Sequence[str], papers: Sequence[Paper]) -> list[_Candidate]:
    """Returns the papers asked for, or all there are. Raises SuiteError for unknown ones, all at
    once."""
    if not asked and papers:
        return [_of_catalogue(paper) for paper in papers]
    names = asked or tuple(PAPER_COLOURS)
    found: dict[_Candidate, None] = {}
    told: list[str] = []
    for text in names:
        try:
            found[_candidate(text, papers)] = None
        except SuiteError as error:
            told += [mistake.sentence for mistake in error.mistakes]
    if told:
        raise SuiteError(*(Mistake(each, "", "colours") for each in told))
    return list(found)


def _candidate(text: str, papers: Sequence[Paper]) -> _Candidate:
    paper = paper_named(papers, text)
    if paper is not None:
        return _of_catalogue(paper)
    key = text.strip().lower().replace(" ", "-").replace("_", "-")
    if not text.strip().startswith("#") and key not in PAPER_COLOURS:
        hint = nearest_paper(papers, text.strip().casefold(), list(PAPER_COLOURS))
        known = ", ".join([*(each.name for each in papers), *PAPER_COLOURS][:_KNOWN_TOLD])
        raise SuiteError(
            f'no paper called "{text.strip()}"{hint or f"; there are {known}"}; or write #rrggbb'
        )
    colour = paper_colour(text)
    rgb = parse_hex(colour.colour_hex)
    given = colour.name.startswith("#")
    name = colour.name if given else sentence(colour.name.replace("-", " "))
    return _Candidate(name, "", lab_of_paper(rgb), rgb, GIVEN if given else UNMEASURED)


_KNOWN_TOLD = 30  # judgement: names a line of help is read with


def _of_catalogue(paper: Paper) -> _Candidate:
    if paper.lab is not None:
        rgb = rgb_of_xyz(xyz_of_lab(np.array(paper.lab, np.float64)))
        return _Candidate(paper.name, paper.merchant, paper.lab, rgb, paper.measured)
    assert paper.colour_hex is not None
    rgb = parse_hex(paper.colour_hex)
    return _Candidate(paper.name, paper.merchant, lab_of_paper(rgb), rgb, paper.measured)


def _judged(colours: SuiteColours, envelope: Envelope, candidate: _Candidate) -> _Judged:
    pairs = pairs_on(colours, envelope, candidate.lab)
    return _Judged(candidate, tuple(pair for pair in pairs if pair.second.kind == "envelope"))


_RANKS = (Verdict.DELIBERATE, Verdict.MATCH, Verdict.BORDERLINE, Verdict.NEAR_MISS)


def _rank(pair: Pair) -> tuple[int, float]:
    return _RANKS.index(pair.found.verdict), -pair.found.clearly


def _order(judged: _Judged) -> tuple[int, float]:
    return (0, 0.0) if judged.least is None else _rank(judged.least)


def _shown(number: int, judged: _Judged, envelope: Envelope, studio: bool) -> ShownPaper:
    candidate, least = judged.candidate, judged.least
    verdict = worst(judged.pairs)
    present = candidate.rgb == envelope.colour
    lines = ["the present paper"] if present else []
    lines += [LABELS[verdict].lower()] if verdict is not None and not studio else []
    lines += _figures(candidate, least) if studio else []
    return ShownPaper(
        number,
        candidate.name,
        candidate.merchant,
        to_hex(candidate.rgb),
        candidate.lab,
        candidate.measured,
        present,
        verdict,
        None if least is None else least.found.difference,
        tuple(lines),
    )


def _figures(candidate: _Candidate, least: Pair | None) -> list[str]:
    known = candidate.measured if candidate.measured.startswith("measured") else ""
    lines = [candidate.merchant] if candidate.merchant else []
    lines.append(f"{lab_told(candidate.lab)}, {known or to_hex(candidate.rgb)}")
    if least is not None:
        found = least.found
        what = least.first.piece.title.lower() if least.first.piece is not None else "the liner"
        told = verdict_told(found.verdict, found.difference, found.because).split(";")[0]
        lines.append(f"{LABELS[found.verdict].lower()}, {told}: {least.first.words}, {what}")
    return lines


def _largest(pieces: Sequence[Piece]) -> Piece | None:
    return max(pieces, key=lambda piece: piece.die.width_in * piece.die.height_in, default=None)


def _about(papers: Sequence[Paper], studio: bool) -> str:
    told = "The clearest beside what it holds first; what is nearly a match may look mistaken."
    if studio:
        told += (
            " Colours given as on a screen are not measured. Judged by the large plain colours of "
            "the liner and of all the envelope holds, as predicted in print; what is told is the "
            "pair that looks least meant."
        )
    if not papers:
        told += " These are generic colours, unmeasured examples: ask for swatches."
    return f"{told} {NO_CONTRACT}"
