"""Catalogues of papers: which papers one can have, and of what colour.

One TOML file a merchant, in a folder `papers` beside the suite, or one file `papers.toml` there:

    name = "Marram Paper Store"
    invented = true        # of an example; left out for a real merchant

    [[papers]]
    name = "Samphire"
    colour = "#5f6a4a"     # as it looks on a screen; or measured:
    gsm = 120
    texture = "vellum"

    [[papers]]
    name = "Estuary"
    lab = [41.5, -6.0, -9.5]   # CIELAB under D50, read from a swatch
    condition = "M1"           # ISO 13655: M0, M1, M2 or M3
    backing = "white"          # or "black"
    gsm = 120
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, Strict

from mockup.errors import Mistake, SuiteError, nearest, quoted, together
from mockup.sources import is_there
from mockup.tables.reading import read_toml
from mockup.tables.wording import TOLD_MAX, form_mistakes, key_path, sound_part
from mockup.trade.limits import CATALOGUES_MAX
from mockup.trade.papers import Grain

PAPERS_MAX = 500  # judgement: the largest swatch books have half of that
_HEX = re.compile(r"#[0-9a-f]{6}", re.I)
Lab = tuple[float, float, float]

HOW_TO_ADD = (
    "to choose among papers you can buy, put a merchant's catalogue, a .toml file each, into a "
    "folder `papers` beside the suite (`mockup demo DIR` lays an invented one to copy)"
)


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)


class _PaperTable(_Table):
    name: Annotated[str, Field(min_length=1, max_length=60)]
    colour: Annotated[str, Field(min_length=1, max_length=60)] | None = None
    lab: Annotated[tuple[float, ...], Strict(False), Field(max_length=60)] | None = None
    condition: Literal["M0", "M1", "M2", "M3"] | None = None
    backing: Literal["white", "black"] | None = None
    gsm: Annotated[float, Field(ge=15, le=2500)] | None = None
    texture: Grain = "smooth"


class _CatalogueTable(_Table):
    name: Annotated[str, Field(min_length=1, max_length=80)]
    invented: bool = False
    papers: Annotated[
        tuple[_PaperTable, ...], Strict(False), Field(min_length=1, max_length=PAPERS_MAX)
    ]


@dataclass(frozen=True)
class Paper:
    """A paper one can have: its merchant, its colour as `#rrggbb` or as measured CIELAB under D50
    (one of them is None), how that was measured, its weight and its surface."""

    name: str
    merchant: str
    colour_hex: str | None
    lab: Lab | None
    measured: str
    gsm: float | None
    texture: Grain


def find_papers(place: Path | None, beside: Path | None = None) -> tuple[Paper, ...]:
    """Returns the papers of a folder of catalogues or of one; without one, of those beside the
    suite file or in the working folder, else none.

    Raises SuiteError with the mistakes of all of them.
    """
    found = catalogue_place(place, beside)
    if found is None:
        return ()
    files = catalogue_files(found)
    if not files and place is None:  # a folder of other things that has the name by chance
        return ()
    if not files:
        said = "holds no catalogue; put a .toml file there for each merchant"
        raise SuiteError(Mistake(said, str(found)))
    if len(files) > CATALOGUES_MAX:
        said = f"holds {len(files)} catalogues; keep at most {CATALOGUES_MAX} there"
        raise SuiteError(Mistake(said, str(found)))
    catalogues = together(*(partial(read_papers, file) for file in files))
    return tuple(paper for papers in catalogues for paper in papers)


def catalogue_place(place: Path | None, beside: Path | None = None) -> Path | None:
    """Returns where papers are read: the place given, or the usual one if it is there."""
    if place is not None:
        return place
    folders = [folder for folder in (beside and beside.parent, Path()) if folder is not None]
    usual = [folder / name for folder in folders for name in ("papers", "papers.toml")]
    return next((each for each in usual if each.exists()), None)


def catalogue_files(place: Path) -> list[Path]:
    """Returns the catalogues at a place: itself, or those in a folder, by file name."""
    return sorted(place.glob("*.toml")) if place.is_dir() else [place]


def read_papers(path: Path) -> tuple[Paper, ...]:
    """Returns the papers of one catalogue.

    Raises SuiteError with every mistake: file, key, value, and what is allowed.
    """
    if not is_there(path):
        raise SuiteError(
            Mistake("no such file; name a catalogue of papers, or a folder", str(path))
        )
    raw = read_toml(path)
    told = form_mistakes(str(path), raw, _CatalogueTable)
    told += _row_mistakes(str(path), raw, {each.key for each in told})
    if len(told) > TOLD_MAX:
        said = f"more than {TOLD_MAX} mistakes are in it; mend these first"
        told = [*told[:TOLD_MAX], Mistake(said, str(path))]
    if told:
        raise SuiteError(*told)
    catalogue = _CatalogueTable.model_validate(raw)
    merchant = f"{catalogue.name} (invented)" if catalogue.invented else catalogue.name
    return tuple(_paper(table, merchant) for table in catalogue.papers)


def _row_mistakes(file: str, raw: dict[str, Any], formed: set[str]) -> list[Mistake]:
    """Returns what is wrong with rows beyond their form; nothing of keys that are told already."""
    rows = raw.get("papers")
    tables: list[Any] = rows[:PAPERS_MAX] if isinstance(rows, list) else []
    seen: dict[str, int] = {}
    told: list[Mistake] = []
    for number, row in enumerate(tables):
        table = sound_part(row, _PaperTable) if isinstance(row, dict) else None
        if table is None:
            continue
        for key, said, value in (
            *_name_mistakes(table, seen, number),
            *_colour_mistakes(table, row),
        ):
            at = key_path(("papers", number, *key))
            if not any(each == at or each.startswith(f"{at}.") for each in formed):
                told.append(Mistake(said, file, at, value))
    return told


def paper_named(papers: Sequence[Paper], text: str) -> Paper | None:
    """Returns the paper of a name, in any case; `merchant/name` where two have one of that name.

    None where there is none. Raises SuiteError for a name that two merchants have.
    """
    merchant, _, name = text.strip().casefold().rpartition("/")
    found = [
        paper
        for paper in papers
        if paper.name.casefold() == name.strip() and merchant.strip() in paper.merchant.casefold()
    ]
    if len(found) > 1:
        both = " and ".join(paper.merchant for paper in found[:2])
        first = f"{found[0].merchant.removesuffix(' (invented)')}/{found[0].name}"
        raise SuiteError(f'{quoted(text)} is a paper of {both}; write "{first}"')
    return found[0] if found else None


def nearest_paper(papers: Sequence[Paper], text: str, others: Sequence[str]) -> str:
    """Returns the hint of the nearest name among papers and other names, or nothing."""
    return nearest(text, [*(paper.name.casefold() for paper in papers), *others])


_Told = tuple[tuple[str, ...], str, str]
"""A key within a row, what is wrong with it, and its value."""


def _name_mistakes(table: _PaperTable, seen: dict[str, int], number: int) -> list[_Told]:
    name = table.name.strip()
    if not name:
        return [(("name",), "is empty; write something", quoted(table.name))]
    if "," in name or "/" in name:
        said = f"{quoted(name)} has a comma or a slash, which stand between names; leave it out"
        return [(("name",), said, quoted(name))]
    first = seen.setdefault(name.casefold(), number)
    if first != number:
        said = f"{quoted(name)} is papers.{first + 1} already; name each once"
        return [(("name",), said, quoted(name))]
    return []


def _colour_mistakes(table: _PaperTable, row: dict[str, Any]) -> list[_Told]:
    told: list[_Told] = []
    given = [key for key in ("colour", "lab") if key in row]
    if not given:
        said = 'has no colour; write colour = "#rrggbb", or lab with its condition and backing'
        return [((), said, quoted(table.name))]
    if len(given) == 2:
        said = "is given beside colour; leave one of them out"
        told.append((("lab",), said, ""))
    if table.colour is not None and _HEX.fullmatch(table.colour.strip()) is None:
        said = f'{quoted(table.colour)} is not a colour; write six hex digits, as "#2b3a55"'
        told.append((("colour",), said, quoted(table.colour)))
    if table.lab is not None:
        told += _lab_mistakes(table.lab)
    for key in ("condition", "backing"):
        if "lab" in row and key not in row:
            allowed = '"M0", "M1", "M2" or "M3"' if key == "condition" else '"white" or "black"'
            told.append(((key,), f"is missing; a measured colour says it: {allowed}", ""))
        if "lab" not in row and key in row:
            told.append(((key,), "is of a measured colour; write lab, or leave it out", ""))
    return told


def _lab_mistakes(lab: tuple[float, ...]) -> list[_Told]:
    if len(lab) != 3:
        said = f"holds {len(lab)} numbers; write three: L*, a*, b*"
        return [(("lab",), said, "")]
    lightness, a, b = lab
    if not 0 <= lightness <= 100:
        return [(("lab",), f"{lightness:g} is no L*; it is from 0 to 100", f"{lightness:g}")]
    if max(abs(a), abs(b)) > 128:
        worst = a if abs(a) > 128 else b
        return [(("lab",), f"{worst:g} is no a* or b*; they are from -128 to 128", f"{worst:g}")]
    return []


def _paper(table: _PaperTable, merchant: str) -> Paper:
    lab: Lab | None = None
    measured = "as on a screen, not measured"
    if table.lab is not None:
        lightness, a, b = table.lab
        lab, measured = (lightness, a, b), f"measured {table.condition}, {table.backing} backing"
    colour = table.colour.strip().lower() if table.colour is not None else None
    return Paper(table.name.strip(), merchant, colour, lab, measured, table.gsm, table.texture)
