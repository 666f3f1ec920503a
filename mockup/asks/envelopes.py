"""Envelopes asked for: the sizes a suite file can name, and the cards made for them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.asks.gallery_request import GalleryRequest, looked_at
from mockup.envelopes.spec import envelope_spec
from mockup.envelopes.views import closed_back
from mockup.geometry.affine import translation
from mockup.geometry.outline import Shape, polygon_outline
from mockup.output.gallery import Gallery, Sample, write_gallery
from mockup.progress import Progress
from mockup.trade.sizes import CARDS, ENVELOPES, CardSize, EnvelopeSize, plain_name
from mockup.units import Unit, format_size

_SCALE = 0.17  # a 9.75 in envelope fills a cell of four in a row


class EnvelopesRequest(GalleryRequest):
    """The envelopes to be listed; see GalleryRequest."""


@dataclass(frozen=True)
class EnvelopesAnswer:
    """The envelopes there are, each with the card made for it, and the file written."""

    envelopes: tuple[tuple[EnvelopeSize, CardSize | None], ...]
    written: Path | None


def list_envelopes(request: EnvelopesRequest, progress: Progress | None = None) -> EnvelopesAnswer:
    """Returns the envelopes there are, and draws them where that is asked.

    Raises RequestError, LimitError, OutputError.
    """
    looked = looked_at(request)
    cards = {card.name: card for card in CARDS.values()}
    pairs = tuple((each, cards.get(each.nominal_card or "")) for each in ENVELOPES.values())
    if looked.output is not None:
        samples = [_sample(size, card, looked.units) for size, card in pairs]
        about = (
            f"From the back, at {_SCALE * 100:.0f} % of true size; dashed, the card made for it. "
            "Flaps are drawn pointed, at common proportions: makers differ."
        )
        gallery = Gallery("Envelopes", about, samples, 4, scale=_SCALE)
        write_gallery(looked.output, gallery, looked.width_px)
    if progress is not None:
        progress(1.0)
    return EnvelopesAnswer(pairs, looked.output)


def _sample(size: EnvelopeSize, card: CardSize | None, units: Unit) -> Sample:
    back = closed_back(envelope_spec(size.width_in, size.height_in))
    told = [format_size(size.width_in, size.height_in, units)]
    if card is not None:
        name = plain_name(card.name, units)
        told.append(f"{name} card, {format_size(card.width_in, card.height_in, units)}")
    inside = () if card is None else (_card(size, card),)
    name = plain_name(size.name, units)
    return Sample(name, tuple(told), outlines=(back.body, back.flap), inside=inside)


def _card(size: EnvelopeSize, card: CardSize) -> Shape:
    short, long = sorted((card.width_in, card.height_in))
    outline = polygon_outline((0, 0), (long, 0), (long, short), (0, short))
    return Shape(outline).mapped(
        translation((size.width_in - long) / 2, (size.height_in - short) / 2)
    )
