"""Print files written: a whole folder of them, each read again before any is let go."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.artwork.print_copy import PageBoxes, print_copies
from mockup.errors import InputError, LimitError, Mistake
from mockup.ordering.drafts import Draft, drafts_of, told_of, variants_for
from mockup.ordering.reading_back import read_back
from mockup.ordering.sheets import sheets_of
from mockup.output.destination import PDF, Destination
from mockup.output.files import made_folder, whole_folder
from mockup.printers.files_asked import FilesAsked, Variant
from mockup.progress import Progress
from mockup.sources import sha256_of
from mockup.suite.suite import Suite, all_sides

_NAMES: dict[Variant, str] = {"art-alone": "art", "cut-line": "cut-line"}


@dataclass(frozen=True)
class PrintFile:
    """A file that was written: of which piece (or `NAME-back`, `NAME-foil`, `NAME-liner`,
    `NAME-face`, `NAME-flap`), in which variant, where, its SHA-256, its boxes.

    `bleeds_in` is how far its BleedBox goes beyond the card: left, top, right, bottom. `inks` are
    those it prints in, `steps` the inks of its cut and folds, `removed` a line for every mark that
    was taken out of the art, `dropped` what of the art's file is not in it, `notes` what is to be
    known, `checks` what was found well when it was read again.
    """

    piece: str
    variant: Variant
    path: Path
    sha256: str
    boxes: PageBoxes
    bleeds_in: tuple[float, float, float, float]
    inks: tuple[str, ...]
    steps: tuple[str, ...]
    removed: tuple[str, ...]
    dropped: tuple[str, ...]
    outlined: bool
    letters: int
    notes: tuple[str, ...]
    checks: tuple[str, ...]


Beside = Callable[[Path, Sequence[PrintFile]], None]
"""Writes what goes with the files beside them, in the folder that is moved as a whole."""


def print_file_doors(suite: Suite, folder: Path, asked: FilesAsked) -> list[Destination]:
    """Returns the files that print_files will write."""
    pages = all_sides(suite.pieces)
    names = [(each, True) for side in pages for each in (side.side_name, *dict(side.finish_pages))]
    names += [(f"{each.name}-liner", True) for each in suite.envelopes if each.liner is not None]
    sides = [(each.side_name(side), False) for each in suite.envelopes
             for side, _ in each.outside.arts]  # fmt: skip
    return [
        Destination(folder / f"{name}-{_NAMES[variant]}.pdf", "print file", PDF)
        for name, is_cut in (*names, *sides)
        for variant in variants_for(is_cut, asked)
    ]


def print_files(
    suite: Suite,
    folder: Path,
    asked: FilesAsked,
    progress: Progress | None = None,
    with_them: Beside | None = None,
) -> tuple[PrintFile, ...]:
    """Writes a print file for every piece, liner, printed side of an envelope and variant, all or
    none, and returns them.

    Each is the art's own page, content untouched but for what is listed, and was read again by two
    engines before any was moved to its place; `with_them` writes what goes with them. The same
    suite gives the same bytes. Raises InputError and LimitError for art that
    cannot be handed on, RefusedError where a file is not what it was to be, OutputError.
    """
    drafts = drafts_of(sheets_of(suite), asked)
    found: list[PrintFile] = []
    with made_folder(folder), whole_folder(folder) as beside:
        for done, draft in enumerate(drafts):
            if progress is not None:
                progress(done / len(drafts))
            found.append(_written(draft, beside, folder))
        if with_them is not None:
            with_them(beside, found)
    if progress is not None:
        progress(1.0)
    return tuple(found)


def _written(draft: Draft, beside: Path, folder: Path) -> PrintFile:
    (copy,) = print_copies([draft.order])
    path = beside / draft.file_name
    path.write_bytes(copy.content)
    order, sheet = draft.order, draft.sheet
    # Where no type was there to be turned, nothing was touched, and nothing may differ.
    turned = replace(order, outlined=copy.letters > 0)
    try:
        seen = read_back(replace(draft, order=turned), path)
    except (InputError, LimitError) as error:
        raise type(error)(
            *(_of_art(each, path, order.art.path) for each in error.mistakes)
        ) from error
    return PrintFile(
        sheet.name, draft.variant, folder / draft.file_name, sha256_of(copy.content), copy.boxes,
        copy.bleeds_in, seen.inks, tuple(step.name for step in order.steps), sheet.removed_told,
        copy.dropped, copy.letters > 0, copy.letters, told_of(draft, copy), seen.checks,
    )  # fmt: skip


def _of_art(mistake: Mistake, path: Path, art: Path) -> Mistake:
    """Returns a mistake in a print file, which will not be left, as one of its art."""
    if not mistake.file.startswith(str(path)):
        return mistake
    return replace(mistake, file=str(art), sentence=f"its print file {mistake.sentence}")
