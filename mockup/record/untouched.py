"""Whether the pages of a proof that came back are those that went out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from pathlib import Path

from mockup.artwork.art import Art, art_of
from mockup.comparing.comparison import compare
from mockup.comparing.kinds import Kind
from mockup.comparing.places import Place
from mockup.errors import InputError, Mistake, MockupError
from mockup.record.events import Proof
from mockup.record.paper import Returned
from mockup.sources import is_there
from mockup.workshop import crew
from mockup.workshop.job import Job

_PICTURED = "mockup.foreign.returned:pictured"
_DIGESTS = "mockup.foreign.returned:page_digests"
PPI = 200.0  # judgement: a comma of 8 pt type is four pixels high
_THIN_IN = 0.25  # judgement: a line of 12 pt type is a sixth of an inch high

AS_SENT = "all pages but that of the answers are as they went out"
ALIKE = "all pages but that of the answers look as they went out, though another program wrote them"


def digests_of(path: Path) -> tuple[str, ...]:
    """Returns the SHA-256 of what each page of a PDF draws. Raises InputError and LimitError."""
    art = art_of(path)
    return crew.done(_DIGESTS, [Job((art,), str(path), art.sha256)])[0]


def untouched(
    art: Art, returned: Returned, proof: Proof, answered: Collection[int], beside: Path
) -> str:
    """Returns how the pages of a file that came back compare with those that went out.

    `answered` are its pages of answers, which are filled in; `beside` is the suite file, near which
    the proof that went out is looked for. Raises InputError where a page is another, LimitError.
    """
    others = [page for page in range(1, returned.pages + 1) if page not in answered]
    if not others:
        return "only pages of answers came back: no other page could be compared"
    if len(proof.pages) != returned.pages:
        return (
            f"{returned.pages} of {len(proof.pages)} pages came back: those that are not of "
            "answers were not compared"
        )
    changed = [page for page in others if returned.digests[page - 1 : page] != _page(proof, page)]
    if not changed:
        return AS_SENT
    sent = next(_sent(proof, [beside.parent, Path(), art.path.parent]), None)
    if sent is None:
        return (
            f"another program wrote its pages again, and they could not be compared: "
            f"{proof.file} as it went out is not at hand; put it beside {beside.name}"
        )
    _refuse_others(art, sent, changed)
    return ALIKE


def _page(proof: Proof, page: int) -> tuple[str, ...]:
    return proof.pages[page - 1 : page]


def _sent(proof: Proof, folders: Sequence[Path]) -> Iterator[Art]:
    """Yields the proof as it went out, wherever it lies: its bytes say that it is the one."""
    for folder in folders:
        path = folder / proof.file
        if not is_there(path):
            continue
        try:
            found = art_of(path)
        except MockupError:
            continue  # unreadable, it is not the file that is looked for
        if found.sha256 == proof.sha256:
            yield found


def _refuse_others(art: Art, sent: Art, pages: Sequence[int]) -> None:
    """Raises InputError where one of the pages does not look as it did."""
    apart = [page for page in pages if not _alike(art, sent, page)]
    if apart:
        which = ", ".join(map(str, apart))
        word = "page" if len(apart) == 1 else "pages"
        said = (
            f"is not the proof that went out: {word} {which} shows something else; what is said on "
            "it counts for nothing. Send the proof again, or ask what happened to it"
        )
        raise InputError(Mistake(said, str(art.path)))


def _alike(art: Art, sent: Art, page: int) -> bool:
    """Returns whether a page looks the same, however a printer's program has laid it."""
    jobs = [
        Job((Art(each.path, page, each.sha256), sent, page, PPI), f"{each.path}, page {page}")
        for each in (sent, art)
    ]
    before, after = crew.done(_PICTURED, jobs)
    found = compare(before, after, PPI)
    places = [place for place in found.places if not _thin(place)]
    return not (places or found.redrawn or found.recoloured or found.resized)


def _thin(place: Place) -> bool:
    """Returns whether only thin things have another colour: lines and small type, which a program
    that lays a page at another size draws paler or darker."""
    narrow = min(place.box.width, place.box.height)
    return place.kind is Kind.RECOLOURED and narrow < _THIN_IN
