"""What `mockup dies` answers, for machines and in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from mockup.dies.family import Die
from mockup.dies.wording import lengths_mm
from mockup.printers.catalogue import Offer, Printer
from mockup.printers.choosing import advice, customs_of, offers_of
from mockup.printers.listing import SAMPLE_IN, Listed
from mockup.printers.prices import money
from mockup.trade.sizes import card_size
from mockup.units import Unit, format_size

UNCUT = "rectangle"  # trimmed on the guillotine


def size_of(card: str, units: Unit) -> tuple[float, float]:
    """Returns (width, height) in inches of a card named or sized; a size without a unit is in
    `units`. Raises SuiteError."""
    size = card_size(card, units)
    return size.width_in, size.height_in


def dies_answer(rows: Sequence[Listed]) -> list[dict[str, Any]]:
    """Returns the listed dies for a machine: name, parameters (lengths in inches, and again in
    millimetres), and where each is available."""
    return [
        {
            "name": row.name,
            "parameters": dict(row.parameters),
            "parameters_mm": lengths_mm(row.name, row.parameters),
            "available": [_available(offer) for offer in row.offers],
        }
        for row in rows
    ]


def who_has(printers: Sequence[Printer], row: Listed) -> str:
    """Returns who has a die, a line a printer: `Sluice End Letterpress: A6 0.55, A7 0.58 USD`;
    empty where none of the printers has it or makes it."""
    if row.name == UNCUT:
        return "needs no die"
    lines: list[str] = []
    for printer in {offer.printer: None for offer in row.offers}:
        own = [offer for offer in row.offers if offer.printer == printer]
        prices = ", ".join(f"{offer.card.name} {offer.terms.each:.2f}" for offer in own)
        lines.append(f"{printer}: {prices} {own[0].currency}")
    return "\n".join(lines) or ("made to order" if customs_of(printers) else "")


def pieces_answer(
    printers: Sequence[Printer], pieces: Sequence[tuple[str, Die]]
) -> list[dict[str, Any]]:
    """Returns for each (name, die) who has it, else which sizes and dies would do."""
    answers: list[dict[str, Any]] = []
    for name, die in pieces:
        other = advice(printers, die)
        answers.append(
            {
                "piece": name,
                "die": die.name,
                "because": die.because,
                "available": [_available(offer) for offer in offers_of(printers, die)],
                "sizes": list(other.sizes) if other else [],
                "dies": list(other.dies) if other else [],
            }
        )
    return answers


def piece_told(printers: Sequence[Printer], name: str, die: Die, units: Unit = "in") -> str:
    """Returns in a sentence who has a piece's die, else which sizes and dies would do."""
    what = f"{name}: {die.name} at {format_size(die.width_in, die.height_in, units)}"
    if die.because:
        what += f" (its cut is {die.because})"
    found = offers_of(printers, die)
    if die.name == UNCUT:
        return f"{what}: trimmed square, needs no die"
    if found:
        return f"{what}: {'; '.join(_offer_words(offer) for offer in found)}"
    other = advice(printers, die)
    if not printers:
        return f"{what}: no catalogue says who has it"
    parts: list[str] = ["nobody has it"]
    if other and other.sizes:
        parts.append(f"this die exists at {', '.join(other.sizes)}")
    if other and other.dies:
        parts.append(f"at this size there are {', '.join(other.dies)}")
    customs = customs_of(printers)
    if customs:
        tool = money(customs[0].terms.tool, customs[0].currency)
        parts.append(f"a die made to order costs from {tool} ({customs[0].printer})")
    return f"{what}: {'; '.join(parts)}"


def sheet_about(card: str | None, size: tuple[float, float] | None, units: Unit) -> str:
    """Returns the line under the title of a sheet: what size the dies are drawn at."""
    if size is None:
        return f"Drawn for a card of {format_size(*SAMPLE_IN, units)} where no other size is named"
    words = format_size(*size, units)
    return f"For a card of {words}" if card is None or card[0].isdigit() else f"{card}, {words}"


def _offer_words(offer: Offer) -> str:
    each = money(offer.terms.each, offer.currency)
    least = f", from {offer.terms.minimum}" if offer.terms.minimum > 1 else ""
    return f"{offer.printer}, {each} each{least}"


def _available(offer: Offer) -> dict[str, Any]:
    return {
        "printer": offer.printer,
        "card": offer.card.name,
        "price": float(offer.terms.each),
        "currency": offer.currency,
        "minimum": offer.terms.minimum,
        "thickest_mil": offer.thickest_mil,
    }
