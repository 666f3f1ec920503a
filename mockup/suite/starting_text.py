"""The text of a first suite file, with what was inferred, and why, in its comments."""

from __future__ import annotations

import json
import os
from pathlib import Path

from mockup.errors import InputError
from mockup.suite.placeholders import CLIENT, DESIGNER
from mockup.suite.reading import title_of
from mockup.suite.starting import Beginning, EnvelopePlan, Found, LinerPlan
from mockup.suite.starting_noticed import noticed_lines
from mockup.suite.stock_reading import USUAL
from mockup.trade.sizes import CardSize, EnvelopeSize, fitting_envelopes, plain_name, play
from mockup.units import INCHES_PER_UNIT, Unit, format_length, format_size

TITLE_MAX = 200  # characters, as the suite file takes

_SAID = {
    "in": 'Lengths are inches unless they say "mm".',
    "mm": 'Lengths are millimetres unless they say "in".',
}
_STEP_MM = 0.005
_PAPER = {"in": 'paper = "letter"  # or "a4"', "mm": 'paper = "a4"  # or "letter"'}
_POST = '# from = "uk"  # whose rules of post are asked: us, uk, canada, germany, france, upu'


def suite_text(beginning: Beginning, folder: Path) -> str:
    """Returns the text of a suite file to be kept in `folder`."""
    units, cards = beginning.units, beginning.cards
    bleed_in = cards[0].inferred.bleed_in
    parts = [_head(folder, bleed_in, units)]
    parts += [_piece(card, folder, bleed_in, units) for card in cards]
    parts += [_envelope(plan, folder, units) for plan in beginning.envelopes]
    if not beginning.envelopes:
        size = "200 x 250" if units == "mm" else "8 x 10 in"
        parts.append(
            "# No envelope of the trade fits the largest card; give one by its size:\n"
            f'# [envelopes.outer]\n# size = "{size}"\n'
        )
    parts.append(f'[scene]\nname = "limewash"\n\n[proof]\n{_PAPER[units]}\n\n# [post]\n{_POST}\n')
    return "\n".join(parts)


def _head(folder: Path, bleed_in: float, units: Unit) -> str:
    title = title_of(folder.resolve().name)[:TITLE_MAX].strip() or "Suite"
    metric = 'units = "mm"\n' if units == "mm" else ""
    return f"""\
# A suite file: what is printed, cut, folded and held. {_SAID[units]}
# What follows a "#" was inferred from the art; please check it.

title = {_quoted(title)}
client = {_quoted(CLIENT)}
designer = {_quoted(DESIGNER)}
revision = "1"
{metric}bleed = {_figure(bleed_in, units)}
"""


def _piece(card: Found, folder: Path, common_bleed_in: float, units: Unit) -> str:
    size = card.inferred.card
    own = card.inferred.bleed_in
    bleed = "" if abs(own - common_bleed_in) < 0.0005 else f"bleed = {_figure(own, units)}\n"
    page = f"page = {card.page}  # of {card.pages}\n" if card.pages > 1 else ""
    fits = fitting_envelopes(size.width_in, size.height_in, units=units)[:3]
    envelopes = ", ".join(_fit(envelope, size, units) for envelope in fits) or "none of the trade's"
    return f"""\
[pieces.{card.name}]
art = {_quoted(_relative(card.art, folder))}
{page}card = {_quoted(_card_text(size, units))}  # \
{format_size(size.width_in, size.height_in, units)}: {card.because(units)}
{noticed_lines(card, units)}{bleed}die = "rectangle"  # `mockup dies` lists the others
stock = "{USUAL[units]["piece"]}"  # `mockup papers` lists the others
# quantity = 100
# fits: {envelopes}
"""


def _fit(envelope: EnvelopeSize, card: CardSize, units: Unit) -> str:
    room = play(envelope, card.width_in, card.height_in)
    sides = f"{format_length(room.width_in, units)}, {format_length(room.height_in, units)}"
    return f"{plain_name(envelope.name, units)} (play {sides})"


def _envelope(plan: EnvelopePlan, folder: Path, units: Unit) -> str:
    held = ", ".join(_quoted(each) for each in plan.holds)
    liner = _liner(plan.liner, folder) if plan.liner else ""
    size = format_size(plan.size.width_in, plan.size.height_in, units)
    others = ", ".join(f'"{each}"' for each in ("straight", "pointed", "deep-pointed")
                       if each != plan.flap)  # fmt: skip
    return f"""\
[envelopes.{plan.name}]
size = {_quoted(plain_name(plan.size.name, units))}  # {size}, {plan.why}
flap = "{plan.flap}"  # or {others}
colour = "oat"  # a name, or "#rrggbb"
{liner}{_front(plan, folder)}holds = [{held}]
"""


def _front(plan: EnvelopePlan, folder: Path) -> str:
    """Returns the art of an envelope's front, or the question whether a card's page is that."""
    if plan.front is not None:
        said = f"face = {_page_table(plan.front, folder)}  # by its name and its page's size\n"
        if plan.front.back is not None:
            own = _page_table(plan.front, folder, plan.front.back)
            said += f"# flap_art = {own}  # is page 2 its back, or its flap?\n"
        return said
    if plan.perhaps is not None:
        own, name = _page_table(plan.perhaps, folder), plan.perhaps.name
        return (
            f"# face = {own}  # is {name} this envelope's front? its page has that size; "
            "then take its piece out, and out of `holds`\n"
        )
    return ""


def _page_table(found: Found, folder: Path, number: int | None = None) -> str:
    page = number or found.page
    paged = f", page = {page}" if page > 1 else ""
    return f"{{ art = {_quoted(_relative(found.art, folder))}{paged} }}"


def _liner(plan: LinerPlan, folder: Path) -> str:
    line = f"liner = {_page_table(plan.art, folder)}\n"
    return f"# {plan.missing}\n# {line}" if plan.missing else line


def _card_text(size: CardSize, units: Unit) -> str:
    if "\u00d7" in size.name:  # no trade name: a size
        wide, high = (_figure(side, units) for side in (size.width_in, size.height_in))
        return f"{wide} x {high}" if units == "mm" else f"{wide} x {high} in"
    name = plain_name(size.name, units)
    return f"{name} landscape" if size.width_in > size.height_in else name


def _figure(length_in: float, units: Unit) -> str:
    length = length_in / INCHES_PER_UNIT[units]
    if units == "mm":  # 1/8 in stays 3.175, and 2.9986, of whole points, is 3
        length = round(length / _STEP_MM) * _STEP_MM
    return f"{length:.{4 if units == 'in' else 3}f}".rstrip("0").rstrip(".")


def _relative(path: Path, folder: Path) -> str:
    try:
        return Path(os.path.relpath(path.resolve(), folder.resolve())).as_posix()
    except ValueError:  # on another drive, which no relative path leads to
        return path.resolve().as_posix()


def _quoted(text: str) -> str:
    """Returns text as a TOML basic string: a JSON string, with DEL escaped as well."""
    try:
        text.encode()
    except UnicodeEncodeError as error:
        shown = text.encode(errors="backslashreplace").decode()
        raise InputError(f"{shown}: the file's name is not text; give it another") from error
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
