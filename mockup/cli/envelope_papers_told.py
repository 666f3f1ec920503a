"""`mockup options` of an envelope: the papers it could have, asked and told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from mockup.cli import console
from mockup.errors import Mistake, RequestError

if TYPE_CHECKING:
    from mockup.asks.envelope_papers import EnvelopePapersAnswer, EnvelopePapersRequest


def listed(text: str | None) -> list[str]:
    """Returns the names in a list with commas."""
    return [name.strip() for name in text.split(",") if name.strip()] if text else []


def refuse_dies(dies: str | None, name: str) -> None:
    """Raises RequestError where dies are asked for an envelope."""
    if dies is not None:
        said = f'"{name}" is asked for as an envelope, which has no die; leave --dies out'
        raise RequestError(Mistake(said, "", "dies", dies))


def say_papers(request: EnvelopePapersRequest, json: bool) -> None:
    """Draws an envelope in its papers and prints what was drawn."""
    from mockup.asks.envelope_papers import show_envelope_papers

    answer = show_envelope_papers(request)
    if json:
        console.say_json(_told(answer))
        return
    scale = f"{answer.scale * 100:.0f} % of true size"
    console.say(f"{answer.written}: {len(answer.papers)} papers at {scale}")
    console.say_each(answer.left_out)
    if answer.advice:
        console.say(answer.advice)


def _told(answer: EnvelopePapersAnswer) -> dict[str, Any]:
    shown = [
        {
            "number": paper.number,
            "name": paper.name,
            "merchant": paper.merchant or None,
            "colour": paper.colour_hex,
            "lab": [round(value, 2) for value in paper.lab],
            "measured": paper.measured,
            "present": paper.present,
            "verdict": paper.verdict,
            "difference_de00": None if paper.difference is None else round(paper.difference, 2),
            "told": list(paper.told),
        }
        for paper in answer.papers
    ]
    return {
        "written": str(answer.written),
        "scale": answer.scale,
        "papers": shown,
        "left_out": list(answer.left_out),
        "advice": answer.advice,
    }
