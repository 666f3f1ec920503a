"""Finishes that have a page of their own, as printers ask for foil: laid on their card."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.artwork.art import FinishSaid
from mockup.artwork.page import ArtPage, Placement, place_card, read_pages
from mockup.colour.plates import FinishPlate, Plate
from mockup.colour.srgb import Rgb, parse_hex
from mockup.errors import InputError
from mockup.trade.metals import FLAT_HEX, Metal
from mockup.units import Unit

UNSAID: Metal = "silver"  # judgement: what foil of a metal nobody says is shown as


def own_pages(
    finishing: Sequence[FinishSaid], placement: Placement, units: Unit = "in"
) -> list[tuple[FinishSaid, ArtPage, Placement]]:
    """Returns every finish that has a page of its own, that page, and where on it the same card
    lies. Raises InputError for a page without the card's size, and what read_page raises."""
    found = [(said, said.art) for said in finishing if said.art is not None]
    if not found:
        return []
    pages = read_pages([art for _, art in found])
    size = placement.trim.width, placement.trim.height
    return [
        (said, page, place_card(page, *size, placement.bleed_in, units))
        for (said, _), page in zip(found, pages, strict=True)
    ]


def that_fit(
    finishing: Sequence[FinishSaid], placement: Placement, units: Unit
) -> tuple[tuple[FinishSaid, ...], tuple[str, ...]]:
    """Returns what is said of finishes without those whose own page is not of the card's size, and
    of each of those why, in words. Raises what read_page raises."""
    fitting: list[FinishSaid] = []
    misfits: list[str] = []
    for said in finishing:
        try:
            own_pages([said], placement, units)
        except InputError as error:
            (page,) = read_pages([said.art]) if said.art else (None,)
            if page is None:
                raise
            misfits.append(str(error))
        else:
            fitting.append(said)
    return tuple(fitting), tuple(misfits)


def finish_plate(said: FinishSaid, plate: Plate) -> FinishPlate:
    """Returns the plate of a page of its own; foil in the flat colour of its metal."""
    return FinishPlate(said.finish, plate, said.metal, _flat(said))


def _flat(said: FinishSaid) -> Rgb | None:
    if said.finish != "foil" or said.metal == "clear":
        return None
    return parse_hex(FLAT_HEX[said.metal or UNSAID])
