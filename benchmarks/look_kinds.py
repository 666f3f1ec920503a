"""What `make look` shows beside the demo: every kind of piece, and every finish, in one light.

The art is drawn here, in the demo's scenario and type: a card, a folded one, a strip, a tag.
"""

from __future__ import annotations

import atexit
import math
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from reportlab.lib.colors import CMYKColor, CMYKColorSep, Color
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from mockup.pixels import Bytes
from mockup.render.flatlay import Shot, flatlay_picture
from mockup.render.scenes import read_scene
from mockup.shipped import shipped
from mockup.suite.backs import with_backs
from mockup.suite.reading import read_suite

WIDTH_PX = 1100
_FACE, _ITALIC = "Garamond", "Garamond-Italic"
_INK, _RED, _CREAM = (
    CMYKColor(0.90, 0.70, 0.20, 0.40),
    CMYKColor(0.10, 0.85, 0.85, 0.10),
    CMYKColor(0.02, 0.05, 0.15, 0.00),
)
_PLATE = CMYKColorSep(0.2, 0.4, 0.9, 0.1, spotName="Tide", density=1)
_BLEED_IN = 0.125

_CARD = '[pieces.menu]\nart = "{art}"\ncard = "A7"\nstock = "{stock}"\nquantity = 90\n{more}'
_REPLY = (
    '[pieces.reply]\nart = "reply.pdf"\ncard = "A6"\nstock = "cotton-110-white"\nquantity = 90\n'
)
_OUTER = (
    '[envelopes.outer]\nsize = "A7"\ncolour = "#22385a"\nholds = ["menu"]\nquantity = 90\n{more}'
)
_COTTON, _PLATED = "cotton-220-white", '{{ as = "{}", plate = "Tide"{} }}'

KINDS: dict[str, tuple[str, str]] = {
    "fold-closed": ("a folded card, closed", _CARD.format(
        art="folded.pdf", stock="cotton-110-white", more='fold = "left"\ninside = { page = 2 }\n')),
    "fold-half-open": ("half open", _CARD.format(
        art="folded.pdf", stock="cotton-110-white",
        more='fold = "left"\ninside = { page = 2 }\nshown = "half-open"\n')),
    "fold-inside": ("its inside", _CARD.format(
        art="folded.pdf", stock="cotton-110-white",
        more='fold = "left"\ninside = { page = 2 }\nshown = "inside"\n')),
    "fold-standing": ("standing as a tent", _CARD.format(
        art="tent.pdf", stock="cotton-110-white", more='fold = "top"\nshown = "standing"\n')),
    "torn": ("torn on every side", _CARD.format(
        art="plain.pdf", stock=_COTTON, more="torn = true\n")),
    "backs": ("front and back", _CARD.format(
        art="menu.pdf", stock="cotton-110-white", more='back = "back.pdf"\n')),
    "tag": ("a tag, drilled, with its cord", '[pieces.tag]\nart = "tag.pdf"\ncard = "2 x 3.5 in"\n'
            'stock = "cotton-110-white"\nquantity = 90\nhole = "1/4 in"\ncord = "#b08d57"\n'),
    "band": ("two cards in a band", _CARD.format(
        art="menu.pdf", stock="cotton-110-white", more="") + _REPLY
        + '[pieces.band]\nart = "band.pdf"\ncard = "11 x 1.25 in"\nstock = "text-80-white"\n'
        'quantity = 90\nwraps = { cards = ["menu", "reply"], at = 5.9 }\n'),
    "sheet": ("a sheet that is seen through, over a card", _CARD.format(
        art="menu.pdf", stock="cotton-110-white", more="")
        + '[pieces.veil]\nart = "veil.pdf"\ncard = "A7"\nstock = "translucent-30-white"\n'
        'quantity = 90\nover = "menu"\n'),
    "drawn": ("half drawn from its envelope", _CARD.format(
        art="menu.pdf", stock="cotton-110-white", more="")
        + _OUTER.format(more='drawn = "menu"\n')),
    "face": ("an addressed envelope", _CARD.format(
        art="menu.pdf", stock="cotton-110-white", more="") + _OUTER.format(
        more='shown = "face"\n'
        'address = { lines = ["The Millers", "Samphire Hard"], ink = "white" }\n')),
}  # fmt: skip
"""Kinds of pieces: what a picture shows, and the suite that asks for it."""

FINISHES: dict[str, tuple[str, str]] = {
    "letterpress": ("letterpress", 'finish = ["letterpress"]\n'),
    **{
        f"foil-{metal}": (
            f"foil: {metal}",
            "finish = [" + _PLATED.format("foil", f', metal = "{metal}"') + "]\n",
        )
        for metal in ("gold", "rose-gold", "silver", "copper")
    },
    "gloss": ("spot gloss", f"finish = [{_PLATED.format('varnish', '')}]\n"),
    "deboss": ("blind deboss", f"finish = [{_PLATED.format('deboss', '')}]\n"),
    "emboss": ("blind emboss", f"finish = [{_PLATED.format('emboss', '')}]\n"),
    "edge-painted": ("painted edges", 'edge = "#8a2b1f"\n'),
    "edge-gilded": ("gilded edges", 'edge = { metal = "gold" }\n'),
}  # fmt: skip
"""Finishes, by what a piece's table says of them."""


_DARK = {
    "black": '{ gsm = 350, colour = "#1c1c1e" }',
    "kraft": '{ gsm = 300, colour = "kraft", texture = "kraft" }',
}


