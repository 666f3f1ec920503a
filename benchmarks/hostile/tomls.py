"""Hostile suite, scene and catalogue files: odd values at every key, broken and endless text."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import tomlkit

from benchmarks.yardstick import ART

ODD: dict[str, str] = {
    "nan": "nan", "inf": "-inf", "negative": "-3", "zero": "0", "huge": "1e308", "digits": "9" * 5000,
    "empty": '""', "escape": '"\\u001B[2J\\u0007"', "long": '"' + "x" * 5000 + '"', "true": "true",
    "date": "1979-05-27T07:32:00Z", "list": "[1, [2]]", "table": "{ a = 1 }",
}  # fmt: skip
SUITE_KEYS = (
    "title", "client", "revision", "units", "bleed", "pieces.invitation.art", "pieces.invitation.page",
    "pieces.invitation.card", "pieces.invitation.die", "pieces.invitation.stock",
    "pieces.invitation.quantity", "pieces.invitation.bleed", "pieces.invitation.title", "pieces",
    "envelopes.outer.size", "envelopes.outer.flap", "envelopes.outer.colour", "envelopes.outer.liner",
    "envelopes.outer.holds", "envelopes.outer.flap_depth", "envelopes.outer.throat",
    "envelopes.outer.liner_inset", "envelopes.outer.face", "envelopes.outer.flap_art",
    "envelopes.outer.address", "envelopes.outer.return_address", "envelopes.outer.shown",
    "cut_line.width", "cut_line.colour", "scene.name", "scene.arrange",
    "scene.main", "scene.open", "scene.above",
    "scene.seed", "proof.paper", "accept",
)  # fmt: skip
SCENE_KEYS = (
    "aspect", "about", "width_in", "surface.kind", "surface.colour", "surface.photograph",
    "surface.ppi", "surface.seed", "window.width_in", "window.distance_in", "window.azimuth_deg",
    "window.elevation_deg", "window.colour", "window.strength", "sky.strength", "lift.main_in",
    "places", "things",
)  # fmt: skip


def demo(folder: Path) -> None:
    """Lays the demo's files out."""
    for file in [*ART.glob("*.pdf"), ART / "suite.toml"]:
        (folder / file.name).write_bytes(file.read_bytes())


def suite_with(key: str, value: str) -> Callable[[Path], None]:
    def lay(folder: Path) -> None:
        demo(folder)
        text = (folder / "suite.toml").read_text(encoding="utf-8")
        (folder / "suite.toml").write_text(_changed(text, key, value), encoding="utf-8")

    return lay


def scene_with(key: str, value: str) -> Callable[[Path], None]:
    def lay(folder: Path) -> None:
        suite_with("scene.name", '"mine"')(folder)
        (folder / "mine").mkdir()
        text = (ART.parent / "scenes" / "slate" / "scene.toml").read_text(encoding="utf-8")
        changed = _changed(text, key, value)
        (folder / "mine" / "scene.toml").write_text(changed, encoding="utf-8")

    return lay


def _changed(text: str, key: str, value: str) -> str:
    """Returns TOML with a key's value put in as it is written, though it be no sound TOML."""
    document: Any = tomlkit.parse(text)
    *tables, last = key.split(".")
    inside = document
    for name in tables:
        inside = inside.setdefault(name, tomlkit.table())
    inside[last] = "@@here@@"
    return tomlkit.dumps(document).replace('"@@here@@"', value)


def text_files() -> Iterator[tuple[str, bytes]]:
    yield "empty", b""
    yield "nul", b'title = "a\0b"\n'
    yield "latin-1", 'title = "Été"\n'.encode("latin-1")
    yield "utf-16", 'title = "x"\n'.encode("utf-16")
    yield "bom", b"\xef\xbb\xbftitle = 3\n"
    yield "deep-list", b"title = " + b"[" * 50_000
    yield "deep-closed", b"title = " + b"[" * 5_000 + b"]" * 5_000
    yield "deep-table", b"title = " + b"{a=" * 5_000 + b"1" + b"}" * 5_000
    yield "deep-keys", b"a" + b".a" * 20_000 + b" = 1\n"
    yield "digits", b"revision = " + b"9" * 100_000 + b"\n"
    yield "large", b"# " + b"x" * (50 << 20)
    yield "noise", bytes(range(256)) * 100
    yield "unclosed", b'title = "x\n'
    yield "twice", b"title = 1\ntitle = 2\n"
    yield "binary-pdf", b"%PDF-1.7\n%\xe2\xe3\n"


CATALOGUES: dict[str, str] = {
    "no-name": "currency = 'USD'",
    "currency": "name = 'A'\ncurrency = 'dollars'",
    "dies-number": "name = 'A'\ncurrency = 'USD'\ndies = 3",
    "dies-table": "name = 'A'\ncurrency = 'USD'\n[dies]\ndie = 'ellipse'",
    "cards-list": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = []",
    "cards-empty": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = {}",
    "card-odd": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = { Z99 = 1 }",
    "price-nan": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = { A7 = nan }",
    "price-inf": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = { A7 = inf }",
    "price-text": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = { A7 = 'one' }",
    "price-huge": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = { A7 = 1e999999 }",
    "price-negative": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\ncards = { A7 = -1 }",
    "die-unknown": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'elipse'\ncards = { A7 = 1 }",
    "parameter": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\nparameters = { rise = [1] }\ncards = { A7 = 1 }",
    "minimum": "name = 'A'\ncurrency = 'USD'\n[[dies]]\ndie = 'ellipse'\nminimum = -4\ncards = { A7 = 1 }",
    "thickest": "name = 'A'\ncurrency = 'USD'\n[custom]\ntool = 1\neach = 1\nthickest_mil = nan",
}  # fmt: skip


def catalogue(content: bytes) -> Callable[[Path], None]:
    def lay(folder: Path) -> None:
        demo(folder)
        (folder / "printers").mkdir()
        (folder / "printers" / "one.toml").write_bytes(content)

    return lay
