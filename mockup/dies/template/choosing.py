"""The cut chosen among a template's outlines, or a refusal that lists them: never a guess."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NoReturn

from mockup.dies.joining import closed_outlines, cut_shape
from mockup.dies.template.asked import THE_PAGE, Asked, asked_for, refuse_unknown
from mockup.dies.template.evidence import UNLISTED, Candidate, weighed
from mockup.dies.template.naming import path_called
from mockup.dies.template.nests import SAFE_MAX_IN, even_gap
from mockup.dies.template.page import SIZE_WITHIN_IN, Page
from mockup.dies.template.rings import Ring, outlines_of_size, path_box, rings_of
from mockup.dies.template.wording import because, choices, described, next_best
from mockup.errors import DieError, InputError
from mockup.geometry.outline import polygon_outline
from mockup.geometry.point import Box, Point, box_of
from mockup.trade.sizes import recognise_card
from mockup.units import Unit, format_length, format_size
from mockup.vector.template import Template, TemplatePath

AHEAD = 2.0  # judgement: less between the two best, and a printer would ask
AHEAD_APART = 4.0  # judgement: of two dies on a page one has to be named, or have its own bleed
_OFF = "; it is switched off in the file"
_HOW = "say which by `pick` (`--pick`): its number, name, colour or size"


@dataclass(frozen=True, eq=False)
class Weighed:
    """A page, all its rings, and those of them that might be the cut."""

    page: Page
    rings: tuple[Ring, ...]
    candidates: tuple[Candidate, ...]


@dataclass(frozen=True, eq=False)
class Choice:
    """The cut of a template and why, what it was chosen from, the next best in words.

    `size_note` says how it differs from the card where it does.
    """

    cut: Candidate
    because: str
    page: Page
    weighed: Weighed
    others: str = ""
    size_note: str = ""

    @property
    def rings(self) -> tuple[Ring, ...]:
        """All the rings of its page."""
        return self.weighed.rings

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        """All the candidates of its page."""
        return self.weighed.candidates


def choose(
    template: Template, card_in: tuple[float, float] | None, pick: str | None, unit: Unit
) -> Choice:
    """Returns the cut of a template: the one picked, or the one the evidence is for.

    What is hidden is taken where it is picked or named as the cut and nothing that is seen can be
    it. Raises InputError where nothing can be the cut, or more than one; DieError where nothing has
    the card's size.
    """
    seen = _weigh(template, card_in, unit, hidden=False)
    unseen = _weigh(template, card_in, unit, hidden=True)
    if pick is not None:
        return _picked(template, pick, seen, unseen, unit)
    named = [each for each in unseen.candidates if each.is_named_cut and not each.barred]
    viable = _viable(seen)
    if not viable and named and (card_in is None or _of_size(named, seen.page)):
        return _best(unseen, named, unit, _OFF)
    if not viable:
        return _page_itself(seen, unit) or _refuse_all(seen, unseen, unit)
    _refuse_open(seen, viable)
    return _best(seen, viable, unit, "")


def _weigh(
    template: Template, card_in: tuple[float, float] | None, unit: Unit, hidden: bool
) -> Weighed:
    paths = tuple(path for path in template.paths if path.hidden == hidden)
    rings = tuple(rings_of(paths))
    page = Page(template, paths, tuple(outlines_of_size(rings)), card_in, unit)
    return Weighed(page, rings, tuple(weighed(page)))


def _viable(found: Weighed) -> list[Candidate]:
    """Returns the candidates that nothing bars; the page's own ground only where it is alone."""
    page = found.page
    able = [each for each in found.candidates if not each.barred]
    ground = [
        each
        for each in able
        if page.is_page(each.ring) and not each.ring.look.stroked and not each.is_named_cut
    ]
    others = [each for each in able if each not in ground]
    if page.card_in is not None:
        return others if _of_size(others, page) or not _of_size(ground, page) else able
    return others or able


def _of_size(candidates: Sequence[Candidate], page: Page) -> list[Candidate]:
    return [each for each in candidates if page.has_card_size(each.ring)]


def _best(found: Weighed, viable: Sequence[Candidate], unit: Unit, remark: str) -> Choice:
    page = found.page
    ranked = sorted(viable, key=lambda each: -each.points)
    best = ranked[0]
    if page.card_in is not None:
        sized = _of_size(ranked, page)
        if not sized:
            whole = _page_itself(found, unit)
            return whole if whole is not None else _refuse_size(page, ranked, unit)
        best, ranked = sized[0], sized
        _refuse_contrary(page, best, viable, found, unit)
    close = [each for each in ranked if best.points - each.points < _ahead(best, each, page)]
    if len(close) > 1:
        _refuse_close(page.template.name, close, found, unit)
    if page.card_in is None:
        _refuse_for_page(page, best, viable, unit)
    others = [each for each in _ranked(found.candidates) if each is not best]
    why = because(best, unit, "") + remark
    return Choice(best, why, page, found, next_best(others, unit), _size_note(page, best, unit))


