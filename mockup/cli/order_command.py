"""`mockup order`: the files for the printer."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console
from mockup.cli.printers_options import CatalogueFolder
from mockup.cli.ready import make_ready
from mockup.units import MM_PER_INCH, Unit, format_length

if TYPE_CHECKING:
    from mockup.output.print_files import PrintFile


def order(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The folder to write into.")],
    printer: Annotated[
        list[str] | None,
        typer.Option(help="Whose catalogue says files and prices; given twice, both are compared."),
    ] = None,
    catalogues: CatalogueFolder = None,
    variant: Annotated[
        str | None,
        typer.Option(
            help="art-alone, cut-line or both; the printer's, else cut-line, if not said."
        ),
    ] = None,
    outlines: Annotated[
        bool | None,
        typer.Option("--outlines/--live-type", help="Type turned to outlines, or left as type."),
    ] = None,
    anyway: Annotated[
        bool, typer.Option("--anyway", help="Order whatever stands against it; it is written down.")
    ] = False,
    date: Annotated[
        str | None, typer.Option(help="The day the order bears, 2026-11-26; today if left out.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Make the order: print files with cut lines, and a sheet; 20 where something is open."""
    make_ready()
    from mockup.asks.order import OrderRequest, order_suite
    from mockup.cli.bills_told import say_bills
    from mockup.output.order_told import order_json

    request = OrderRequest(
        suite, output, printer or (), catalogues, variant, outlines, anyway, date
    )
    with console.progress("Writing print files, and reading them again") as progress:
        answer = order_suite(request, progress)
    if json:
        written = [_told(each) for each in answer.written]
        head = {"printer": answer.printer, "written": written, "anyway": list(answer.anyway)}
        console.say_json({**head, "order": order_json(answer.told)})
        return
    for each in answer.written:
        console.say(f"{each.path}: {_line(each, answer.units)}")
        console.say_each(f"  taken out: {line}" for line in each.removed)
        console.say_each(f"  left away: {line}" for line in each.dropped)
        console.say_each(f"  {line}" for line in each.notes)
    say_bills(answer.told.bills)
    console.say_each(line for of, rows in answer.told.against for line in (f"{of}:", *rows))
    if not answer.told.bills:
        console.say("no printer named: nothing is priced")
    if not answer.written:
        console.say(f"compared in {output / 'order.pdf'}; nothing is ordered")
        return
    console.say(f"{len(answer.written)} files, each read again by two engines and found the same")
    console.say(f"the order's sheet: {output / 'order.pdf'}; as a table and for machines beside it")


def _line(file: PrintFile, units: Unit) -> str:
    """Returns what a file is, in a line."""
    said = [f"prints in {', '.join(file.inks)}"]
    if file.steps:
        said.append(f"cut line on a layer of its own ({', '.join(file.steps)}), not printed")
    if file.letters:
        said.append(f"{file.letters} letters turned to outlines")
    said.append(f"bleed {format_length(max(0.0, min(file.bleeds_in)), units)}")
    return "; ".join(said)


def _told(file: PrintFile) -> dict[str, Any]:
    boxes = file.boxes
    return {
        "piece": file.piece,
        "variant": file.variant,
        "written": str(file.path),
        "sha256": file.sha256,
        "boxes": {
            "media": list(boxes.media),
            "crop": list(boxes.crop),
            "bleed": list(boxes.bleed),
            "trim": list(boxes.trim),
            "unit": boxes.unit,
        },
        "bleeds_in": list(file.bleeds_in),
        "bleeds_mm": [each * MM_PER_INCH for each in file.bleeds_in],
        "inks": list(file.inks),
        "steps": list(file.steps),
        "removed": list(file.removed),
        "dropped": list(file.dropped),
        "letters_outlined": file.letters,
        "notes": list(file.notes),
        "checks": list(file.checks),
    }
