"""A first suite file from a folder of PDFs, with what was inferred, and why, in its comments."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.artwork.art import art_of
from mockup.artwork.page import page_count, read_page
from mockup.errors import InputError, LimitError, OutputError
from mockup.sources import is_there
from mockup.suite.inference import Inferred, infer_card
from mockup.suite.reading import title_of
from mockup.suite.schema import ENVELOPES_MAX, PIECES_MAX
from mockup.trade.sizes import CardSize, EnvelopeSize, fitting_envelopes, play
from mockup.units import format_length, format_size

TITLE_MAX = 200  # characters, as the suite file takes
REPLY_WORDS = ("reply", "rsvp", "response")
LINER_WORD = "liner"
ART_SUFFIXES = (".pdf", ".svg")


@dataclass(frozen=True)
class Found:
    """One page of art: the piece's name, the file, the page of how many, what was read from it."""

    name: str
    art: Path
    page: int
    pages: int
    inferred: Inferred

    @property
    def is_liner(self) -> bool:
        """Whether the name says that this lines an envelope."""
        return LINER_WORD in self.name

    @property
    def is_reply(self) -> bool:
        """Whether the name says that this card is sent back."""
        return any(word in self.name for word in REPLY_WORDS)


def find_art(sources: Sequence[Path]) -> list[Path]:
    """Returns the art files named, and those in folders named, in order of name.

    Raises InputError where a folder holds none.
    """
    files: list[Path] = []
    for source in sources:
        if not source.is_dir():
            files.append(source)
            continue
        inside = sorted(p for p in source.iterdir() if p.suffix.lower() in ART_SUFFIXES)
        if not inside:
            raise InputError(f"{source}: holds no PDF or SVG; name the art itself")
        files += inside
    return files


def read_art(files: Sequence[Path]) -> list[Found]:
    """Returns every page of the files as a piece of its own. Raises what reading art raises."""
    found: list[Found] = []
    taken: set[str] = set()
    for art in files:
        first = art_of(art)
        pages = page_count(first)
        for page in range(1, pages + 1):
            base = _name_of(art.stem) if pages == 1 else f"{_name_of(art.stem)}-{page}"
            name = base
            number = 2
            while name in taken:
                name, number = f"{base}-{number}", number + 1
            taken.add(name)
            found.append(
                Found(name, art, page, pages, infer_card(read_page(replace(first, page=page))))
            )
    return found


def refuse_replacing(path: Path) -> None:
    """Raises OutputError where a suite file exists: what a designer wrote in it would be lost."""
    if is_there(path):
        raise OutputError(f"{path}: exists; give another name, or say --replace")


def suite_text(found: Sequence[Found], folder: Path) -> str:
    """Returns the text of a suite file to be kept in `folder`.

    Raises InputError where the art holds no card at all, LimitError where it holds too many.
    """
    cards = [each for each in found if not each.is_liner]
    if not cards:
        raise InputError("the art holds a liner and no card; name at least one card's PDF")
    if len(cards) > PIECES_MAX:
        said = f"the art holds {len(cards)} cards; a suite takes {PIECES_MAX}: name fewer files"
        raise LimitError(said)
    bleed_in = cards[0].inferred.bleed_in
    parts = [_head(folder, bleed_in), *(_piece(card, folder, bleed_in) for card in cards)]
    parts += _envelopes(cards, [each for each in found if each.is_liner], folder)
    parts.append(_TAIL)
    return "\n".join(parts)


def _head(folder: Path, bleed_in: float) -> str:
    title = title_of(folder.resolve().name)[:TITLE_MAX].strip() or "Suite"
    return f"""\
# A suite file: what is printed, cut, folded and held. Lengths are inches unless they say "mm".
# What follows a "#" was inferred from the art; please check it.

title = {_quoted(title)}
client = "Your client"
designer = "Your name"
revision = "1"
bleed = {bleed_in:.4g}
"""


