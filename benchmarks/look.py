"""Everything a person should look at, in one folder with an index page: `make look`.

Flat-lays on every scene, every surface in every scene's light at three ratios, things on and off,
things and papers from close by, every kind of piece, every finish, the proof's pages, dies,
options, a piece of each die. Nothing here is measured.
"""

from __future__ import annotations

import html
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, partial
from pathlib import Path

import numpy as np

from benchmarks.look_details import grain_picture, thing_picture
from benchmarks.look_kinds import kind_picture, kinds
from mockup.dies.families import FAMILIES
from mockup.dies.making import make_die
from mockup.errors import MockupError
from mockup.output.png import write_png
from mockup.pixels import Bytes
from mockup.render.close_ups import subjects_of
from mockup.render.composition import Composition
from mockup.render.flatlay import (
    Shot,
    close_up_picture,
    composed,
    flatlay_picture,
    lit_scene,
    plain_picture,
)
from mockup.render.light import light
from mockup.render.light.grain import GRAINS
from mockup.render.light.scene import Surface
from mockup.render.light.surface import SURFACES
from mockup.render.piece import piece_picture
from mockup.render.scenes import read_scene, scene_names
from mockup.shipped import shipped
from mockup.suite.reading import read_suite
from mockup.suite.scene_file import thing_names

LONG_SIDE_PX = 900
RATIOS = {"3:2": 3 / 2, "1:1": 1.0, "9:16": 9 / 16}
PAGE_PPI = 70
PIECE_PPI = 70.0
SUITE = shipped("assets_demo") / "suite.toml"
STYLE = """body{font:15px/1.5 Georgia,serif;background:#efece6;color:#33302c;margin:2rem}
h2{font-weight:normal;margin:3rem 0 1rem}main{display:flex;flex-wrap:wrap;gap:1.2rem}
figure{margin:0}img{height:420px;max-width:100%;display:block}figcaption{max-width:40em}"""


@dataclass(frozen=True)
class Sight:
    """Something to look at: its section, file name, caption, and how it is drawn."""

    section: str
    name: str
    caption: str
    draw: Callable[[], Bytes]


def main() -> None:
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "build/look")
    folder.mkdir(parents=True, exist_ok=True)
    started, shown = time.perf_counter(), list[tuple[str, str, str]]()
    for sight in _sights():
        write_png(folder / f"{sight.name}.png", sight.draw(), 150)
        shown.append((sight.section, f"{sight.name}.png", sight.caption))
        print(f"{time.perf_counter() - started:6.1f} s  {sight.name}")
    for section, stem, caption, words in _DOCUMENTS:
        for name in _document(folder, stem, words):
            shown.append((section, name, caption))
        print(f"{time.perf_counter() - started:6.1f} s  {stem}")
    (folder / "index.html").write_text(_page(shown), encoding="utf-8")
    print(folder / "index.html")


def _sights() -> Iterator[Sight]:
    yield from _scenes()
    yield from _surfaces()
    yield from _details()
    for section, name, caption in kinds():
        yield Sight(section, name, caption, partial(kind_picture, name))
    suite = read_suite(SUITE)
    for name in FAMILIES:
        piece = suite.pieces[0]
        try:
            die = make_die(name, piece.die.width_in, piece.die.height_in)
        except MockupError:  # some dies cannot be cut at every card's size
            continue
        cut = replace(piece, die=die)
        caption = f"{piece.title} in the die {name}"

        def draw(cut: object = cut) -> Bytes:
            return piece_picture(cut, PIECE_PPI, suite.cut_line)  # type: ignore[arg-type]

        yield Sight("A piece in each die", f"die-{name}", caption, draw)


@cache
def _composition(aspect: float) -> Composition:
    return composed(Shot(read_suite(SUITE), read_scene("limewash", SUITE.parent), 900, aspect))


def _scenes() -> Iterator[Sight]:
    suite = read_suite(SUITE)
    for name in scene_names():
        scene = read_scene(name, SUITE.parent)
        bare = Shot(suite, scene, round(LONG_SIDE_PX * min(1.0, scene.aspect)))
        full = replace(bare, things=scene.things)
        yield Sight("Scenes", f"scene-{name}", scene.about, _drawn(flatlay_picture, bare))
        caption = f"{scene.about}, with things"
        yield Sight("Scenes", f"scene-{name}-things", caption, _drawn(flatlay_picture, full))


