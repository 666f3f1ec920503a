"""`mockup envelopes`: the envelopes a suite file can name."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from mockup.cli import console
from mockup.cli.gallery_options import GalleryFile, GalleryJson, GalleryUnits, GalleryWidth

if TYPE_CHECKING:
    from mockup.trade.sizes import CardSize, EnvelopeSize
    from mockup.units import Unit


def envelopes(
    output: GalleryFile = None,
    units: GalleryUnits = "in",
    width: GalleryWidth = 2000,
    json: GalleryJson = False,
) -> None:
    """List the envelopes there are, and the card each is made for; -o draws them."""
    from mockup.asks.envelopes import EnvelopesRequest, list_envelopes
    from mockup.units import in_to_mm

    answer = list_envelopes(EnvelopesRequest(output, units, width))
    if json:
        rows: list[dict[str, Any]] = [
            {
                "name": size.name,
                "width_in": round(size.width_in, 4),
                "height_in": round(size.height_in, 4),
                "width_mm": round(in_to_mm(size.width_in), 2),
                "height_mm": round(in_to_mm(size.height_in), 2),
                "card": size.nominal_card,
                "source": size.source,
            }
            for size, _ in answer.envelopes
        ]
        console.say_json({"envelopes": rows, "written": answer.written and str(answer.written)})
        return
    told: Unit = "mm" if units == "mm" else "in"
    if answer.written is not None:
        console.say(f"{answer.written}: {len(answer.envelopes)} envelopes")
        return
    console.say_rows(
        ("envelope", "size", "for the card"),
        [(*_words(size, told), ", ".join(_words(card, told))) for size, card in answer.envelopes],
    )


def _words(size: EnvelopeSize | CardSize | None, units: Unit) -> tuple[str, ...]:
    from mockup.trade.sizes import plain_name
    from mockup.units import format_size

    if size is None:
        return ()
    return plain_name(size.name, units), format_size(size.width_in, size.height_in, units)
