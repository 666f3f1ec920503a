"""What a folder of PDFs tells for a first suite: cards, units, envelopes, what lines and fronts
them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.artwork.art import art_of
from mockup.artwork.page import BLEEDS_IN, ArtPage, page_count, place_card, read_page
from mockup.dies.folding import Fold, flat_size
from mockup.envelopes.liner import liner_shape
from mockup.envelopes.spec import FLAPS, Flap, envelope_spec
from mockup.errors import InputError, LimitError, OutputError
from mockup.geometry.point import Box
from mockup.sources import is_there
from mockup.suite.backs import same_card
from mockup.suite.inference import Inferred, infer_card
from mockup.suite.noticing import NOTHING, Noticed, folded, notice
from mockup.suite.schema import ENVELOPES_MAX, PIECES_MAX
from mockup.trade.sizes import (
    ENVELOPES,
    TIGHT_CLEARANCE_IN,
    EnvelopeSize,
    fitting_envelopes,
    plain_name,
    play,
)
from mockup.trade.vocabulary import plain_words
from mockup.units import Unit, format_length, format_size

REPLY_WORDS = ("reply", "rsvp", "response")
LINER_WORD = "liner"
PANELS = 4  # of a card folded once: front, back, and two inside
_ENVELOPE = (
    "envelope envelopes umschlag briefumschlag kuvert enveloppe enveloppes busta buste sobre "
    "sobres envelop enveloppen koperta koperty obalka"
)
ENVELOPE_WORDS = frozenset(_ENVELOPE.split())
"""What an envelope is called, as `plain_words` writes it; from memory."""
ART_SUFFIXES = (".pdf", ".svg")


@dataclass(frozen=True)
class Found:
    """One page of art: the piece's name, the file, the page of how many, what was read from it."""

    name: str
    art: Path
    page: int
    pages: int
    sheet: ArtPage
    inferred: Inferred
    back: int | None = None
    """The page of the file that is taken for its back, or for a folded card's inside."""
    noticed: Noticed = NOTHING
    on_back: Noticed = NOTHING
    fold: Fold | None = None
    """Along which side it is folded; `inferred` then has the closed card."""
    fronts: tuple[EnvelopeSize, ...] = ()
    """The envelopes of the trade whose front has the page's size."""

    @property
    def is_liner(self) -> bool:
        """Whether the name says that this lines an envelope."""
        return LINER_WORD in self.name

    @property
    def is_front(self) -> bool:
        """Whether name and size say that this is printed on an envelope's front."""
        called = bool(ENVELOPE_WORDS & {*plain_words(self.name)})
        return called and bool(self.fronts) and not self.is_liner

    @property
    def is_reply(self) -> bool:
        """Whether the name says that this card is sent back."""
        return any(word in self.name for word in REPLY_WORDS)

    def because(self, units: Unit) -> str:
        """Returns why the page was read so."""
        if self.is_front:
            return "its name and its page's size say so"
        if self.fold is not None and self.inferred.how == "assumed":
            bleed = format_length(self.inferred.bleed_in, units)
            return f"no TrimBox: {bleed} bleed assumed on all sides of its flat sheet"
        return self.inferred.because(units)


def find_art(sources: Sequence[Path]) -> list[Path]:
    """Returns the art files named, and those in folders named, in order of name, each once.

    Raises InputError where a folder holds none.
    """
    files: dict[Path, Path] = {}  # by their whole names
    for source in sources:
        if not source.is_dir():
            files.setdefault(source.absolute(), source)
            continue
        inside = sorted(p for p in source.iterdir() if p.suffix.lower() in ART_SUFFIXES)
        if not inside:
            raise InputError(f"{source}: holds no PDF or SVG; name the art itself")
        for each in inside:
            files.setdefault(each.absolute(), each)
    return [*files.values()]


def read_art(files: Sequence[Path]) -> list[Found]:
    """Returns every page of the files as a piece of its own, but two pages of one card in a file
    as its front and its back. Raises what reading art raises."""
    found: list[Found] = []
    taken: set[str] = set()
    for art in files:
        first = art_of(art)
        pages = page_count(first)
        sheets = [read_page(replace(first, page=page)) for page in range(1, pages + 1)]
        back = 2 if _is_one_card(art, sheets) else None
        for page, sheet in enumerate(sheets[:1] if back else sheets, 1):
            alone = pages == 1 or back is not None
            base = _name_of(art.stem) if alone else f"{_name_of(art.stem)}-{page}"
            name = base
            number = 2
            while name in taken:
                name, number = f"{base}-{number}", number + 1
            taken.add(name)
            read = Found(name, art, page, pages, sheet, infer_card(sheet), back)
            found.append(_looked_at(read, sheets[1] if back else None))
    return found


