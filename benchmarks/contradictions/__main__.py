"""`python -m benchmarks.contradictions [FOLDER]`: what `order` tells of suites that do not go.

Right: the planted thing is told, with its words, and nothing else; of a suite that goes, nothing.
Missed: not told. Invented: something else is. Every way that is named is gone: the suite is changed
so, and nothing is told any more. Half A is told suite by suite.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pikepdf

from benchmarks.contradictions.plan import CLEAN, SEED, Plan, planned
from benchmarks.contradictions.printers import DIGITAL, LETTERPRESS
from mockup.asks.order import OrderRequest, order_suite
from mockup.errors import StoppedError
from mockup.ordering.contradictions import contradictions_at
from mockup.printers.catalogue import find_printers
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from mockup.trade.sizes import card_size

FOLDER = Path("build/contradictions")
NOT_OF_THE_PRINTER = (": no yes:", ": stop:")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", nargs="?", type=Path, default=FOLDER)
    asked.add_argument("--seed", type=int, default=SEED)
    given = asked.parse_args()
    counts: dict[str, Counter[str]] = {"A": Counter(), "B": Counter()}
    for plan in planned(given.seed):
        suite = written(plan, given.folder / plan.name.replace(" ", "-"))
        lines = order_told(suite, plan)
        told = verdict(plan, lines)
        good, bad, none = ways(suite, plan)
        counts[plan.half].update({told: 1, "ways that go": good, "ways that do not": bad})
        counts[plan.half]["contradictions without a way"] += none
        counts[plan.half]["clean" if plan.kind == CLEAN else "planted"] += 1
        if plan.half == "A":
            print(f"{told:8} {plan.name}: {' | '.join(lines)}")
    print(json.dumps({half: dict(count) for half, count in counts.items()}, indent=1))


def order_told(suite: Path, plan: Plan) -> list[str]:
    """Returns what an order of a suite is refused for, but the yes that nobody gave."""
    try:
        order_suite(OrderRequest(suite, suite.parent / "out", [plan.printer]))
    except StoppedError as error:
        said = [each.sentence for each in error.mistakes]
        return [each for each in said if not any(mark in each for mark in NOT_OF_THE_PRINTER)]
    return []


def verdict(plan: Plan, lines: list[str]) -> str:
    """Returns whether what is told is right, misses what is planted, or is invented."""
    own = [each for each in lines if plan.words and all(word in each for word in plan.words)]
    if plan.kind != CLEAN and not own:
        return "missed"
    return "right" if len(lines) == len(own[:1]) else "invented"


def ways(path: Path, plan: Plan) -> tuple[int, int, int]:
    """Returns how many of the ways named go, how many do not, and what has no way at all."""
    suite = read_suite(path)
    (printer,) = find_printers(None, [plan.printer], path)
    good = bad = none = 0
    for each in contradictions_at(suite, printer):
        none += not each.ways
        for way in each.ways:
            left = contradictions_at(changed(suite, each.name, way.item), printer)
            good, bad = (good, bad + 1) if left else (good + 1, bad)
    return good, bad, none


def changed(suite: Suite, name: str, item: object) -> Suite:
    """Returns a suite with one piece or envelope as it is now."""
    pieces = tuple(item if each.name == name else each for each in suite.pieces)
    envelopes = (item if f"envelopes.{each.name}" == name else each for each in suite.envelopes)
    return replace(suite, pieces=pieces, envelopes=tuple(envelopes))


def written(plan: Plan, folder: Path) -> Path:
    """Returns the suite file of a plan, written with its art and both catalogues beside it."""
    (folder / "printers").mkdir(parents=True, exist_ok=True)
    (folder / "printers" / "groyne.toml").write_text(LETTERPRESS, encoding="utf-8")
    (folder / "printers" / "sallow.toml").write_text(DIGITAL, encoding="utf-8")
    bleed_in = plan.bleed / (25.4 if plan.units == "mm" else 1)
    card = card_size(plan.card.card.strip('"'), plan.units)
    page(folder / "card.pdf", card.width_in + 2 * bleed_in, card.height_in + 2 * bleed_in)
    page(folder / "liner.pdf", 7.0, 9.0)
    path = folder / "suite.toml"
    path.write_text(suite_text(plan), encoding="utf-8")
    return path


def page(path: Path, width_in: float, height_in: float) -> None:
    """Writes two pages of one grey."""
    pdf = pikepdf.new()
    for _ in range(2):
        made = pdf.add_blank_page(page_size=(width_in * 72, height_in * 72))
        made.Contents = pdf.make_stream(b"0.2 g 0 0 2000 2000 re f")
    pdf.save(path)


def suite_text(plan: Plan) -> str:
    """Returns the suite file of a plan."""
    card, outer = plan.card, plan.outer
    rows = [
        'title = "Harvest Supper"', f'units = "{plan.units}"', f"bleed = {plan.bleed}",
        "[pieces.card]", 'art = "card.pdf"', f"card = {card.card}", f"die = {card.die}",
        f"stock = {card.stock}", f"quantity = {card.quantity}",
        *([f"finish = {card.finishes}"] if card.finishes else []),
        *([f"back = {card.back}"] if card.back else []),
        "[envelopes.outer]", f'size = "{outer.size}"', f'flap = "{outer.flap}"',
        f'colour = "{outer.colour}"', f"quantity = {outer.quantity}", 'holds = ["card"]',
        *(['liner = "liner.pdf"'] if outer.lined else []),
    ]  # fmt: skip
    return "\n".join(rows) + "\n"


if __name__ == "__main__":
    main()
