"""Lines of a first suite file on what art says beyond its size: what is sure, and questions."""

from __future__ import annotations

import json
from collections.abc import Iterator

from mockup.suite.noticing import Creases, Noticed, halves
from mockup.suite.schema import FINISHES_MAX
from mockup.suite.starting import Found
from mockup.trade.finishes import FINISHES
from mockup.trade.metals import METALS, metal_named
from mockup.trade.sizes import plain_name
from mockup.units import Unit, format_length, format_size

_NAME_MAX = 200  # characters of a plate's name, as the suite file takes
_TOLD_MAX = 6  # judgement: more questions, or names in one, are not read
_TWO_CARDS = "both pages are one size; for two cards make page 2 a piece of its own"
_FRONT = {"left": "right half", "top": "lower half"}


def noticed_lines(card: Found, units: Unit) -> str:
    """Returns the lines of a piece on its fold, its other side and its finishes, or nothing."""
    lines = [*_fold_lines(card, units), *_back_lines(card), *_finish_lines(card.noticed)]
    lines += [f"# {each}" for each in _questions(card, units)]
    return "".join(f"{line}\n" for line in lines)


def _fold_lines(card: Found, units: Unit) -> Iterator[str]:
    if card.fold is None:
        return
    creases = card.noticed.creases or card.on_back.creases
    name = creases.name if creases is not None else ""
    sheet = card.sheet.visible
    yield (
        f'fold = "{card.fold}"  # by the line {quoted(name)} in the middle of its flat sheet, '
        f"{format_size(sheet.width, sheet.height, units)} with its bleed; `card` is the closed size"
    )


def _back_lines(card: Found) -> Iterator[str]:
    if card.back is None:
        return
    own = _finishes(card.on_back)
    of_it = f", finish = [{', '.join(own)}]" if own and own != _finishes(card.noticed) else ""
    table = f"{{ page = {card.back}{of_it} }}"
    if card.fold is None:
        yield f"back = {table}  # {_TWO_CARDS}"
    else:
        yield f"inside = {table}  # the inside of the same sheet"


def _finish_lines(noticed: Noticed) -> Iterator[str]:
    words = _finishes(noticed)
    if not words:
        return
    names = ", ".join(quoted(name) for name, _ in noticed.plates)
    which = "; which metal is it? add metal = " + ", ".join(f'"{each}"' for each in METALS)
    asked = which if any("plate =" in word for word in words) else ""
    plural = "plates" if len(noticed.plates) > 1 else "plate"
    yield f"finish = [{', '.join(words)}]  # by the art's {plural} {names}{asked}"


def _finishes(noticed: Noticed) -> list[str]:
    """Returns what stands in `finish`: a word, or a table for a foil whose name says no metal."""
    there = {what for _, what in noticed.plates}
    unsaid = [
        name
        for name, what in noticed.plates
        if what == "foil" and metal_named(name) is None and _is_plain(name)
    ]
    words = [f'"{what}"' for what in FINISHES if what in there and (what != "foil" or not unsaid)]
    words += [f'{{ as = "foil", plate = {quoted(name)} }}' for name in unsaid]
    return words[:FINISHES_MAX]


def _questions(card: Found, units: Unit) -> Iterator[str]:
    """Yields what only the designer can answer, each with what to write then."""
    closed = halves(card.inferred) if card.fold is None else None
    creases = card.noticed.creases or card.on_back.creases
    if card.fold is None and creases is not None:
        yield _of_creases(creases, units)
    elif closed is not None:
        size, fold = closed
        landscape = " landscape" if size.width_in > size.height_in else ""
        inside = " and `inside` in place of `back`" if card.back is not None else ""
        yield (
            f"is this the flat sheet of a folded {plain_name(size.name, units)}{landscape}, its "
            f'front the {_FRONT[fold]}? then card = "{plain_name(size.name, units)}{landscape}", '
            f'fold = "{fold}"{inside}'
        )
    layers = dict((*card.noticed.layers, *card.on_back.layers))
    for name, what in [pair for pair in layers.items() if _is_plain(pair[0])][:_TOLD_MAX]:
        yield (
            f"the layer {quoted(name)} holds marks in ordinary ink: is it the plate of its {what}? "
            f'then finish = [{{ as = "{what}", plate = {quoted(name)} }}]'
        )
    spots = [
        name
        for name in dict.fromkeys((*card.noticed.spots, *card.on_back.spots))
        if _is_plain(name)
    ]
    if spots:
        more = f" and {len(spots) - _TOLD_MAX} more" if len(spots) > _TOLD_MAX else ""
        yield (
            f"printed as spot ink: {', '.join(map(quoted, spots[:_TOLD_MAX]))}{more}; is one foil, "
            f'varnish or embossing? then finish = [{{ as = "foil", plate = {quoted(spots[0])} }}]'
        )


def _of_creases(creases: Creases, units: Unit) -> str:
    side = "left" if creases.upright else "top"
    places = " and ".join(format_length(each, units) for each in creases.at_in)
    return (
        f"the line {quoted(creases.name)} lies {places} from the {side}: is the sheet folded "
        "there? a card is folded once, in its middle; else ask your printer, and leave `fold` out"
    )


def _is_plain(name: str) -> bool:
    """Returns whether a suite file can name a plate."""
    return name == name.strip() != "" and len(name) <= _NAME_MAX and _letters(name) == name


def _letters(name: str) -> str:
    return name.encode(errors="backslashreplace").decode()


def quoted(name: str) -> str:
    """Returns a name as a TOML basic string; bytes that are no letters as escapes."""
    return json.dumps(_letters(name), ensure_ascii=False).replace("\x7f", "\\u007f")