def _looked_at(found: Found, back: ArtPage | None) -> Found:
    """Returns a page with what it says beyond its size, where it is a card's."""
    found = replace(found, fronts=_fronts(found.sheet))
    if found.is_liner or found.is_front:
        return found
    noticed = notice(found.sheet, found.inferred)
    behind = notice(back, infer_card(back)) if back is not None else NOTHING
    inferred, fold = folded(found.inferred, noticed.creases or behind.creases)
    return replace(found, noticed=noticed, on_back=behind, inferred=inferred, fold=fold)


def _fronts(sheet: ArtPage) -> tuple[EnvelopeSize, ...]:
    """Returns the envelopes of the trade whose front has a page's size, alone or with a bleed."""
    found: list[EnvelopeSize] = []
    for size in ENVELOPES.values():
        with suppress(InputError):
            place_card(sheet, size.width_in, size.height_in, BLEEDS_IN[0])
            found.append(size)
    return tuple(found)


def _is_one_card(art: Path, sheets: Sequence[ArtPage]) -> bool:
    """Returns whether a file is the front and the back of a card: two pages of one trim size."""
    if len(sheets) != 2 or LINER_WORD in _name_of(art.stem):
        return False
    return same_card(*sheets)


def refuse_replacing(path: Path) -> None:
    """Raises OutputError where a suite file exists: what a designer wrote in it would be lost."""
    if is_there(path):
        raise OutputError(f"{path}: exists; give another name, or say --replace")


@dataclass(frozen=True)
class LinerPlan:
    """A liner's art for an envelope; `missing` says why it is too small, where it is."""

    art: Found
    missing: str = ""


@dataclass(frozen=True)
class EnvelopePlan:
    """An envelope for the suite: its name there, size and flap, the cards it holds, its liner."""

    name: str
    size: EnvelopeSize
    flap: Flap
    why: str
    holds: tuple[str, ...]
    liner: LinerPlan | None
    front: Found | None = None
    """The art of its front."""
    perhaps: Found | None = None
    """A card whose page has the front's size."""


@dataclass(frozen=True)
class Beginning:
    """All that a first suite file says: its units, cards, envelopes, and what was left aside."""

    units: Unit
    cards: tuple[Found, ...]
    envelopes: tuple[EnvelopePlan, ...]
    told: tuple[str, ...]


def begin(found: Sequence[Found], units: Unit | None = None) -> Beginning:
    """Returns what a suite of these pages would be; None leaves the units to the pages.

    Raises InputError where the art holds no card at all, LimitError where it holds too many.
    """
    cards = tuple(each for each in found if not (each.is_liner or each.is_front))
    if not cards:
        raise InputError(
            "the art holds what is in or on an envelope and no card; name at least one card's PDF"
        )
    if len(cards) > PIECES_MAX:
        said = f"the art holds {len(cards)} cards; a suite takes {PIECES_MAX}: name fewer files"
        raise LimitError(said)
    said = units or units_of(found)
    liners = [each for each in found if each.is_liner]
    fronts = [each for each in found if each.is_front]
    envelopes = _with_fronts(_envelopes(cards, liners, fronts, said), cards, fronts)
    told = [each.liner.missing for each in envelopes if each.liner and each.liner.missing]
    used = [each.liner.art for each in envelopes if each.liner]
    spare = [each for each in liners if each not in used]
    told += [
        f"{each.name}: two pages of one size are its front and back; for two cards take away its "
        "`back` and give page 2 a piece of its own"
        for each in cards
        if each.back is not None and each.fold is None
    ]
    told += [f"{each.name}: no envelope is left for this liner; name it yourself" for each in spare]
    told += _panels_told(cards, said)
    printed = [each.front for each in envelopes]
    told += [
        f"{each.name}: no envelope of the suite is left for this front; write it into one as `face`"
        for each in fronts
        if each not in printed
    ]
    told += [
        f"{each.name}: its plates and lines are not looked at: {side.missed}"
        for each in cards
        for side in (each.noticed, each.on_back)
        if side.missed
    ]
    return Beginning(said, cards, envelopes, tuple(told))


def _panels_told(cards: Sequence[Found], units: Unit) -> Iterator[str]:
    """Yields a line for every file whose four pages may be the panels of one folded card."""
    for art in dict.fromkeys(card.art for card in cards):
        own = [card for card in cards if card.art == art]
        if len(own) != own[0].pages or len(own) != PANELS:
            continue
        first = own[0].inferred.card
        if not all(same_card(own[0].sheet, each.sheet) for each in own[1:]):
            continue
        fold: Fold = "left" if first.height_in >= first.width_in else "top"
        flat = format_size(*flat_size(first.width_in, first.height_in, fold), units)
        where = "right of" if fold == "left" else "below"
        yield (
            f"{art.name}: are its four pages the panels of one folded card? then save them as two "
            f"pages of {flat} and the bleed, the front {where} the back, and the inside; and say "
            f'fold = "{fold}" and inside = {{ page = 2 }}'
        )


