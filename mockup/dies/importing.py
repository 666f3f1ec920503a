"""A die from a printer's template: which path is the cut, and why; bleed and safe zone with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NoReturn

from mockup.dies.family import Die
from mockup.errors import DieError, InputError, nearest
from mockup.geometry.affine import translation
from mockup.geometry.outline import Outline, Shape
from mockup.geometry.point import box_of
from mockup.sources import read_whole, sha256_of
from mockup.trade.limits import FARTHEST_IN, FILE_MAX_BYTES
from mockup.trade.vocabulary import (
    BLEED,
    CONTENT_AREA,
    CUTTING,
    DRILLING,
    PUNCHING,
    TEMPLATE,
    Meaning,
    meaning,
)
from mockup.units import format_length, format_size
from mockup.vector.template import Template, TemplatePath
from mockup.workshop import crew
from mockup.workshop.job import Job

_PDF = "mockup.vector.pdf_page:read_pdf_template"
_SVG = "mockup.vector.svg_reading:read_svg_template"
BESIDE_CUT = TEMPLATE - {"cut", "trim", "hole"}
SIZE_WITHIN_IN = 0.02  # inch and millimetre names of one card differ by less


@dataclass(frozen=True)
class ImportedDie:
    """A die as its template draws it, at the template's size, moved to begin at (0, 0).

    `bleed` and `safe` are outlines found beside it, in the die's own coordinates, inches.
    `size_note` says how template and card differ where they do, else nothing.
    """

    die: Die
    bleed: Shape | None
    safe: Shape | None
    size_note: str = ""


def import_die(
    path: Path,
    card_in: tuple[float, float] | None = None,
    pick: str | None = None,
    page: int = 1,
) -> ImportedDie:
    """Returns the die drawn in an SVG or PDF template.

    The cut path is the one of the layer, ink or id called `pick`; else that of the processing step
    Structural/Cutting (ISO 19593-1); else of a layer or spot colour whose name means cut or die,
    or trim, with holes so named; else the outermost closed path. `card_in` is (width, height) in
    inches. Raises InputError where the file cannot be read or holds no sound outline, DieError
    where it has not the card's size.
    """
    template = _read(path, page)
    chosen, because = _chosen(template, pick)
    shape = _shape(template, chosen)
    box = shape.box
    note = _size_note(template.name, (box.width, box.height), card_in)
    home = translation(-box.left, -box.top)
    die = Die(path.stem, box.width, box.height, (), shape.mapped(home), because, path)
    bleed = _beside(template, BLEED, "bleed")
    safe = _beside(template, CONTENT_AREA, "safe")
    return ImportedDie(
        die,
        bleed.mapped(home) if bleed else None,
        safe.mapped(home) if safe else None,
        note,
    )


def _read(path: Path, page: int) -> Template:
    source = read_whole(path, FILE_MAX_BYTES)
    head, mark = source[:1024], sha256_of(source)
    if b"%PDF-" in head:
        job = Job((str(path), source, page), str(path), mark, (str(path), mark, page))
        return crew.done(_PDF, [job])[0]
    if path.suffix.lower() in (".svg", ".svgz") or b"<svg" in head:
        job = Job((str(path), source), str(path), mark, (str(path), mark))
        return crew.done(_SVG, [job])[0]
    raise InputError(f"{path}: is neither SVG nor PDF; save the template as one of them")


def _chosen(template: Template, pick: str | None) -> tuple[list[TemplatePath], str]:
    """Returns the paths of the cut, and the reason they were taken, for the reader.

    A die's layer is often switched off, so that it is not printed: one that is hidden is taken
    where it is asked for or named as the cut and nothing that is seen is; never for its size.
    """
    if not template.paths:
        raise InputError(f"{template.name}: draws no path; is the outline an image?")
    _refuse_far(template)
    seen, unseen = (
        replace(template, paths=tuple(path for path in template.paths if path.hidden == hidden))
        for hidden in (False, True)
    )
    for part, remark in ((seen, ""), (unseen, "; it is switched off in the file")):
        found = _asked_or_named(part, pick)
        if found is not None:
            return found[0], found[1] + remark
    if pick is not None:
        _refuse_unknown(template, pick)
    if not seen.paths:
        names = sorted({name for path in unseen.paths for name in path.layers})
        said = f" ({', '.join(names[:6])})" if names else ""
        raise InputError(
            f"{template.name}: every path is on a layer that is switched off{said}; "
            "switch on that of the cut, or name it"
        )
    return _outermost(seen), "the outermost closed path; nothing in the file is named as cut"


def _refuse_far(template: Template) -> None:
    for path in template.paths:
        box = box_of(point for segment in path.segments for point in segment.extremes())
        if not max(map(abs, box)) <= FARTHEST_IN:  # false for nan as well
            raise InputError(f"{template.name}: draws beyond any page; save it again")


def _asked_or_named(template: Template, pick: str | None) -> tuple[list[TemplatePath], str] | None:
    """Returns the paths asked for; else those the file itself calls the cut; or None."""
    if pick is not None:
        wanted = pick.casefold()
        asked = [p for p in template.paths if wanted in {name.casefold() for name in _names(p)}]
        return (asked, f'the layer or ink "{pick}", as asked') if asked else None
    steps = {CUTTING, PUNCHING, DRILLING}
    if any(CUTTING in path.steps for path in template.paths):
        stepped = [path for path in template.paths if steps & set(path.steps)]
        return stepped, "the processing step Structural/Cutting (ISO 19593-1)"
    able = [path for path in template.paths if not _is_beside_cut(path)]
    for what in ("cut", "trim"):
        for kind, names_of in (("layer", _layers), ("ink", _inks)):
            found = _meaning(able, names_of, what)
            if found:
                because = f'the {kind} "{found[0][1]}", whose name means {what}'
                return [*(path for path, _ in found), *_holes(able)], because
    return None


def _names(path: TemplatePath) -> tuple[str, ...]:
    return (*path.layers, *path.inks, *path.steps)


def _refuse_unknown(template: Template, pick: str) -> NoReturn:
    names = sorted({name for path in template.paths for name in _names(path)})
    hint = nearest(pick, names) or (
        f"; there are {', '.join(names[:12])}" if names else "; it names none"
    )
    raise InputError(f'{template.name}: no layer or ink called "{pick}"{hint}')


def _meaning(
    paths: Sequence[TemplatePath],
    names_of: Callable[[TemplatePath], tuple[str, ...]],
    what: Meaning,
) -> list[tuple[TemplatePath, str]]:
    """Returns the paths whose layers or inks mean `what`, each with the name that says so."""
    meant = [(path, meaning(names_of(path))) for path in paths]
    return [(path, said[1]) for path, said in meant if said and said[0] == what]


def _holes(paths: Sequence[TemplatePath]) -> list[TemplatePath]:
    """Returns the paths whose layer or ink is named as a hole; they are cut with the outline."""
    return [path for path in paths if "hole" in _meanings(path)]


def _is_beside_cut(path: TemplatePath) -> bool:
    """Returns whether a path's layer or ink says that it is another line than the cut."""
    return any(what in BESIDE_CUT for what in _meanings(path))


