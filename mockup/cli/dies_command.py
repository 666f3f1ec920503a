"""`mockup dies`: which dies there are, who has them at which size, and what they cost."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console
from mockup.cli.printers_options import CatalogueFolder, PrinterNames

if TYPE_CHECKING:
    from mockup.asks.dies import DiesAnswer


def dies(
    suite: Annotated[
        Path | None, typer.Argument(help="A suite file: say who has the dies of its pieces.")
    ] = None,
    card: Annotated[
        str | None,
        typer.Option(
            help="Only dies at this card size: A7, '5 x 7 in'; a bare size is in the suite's "
            "units, else in inches."
        ),
    ] = None,
    printer: PrinterNames = None,
    catalogues: CatalogueFolder = None,
    sheet: Annotated[
        Path | None, typer.Option(help="Draw them all at true size into this PDF.")
    ] = None,
    paper: Annotated[str, typer.Option(help="Paper of the sheet: letter or a4.")] = "letter",
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """List the dies there are, and who cuts them at which card sizes for how much."""
    from mockup.asks.dies import DiesRequest, list_dies

    request = DiesRequest(suite, card, printer or (), catalogues, sheet, paper)
    answer = list_dies(request)
    if json:
        console.say_json(_told(answer))
        return
    if suite is None and sheet is None:
        _say_table(answer)
    _say_lines(answer)


def _told(answer: DiesAnswer) -> dict[str, Any]:
    from mockup.printers.answers import dies_answer, pieces_answer

    told: dict[str, Any] = {"dies": dies_answer(answer.dies)}
    if answer.pieces is not None:
        told["pieces"] = pieces_answer(answer.printers, answer.pieces)
    if answer.sheet is not None:
        told |= {"sheet": str(answer.sheet), "pages": answer.pages}
    return told


def _say_lines(answer: DiesAnswer) -> None:
    from mockup.printers.answers import piece_told

    for name, die in answer.pieces or ():
        console.say(piece_told(answer.printers, name, die, answer.units))
    if not answer.printers:
        from mockup.printers.catalogue import HOW_TO_ADD

        console.say(f"{HOW_TO_ADD[:1].upper()}{HOW_TO_ADD[1:]}")
    if answer.sheet is not None:
        pages = f"{answer.pages} page{'s' * (answer.pages > 1)}"
        console.say(f"{answer.sheet}: {pages} at true size")


def _say_table(answer: DiesAnswer) -> None:
    from rich.table import Table
    from rich.text import Text

    from mockup.dies.wording import parameters_told
    from mockup.printers.answers import who_has

    table = Table("die", "parameters", "who has it", box=None, header_style="bold", pad_edge=False)
    for row in answer.dies:
        has = Text("\n".join(map(console.escaped, who_has(answer.printers, row).split("\n"))))
        table.add_row(
            row.name,
            console.escaped(", ".join(parameters_told(row.name, row.parameters, answer.units))),
            has,
        )
    console.say_table(table, highlight=False)
