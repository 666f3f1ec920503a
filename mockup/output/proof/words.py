"""What a proof says of a suite, in words: sizes, dies, papers, scales, fingerprints of files."""

from __future__ import annotations

from mockup.artwork.art import Art
from mockup.artwork.finishes import finishes_in_short, finishes_told, plates_named
from mockup.artwork.press import BY_ITSELF, press_words, presses_of
from mockup.colour.srgb import parse_hex
from mockup.dies import Die
from mockup.dies.wording import parameters_told
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.trade.papers import EXAMPLE, Stock
from mockup.units import Unit, format_caliper, format_length, format_size, in_to_mm

_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip

NO_BREAK = "\u00a0"
FINGERPRINT_DIGITS = 8


def unbroken(text: str) -> str:
    """Returns text that stays on one line."""
    return text.replace(" ", NO_BREAK)


def size_told(width_in: float, height_in: float, units: Unit) -> str:
    """Returns `5 × 7 in` or `127 × 177.8 mm`, unbroken."""
    return size_in_mm(width_in, height_in) if units == "mm" else size_in_inches(width_in, height_in)


def size_told_otherwise(width_in: float, height_in: float, units: Unit) -> str:
    """Returns the size in the units that are not the reader's first."""
    return size_told(width_in, height_in, "in" if units == "mm" else "mm")


def lengths_told(length_in: float, units: Unit) -> tuple[str, str]:
    """Returns a length in the reader's units, and in the other: `7 in`, `177.8 mm`."""
    inches, millimetres = format_length(length_in), length_in_mm(length_in)
    return (inches, millimetres) if units == "in" else (millimetres, inches)


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


def die_measures(die: Die, units: Unit = "in") -> str:
    """Returns the numbers a die is drawn with, in words; empty where it has none."""
    told = parameters_told(die.name, die.parameters, units)
    return ", ".join(unbroken(each) for each in told)


def stock_words(stock: Stock, units: Unit = "in") -> str:
    """Returns a stock's description as a sentence begins, with its usual thickness, and in
    millimetres its grammage."""
    thickness = unbroken(f"about {format_caliper(stock.caliper_mil, units)}")
    told = f"{sentence(stock.about.split(':')[0])}; {thickness} thick"
    if units != "in" and "g/m" not in told:
        told = f"{told}, {unbroken(f'{stock.gsm:.0f} g/m²')}"
    return f"{told}; {colour}" if (colour := stock_colour_words(stock)) else told


def stock_colour_words(stock: Stock) -> str:
    """Returns what is known of a stock's colour: that and how it was measured, or that a coloured
    one is an example; nothing of white paper, and of a colour the file itself gives."""
    if stock.is_coloured_example:
        return f"colour an {unbroken(EXAMPLE)}"
    return f"colour {stock.colour_source}" if stock.colour_source.startswith("measured") else ""


def paper_words(stock: Stock, units: Unit = "in") -> str:
    """Returns a stock's description as a sentence begins; in millimetres with its grammage."""
    told = sentence(stock.about.split(":")[0])
    if units != "in" and "g/m" not in told:
        told = f"{told}, {unbroken(f'{stock.gsm:.0f} g/m²')}"
    return f"{told}; {stock_colour_words(stock)}" if stock.is_coloured_example else told


def colour_words(name: str) -> str:
    """Returns an envelope's colour: by its name, or the number it is drawn by."""
    return f"As drawn, {name}" if name.startswith("#") else sentence(name.replace("-", " "))


def date_told(date: str) -> str:
    """Returns a day as a letter says it, unbroken: `26 November 2026` of `2026-11-26`."""
    year, month, day = date.split("-")
    return unbroken(f"{int(day)} {_MONTHS[int(month) - 1]} {int(year)}")


def file_mark(art: Art) -> str:
    """Returns the first 8 hexadecimal digits of a file's SHA-256 (FIPS 180-4)."""
    return art.sha256[:FINGERPRINT_DIGITS]


def template_fingerprint(die: Die) -> str:
    """Returns the fingerprint of the file a die is from; empty for one of a family."""
    if die.template is None:
        return ""
    return f"its die {unbroken(die.template_sha256[:FINGERPRINT_DIGITS])}"


def template_words(die: Die, units: Unit = "in") -> tuple[str, ...]:
    """Returns of a die from a template its file and fingerprint, which path is the cut and why, and
    what else the template draws."""
    if die.template is None:
        return ()
    mark = die.template_sha256[:FINGERPRINT_DIGITS]
    beside = [
        f"{what} {unbroken(format_length(distance_in, units))}"
        for what, distance_in in (("bleed", die.bleed_in), ("safe zone", die.safe_in))
        if distance_in is not None
    ]
    if die.folds:
        beside.append("a fold" if len(die.folds) == 1 else f"{len(die.folds)} folds")
    drawn = (f"It draws {', '.join(beside)}.",) if beside else ()
    return (die.template.name, f"fingerprint {mark}", f"The cut is {die.because}.", *drawn)


def art_words(art: Art) -> str:
    """Returns `invitation.pdf, page 1`."""
    return f"{art.path.name}, {unbroken(f'page {art.page}')}"


def press_notes(art: Art, stock: Stock) -> tuple[str, ...]:
    """Returns by which press a page's inks are shown on a stock, nothing for one of RGB alone on
    paper like white, which is shown by its own profiles; and how its white ink and other finishes
    are shown. Raises what reading the art raises."""
    (shown,) = presses_of([art])
    words = press_words(shown, parse_hex(stock.colour_hex), art.swatch)
    press = () if words == BY_ITSELF else (sentence(words),)
    return (*press, *finish_notes(art))


def finish_notes(art: Art) -> tuple[str, ...]:
    """Returns how a page's white ink and other finishes are shown. Raises as press_notes does."""
    (named,) = plates_named([art])
    return tuple(sentence(each) for each in finishes_told(art, named))


def finishes_in_brief(art: Art) -> tuple[str, ...]:
    """Returns the same for a client, in few words. Raises as press_notes does."""
    (named,) = plates_named([art])
    return tuple(sentence(each) for each in finishes_in_short(art, named))


def envelopes_of(suite: Suite, piece: Piece) -> str:
    """Returns the titles of the envelopes a piece goes in; empty where there are none."""
    return "; ".join(each.title for each in suite.envelopes if piece.name in each.holds)


def held_by(suite: Suite, envelope: Envelope) -> str:
    """Returns the titles of the pieces an envelope holds; empty where it holds none."""
    return ", ".join(suite.piece(name).title for name in envelope.holds)


def sentence(text: str) -> str:
    """Returns text with its first letter large."""
    return text[:1].upper() + text[1:]