def _ahead(best: Candidate, other: Candidate, page: Page) -> float:
    """Returns by how much the best has to lead: a second die beside it asks for more."""
    if other is best:
        return AHEAD
    if page.card_in is not None or _meet(best.ring.box, other.ring.box):
        return AHEAD
    return AHEAD_APART


def _ranked(candidates: Sequence[Candidate]) -> list[Candidate]:
    able = [each for each in candidates if each.barred not in UNLISTED]
    return sorted(able, key=lambda each: -each.points)


def _refuse_contrary(
    page: Page, best: Candidate, viable: Sequence[Candidate], found: Weighed, unit: Unit
) -> None:
    """Refuses where another outline is named as the cut, and the one of the card's size is not."""
    if best.is_named_cut:
        return
    named = [each for each in viable if each.is_named_cut and each is not best]
    if named:
        raise InputError(
            f"{page.template.name}: the {described(named[0], unit)}, is named as the cut, but the "
            f"{described(best, unit)}, has the card's size; {_HOW}: "
            f"{choices(_ranked(found.candidates), unit)}"
        )


def _refuse_close(name: str, close: Sequence[Candidate], found: Weighed, unit: Unit) -> NoReturn:
    boxes = [each.ring.box for each in close]
    apart = any(not _meet(one, other) for one in boxes for other in boxes)
    what = "dies side by side" if apart else "outlines that may be the cut"
    listing = close if apart else _ranked(found.candidates)
    told = choices(sorted({*close, *listing}, key=_by_number), unit)
    raise InputError(f"{name}: holds {len(close)} {what}; {_HOW}: {told}")


def _by_number(candidate: Candidate) -> int:
    return candidate.number


def _meet(one: Box, other: Box) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.top < other.bottom
        and other.top < one.bottom
    )


def _refuse_for_page(page: Page, best: Candidate, viable: Sequence[Candidate], unit: Unit) -> None:
    """Refuses an outline that lies in its page as a safe zone lies in a card, and no more is known.

    It may as well be the cut, and the page its bleed.
    """
    whole = _whole(page.template)
    if best.points >= AHEAD or len(viable) > 1 or page.is_page(best.ring):
        return
    gap = even_gap(whole, best.ring.box)
    inside = gap is not None and gap <= SAFE_MAX_IN
    if inside or recognise_card(whole.width, whole.height) is not None:
        raise InputError(
            f"{page.template.name}: its one outline, the {described(best, unit)}, lies in a page "
            f"of {format_size(whole.width, whole.height, unit)}: it may be the cut, or be drawn on "
            'a card as large as the page; say the card\'s size, or pick "page" or '
            f'"{best.number}"'
        )


def _refuse_size(page: Page, ranked: Sequence[Candidate], unit: Unit) -> NoReturn:
    assert page.card_in is not None
    card = format_size(*page.card_in, unit)
    if len(ranked) == 1:
        note = _size_note(page, ranked[0], unit)
        raise DieError(f"{page.template.name}: {note}; {_size_hint(page, ranked, unit)}")
    listing = choices(sorted(ranked, key=_by_number), unit)
    raise DieError(
        f"{page.template.name}: none of its outlines has the card's size, {card}; "
        f"{_size_hint(page, ranked, unit)}; there are {listing}"
    )


def _size_hint(page: Page, ranked: Sequence[Candidate], unit: Unit) -> str:
    assert page.card_in is not None
    for candidate in ranked:
        if _alike(candidate.ring.size_in, (page.card_in[1], page.card_in[0]), 1):
            return "turn the card"
        if _alike(candidate.ring.size_in, page.card_in, 72 / 96):
            return "it seems drawn at 72 pixels to the inch; save it with its size in inches"
    return "take the template of the card's size"


def _alike(found: tuple[float, float], asked: tuple[float, float], factor: float) -> bool:
    pairs = zip(found, asked, strict=True)
    return all(abs(each - factor * side) <= SIZE_WITHIN_IN for each, side in pairs)


def _size_note(page: Page, candidate: Candidate, unit: Unit) -> str:
    if page.card_in is None:
        return ""
    found = candidate.ring.size_in
    off = [each - asked for each, asked in zip(found, page.card_in, strict=True)]
    said = [
        f"{format_length(abs(each), unit)} {words[each < 0]}"
        for each, words in zip(off, (("wider", "narrower"), ("higher", "lower")), strict=True)
        if abs(each) >= 0.0005
    ]
    if not said:
        return ""
    return (
        f"the template's die is {format_size(*found, unit)}, {' and '.join(said)} "
        f"than the card, {format_size(*page.card_in, unit)}"
    )


def _refuse_open(found: Weighed, viable: Sequence[Candidate]) -> None:
    """Refuses a template whose cut, by its name, is a line that does not close."""
    if any(each.is_named_cut for each in viable):
        return
    named = [path for path in found.page.paths if (c := path_called(path)) and c.what == "cut"]
    loose = [path for path in named if not path.closed and not path.filled]
    if not loose:
        return
    box = box_of(corner for path in loose for corner in _corners(path_box(path)))
    largest = max(viable, key=lambda each: each.ring.box.width * each.ring.box.height).ring.box
    if box.width > largest.width / 2 and box.height > largest.height / 2:
        closed_outlines(found.page.template.name, named)


