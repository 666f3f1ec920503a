"""What a page tells beyond its size, for a first suite: finishes, spot inks, its fold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from mockup.artwork.finishes import plates_named
from mockup.artwork.inspection import Inspection, Layer, Painted, inspect
from mockup.artwork.page import SIZE_TOLERANCE_IN, ArtPage, place_card
from mockup.dies.folding import Fold, closed_size
from mockup.errors import InputError, LimitError
from mockup.suite.inference import READ, Inferred
from mockup.trade.finishes import Finish, finish_named, finish_of_step
from mockup.trade.sizes import CardSize, recognise_card
from mockup.trade.vocabulary import STEPS, is_template, name_meaning
from mockup.units import format_size

ACROSS_SHARE = 0.85  # judgement: of the sheet's side; a crease may stop short of the cut
THIN_IN = 0.03  # judgement: what is wider across its length is no line
MIDDLE_WITHIN_IN = 0.02  # judgement: panels that differ by more are not meant alike
_PROCESS = {"all", "none", "cyan", "magenta", "yellow", "black"}  # ISO 32000-1 8.6.6.4, 8.6.6.5


@dataclass(frozen=True)
class Creases:
    """Lines of the art that its maker called a crease or a fold: the name that says so, whether
    they run from top to bottom, where they cross the sheet, inches from its left or its top."""

    name: str
    upright: bool
    at_in: tuple[float, ...]


@dataclass(frozen=True)
class Noticed:
    """What one page of art says by the names of its plates, layers and lines.

    `plates` are finishes by the name of their plate; `layers` are named for a finish and hold marks
    in ordinary ink; `spots` are colours whose names say no finish.
    """

    plates: tuple[tuple[str, Finish], ...] = ()
    layers: tuple[tuple[str, Finish], ...] = ()
    spots: tuple[str, ...] = ()
    creases: Creases | None = None
    missed: str = ""
    """Why nothing was read of it, where that is so."""


NOTHING = Noticed()


def notice(sheet: ArtPage, inferred: Inferred) -> Noticed:
    """Returns what a page says beyond its size; of one that cannot be read so far, why not."""
    card = inferred.card
    try:
        placement = place_card(sheet, card.width_in, card.height_in, inferred.bleed_in)
        page = inspect(sheet.art, placement)
        (plates,) = plates_named([sheet.art])
    except (InputError, LimitError) as error:
        return Noticed(missed=str(error))
    own = [name for name, _ in plates]
    spots = {name for each in page.painted for name in _inks(each)}
    known = {*own, *(name for name in spots if is_template(name) or name.lower() in _PROCESS)}
    return Noticed(
        tuple(plates),
        tuple(_layers(page, own)),
        tuple(sorted(spots - known)),
        _creases(page, card.width_in, card.height_in),
    )


def folded(inferred: Inferred, creases: Creases | None) -> tuple[Inferred, Fold | None]:
    """Returns the closed card and its fold, where one crease halves the sheet; else the sheet."""
    card = inferred.card
    if creases is None or len(creases.at_in) != 1:
        return inferred, None
    side_in = card.width_in if creases.upright else card.height_in
    if abs(creases.at_in[0] - side_in / 2) > MIDDLE_WITHIN_IN:
        return inferred, None
    fold: Fold = "left" if creases.upright else "top"
    return replace(inferred, card=_closed(card, fold)), fold


def halves(inferred: Inferred) -> tuple[CardSize, Fold] | None:
    """Returns the named card that a sheet without a name would be, folded in the middle of its
    longer side; None where it is none."""
    card = inferred.card
    if card.source != READ:
        return None
    fold: Fold = "left" if card.width_in > card.height_in else "top"
    closed = _closed(card, fold)
    return None if closed.source == READ else (closed, fold)


def _closed(card: CardSize, fold: Fold) -> CardSize:
    wide, high = closed_size(card.width_in, card.height_in, fold)
    own = CardSize(format_size(wide, high), wide, high, READ)
    return recognise_card(wide, high, SIZE_TOLERANCE_IN) or own


def _inks(painted: Painted) -> tuple[str, ...]:
    ink = painted.ink
    return ink.names if ink is not None and ink.space == "spot" else ()


def _layers(page: Inspection, plates: Sequence[str]) -> Iterator[tuple[str, Finish]]:
    """Yields layers named for a finish that hold marks on none of the plates."""
    for layer in page.layers:
        what = finish_of_step(layer.processing_step) or finish_named(layer.name)
        own = [each for each in page.painted if each.layer == layer.name]
        if what is None or layer.name in plates:
            continue
        if any(not _inks(each) or not {*_inks(each)} <= {*plates} for each in own):
            yield layer.name, what


def _creases(page: Inspection, width_in: float, height_in: float) -> Creases | None:
    """Returns the lines across a sheet that are called creases; those of one direction alone."""
    layers = {each.name: each for each in page.layers}
    found: dict[Literal["upright", "level"], list[tuple[str, float]]] = {"upright": [], "level": []}
    for each in (*page.painted, *page.hidden):
        name = _crease_name(each, layers)
        if name is None or each.kind != "path":
            continue
        box = each.box
        if box.width <= THIN_IN and box.height > ACROSS_SHARE * height_in:
            found["upright"].append((name, box.centre.x))
        if box.height <= THIN_IN and box.width > ACROSS_SHARE * width_in:
            found["level"].append((name, box.centre.y))
    if bool(found["upright"]) == bool(found["level"]):
        return None
    lines = found["upright"] or found["level"]
    at_in = sorted({round(at, 2) for _, at in lines})
    apart = [at for at, before in zip(at_in, (-1.0, *at_in), strict=False) if at - before > THIN_IN]
    return Creases(lines[0][0], bool(found["upright"]), tuple(apart))


def _crease_name(painted: Painted, layers: dict[str, Layer]) -> str | None:
    """Returns the name of a layer or an ink that says a mark is a crease's."""
    for name in (*_inks(painted), *((painted.layer,) if painted.layer else ())):
        step = layers[name].processing_step if name in layers else None
        if name_meaning(name) == "crease" or STEPS.get(step or "") == "crease":
            return name
    return None
