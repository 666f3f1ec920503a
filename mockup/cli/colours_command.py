"""`mockup colours`: the colours of a suite, and how each looks beside its envelope."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.ready import make_ready

if TYPE_CHECKING:
    make_ready()
    from mockup.asks.colours import ColoursAnswer
    from mockup.colour.mending import Mended, Shift
    from mockup.reading.art_colours import FaceColours
    from mockup.reading.beside import Pair, Seen


def colours(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[
        Path | None, typer.Option("--output", "-o", help="Draw them into this .png, .jpg or .pdf.")
    ] = None,
    audience: For = CLIENT,
    width: Annotated[int, typer.Option(help="Width of a picture in pixels, 600 to 12000.")] = 2000,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Show a suite's colours as printed, and whether each matches its envelope, misses, or differs
    on purpose."""
    from mockup.asks.colours import ColoursRequest, show_colours

    answer = show_colours(ColoursRequest(suite, output, width, audience))
    if json:
        console.say_json(_told(answer))
        return
    if answer.written is not None:
        pages = "1 page" if answer.pages == 1 else f"{answer.pages} pages"
        console.say(f"{answer.written}: {pages}")
    console.say_each(_verdicts(answer))
    console.say_each(answer.presses)
    console.say_each(answer.left_out)


def _verdicts(answer: ColoursAnswer) -> list[str]:
    """Returns a line for every pair with an envelope, and for a doubtful one with its liner."""
    lines: dict[str, None] = {}
    for pair, _ in answer.pairs:
        if pair.second.is_outside or pair.found.is_doubtful:
            whose = "liner" if pair.first.piece is None else pair.first.piece.name
            beside = {"envelope": "", "envelope art": "'s print"}.get(pair.second.kind, "'s liner")
            told = f"{pair.first.words} of {whose} on envelopes.{pair.envelope.name}{beside}"
            lines[f"{told}: {pair.found.verdict}"] = None
    return list(lines)


def _told(answer: ColoursAnswer) -> dict[str, Any]:
    return {
        "written": answer.written and str(answer.written),
        "pages": answer.pages,
        "pieces": {name: _face(face) for name, face in answer.faces.items()},
        "liners": {name: _face(face) for name, face in answer.liners.items()},
        "pairs": [_pair(pair, ways) for pair, ways in answer.pairs],
        "presses": list(answer.presses),
        "left_out": list(answer.left_out),
    }


def _face(face: FaceColours) -> dict[str, Any]:
    from mockup.units import in_to_mm

    rows = [
        {
            "name": _words(each.lab),
            "lab": _rounded(each.lab),
            "colour": _hex(each.lab),
            "share": round(each.share, 4),
            "share_of_ink": round(each.of_ink, 4),
            "solid": each.solid,
            "at_in": [round(value, 3) for value in each.at],
            "at_mm": [round(in_to_mm(value), 2) for value in each.at],
            "inks": each.inks and [round(100 * ink, 1) for ink in each.inks],
        }
        for each in face.colours
    ]
    return {"colours": rows, "bare": round(face.bare, 4), "stock_lab": _rounded(face.stock_lab)}


def _pair(pair: Pair, ways: Mended | None) -> dict[str, Any]:
    found = pair.found
    return {
        "envelope": pair.envelope.name,
        "first": _seen(pair.first),
        "second": _seen(pair.second),
        "verdict": found.verdict,
        "difference_de00": round(found.difference, 2),
        "lightness": round(found.lightness, 2),
        "chroma": round(found.chroma, 2),
        "hue": round(found.hue, 2),
        "because": found.because or None,
        "lighter": ways and _shift(ways.lighter),
        "darker": ways and _shift(ways.darker),
        "envelope_lighter": ways and ways.envelope_lighter and round(ways.envelope_lighter, 2),
        "envelope_darker": ways and ways.envelope_darker and round(ways.envelope_darker, 2),
    }


def _seen(seen: Seen) -> dict[str, Any]:
    return {
        "kind": seen.kind,
        "piece": seen.piece and seen.piece.name,
        "name": seen.words,
        "lab": _rounded(seen.lab),
        "colour": _hex(seen.lab),
    }


def _shift(shift: Shift | None) -> dict[str, Any] | None:
    from mockup.colour.srgb import to_hex

    if shift is None:
        return None
    return {
        "lab": _rounded(shift.lab),
        "colour": to_hex(shift.on_screen),
        "inks": shift.inks and list(shift.inks),
        "rgb": shift.art and to_hex(shift.art),
        "difference_de00": round(shift.difference, 2),
        "chroma_kept": round(shift.chroma_kept, 2),
    }


def _rounded(lab: tuple[float, float, float]) -> list[float]:
    return [round(value, 2) for value in lab]


def _hex(lab: tuple[float, float, float]) -> str:
    from mockup.colour.srgb import to_hex
    from mockup.output.colours_told import on_screen

    return to_hex(on_screen(lab))


def _words(lab: tuple[float, float, float]) -> str:
    from mockup.colour.naming import colour_words

    return colour_words(lab)
