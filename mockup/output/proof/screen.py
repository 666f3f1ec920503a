"""What every proof says of screens: what colours were assumed, and that it is no contract proof."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from mockup.artwork.press import presses_of
from mockup.colour.lab import lab_of_xyz, xyz_of_rgb
from mockup.colour.srgb import parse_hex
from mockup.output.proof.words import unbroken
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite, all_sides
from mockup.trade.papers import UNMEASURED, Stock

_PAPERS = 3  # that are named; a page has no room for more


def screen_told(suite: Suite, audience: Audience) -> str:
    """Returns a paragraph: the presses and papers that colours are shown by, and what a screen is.

    Raises InputError and LimitError for art that cannot be read.
    """
    return (
        f"It shows the design, not the ink. {_presses_told(suite)}, each on its own paper: "
        f"{_papers_told(suite, audience)}. Paper white is drawn as paper, darker than the "
        "screen\u2019s. Most screens are not calibrated, and print is judged by D50 light: this is "
        "no contract proof. Where a colour must be right, ask for one on the paper itself."
    )


def _presses_told(suite: Suite) -> str:
    arts = [side.art for side in all_sides(suite.pieces)]
    arts += [each.liner.art for each in suite.envelopes if each.liner is not None]
    arts += [art for each in suite.envelopes for _, art in each.outside.arts]
    shown = presses_of(arts)
    presses = list(dict.fromkeys(each.name for each in shown if each is not None))
    in_ink = f"Inks are shown as {' and '.join(presses)} prints them" if presses else ""
    own = "by its own profiles"
    if not in_ink:
        return f"RGB is shown {own}"
    return f"{in_ink}, RGB {own}" if None in shown else in_ink


def _papers_told(suite: Suite, audience: Audience) -> str:
    papers = {stock.name: stock for stock in _stocks(suite)}
    named = [_PAPER_TOLD[audience](stock) for stock in list(papers.values())[:_PAPERS]]
    more = len(papers) - len(named)
    told = ", ".join(named) + (f" and {more} more" if more > 0 else "")
    guessed = any(stock.colour_source == UNMEASURED for stock in papers.values())
    return f"{told}; not all of these were measured" if guessed else told


def _stocks(suite: Suite) -> Iterator[Stock]:
    yield from (piece.stock for piece in suite.pieces)
    yield from (each.liner.stock for each in suite.envelopes if each.liner is not None)


def _plain(stock: Stock) -> str:
    return unbroken(stock.name.replace("-", " "))


def _with_lab(stock: Stock) -> str:
    lightness, a, b = lab_of_xyz(xyz_of_rgb(parse_hex(stock.colour_hex)))
    lab = " ".join(f"{round(float(value))}" for value in (lightness, a, b))
    return f"{_plain(stock)} {unbroken(f'(Lab {lab})')}"


_PAPER_TOLD: dict[Audience, Callable[[Stock], str]] = {
    Audience.CLIENT: _plain,
    Audience.STUDIO: _with_lab,
}