def _piece(card: Found, folder: Path, common_bleed_in: float) -> str:
    size = card.inferred.card
    own = card.inferred.bleed_in
    bleed = "" if abs(own - common_bleed_in) < 0.0005 else f"bleed = {own:.4g}\n"
    page = f"page = {card.page}  # of {card.pages}\n" if card.pages > 1 else ""
    fits = fitting_envelopes(size.width_in, size.height_in)[:3]
    envelopes = ", ".join(_fit(envelope, size) for envelope in fits) or "none of the trade's"
    return f"""\
[pieces.{card.name}]
art = {_quoted(_relative(card.art, folder))}
{page}card = {_quoted(_card_text(size))}  # {format_size(size.width_in, size.height_in)}: \
{card.inferred.because}
{bleed}die = "rectangle"  # `mockup dies` lists the others
stock = "cotton-110-white"
# quantity = 100
# fits: {envelopes}
"""


def _fit(envelope: EnvelopeSize, card: CardSize) -> str:
    room = play(envelope, card.width_in, card.height_in)
    return f"{envelope.name} (play {format_length(room.width_in)}, {format_length(room.height_in)})"


def _envelopes(cards: Sequence[Found], liners: Sequence[Found], folder: Path) -> list[str]:
    largest = max(cards, key=lambda c: c.inferred.card.width_in * c.inferred.card.height_in)
    outer = _best_envelope(largest)
    if outer is None:
        return [
            "# No envelope of the trade fits the largest card; give one by its size:\n"
            '# [envelopes.outer]\n# size = "8 x 10 in"\n'
        ]
    names = [card.name for card in cards]
    parts = [_envelope("outer", outer, f"made for {largest.name}", names, liners, folder)]
    replies = [card for card in cards if card.is_reply and card is not largest]
    for card in replies[: ENVELOPES_MAX - 1]:
        inner = _best_envelope(card)
        if inner is not None:
            held = [card.name]
            parts.append(_envelope(card.name, inner, "for sending it back", held, [], folder))
    return parts


def _best_envelope(card: Found) -> EnvelopeSize | None:
    size = card.inferred.card
    fits = fitting_envelopes(size.width_in, size.height_in)
    return fits[0] if fits else None


def _envelope(
    name: str,
    size: EnvelopeSize,
    why: str,
    holds: Sequence[str],
    liners: Sequence[Found],
    folder: Path,
) -> str:
    held = ", ".join(_quoted(each) for each in holds)
    liner = ""
    if liners:
        first = liners[0]
        art = _quoted(_relative(first.art, folder))
        page = f", page = {first.page}" if first.pages > 1 else ""
        liner = f"liner = {{ art = {art}{page} }}\n"
    return f"""\
[envelopes.{name}]
size = {_quoted(size.name)}  # {format_size(size.width_in, size.height_in)}, {why}
flap = "pointed"  # or "straight", "deep-pointed"
colour = "oat"  # a name, or "#rrggbb"
{liner}holds = [{held}]
"""


_TAIL = """\
[scene]
name = "limewash"

[proof]
paper = "letter"  # or "a4"
"""


def _card_text(size: CardSize) -> str:
    if size.name.endswith(" in"):  # no trade name: a size
        return size.name.replace("\u00d7", "x")
    return f"{size.name} landscape" if size.width_in > size.height_in else size.name


def _name_of(stem: str) -> str:
    name = re.sub(r"[^a-z0-9]+", "-", stem.lower()).strip("-")
    return name[:50] or "piece"


def _relative(path: Path, folder: Path) -> str:
    try:
        return Path(os.path.relpath(path.resolve(), folder.resolve())).as_posix()
    except ValueError:  # on another drive, which no relative path leads to
        return path.resolve().as_posix()


def _quoted(text: str) -> str:
    """Returns text as a TOML basic string: a JSON string, with DEL escaped as well."""
    try:
        text.encode()
    except UnicodeEncodeError as error:
        shown = text.encode(errors="backslashreplace").decode()
        raise InputError(f"{shown}: the file's name is not text; give it another") from error
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