def _corners(box: Box) -> list[Point]:
    return [Point(box.left, box.top), Point(box.right, box.bottom)]


def _refuse_all(seen: Weighed, unseen: Weighed, unit: Unit) -> NoReturn:
    template = seen.page.template
    if not seen.page.paths:
        names = sorted({name for path in unseen.page.paths for name in path.layers})
        said = f" ({', '.join(names[:6])})" if names else ""
        raise InputError(
            f"{template.name}: every path is on a layer that is switched off{said}; "
            "switch on that of the cut, or name it"
        )
    if seen.candidates:
        listing = choices(_ranked(seen.candidates) or seen.candidates, unit)
        raise InputError(
            f"{template.name}: none of its outlines can be the cut, by their names, labels and "
            f"sizes; {_HOW}: "
            f"{listing}"
        )
    closed = closed_outlines(template.name, _named_or_all(seen.page.paths))
    cut_shape(template.name, closed)  # tells what is wrong where something is
    raise InputError(f"{template.name}: holds no outline large enough for a card")


def _named_or_all(paths: Sequence[TemplatePath]) -> list[TemplatePath]:
    named = [path for path in paths if (c := path_called(path)) and c.what in ("cut", "trim")]
    return [replace(path, closed=True) if path.filled else path for path in named or paths]


def _whole(template: Template) -> Box:
    return Box(0.0, 0.0, template.width_in, template.height_in)


def _page_itself(found: Weighed, unit: Unit) -> Choice | None:
    """Returns the page's own edge as the cut where it has the card's size and the outlines on it
    are all inside, as a safe zone is; None where it may be otherwise."""
    page = found.page
    whole = _whole(page.template)
    if page.card_in is None or not _alike((whole.width, whole.height), page.card_in, 1):
        return None
    if not all(_is_safe_in(whole, each) for each in found.candidates):
        return None
    cut = page_candidate(page)
    why = because(cut, unit, "the page's own edge")
    others = next_best(_ranked(found.candidates), unit)
    return Choice(cut, why, page, found, others, _size_note(page, cut, unit))


def _is_safe_in(whole: Box, candidate: Candidate) -> bool:
    if candidate.role == "safe" or candidate.barred in UNLISTED:
        return True
    gap = even_gap(whole, candidate.ring.box)
    return candidate.role is None and gap is not None and gap <= SAFE_MAX_IN


def page_candidate(page: Page) -> Candidate:
    """Returns the page's own edge as an outline to be cut."""
    box = _whole(page.template)
    outline = polygon_outline(
        (box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)
    )
    ground = TemplatePath(outline.segments, closed=True, filled=True, painted=-1)
    return Candidate(0, Ring(outline, (ground,)), None, None, ())


def _picked(template: Template, pick: str, seen: Weighed, unseen: Weighed, unit: Unit) -> Choice:
    for found, remark in ((seen, ""), (unseen, _OFF)):
        asked = asked_for(pick, found.page, found.candidates, unit)
        if asked is None and pick.strip().casefold() == THE_PAGE and found is seen:
            asked = Asked((page_candidate(found.page),), "the page's own edge, as asked")
        if asked is None:
            continue
        page = found.page
        best = _best_asked(found, asked, pick, unit)
        if page.card_in is not None and not _alike(best.ring.size_in, page.card_in, 1):
            _refuse_asked(found, best, asked.how, unit)
        others = [each for each in _ranked(found.candidates) if each is not best]
        why = because(best, unit, asked.how) + remark
        note = _size_note(page, best, unit)
        return Choice(best, why, page, found, next_best(others, unit), note)
    refuse_unknown(template.name, pick, template.paths, seen.candidates, unit)


def _refuse_asked(found: Weighed, best: Candidate, how: str, unit: Unit) -> NoReturn:
    sized = _of_size(found.candidates, found.page)
    if not sized:
        _refuse_size(found.page, [best], unit)
    raise DieError(
        f"{found.page.template.name}: {how}, the {described(best, unit)}, has not the card's size; "
        f"{choices(sized, unit)}, {'have' if len(sized) > 1 else 'has'} it"
    )


def _best_asked(found: Weighed, asked: Asked, pick: str, unit: Unit) -> Candidate:
    """Returns the best of what is asked for. Raises InputError where more than one may be meant."""
    ranked = sorted(asked.candidates, key=lambda each: -each.points)
    ranked = _of_size(ranked, found.page) or ranked
    if len(ranked) > 1 and ranked[0].points - ranked[1].points < AHEAD:
        raise InputError(
            f'{found.page.template.name}: "{pick}" is said of {len(ranked)} outlines; {_HOW}: '
            f"{choices(sorted(ranked, key=_by_number), unit)}"
        )
    return ranked[0]
