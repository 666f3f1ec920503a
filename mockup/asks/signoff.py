"""A proof that came back: what was approved and what is to change, kept in the suite's record."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.artwork.art import Art, art_of
from mockup.asks.values import PathGiven, date_of, path_of, path_or_none, text_or_none
from mockup.errors import InputError, Mistake
from mockup.output.proof.answer_places import (
    ANSWER,
    COMMENT,
    DAY,
    LAYOUT,
    SIGNED,
    AnswerPage,
    answer_pages,
    field_name,
)
from mockup.output.proof.grid import PAPERS_IN
from mockup.progress import Progress, told
from mockup.record.answering import Heard, choices_of, of_field, of_looks, unclear
from mockup.record.events import Answer, Proof
from mockup.record.folder import refuse_record
from mockup.record.paper import Places, Returned
from mockup.record.reading import Record, read_record
from mockup.record.returned import MarkedPage, look_at, marked_pages, read_returned
from mockup.record.untouched import untouched
from mockup.record.writing import write_event
from mockup.sources import read_whole
from mockup.trade.limits import FILE_MAX_BYTES

_HEAD_BYTES = 1024  # a PDF's header may stand this far in (ISO 32000-1 Annex H, note 13)
_READ_SHARE, _COMPARED_SHARE = 0.4, 0.9  # of the time, about
RECORDS_MAX = 200  # judgement: folders of records looked through for the one a proof is of


@dataclass(frozen=True)
class SignoffRequest:
    """A returned proof to be read.

    returned: the PDF that came back: filled in, flattened, or printed to PDF. suite: the suite file
    it is of, None to look for the record that knows it beside the file and in the working folder.
    by: who answers, where the page bears no name. date: the day the record bears, ISO 8601, None
    for today.
    """

    returned: PathGiven
    suite: PathGiven | None = None
    by: str | None = None
    date: str | datetime.date | None = None


@dataclass(frozen=True)
class SignoffRow:
    """One piece: its name and title, the code on its page, `approve`, `change` or empty, and what
    was written to it."""

    name: str
    title: str
    fingerprint: str
    said: str
    comment: str


@dataclass(frozen=True)
class SignoffAnswer:
    """What a returned proof says, and where that is kept.

    `unclear` has a line for every piece of which no one thing was said; `pages_told` says how the
    other pages were found to be those that went out. `newer` is a revision made since, else None.
    """

    suite: Path
    revision: int
    mark: str
    by: str
    dated: str
    rows: tuple[SignoffRow, ...]
    unclear: tuple[str, ...]
    read_as: str
    pages_told: str
    recorded: Path
    newer: int | None


def read_signoff(request: SignoffRequest, progress: Progress | None = None) -> SignoffAnswer:
    """Reads a proof that came back, writes what it says into the record, and returns it.

    The same file read twice is recorded once. Raises RequestError, InputError for a file that
    answers no proof of the record, is not the proof that went out, or says nothing; LimitError,
    OutputError.
    """
    path, suite = path_of("returned", request.returned), path_or_none("suite", request.suite)
    by, day = text_or_none("by", request.by), date_of("date", request.date)
    art = art_of(path)
    if b"%PDF-" not in read_whole(path, FILE_MAX_BYTES)[:_HEAD_BYTES]:
        raise _refused(path, "is no PDF; ask for the whole document again, as a PDF")
    told(progress, 0.1)
    returned = read_returned(art)
    told(progress, _READ_SHARE)
    pages = marked_pages(art, returned.codes)
    found = _found(path, suite, pages[0])
    refuse_record(found.suite)
    plan = _plan(art, found.proof, pages[0])
    told_pages = untouched(art, returned, found.proof, [each.page for each in pages], found.suite)
    told(progress, _COMPARED_SHARE)
    heard, signature = _heard(art, returned, found.proof, plan, pages)
    choices = choices_of(found.proof, heard)
    if not choices:
        raise _refused(path, "says neither yes nor change to any piece; ask for it filled in")
    name = by or signature.name
    if not name:
        said = "bears no name; ask who answers, or say it with --by NAME"
        raise _refused(path, said)
    how = "form fields" if _is_form(returned) else "ticks on the page"
    mark = pages[0].mark
    answer = Answer(
        *(mark.revision, mark.mark, day, name, choices),
        comment=f"dated {signature.dated}" if signature.dated else "",
        file=path.name,
        sha256=art.sha256,
        read_as=f"{how}; {told_pages}",
    )
    return SignoffAnswer(
        suite=found.suite,
        revision=mark.revision,
        mark=mark.mark,
        by=name,
        dated=signature.dated,
        rows=_rows(found.proof, heard),
        unclear=tuple(unclear(found.proof, heard)),
        read_as=how,
        pages_told=told_pages,
        recorded=write_event(found.record, answer),
        newer=_newer(found.record, mark.revision),
    )


@dataclass(frozen=True)
class _Found:
    """The suite whose record knows a proof, that record, and the proof."""

    suite: Path
    record: Record
    proof: Proof


@dataclass(frozen=True)
class _Signature:
    name: str
    dated: str


def _found(returned: Path, suite: Path | None, page: MarkedPage) -> _Found:
    """Returns the proof a page answers. Raises InputError where no record knows it."""
    suites = [suite] if suite is not None else list(dict.fromkeys(_suites_near(returned)))
    revision, mark = page.mark.revision, page.mark.mark
    unread: list[Mistake] = []  # which may be the proof it answers
    for each in suites:
        record = read_record(each)
        proof = record.proof(revision, mark)
        if proof is not None:
            return _Found(each, record, proof)
        unread += record.mistakes
    where = f"the record of {suite}" if suite else "a record beside it or in the folder you work in"
    said = (
        f"answers revision {revision} ({mark}), which {where} does not know; name the suite it is "
        "of, or the machine that made that proof must read it"
    )
    raise InputError(Mistake(said, str(returned)), *unread)


def _suites_near(returned: Path) -> Sequence[Path]:
    """Returns the suites whose records lie in the working folder or beside the file."""
    folders = [Path(), returned.parent]
    records = [each for folder in folders for each in sorted(folder.glob("*.record"))]
    return [each.with_suffix(".toml") for each in records[:RECORDS_MAX] if each.is_dir()]


def _plan(art: Art, proof: Proof, page: MarkedPage) -> tuple[AnswerPage, ...]:
    if page.mark.layout != LAYOUT or page.mark.paper not in PAPERS_IN:
        raise _refused(art.path, "was made by another version of mockup; read it with that one")
    return answer_pages([item.name for item in proof.items], page.mark.paper)


def _is_form(returned: Returned) -> bool:
    return any(name.startswith(f"{ANSWER}/") for name, _ in returned.fields)


def _heard(
    art: Art,
    returned: Returned,
    proof: Proof,
    plan: Sequence[AnswerPage],
    pages: Sequence[MarkedPage],
) -> tuple[dict[str, Heard], _Signature]:
    """Returns what is said of every piece, by fields first, then by the ink on the page."""
    fields = dict(returned.fields)
    seen, signature = _seen(art, plan, pages)
    heard: dict[str, Heard] = {}
    for item in proof.items:
        answer = fields.get(field_name(ANSWER, item.name), "")
        comment = fields.get(field_name(COMMENT, item.name), "")
        form = of_field(answer, comment)
        heard[item.name] = form.or_else(seen.get(item.name, Heard()))
    name, day = (fields.get(each, "").strip() for each in (SIGNED, DAY))
    return heard, _Signature(name or signature.name, day or signature.dated)


def _seen(
    art: Art, plan: Sequence[AnswerPage], pages: Sequence[MarkedPage]
) -> tuple[dict[str, Heard], _Signature]:
    planned = {page.number: page for page in plan}
    found = [(planned[each.mark.page], each) for each in pages if each.mark.page in planned]
    looks = look_at(art, [_places(plan, page) for plan, page in found])
    heard: dict[str, Heard] = {}
    signature = _Signature("", "")
    for (page, _), seen in zip(found, looks, strict=True):
        for place, row in enumerate(page.rows):
            heard[row.name] = of_looks(*seen[3 * place : 3 * place + 3])
        if page.signed is not None:
            signature = _Signature(seen[-2].words, seen[-1].words)
    return heard, signature


def _places(plan: AnswerPage, page: MarkedPage) -> Places:
    boxes = [box for row in plan.rows for box in (row.approve, row.change, row.comment)]
    boxes += [box for box in (plan.signed, plan.day) if box is not None]
    onto = page.onto(plan.mark, *PAPERS_IN[page.mark.paper])
    return Places(page.page, onto, tuple(boxes))


def _rows(proof: Proof, heard: dict[str, Heard]) -> tuple[SignoffRow, ...]:
    return tuple(
        SignoffRow(
            item.name,
            item.title,
            item.fingerprint.short,
            heard[item.name].said or "",
            heard[item.name].comment,
        )
        for item in proof.items
    )


def _newer(record: Record, revision: int) -> int | None:
    last = max((proof.revision for proof in record.proofs), default=revision)
    return last if last > revision else None


def _refused(path: Path, sentence: str) -> InputError:
    return InputError(Mistake(sentence, str(path)))
