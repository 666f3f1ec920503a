"""From a sheet and what its printer asks for to the orders of its files, and what is told of it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.inspection import Inspection, inspect
from mockup.artwork.print_copy import CopyOrder, PrintCopy, StepLines
from mockup.colour.white_ink import WhiteInk
from mockup.dies.step_layers import CREASING, CUTTING
from mockup.errors import InputError, Mistake, RequestError, quoted
from mockup.ordering.sheets import PrintSheet
from mockup.printers.files_asked import FilesAsked, Variant, is_spot_name
from mockup.units import format_length

ENDINGS: dict[Variant, str] = {"art-alone": "art", "cut-line": "cut-line"}
_SIDES = ("left", "top", "right", "bottom")
_LESS_IN = 0.001  # judgement: a bleed that is a thousandth short is not told


@dataclass(frozen=True)
class Draft:
    """One file to be written of a sheet, and its order."""

    sheet: PrintSheet
    variant: Variant
    order: CopyOrder

    @property
    def file_name(self) -> str:
        """What the file is called: `invitation-art.pdf`, `invitation-cut-line.pdf`."""
        return f"{self.sheet.name}-{ENDINGS[self.variant]}.pdf"


def drafts_of(sheets: Sequence[PrintSheet], asked: FilesAsked) -> list[Draft]:
    """Returns the files that are asked for, sheet by sheet.

    Raises RequestError for names that cannot be inks of their own, InputError where the art has
    a cut line of its own, or prints in the ink of ours.
    """
    refuse_names(asked)
    drafts: list[Draft] = []
    for sheet in sheets:
        cut = sheet.is_cut and "cut-line" in asked.variants
        steps = _steps_of(sheet, asked) if cut else ()
        for variant in variants_for(sheet.is_cut, asked):
            bleed_in = sheet.bleed_in if asked.bleed_in is None else asked.bleed_in
            own = steps if variant == "cut-line" else ()
            order = CopyOrder(sheet.art, sheet.placement, bleed_in, own, asked.outlined)
            drafts.append(Draft(sheet, variant, order))
    return drafts


def variants_for(is_cut: bool, asked: FilesAsked) -> tuple[Variant, ...]:
    """Returns which files are asked for of a sheet: of what is not cut, the art alone."""
    return asked.variants if is_cut else ("art-alone",)


def refuse_names(asked: FilesAsked) -> None:
    """Raises RequestError for names of inks that cannot be."""
    for key, name in (("cut_name", asked.cut_name), ("fold_name", asked.fold_name)):
        if not is_spot_name(name):
            said = f"{quoted(name)} cannot name an ink of its own; choose another name"
            raise RequestError(Mistake(said, "", key, name))
    if asked.cut_name.casefold() == asked.fold_name.casefold():
        said = f"cut and folds cannot both be called {quoted(asked.cut_name)}; name two inks"
        raise RequestError(Mistake(said, "", "fold_name", asked.fold_name))


def _steps_of(sheet: PrintSheet, asked: FilesAsked) -> tuple[StepLines, ...]:
    """Returns the steps of a sheet: its cut with its holes, its folds where it has any.

    A layer is called as its ink is, with a number where the art has a layer of that name: programs
    switch layers by their names. Raises as drafts_of does.
    """
    inspection = inspect(sheet.art, sheet.placement)
    taken = {layer.name for layer in inspection.layers}
    cut, folds = (_free(name, taken) for name in (asked.cut_name, asked.fold_name))
    steps = [StepLines(asked.cut_name, cut, CUTTING, outlines=sheet.shape.outlines)]
    if sheet.folds:
        steps.append(StepLines(asked.fold_name, folds, CREASING, courses=sheet.folds))
    _refuse_second_cut(sheet, inspection, steps)
    return tuple(steps)


def _free(name: str, taken: set[str]) -> str:
    """Returns a name that is not taken: itself, or with the first number that makes it so."""
    numbered = (f"{name} {number}" for number in itertools.count(2))
    return next(
        each for each in (name, *itertools.islice(numbered, len(taken))) if each not in taken
    )


def told_of(draft: Draft, copy: PrintCopy) -> tuple[str, ...]:
    """Returns what is to be known of a file: where its bleed is less than asked, and the rest."""
    short = [
        f"{side} {format_length(max(0.0, found), draft.sheet.units)}"
        for side, found in zip(_SIDES, copy.bleeds_in, strict=True)
        if found < draft.order.bleed_in - _LESS_IN
    ]
    told = [f"card found on its page: {draft.sheet.placement.because}"]
    if short:
        asked = format_length(draft.order.bleed_in, draft.sheet.units)
        told.append(f"the art has less bleed than the {asked} asked for: {', '.join(short)}")
    return (*told, *_white_told(draft.sheet.art.white), *copy.notes)


def _white_told(white: WhiteInk) -> tuple[str, ...]:
    """Returns that white ink is asked for by the suite where the art has no plate that says so."""
    if white.rule == "plate":
        return ()
    where = {"art-as-white": "in place of", "under-art": "beneath"}[white.rule]
    hits = "one hit" if white.hits == 1 else f"{white.hits} hits"
    return (f"tell the printer: white ink {where} the art's own inks, {hits}; no plate says so",)


def _refuse_second_cut(
    sheet: PrintSheet, inspection: Inspection, steps: Sequence[StepLines]
) -> None:
    """Raises InputError where what the art keeps would be taken for a step: printed in its ink, or
    on a layer that is such a step and switched off, which nobody took out."""
    kept = [each for each in inspection.painted if each.number not in sheet.art.left_out]
    inks = {step.name.casefold() for step in steps}
    for each in (*kept, *inspection.hidden):
        own = each.ink.names if each.ink is not None else ()
        shared = next((name for name in own if name.casefold() in inks), None)
        if shared is not None:
            raise InputError(
                f"{sheet.art.where}: draws in an ink called {quoted(shared)}, as the cut line or "
                "the folds are called; its plate would be cut; give one of them another name"
            )
    kinds = {step.step for step in steps}
    second = {layer.name for layer in inspection.layers if layer.processing_step in kinds}
    for each in (*kept, *inspection.hidden):
        if each.layer in second:
            raise InputError(
                f"{sheet.art.where}: holds a cut line of its own, on the layer "
                f"{quoted(each.layer or '')}, and would be cut twice; take the layer out, or ask "
                "for art alone"
            )
