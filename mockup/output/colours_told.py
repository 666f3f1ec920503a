"""What the page of colours holds: strips of every face's colours, and each envelope's pairs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from mockup.artwork.press import presses_of
from mockup.colour.beside import Lab, Verdict, compared
from mockup.colour.lab import rgb_of_xyz, xyz_of_lab
from mockup.colour.printing import UNSURE_DE00, paper_difference
from mockup.colour.srgb import Rgb, parse_hex, to_hex
from mockup.output.colour_words import (
    CLIENT,
    LABELS,
    NO_CONTRACT,
    lab_told,
    share_told,
    verdict_told,
    ways_told,
    written_told,
)
from mockup.output.proof.words import sentence
from mockup.reading.art_colours import FaceColours
from mockup.reading.beside import (
    Pair,
    Seen,
    SuiteColours,
    is_one_ink,
    lab_of_paper,
    mended,
    pairs_of,
)
from mockup.suite.suite import Envelope, Suite

LETTERS_TOLD = 60  # judgement: more of names under one colour are a paragraph
_LEAST_SHARE = 0.004  # of a strip: less is a hairline


@dataclass(frozen=True)
class Strip:
    """A face's colours by the area they take: its title, each colour with its share, and lines."""

    title: str
    parts: tuple[tuple[Rgb, float], ...]
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Cell:
    """A colour on another: the ground, the colour, the colours it could have instead, its name,
    whose it is, the verdict's label, whether that is a warning, and lines."""

    ground: Rgb
    colour: Rgb
    instead: tuple[Rgb, ...]
    name: str
    of: str
    label: str
    alert: bool
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Section:
    """One ground with all that lies on it: its title, what is said of it, its colour, its cells."""

    title: str
    about: str
    ground: Rgb
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class ColoursSheet:
    """A page of colours: the suite's title, the strips, the sections, the notes, and whether it is
    for the studio."""

    suite: Suite
    strips: tuple[Strip, ...]
    sections: tuple[Section, ...]
    notes: tuple[str, ...]
    studio: bool


def colours_sheet(colours: SuiteColours, studio: bool) -> ColoursSheet:
    """Returns what a suite's page of colours holds, in words for the client, with figures for the
    studio. Raises what reading the art raises."""
    suite = colours.suite
    strips = [_strip(p.title, colours.pieces[p.name], studio) for p in suite.pieces]
    strips += [
        _strip(f"{each.title}, liner", colours.liners[each.name], studio)
        for each in suite.envelopes
        if each.name in colours.liners
    ]
    sections = [part for each in suite.envelopes for part in _sections(colours, each, studio)]
    return ColoursSheet(suite, tuple(strips), tuple(sections), _notes(suite, studio), studio)


def on_screen(lab: Lab) -> Rgb:
    """Returns a colour as a screen shows it, clipped to what it can."""
    return rgb_of_xyz(xyz_of_lab(np.array(lab, np.float64)))


def _strip(title: str, face: FaceColours, studio: bool) -> Strip:
    parts = [(on_screen(each.lab), each.share) for each in face.colours]
    if face.bare > _LEAST_SHARE:
        parts.append((on_screen(face.stock_lab), face.bare))
    lines: list[str] = []
    for each in face.colours:
        seen = Seen("art", None, each.lab, face, each)
        many = "" if each.solid else ", in many tones"
        if studio:
            told = f"{each.share * 100:.0f} % {seen.words}{many}: {lab_told(each.lab)}"
            lines += [told, f"as {written_told(seen)}"]
        else:
            lines.append(f"{share_told(each.share)} {seen.words}{many}")
    if face.bare > _LEAST_SHARE:
        bare = f"{face.bare * 100:.0f} %" if studio else share_told(face.bare)
        paper = f": {lab_told(face.stock_lab)}" if studio else ""
        lines.append(f"{bare} bare paper{paper}")
    return Strip(title, tuple(parts), tuple(lines) if face.colours else ("nothing is printed",))


def _sections(colours: SuiteColours, envelope: Envelope, studio: bool) -> list[Section]:
    pairs = pairs_of(colours, envelope)
    outside = [pair for pair in pairs if pair.second.kind == "envelope"]
    about = _envelope_told(envelope, studio)
    sections: list[Section] = []
    if outside or envelope.name not in colours.outsides:
        sections = [Section(envelope.title, about, envelope.colour, _cells(outside, studio))]
    sections += _printed_sections(pairs, envelope, studio)
    grounds: dict[Lab, list[Pair]] = {}
    for pair in pairs:
        told = pair.found.is_doubtful or pair.found.verdict is Verdict.MATCH
        if not pair.second.is_outside and told and not is_one_ink(pair):
            grounds.setdefault(pair.second.lab, []).append(pair)
    for lab, own in grounds.items():
        what = f"{sentence(own[0].second.words)}, of its liner"
        if studio:
            what += f"; {lab_told(lab)}"
        title = f"{envelope.title}, liner"
        sections.append(Section(title, what, on_screen(lab), _cells(own, studio)))
    return sections


