"""Type for the project's own pages: four fonts, styles, kerned lines, even paragraphs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import accumulate, pairwise
from pathlib import Path
from typing import Any, Literal

from reportlab.lib.abag import ABag
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import ShapedStr, TTFont, shapeFragWord

from mockup.colour.srgb import Rgb
from mockup.errors import OutputError
from mockup.units import PT_PER_INCH

Face = Literal["light", "text", "italic", "caps"]

_FOLDER = Path(__file__).parent / "fonts"
_FILES: dict[Face, str] = {
    "light": "AlegreyaSans-Light.ttf",
    "text": "AlegreyaSans-Regular.ttf",
    "italic": "AlegreyaSans-Italic.ttf",
    "caps": "AlegreyaSansSC-Medium.ttf",  # small letters are drawn as small capitals
}
# Only kerning: a ligature has no character of its own, and text copied from the page would lose it.
_FEATURES = {"kern": True, "liga": False, "clig": False, "dlig": False, "calt": False}

INK: Rgb = (41, 39, 37)
QUIET: Rgb = (112, 108, 103)  # 5.2:1 on white
HAIR: Rgb = (190, 186, 181)

_ORPHAN_GAP = 0.7
_GOES_ON = "\u200b"  # zero width space: what follows belongs to the same word


@dataclass(frozen=True)
class Style:
    """How a run of type is set: face, size and leading in points, colour, tracking in em."""

    face: Face
    size_pt: float
    leading_pt: float
    colour: Rgb = INK
    tracking_em: float = 0.0

    @property
    def leading_in(self) -> float:
        """From baseline to baseline, inches."""
        return self.leading_pt / PT_PER_INCH

    @property
    def tracking_pt(self) -> float:
        """The space added after every letter, points."""
        return self.tracking_em * self.size_pt


@cache
def font(face: Face) -> Any:
    """Returns a face as reportlab's TTFont, registered under its `fontName`."""
    file = font_file(face)
    loaded = TTFont(file.stem, str(file))
    pdfmetrics.registerFont(loaded)
    return loaded


def font_file(face: Face) -> Path:
    """Returns the file of a face."""
    return _FOLDER / _FILES[face]


def font_name(face: Face) -> str:
    """Returns the name reportlab knows a face by."""
    return font(face).fontName


def lacking(text: str, style: Style) -> str:
    """Returns the characters of a text that a style's font does not have, each once."""
    known = font(style.face).face.charToGlyph
    return "".join(dict.fromkeys(letter for letter in text if ord(letter) not in known))


@lru_cache(maxsize=4096)
def kerned(text: str, style: Style) -> Any:
    """Returns a line as reportlab draws it with the font's kerning: a str with its advances.

    Raises OutputError for a character the fonts do not have.
    """
    if lacks := lacking(text, style):
        raise OutputError(
            f'the proof\'s fonts lack "{lacks}" (in "{text}"); they hold the Latin, Greek and '
            "Cyrillic letters: write it with those"
        )
    word = [0.0, (ABag(fontName=font_name(style.face), fontSize=style.size_pt), text)]
    return shapeFragWord(word, features=_FEATURES)[1][1] if text else text


@lru_cache(maxsize=4096)
def line_width_in(text: str, style: Style) -> float:
    """Returns the length of a line of type, inches, without tracking after its last letter."""
    line = kerned(text, style)
    if isinstance(line, ShapedStr):
        places: list[Any] = vars(line)["__shapeData__"]
        advance = sum(place.x_advance for place in places)  # thousandths of an em
        set_pt = advance * style.size_pt / 1000
    else:
        set_pt = pdfmetrics.stringWidth(line, font_name(style.face), style.size_pt)
    return (set_pt + style.tracking_pt * max(0, len(text) - 1)) / PT_PER_INCH


def shortened(text: str, style: Style, measure_in: float) -> str:
    """Returns a line that fits a measure: the text, or its beginning and an ellipsis."""
    line, kept = text, len(text)
    while kept and line_width_in(line, style) > measure_in:
        kept -= 1
        line = text[:kept].rstrip(" ,;") + "\u2026"
    return line


def wrapped(text: str, style: Style, measure_in: float) -> list[str]:
    """Returns the lines of a paragraph, broken where they come out most even.

    The sum of the squared gaps at line ends is least (Knuth and Plass 1981, without hyphens); a
    last line shorter than three tenths of the measure is avoided. A no-break space is never broken.
    A word wider than the measure is divided after a hyphen, a dot or a line below, else anywhere.
    """
    return list(_wrapped(text, style, measure_in))


@lru_cache(maxsize=2048)
def _wrapped(text: str, style: Style, measure_in: float) -> tuple[str, ...]:
    words = [
        part
        for word in text.replace("\n", " ").split(" ")
        if word
        for part in _parts(word, style, measure_in)
    ]
    if not words:
        return ()
    width_in = _widths(words, style)
    best: list[tuple[float, int]] = [(0.0, 0)]  # cost of the first k words, where line begins
    for end in range(1, len(words) + 1):
        options: list[tuple[float, int]] = []
        for start in range(end - 1, -1, -1):
            line_in = width_in(start, end)
            if line_in > measure_in and options:
                break
            gap = max(0.0, measure_in - line_in) / measure_in
            options.append((best[start][0] + _gap_cost(gap, start, end == len(words)), start))
        best.append(min(options))
    breaks = [len(words)]
    while breaks[-1]:
        breaks.append(best[breaks[-1]][1])
    return tuple(_joined(words[a:b]) for a, b in pairwise(reversed(breaks)))


def _widths(words: Sequence[str], style: Style) -> Callable[[int, int], float]:
    """Returns the length of the line of words a to b, inches, without setting every such line.

    Kerning and ligatures reach from a word to its neighbour and no farther: what a word adds to a
    line is what it adds to the word before it.
    """
    alone = [line_width_in(_joined([word]), style) for word in words]
    added = [
        line_width_in(_joined(pair), style) - before
        for pair, before in zip(pairwise(words), alone, strict=False)
    ]
    ends = [0.0, *accumulate(added)]
    # Rounded, so that breaks that cost the same do so to the last bit, and the first is taken.
    return lambda start, end: round(alone[start] + ends[end - 1] - ends[start], 9)


def _parts(word: str, style: Style, measure_in: float) -> list[str]:
    """Returns a word, or, where it is too wide, parts of it that go on in the next: `tide-`."""
    parts: list[str] = []
    while len(word) > 1 and line_width_in(word, style) > measure_in:
        fits = next(
            k
            for k in range(len(word) - 1, 0, -1)
            if k == 1 or line_width_in(word[:k], style) <= measure_in
        )
        cut = max((word.rfind(mark, 0, fits) + 1 for mark in "-_."), default=0) or fits
        parts.append(word[:cut] + _GOES_ON)
        word = word[cut:]
    return [*parts, word]


def _joined(words: Sequence[str]) -> str:
    return " ".join(words).replace(f"{_GOES_ON} ", "").removesuffix(_GOES_ON)


def _gap_cost(gap: float, start: int, last: bool) -> float:
    """Returns what a line costs that leaves so much of its measure empty."""
    if not last:
        return gap**2
    orphan = start > 0 and gap > _ORPHAN_GAP
    return 1.0 if orphan else 0.0