def units_of(found: Sequence[Found]) -> Unit:
    """Returns what most pages seem to be measured in: ISO sizes and 3 mm of bleed are metric."""
    return "mm" if sum(each.inferred.leans for each in found) > 0 else "in"


def _envelopes(
    cards: Sequence[Found], liners: Sequence[Found], fronts: Sequence[Found], units: Unit
) -> tuple[EnvelopePlan, ...]:
    largest = max(cards, key=lambda c: c.inferred.card.width_in * c.inferred.card.height_in)
    replies = [card for card in cards if card.is_reply and card is not largest]
    inner = [
        EnvelopePlan(card.name, fits[0], FLAPS[1], "for sending it back", (card.name,), None)
        for card in replies[: ENVELOPES_MAX - 1]
        if (fits := _fitting(card, units))
    ]
    sizes = _fitting(largest, units)
    if not sizes:
        return ()
    drawn = [size for each in fronts if not each.is_reply for size in each.fronts]
    own = next((size for size in sizes if size in drawn), None)
    outer = own or next((size for size in sizes if _holds(size, inner)), sizes[0])
    names = tuple(card.name for card in cards)
    flap, liner = _lined(outer, liners[0], units) if liners else (FLAPS[1], None)
    why = "it holds the reply's envelope"
    if outer in (sizes[0], own):
        why = "its front is drawn for it" if own else f"made for {largest.name}"
    return EnvelopePlan("outer", outer, flap, why, names, liner), *inner


def _with_fronts(
    plans: Sequence[EnvelopePlan], cards: Sequence[Found], fronts: Sequence[Found]
) -> tuple[EnvelopePlan, ...]:
    """Returns the envelopes with the art of their fronts, or a card that may be that: a card of a
    TrimBox with bleed round it is none, nor is one that is folded or has a sheet of its own."""
    done: list[EnvelopePlan] = []
    used: list[Found] = []
    for plan in plans:
        own = [each for each in fronts if each not in used and plan.size in each.fronts]
        own.sort(key=lambda each: each.is_reply != (plan.name != "outer"))
        like = [
            each
            for each in cards
            if plan.size in each.fronts and each.inferred.how != "trim" and each.fold is None
        ]
        done.append(
            replace(plan, front=own[0]) if own else replace(plan, perhaps=like[0] if like else None)
        )
        used += own[:1]
    return tuple(done)


def _fitting(card: Found, units: Unit) -> list[EnvelopeSize]:
    size = card.inferred.card
    return fitting_envelopes(size.width_in, size.height_in, units=units)


def _holds(outer: EnvelopeSize, inner: Sequence[EnvelopePlan]) -> bool:
    """Returns whether envelopes for sending back go into another, tightly at least."""
    plays = [play(outer, each.size.width_in, each.size.height_in) for each in inner]
    return all(min(each) >= TIGHT_CLEARANCE_IN for each in plays)


def _lined(size: EnvelopeSize, art: Found, units: Unit) -> tuple[Flap, LinerPlan]:
    """Returns the flap a liner's art was made for, and whether the art is large enough.

    Of flaps whose liner has the art's very size the first is taken; of others the one that crops
    the art least, or needs least of what is missing.
    """
    seen = art.sheet.visible
    boxes: dict[Flap, Box] = {
        flap: liner_shape(envelope_spec(size.width_in, size.height_in, flap)).box for flap in FLAPS
    }
    for flap, box in boxes.items():
        if _is_own_size(art, box.width, box.height):
            return flap, LinerPlan(art)
    holding: list[Flap] = [
        flap for flap, box in boxes.items() if box.width <= seen.width and box.height <= seen.height
    ]
    if holding:
        return max(holding, key=lambda each: boxes[each].height), LinerPlan(art)
    flap = min(FLAPS, key=lambda each: boxes[each].height)
    needs = format_size(boxes[flap].width, boxes[flap].height, units)
    name = plain_name(size.name, units)
    missing = (
        f"{art.name}: the art is {format_size(seen.width, seen.height, units)}, too small to line "
        f"the {name} envelope; with a {flap} flap its liner is {needs} "
        f'(`mockup liner "{name}" --flap {flap} -o liner.pdf` draws the template)'
    )
    return FLAPS[1], LinerPlan(art, missing)


def _is_own_size(art: Found, width_in: float, height_in: float) -> bool:
    try:
        place_card(art.sheet, width_in, height_in, art.inferred.bleed_in)
    except InputError:
        return False
    return True


def _name_of(stem: str) -> str:
    name = re.sub(r"[^a-z0-9]+", "-", stem.lower()).strip("-")
    return name[:50] or "piece"