def _printed_sections(pairs: Sequence[Pair], envelope: Envelope, studio: bool) -> Iterator[Section]:
    """Yields a section for every large colour printed on an envelope."""
    grounds: dict[Lab, list[Pair]] = {}
    for pair in pairs:
        if pair.second.kind == "envelope art":
            grounds.setdefault(pair.second.lab, []).append(pair)
    for lab, own in grounds.items():
        what = f"{sentence(own[0].second.words)}, printed on it"
        what += f"; {lab_told(lab)}" if studio else ""
        yield Section(f"{envelope.title}, printed", what, on_screen(lab), _cells(own, studio))


def _envelope_told(envelope: Envelope, studio: bool) -> str:
    lab = lab_of_paper(envelope.colour)
    words = Seen("envelope", None, lab).words
    name = envelope.colour_name.replace("-", " ")
    known = "" if name.startswith("#") or name == words else f" ({name})"
    told = f"{sentence(words)} paper{known}"
    return f"{told}; {lab_told(lab)}, {to_hex(envelope.colour)}" if studio else told


def _cells(pairs: Sequence[Pair], studio: bool) -> tuple[Cell, ...]:
    groups: list[list[Pair]] = []
    for pair in sorted(pairs, key=lambda pair: _ORDER.index(pair.found.verdict)):
        for group in groups:
            if _are_told_together(group[0], pair):
                group.append(pair)
                break
        else:
            groups.append([pair])
    return tuple(_cell(group, studio) for group in groups)


_ORDER = (Verdict.NEAR_MISS, Verdict.BORDERLINE, Verdict.MATCH, Verdict.DELIBERATE)


def _are_told_together(first: Pair, other: Pair) -> bool:
    """Returns whether two colours on one ground are of one look and one verdict; where both are
    clearly apart, of one name."""
    if first.first.kind != other.first.kind or first.found.verdict is not other.found.verdict:
        return False
    if compared(first.first.lab, other.first.lab).verdict is Verdict.MATCH:
        return True
    return (
        first.found.verdict is Verdict.DELIBERATE
        and first.first.piece is other.first.piece
        and first.first.words == other.first.words
    )


def _cell(group: Sequence[Pair], studio: bool) -> Cell:
    pair = max(group, key=lambda each: each.first.art.share if each.first.art else 0.0)
    found = pair.found
    miss = found.verdict is Verdict.NEAR_MISS
    ways = mended(pair) if miss else None
    shifts = [each for each in (ways.lighter, ways.darker) if each] if ways is not None else []
    label = LABELS[found.verdict]
    lines = [CLIENT[found.verdict]]
    if studio:
        written = written_told(pair.first)
        lines = [lab_told(pair.first.lab), *([f"as {written}"] if written else [])]
        lines.append(verdict_told(found.verdict, found.difference, found.because))
        what = "the envelope" if pair.second.is_outside else "the liner"
        lines += ways_told(ways, what) if ways is not None else ()
    return Cell(
        on_screen(pair.second.lab),
        on_screen(pair.first.lab),
        tuple(shift.on_screen for shift in shifts),
        sentence(pair.first.words),
        _of(group),
        label,
        miss,
        tuple(lines),
    )


def _of(group: Sequence[Pair]) -> str:
    """Returns whose a colour is: `invitation, reply card`, `the bare stock of ...`, `the liner`."""
    kind = group[0].first.kind
    if group[0].first.piece is None:
        return "the liner" if kind == "liner" else "the liner's bare paper"
    titles = list(dict.fromkeys(each.first.piece.title for each in group if each.first.piece))
    count = 1
    while count < len(titles) and sum(map(len, titles[: count + 1])) <= LETTERS_TOLD:
        count += 1
    told = ", ".join(titles[:count])
    if len(titles) > count:
        told += f" and {len(titles) - count} more"
    return f"bare paper of {told}" if kind == "stock" else told


def _notes(suite: Suite, studio: bool) -> tuple[str, ...]:
    notes = [_shown_as(suite, studio)]
    if suite.envelopes:
        notes.append(
            "Envelopes' colours are as the suite file gives them, for a screen, and are not "
            "measured. Ask for swatches."
        )
        about = (
            "Held against an envelope are large plain colours, a twentieth of a face or more. Two "
            "processes never print quite alike: what nearly matches looks like a match that "
            "failed, what is clearly lighter or darker looks meant."
        )
        notes.append(f"{about} The thresholds are judgement." if studio else about)
    return (*notes, NO_CONTRACT)


def _shown_as(suite: Suite, studio: bool) -> str:
    """Returns by which presses the art is shown, each once, and what that leaves in doubt."""
    shown = [(piece.art, piece.stock) for piece in suite.pieces]
    shown += [(each.liner.art, each.liner.stock) for each in suite.envelopes if each.liner]
    presses: dict[str, None] = {}
    unsure = False
    for (_, stock), press in zip(shown, presses_of([art for art, _ in shown]), strict=True):
        if press is None:
            presses["art in RGB by its own profiles, for it names no press"] = None
            continue
        presses[f"by {press.name}, {press.because}"] = None
        apart = paper_difference(press.paper, parse_hex(stock.colour_hex))
        unsure = unsure or (apart > UNSURE_DE00 and stock.swatch is None)
    told = f"Shown as printed: {'; '.join(presses)}."
    if unsure:
        by = "by 3 to 6 \u0394E" if studio else "visibly"
        told += f" On a paper unlike the press's own a print may differ {by}."
    return told