def _meanings(path: TemplatePath) -> list[Meaning]:
    said = (meaning(path.layers), meaning(path.inks))
    return [each[0] for each in said if each is not None]


def _layers(path: TemplatePath) -> tuple[str, ...]:
    return path.layers


def _inks(path: TemplatePath) -> tuple[str, ...]:
    return path.inks


def _outermost(template: Template) -> list[TemplatePath]:
    """Returns the parts of the painted path that encloses most.

    Left out are a page-sized ground, and creases, bleed and the like where they are named.
    """
    from mockup.dies.joining import closed_outlines
    from mockup.geometry.measure import signed_area

    able = [path for path in template.paths if not _is_beside_cut(path)] or template.paths
    ready = [path for path in able if path.closed or path.filled]
    sized: list[tuple[float, TemplatePath]] = []
    for path in ready:
        for outline in closed_outlines(template.name, [_shut(path)]):
            if not _is_page(template, outline):
                sized.append((abs(signed_area(outline)), path))
    if not sized:
        loose = [path for path in able if path not in ready]
        if not loose:
            raise InputError(f"{template.name}: holds no outline but the page itself")
        return loose  # they may join into one, or tell where they stay open
    best = max(sized, key=lambda pair: pair[0])[1]
    return [_shut(path) for path in ready if path.painted == best.painted]


def _is_page(template: Template, outline: Outline) -> bool:
    box = outline.box
    return (
        abs(box.left) + abs(box.top) < SIZE_WITHIN_IN
        and abs(box.width - template.width_in) < SIZE_WITHIN_IN
        and abs(box.height - template.height_in) < SIZE_WITHIN_IN
        and len(outline.segments) <= 5
    )


def _shut(path: TemplatePath) -> TemplatePath:
    """Returns a filled path closed, as its paint closes it."""
    if path.closed or not path.filled:
        return path
    return replace(path, closed=True)


def _shape(template: Template, paths: Sequence[TemplatePath]) -> Shape:
    from mockup.dies.joining import closed_outlines, cut_shape  # shapely, only here

    return cut_shape(template.name, closed_outlines(template.name, [_shut(p) for p in paths]))


def _beside(template: Template, step: str, what: Meaning) -> Shape | None:
    """Returns the largest closed outline of a step, or of a layer or ink so named, if any."""
    found = [path for path in template.paths if step in path.steps]
    for names_of in (_layers, _inks):
        found = found or [path for path, _ in _meaning(template.paths, names_of, what)]
    if not found:
        return None
    try:
        shape = _shape(template, found)
    except InputError:  # what lies beside the cut is a help; the cut itself is what must be sound
        return None
    return Shape(shape.outer)


def _size_note(
    name: str, found_in: tuple[float, float], card_in: tuple[float, float] | None
) -> str:
    if card_in is None:
        return ""
    off = [found - asked for found, asked in zip(found_in, card_in, strict=True)]
    said = [
        f"{format_length(abs(each))} {words[each < 0]}"
        for each, words in zip(off, (("wider", "narrower"), ("higher", "lower")), strict=True)
        if abs(each) >= 0.0005
    ]
    if not said:
        return ""
    note = (
        f"the template's die is {format_size(*found_in)}, {' and '.join(said)} "
        f"than the card, {format_size(*card_in)}"
    )
    if max(map(abs, off)) > SIZE_WITHIN_IN:
        raise DieError(f"{name}: {note}; {_size_hint(found_in, card_in)}")
    return note


def _size_hint(found_in: tuple[float, float], card_in: tuple[float, float]) -> str:
    def alike(factor: float, asked: tuple[float, float]) -> bool:
        pairs = zip(found_in, asked, strict=True)
        return all(abs(found - factor * side) <= SIZE_WITHIN_IN for found, side in pairs)

    if alike(1, (card_in[1], card_in[0])):
        return "turn the card"
    if alike(72 / 96, card_in):
        return "it seems drawn at 72 pixels to the inch; save it with its size in inches"
    return "give the card that size, or take another template"
