"""What a proof says of a suite, in words: sizes, dies, papers, scales, fingerprints of files."""

from __future__ import annotations

from mockup.artwork.art import Art
from mockup.dies import FAMILIES, Die
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.trade.papers import Stock
from mockup.units import format_length, format_size, in_to_mm

NO_BREAK = "\u00a0"
FINGERPRINT_DIGITS = 8

_SCALES = {
    1.0: "True size, 100 %",
    1.5: "Two thirds of true size, 2 : 3",
    2.0: "Half size, 1 : 2",
    3.0: "A third of true size, 1 : 3",
    4.0: "A quarter of true size, 1 : 4",
}


def unbroken(text: str) -> str:
    """Returns text that stays on one line."""
    return text.replace(" ", NO_BREAK)


def size_in_inches(width_in: float, height_in: float) -> str:
    """Returns `5 × 7 in`, unbroken."""
    return unbroken(format_size(width_in, height_in))


def size_in_mm(width_in: float, height_in: float) -> str:
    """Returns `127 × 177.8 mm`, unbroken."""
    return unbroken(f"{length_in_mm(width_in)[:-3]} \u00d7 {length_in_mm(height_in)}")


def length_in_mm(length_in: float) -> str:
    """Returns `177.8 mm`."""
    return f"{in_to_mm(length_in) + 1e-9:.1f}".removesuffix(".0") + " mm"  # halves go up


def size_name(name: str) -> str | None:
    """Returns the trade's name of a size, or None where its name is its measure."""
    return None if "\u00d7" in name or " x " in name else name


def die_name(die: Die) -> str:
    """Returns a die's name as a proof prints it: `Lancet arch`."""
    return sentence(die.name.replace("-", " ").replace("three centred", "three-centred"))


def die_measures(die: Die) -> str:
    """Returns the numbers a die is drawn with, in words; empty where it has none."""
    family = FAMILIES.get(die.name)
    about = {each.name: each for each in family.parameters} if family else {}
    told: list[str] = []
    for name, value in die.parameters:
        kind = about[name].kind if name in about else "number"
        if kind == "choice":
            if value != about[name].choices[0]:
                told.append(f"{name} {value}")
        elif isinstance(value, str):
            told.append(f"{name} {value} in")
        else:
            told.append(f"{name} {_number(value, kind)}")
    return ", ".join(unbroken(each) for each in told)


def stock_words(stock: Stock) -> str:
    """Returns a stock's description as a sentence begins, with its usual thickness."""
    thickness = unbroken(f"about {stock.caliper_mil:g} mil")
    return f"{sentence(stock.about.split(':')[0])}; {thickness} thick"


def scale_words(ratio: float) -> str:
    """Returns `True size, 100 %` or `Half size, 1 : 2`, the numbers unbroken."""
    words, _, numbers = _SCALES.get(ratio, f"Reduced, 1 : {ratio:g}").partition(", ")
    return f"{words}, {unbroken(numbers)}"


def fingerprint(art: Art) -> str:
    """Returns the first 8 hexadecimal digits of a file's SHA-256 (FIPS 180-4)."""
    return art.sha256[:FINGERPRINT_DIGITS]


def art_words(art: Art) -> str:
    """Returns `invitation.pdf, page 1`."""
    return f"{art.path.name}, {unbroken(f'page {art.page}')}"


def envelopes_of(suite: Suite, piece: Piece) -> str:
    """Returns the titles of the envelopes a piece goes in; empty where there are none."""
    return "; ".join(each.title for each in suite.envelopes if piece.name in each.holds)


def held_by(suite: Suite, envelope: Envelope) -> str:
    """Returns the titles of the pieces an envelope holds; empty where it holds none."""
    return ", ".join(suite.piece(name).title for name in envelope.holds)


def sentence(text: str) -> str:
    """Returns text with its first letter large."""
    return text[:1].upper() + text[1:]


def _number(value: float, kind: str) -> str:
    if kind in ("length", "corners"):
        return format_length(value)
    return f"{value:g}\u00b0" if kind == "angle" else f"{value:g}"
