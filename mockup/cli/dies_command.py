"""`mockup dies`: which dies there are, who has them at which size, and what they cost."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console
from mockup.cli.printers_options import CatalogueFolder, PrinterNames

if TYPE_CHECKING:
    from mockup.printers.listing import Listed


def dies(
    suite: Annotated[
        Path | None, typer.Argument(help="A suite file: say who has the dies of its pieces.")
    ] = None,
    card: Annotated[
        str | None, typer.Option(help="Only dies at this card size: A7, '5 x 7 in'.")
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
    from mockup.printers.answers import dies_answer, piece_told, pieces_answer, sheet_about, size_of
    from mockup.printers.catalogue import find_printers
    from mockup.printers.listing import listed

    printers = find_printers(catalogues, printer or [], suite)
    size = size_of(card) if card else None
    rows = listed(printers, size, only_offered=bool(printer))
    answer: dict[str, Any] = {"dies": dies_answer(rows)}
    told: list[str] = []
    if suite is not None:
        from mockup.suite.reading import read_suite

        pieces = [(piece.name, piece.die) for piece in read_suite(suite).pieces]
        answer["pieces"] = pieces_answer(printers, pieces)
        told = [piece_told(printers, *piece) for piece in pieces]
    if sheet is not None:
        from mockup.output.dies_sheet import write_dies_sheet

        pages = write_dies_sheet(sheet, rows, sheet_about(card, size), paper)
        answer |= {"sheet": str(sheet), "pages": pages}
        told.append(f"{sheet}: {pages} page{'s' * (pages > 1)} at true size")
    if json:
        console.say_json(answer)
        return
    if suite is None and sheet is None:
        _say_table(rows)
    for line in told:
        console.say(line)


def _say_table(rows: Sequence[Listed]) -> None:
    from rich.console import Console
    from rich.table import Table

    from mockup.printers.answers import who_has
    from mockup.printers.listing import parameter_words

    table = Table("die", "parameters", "who has it", box=None, header_style="bold", pad_edge=False)
    for row in rows:
        table.add_row(row.name, parameter_words(row.parameters), who_has(row))
    Console(highlight=False).print(table)
