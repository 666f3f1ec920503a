"""A table kept apart in tone from the paper on it, where the table is ours to choose.

A card nearly the colour of what it lies on has no edge but its shadow. A table that comes with the
program then takes the least step in lightness that parts them, and the step is told. A scene of the
designer's own, and a photograph, stay as they are: their tone is her choice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from mockup.colour.difference import difference
from mockup.colour.lab import lab_of_xyz, rgb_of_xyz, xyz_of_lab, xyz_of_rgb
from mockup.colour.srgb import Rgb, parse_hex, to_hex
from mockup.render.light.scene import Photograph
from mockup.render.rims import draw_ahead, rim_of_envelope, rim_of_piece
from mockup.render.scenes import Scene
from mockup.shipped import shipped
from mockup.suite.suite import Suite

LEAST_DE00 = 4.0
"""Nearer than this, paper and table read as one. Judgement: eyes mind 1.8 to 3.7 side by side, and
across a shadow more."""
_BARE_DE00 = 1.0  # judgement: nearer to its paper's colour an edge is bare
_STEP, _MOST = 0.5, 20.0  # of L*


def set_apart(scene: Scene, suite: Suite) -> tuple[Scene, tuple[str, ...]]:
    """Returns a scene whose table no paper of the suite agrees with, and a line where it was moved.

    A card is told by what most of its edge is printed in, else by its stock; an envelope by its
    paper, and by what is printed along the edge of the side that lies up. A scene that does not
    come with the program is returned as it is. Raises what drawing the art raises.
    """
    ours = scene.folder.resolve().is_relative_to(shipped("scenes").resolve())
    if not ours or isinstance(scene.surface.kind, Photograph):
        return scene, ()
    papers = _papers(suite)
    near = _nearest(scene.surface_colour, papers)
    if near is None:
        return scene, ()
    tone = _moved(scene.surface_colour, papers)
    if tone is None:
        return scene, ()
    told = (
        f"table: {scene.name} is {to_hex(tone)} here, not {to_hex(scene.surface_colour)}: "
        f"{near} has nearly that colour"
    )
    surface = replace(scene.surface, rgb=tone)
    return replace(scene, surface=surface, surface_colour=tone), (told,)


def _papers(suite: Suite) -> dict[str, Rgb]:
    draw_ahead(suite.pieces)
    found: dict[str, Rgb] = {each.title: each.colour for each in suite.envelopes}
    for piece in suite.pieces:
        stock, rim = parse_hex(piece.stock.colour_hex), rim_of_piece(piece)
        found |= {piece.title: stock} if rim is None else _rim(piece.title, rim, stock)
    for each in suite.envelopes:
        rim = rim_of_envelope(suite, each)
        found |= {} if rim is None else _rim(each.title, rim, each.colour)
    return found


def _rim(title: str, rim: Rgb, paper: Rgb) -> dict[str, Rgb]:
    """Returns the colour of an edge by whose it is: the paper's own where nothing is printed."""
    bare = _difference(rim, paper) < _BARE_DE00
    return {title: paper} if bare else {f"what is printed on {title}": rim}


def _nearest(table: Rgb, papers: Mapping[str, Rgb]) -> str | None:
    """Returns the paper nearest the table's colour, where it is nearer than it may be."""
    apart = {name: _difference(table, colour) for name, colour in papers.items()}
    name = min(apart, key=lambda each: apart[each], default=None)
    return name if name is not None and apart[name] < LEAST_DE00 else None


def _moved(table: Rgb, papers: Mapping[str, Rgb]) -> Rgb | None:
    """Returns the table a little darker or lighter, so that all papers are far enough from it."""
    lightness, a, b = lab_of_xyz(xyz_of_rgb(table))
    for step in np.arange(_STEP, _MOST + _STEP, _STEP):
        for way in (-step, step):  # darker first: paper is brighter than tables more often
            if not 5 <= lightness + way <= 97:
                continue
            tone = rgb_of_xyz(xyz_of_lab(np.array([lightness + way, a, b])))
            if _nearest(tone, papers) is None:
                return tone
    return None


def _difference(first: Rgb, second: Rgb) -> float:
    labs = (lab_of_xyz(xyz_of_rgb(colour)) for colour in (first, second))
    return float(difference(*labs))
