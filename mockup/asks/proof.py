"""The proof asked for: every piece at true size, as PDF, for the client's yes."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.changes import changed_since
from mockup.asks.check import usual_settings
from mockup.asks.colour import colour_told
from mockup.asks.inputs import inputs_of
from mockup.asks.issuing import Issuing, open_issue, refuse_sent, sent
from mockup.asks.opening import Setting, Writing, open_on_scene
from mockup.asks.values import (
    PathGiven,
    audience_of,
    choice_of,
    date_of,
    path_of,
    path_or_none,
    text_or_none,
    texts_of,
)
from mockup.checks import running
from mockup.checks.enclosure import too_small_told
from mockup.ordering.bill import NO_FOLDS
from mockup.output import proof
from mockup.output.destination import PDF, Destination, refuse_inputs, refuse_unfit
from mockup.output.options_words import cost_lines, is_present
from mockup.output.proof.colours import colour_pages
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.proof.options import option_pages
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.watermark import refuse_too_long
from mockup.printers.catalogue import Printer, find_printers
from mockup.printers.options import options_for
from mockup.progress import Progress, part
from mockup.render.flatlay import Shot, flatlay_picture
from mockup.suite.audience import Audience
from mockup.suite.placeholders import refuse_placeholders
from mockup.suite.suite import Piece, Suite

_COVER_SHARE = 0.5  # of the time, about: the cover's picture, then the pages
_PAGES_SHARE = 0.9  # then the small pictures that the record keeps


@dataclass(frozen=True)
class ProofRequest:
    """A proof to be set.

    suite: the suite file. output: the .pdf to write, None for one beside the suite, named by its
    number. paper: "letter" or "a4", None for the suite's own.
    audience: the client is shown pictures, sizes in words and the cut line; the studio also a
    template's lines, bleed and safe margin, numbers, findings and prices. watermark: words to go
    across every page, whose art is then of a proof's resolution. extra: pages to be added, by the
    names in `EXTRA`. date: the day it bears, "2026-11-26" or a date, None for today.
    """

    suite: PathGiven
    output: PathGiven | None = None
    paper: str | None = None
    audience: Audience | str = Audience.CLIENT
    watermark: str | None = None
    extra: Iterable[str] = ()
    date: str | datetime.date | None = None


@dataclass(frozen=True)
class ProofAnswer:
    """The file written, its pages and paper, a line for every piece with marks not shown, and
    one for every name taken in one of its meanings.

    `cuts` has a line for every die from a template: which path of it is the cut.
    """

    written: Path
    pages: int
    paper: str
    left_out: tuple[str, ...]
    taken: tuple[str, ...] = ()
    too_small: tuple[str, ...] = ()
    """A line for every envelope that what it holds does not go into."""
    cuts: tuple[str, ...] = ()
    revision: int = 1
    """Its number in the record: that of the last proof while nothing changed, else the next."""
    date: str = ""
    codes: tuple[tuple[str, str], ...] = ()
    """The short fingerprint of every piece and envelope, by its name."""
    record: tuple[str, ...] = ()
    """A line for everything in the record that does not count, or contradicts itself."""
    colour: tuple[str, ...] = ()
    """By which press colours are shown, how white ink and other finishes are, and whether the
    table's tone was moved away from a paper of nearly its colour."""


def write_proof(request: ProofRequest, progress: Progress | None = None) -> ProofAnswer:
    """Writes a proof, keeps it in the suite's record, and returns what was written.

    Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    given = path_or_none("output", request.output)
    wanted = request.paper
    paper = None if wanted is None else choice_of("paper", wanted, tuple(PAPERS_IN))
    audience, date = audience_of(request.audience), date_of("date", request.date)
    watermark = text_or_none("watermark", request.watermark)
    extra = [
        EXTRA[choice_of("extra", each, tuple(EXTRA))] for each in texts_of("extra", request.extra)
    ]
    opened, scene = open_on_scene(
        path_of("suite", request.suite),
        audience,
        Writing(lambda suite: _doors(suite, audience, given)),
        Setting(),
    )
    issuing = open_issue(opened.suite, audience, date)
    output = given or _usual(issuing)
    refuse_sent(issuing, output)
    issue = issuing.issue
    suite = replace(opened.suite, revision=issue.told, paper=paper or opened.suite.paper)
    if watermark is not None:
        refuse_too_long(watermark, suite.paper)
    cover = Shot(suite, scene, proof.COVER_PX, line=suite.cut_line)
    picture = flatlay_picture(cover, part(progress, 0.0, _COVER_SHARE))
    since = changed_since(issuing, opened.suite.revision)
    added = [since.pages, *extra] if since is not None else extra
    telling = _TOLD[audience](Telling(suite, picture, issue, audience, watermark, added))
    with sent(issuing, output) as beside:
        pages = proof.write_proof(telling, beside, part(progress, _COVER_SHARE, _PAGES_SHARE))
    lines = (opened.left_out, opened.taken, too_small_told(suite), opened.cuts)
    bears = (issue.revision, date, tuple(issue.codes.items()), issuing.record.told)
    told = (*colour_told(suite), *opened.table)
    return ProofAnswer(output, pages, suite.paper, *lines, *bears, told)


def _usual(issuing: Issuing) -> Path:
    """Returns the file a proof is written to where none is named. Raises OutputError."""
    destination = Destination(issuing.usual_name, "proof", PDF)
    refuse_unfit([destination])
    refuse_inputs([destination], inputs_of(issuing.suite))
    return destination.path


EXTRA: dict[str, Callable[[Telling], Sequence[Page]]] = {
    "options": option_pages,
    "colours": colour_pages,
}
"""The pages a proof has when they are asked for, by name, and what makes them."""


def _doors(suite: Suite, audience: Audience, given: Path | None) -> list[Destination]:
    """Returns the file to be written. Raises SuiteError for a client's proof that names nobody."""
    if audience is Audience.CLIENT:
        refuse_placeholders(suite)
    return [] if given is None else [Destination(given, "proof", PDF)]


def _as_it_is(telling: Telling) -> Telling:
    return telling


def _with_numbers(telling: Telling) -> Telling:
    """Returns what the studio is told besides: findings, the margin they keep, prices."""
    suite = telling.suite
    settings = usual_settings(suite)
    printers = find_printers(None, (), suite.path) if _has_catalogues(suite) else ()
    findings = running.check_suite(suite, settings, None, printers)
    prices = {piece.name: _price(piece, printers) for piece in suite.pieces} if printers else {}
    return replace(telling, findings=tuple(findings), safe_in=settings.safe_in, prices=prices)


def _has_catalogues(suite: Suite) -> bool:
    return (suite.path.parent / "printers").is_dir()


def _price(piece: Piece, printers: Sequence[Printer]) -> tuple[str, ...]:
    """Returns what the piece costs in its own die, from the catalogues; they price no folds."""
    if piece.fold is not None:
        return (NO_FOLDS,)
    options = options_for(printers, piece.die, piece.stock.caliper_mil)
    own = next(option for option in options if is_present(piece, option))
    return cost_lines(piece, own, options)


_TOLD: dict[Audience, Callable[[Telling], Telling]] = {
    Audience.CLIENT: _as_it_is,
    Audience.STUDIO: _with_numbers,
}