def _drawn(draw: Callable[[Shot], Bytes], shot: Shot) -> Callable[[], Bytes]:
    return lambda: draw(shot)


def _surfaces() -> Iterator[Sight]:
    suite = read_suite(SUITE)
    for name in scene_names():
        for kind in SURFACES:
            scene = read_scene(name, SUITE.parent)
            own = scene.surface.kind == kind
            scene = scene if own else replace(scene, surface=Surface(kind, scene.surface.seed))
            for ratio, aspect in RATIOS.items():
                shot = Shot(suite, scene, round(LONG_SIDE_PX * min(1.0, aspect)), aspect)

                def draw(shot: Shot = shot, aspect: float = aspect) -> Bytes:
                    return light(*lit_scene(shot, _composition(aspect)))

                stem = f"{name}-{kind}-{ratio.replace(':', 'x')}"
                yield Sight("Every surface in every light", stem, f"{name}: {kind}, {ratio}", draw)


def _details() -> Iterator[Sight]:
    suite = read_suite(SUITE)
    scene = read_scene("limewash", SUITE.parent)
    shot = Shot(suite, scene, LONG_SIDE_PX, 3 / 2)
    for subject in subjects_of(suite):
        caption = f"Close-up: {subject}, about 3.5 in wide"
        take = partial(close_up_picture, shot, 3.5, subject)
        yield Sight("Details", subject, caption, take)
    yield Sight("Details", "plain", "Flat light, for colour", lambda: plain_picture(shot))
    for name in thing_names():
        caption = f"{name}, 200 pixels an inch, in the limewash light"
        yield Sight("Things", f"thing-{name}", caption, lambda n=name: thing_picture(n, scene))
    for name in GRAINS:
        caption = f"{name}: white and blue paper, 3 in wide"
        yield Sight("Papers", f"paper-{name}", caption, lambda n=name: grain_picture(n, scene))


_DOCUMENTS = (
    ("The proof", "proof", "proof page", ["proof", str(SUITE), "-o"]),
    ("Dies", "dies", "dies at true size", ["dies", "--sheet"]),
    ("What there is", "papers", "papers", ["papers", "-o"]),
    ("What there is", "envelopes", "envelopes", ["envelopes", "-o"]),
    ("What there is", "scenes", "scenes", ["scenes", "-o"]),
    ("Liner", "liner", "the template of a liner", ["liner", str(SUITE), "outer", "-o"]),
    ("Options", "options", "options sheet", ["options", str(SUITE), "invitation", "-o"]),
)


def _document(folder: Path, stem: str, words: list[str]) -> Iterator[str]:
    """Yields the pages of a PDF a command writes, drawn; none where there is no such command."""
    import pymupdf

    path = folder / f"{stem}.pdf"
    mockup = Path(sys.executable).with_name("mockup")
    done = subprocess.run([mockup, *words, path], capture_output=True, text=True, check=False)
    if done.returncode:
        print(f"{stem}: {done.stderr.strip().splitlines()[-1:]}")
        return
    with pymupdf.open(path) as document:
        for number, page in enumerate(document.pages(), 1):
            drawn = page.get_pixmap(dpi=PAGE_PPI, alpha=False)
            pixels = np.frombuffer(drawn.samples, np.uint8).reshape(drawn.h, drawn.w, 3)
            write_png(folder / f"{stem}-{number}.png", pixels.copy(), PAGE_PPI)
            yield f"{stem}-{number}.png"


def _page(shown: list[tuple[str, str, str]]) -> str:
    sections = dict.fromkeys(section for section, _, _ in shown)
    body = ""
    for section in sections:
        body += f"<h2>{html.escape(section)}</h2><main>"
        for own, name, caption in shown:
            if own == section:
                words = html.escape(caption)
                body += f'<figure><a href="{name}"><img loading="lazy" src="{name}" alt="{words}">'
                body += f"</a><figcaption>{words}</figcaption></figure>"
        body += "</main>"
    return f"<!doctype html><meta charset=utf-8><title>Look</title><style>{STYLE}</style>{body}"


if __name__ == "__main__":
    main()