def kinds() -> Iterator[tuple[str, str, str]]:
    """Yields section, name and caption of every picture of a kind or a finish."""
    for name, (caption, _) in KINDS.items():
        yield "Kinds of pieces", f"kind-{name}", caption
    for name, (caption, _) in FINISHES.items():
        yield "Finishes", f"finish-{name}", f"{caption}, in limewash"
    for stock in _DARK:
        yield "Finishes", f"finish-{stock}", f"foil on {stock} paper"


def kind_picture(name: str) -> Bytes:
    """Returns one of those pictures, by the name `kinds` gives it."""
    what, _, which = name.partition("-")
    if what == "kind":
        text = KINDS[which][1]
    elif which in _DARK:
        text = _CARD.format(art="foil-only.pdf", stock="", more=FINISHES["foil-gold"][1])
        text = text.replace('stock = ""', f"stock = {_DARK[which]}")
    else:
        plain = which in ("letterpress", "edge-painted", "edge-gilded")
        art = "menu.pdf" if plain else "plated.pdf"
        text = _CARD.format(art=art, stock=_COTTON, more=FINISHES[which][1])
    path = _folder() / f"{name}.toml"
    path.write_text(f'title = "Supper"\n{text}', encoding="utf-8")
    suite = read_suite(path)
    if which == "backs":
        suite = with_backs(suite)
    scene = read_scene("limewash", path.parent)
    return flatlay_picture(Shot(suite, scene, WIDTH_PX, 4 / 3))


@cache
def _folder() -> Path:
    """Returns a folder with the art of all kinds, drawn once."""
    folder = tempfile.TemporaryDirectory(prefix="look-")
    atexit.register(folder.cleanup)
    path = Path(folder.name)
    fonts = shipped("assets_demo") / "fonts"
    pdfmetrics.registerFont(TTFont(_FACE, str(fonts / "EBGaramond08-Regular.ttf")))
    pdfmetrics.registerFont(TTFont(_ITALIC, str(fonts / "EBGaramond12-Italic.ttf")))
    for name, (width, height), draw in (
        ("menu.pdf", (5, 7), lambda c: _menu(c, 2.5, 3.5)),
        ("plain.pdf", (5, 7), lambda c: _menu(c, 2.5, 3.5, waves=False)),
        ("plated.pdf", (5, 7), lambda c: _menu(c, 2.5, 3.5, _PLATE)),
        ("foil-only.pdf", (5, 7), lambda c: _menu(c, 2.5, 3.5, _PLATE, _PLATE, waves=False)),
        ("back.pdf", (5, 7), lambda c: _ground(c, 5, 7, _INK)),
        ("reply.pdf", (4.5, 6.25), lambda c: _menu(c, 2.25, 3.1)),
        ("tag.pdf", (2, 3.5), lambda c: _words(c, "with thanks", 1, 1.6, 17, _RED)),
        ("band.pdf", (11, 1.25), _band),
        ("veil.pdf", (5, 7), lambda c: _words(c, "Tide Mill", 2.5, 6.1, 24, _INK)),
        ("tent.pdf", (5, 14), lambda c: _menu(c, 2.5, 3.5, waves=False)),
    ):
        _page(path / name, width, height, [draw])
    _page(path / "folded.pdf", 10, 7, [lambda c: _menu(c, 7.5, 3.5), lambda c: _menu(c, 2.5, 3.5)])
    return path


def _page(path: Path, width: float, height: float, pages: list) -> None:  # type: ignore[type-arg]
    canvas = Canvas(str(path), pagesize=((width + 0.25) * 72, (height + 0.25) * 72), invariant=1)
    for draw in pages:
        canvas.saveState()
        canvas.translate(_BLEED_IN * 72, _BLEED_IN * 72)
        draw(canvas)
        canvas.restoreState()
        canvas.showPage()
    canvas.save()


def _words(canvas: Canvas, words: str, x: float, y: float, size: float, ink: Color) -> None:
    canvas.setFillColor(ink)
    canvas.setFont(_ITALIC, size)
    canvas.drawCentredString(x * 72, y * 72, words)


def _ground(canvas: Canvas, width: float, height: float, ink: Color) -> None:
    canvas.setFillColor(ink)
    canvas.rect(-9, -9, width * 72 + 18, height * 72 + 18, fill=1, stroke=0)


def _menu(
    canvas: Canvas, x: float, y: float, special: Color = _RED, ink: Color = _INK, waves: bool = True
) -> None:
    _words(canvas, "Tide Mill", x, y + 1.2, 40, special)
    _words(canvas, "Supper", x, y + 0.6, 40, special)
    for k, line in enumerate(("oysters from the hard", "mullet, samphire, brown butter", "pears")):
        _words(canvas, line, x, y - 0.2 - 0.3 * k, 13, ink)
    canvas.setStrokeColor(special)
    canvas.setLineWidth(1.6)
    canvas.circle(x * 72, (y + 2.2) * 72, 24)
    for k in range(8):
        turn = k * math.pi / 4
        canvas.line(
            x * 72,
            (y + 2.2) * 72,
            x * 72 + 24 * math.cos(turn),
            (y + 2.2) * 72 + 24 * math.sin(turn),
        )
    if not waves:
        return
    canvas.setStrokeColor(ink)
    canvas.setLineWidth(1.1)
    for k in range(9):
        path = canvas.beginPath()
        for step in range(61):
            across = (x - 2.7 + step * 0.09) * 72
            up = (y - 3.4) * 72 + k * 7 + 3 * math.sin(step / 5 + k)
            (path.moveTo if step == 0 else path.lineTo)(across, up)
        canvas.drawPath(path)


def _band(canvas: Canvas) -> None:
    _ground(canvas, 11, 1.25, _RED)
    _words(canvas, "the tide is at seven", 5.5, 0.52, 22, _CREAM)
