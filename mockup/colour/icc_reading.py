"""What a press's ICC profile says its inks look like, read into plain numbers.

Versions 2 (ICC.1:2001-04: `mft1`, `mft2`) and 4 (ICC.1:2010: `mAB `). Foreign bytes: read in
workers alone.
"""

from __future__ import annotations

import math
import re
import struct
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.lab import D50, xyz_of_lab
from mockup.errors import InputError
from mockup.sources import sha256_of

Numbers = NDArray[np.float64]

INKS = 4
PROFILE_MAX_BYTES = 32 * 1024**2  # judgement: the largest press profiles seen have a tenth of that
NAME_MAX = 80
_HEADER = 128
_TAGS_MAX = 100  # as the LittleCMS library takes
_GRID_MAX = 33
_XYZ_MOST = 1 + 32767 / 32768  # ICC.1:2001-04, 6.3.4.2: the largest u1Fixed15Number


@dataclass(frozen=True, eq=False)
class Condition:
    """A printing condition: what every mix of its four inks looks like on its own paper.

    curves: (4, n) shares 0 to 1, from an ink's number to its place on the grid. table:
    (g, g, g, g, 3) XYZ under D50, Y = 1 for perfect white, in the order C, M, Y, K. paper: (3,)
    XYZ of the bare paper. `sha256` is of the profile's bytes.
    """

    name: str
    sha256: str
    curves: Numbers
    table: Numbers
    paper: Numbers

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Condition) and other.sha256 == self.sha256

    def __hash__(self) -> int:
        return hash(self.sha256)


def read_condition(content: bytes) -> Condition:
    """Returns the printing condition of a CMYK output profile.

    Raises InputError for anything else, also for one without a table either way: what cannot be
    separated for cannot be drawn for.
    """
    try:
        return _read(content)
    except (struct.error, IndexError, ValueError, OverflowError) as error:
        raise InputError("is a broken ICC profile; export it again") from error


def _read(content: bytes) -> Condition:
    if len(content) < _HEADER + 4 or content[36:40] != b"acsp":
        raise InputError("is no ICC profile; name the .icc file of a press")
    kind, space, pcs = content[12:16], content[16:20], content[20:24]
    if kind != b"prtr" or space != b"CMYK":
        raise InputError("is no profile of a CMYK press; name one of class output, space CMYK")
    tags = _tags(content)
    if not {b"A2B0", b"A2B1"} & tags.keys() or not {b"B2A0", b"B2A1"} & tags.keys():
        raise InputError("has no tables from ink to colour and back; name a press's full profile")
    lut = tags.get(b"A2B1") or tags[b"A2B0"]
    curves, table = _table_of(lut, pcs)
    white = _white(tags)
    paper = np.clip(white * table[0, 0, 0, 0] / D50, 1e-3, None)
    name = _name(tags) or "a profile without a name"
    return Condition(name, sha256_of(content), curves, table * (white / D50), paper)


def _tags(content: bytes) -> dict[bytes, bytes]:
    (count,) = struct.unpack_from(">I", content, _HEADER)
    if count > _TAGS_MAX:
        raise ValueError("too many tags")
    tags: dict[bytes, bytes] = {}
    for k in range(count):
        name, start, size = struct.unpack_from(">4sII", content, _HEADER + 4 + 12 * k)
        if start + size > len(content):
            raise ValueError("a tag lies outside the file")
        tags[name] = content[start : start + size]
    return tags


def _white(tags: dict[bytes, bytes]) -> Numbers:
    """Returns XYZ of the medium's white; D50 where the profile keeps it to itself."""
    tag = tags.get(b"wtpt", b"")
    if tag[:4] != b"XYZ ":
        return D50
    white = np.array(struct.unpack_from(">3i", tag, 8)) / 65536
    if not (white > 0.05).all() or not (white < 1.5).all():
        raise ValueError("no paper is like that")
    return white


def _name(tags: dict[bytes, bytes]) -> str:
    tag = tags.get(b"desc", b"")
    text = ""
    if tag[:4] == b"desc":
        (length,) = struct.unpack_from(">I", tag, 8)
        text = tag[12 : 12 + length].split(b"\0")[0].decode("ascii", "replace")
    elif tag[:4] == b"mluc" and struct.unpack_from(">I", tag, 8)[0]:
        length, start = struct.unpack_from(">II", tag, 20)
        text = tag[start : start + length].decode("utf-16-be", "replace")
    return re.sub(r"[^\x20-\x7e\xa0-\uffff]+", " ", text).strip()[:NAME_MAX]


def _table_of(lut: bytes, pcs: bytes) -> tuple[Numbers, Numbers]:
    readers = {b"mft1": _read_mft, b"mft2": _read_mft, b"mAB ": _read_mab}
    reader = readers.get(lut[:4])
    if reader is None:
        raise ValueError("no table of a known kind")
    if lut[8] != INKS or lut[9] != 3:
        raise ValueError("not from four inks to a colour")
    curves, encoded = reader(lut)
    decode = _decoder(lut[:4], pcs)
    return curves, decode(np.clip(encoded, 0, 1))


def _decoder(kind: bytes, pcs: bytes) -> Callable[[Numbers], Numbers]:
    """Returns from encoded shares to XYZ: Lab in 8 bits, in the older 16 bits, in the newer; XYZ.

    ICC.1:2001-04, 6.3.4.2 and 6.5.10; ICC.1:2010, 6.3.4.2.
    """
    if pcs == b"XYZ ":
        return lambda encoded: encoded * _XYZ_MOST
    if pcs != b"Lab ":
        raise ValueError("an unknown space")
    most = 65535 / 65280 if kind == b"mft2" else 1.0
    span = np.array([100.0, 255.0, 255.0])
    return lambda encoded: xyz_of_lab(encoded * span * most - np.array([0.0, 128.0, 128.0]))


def _read_mft(lut: bytes) -> tuple[Numbers, Numbers]:
    grid = _checked_grid(lut[10])
    if lut[:4] == b"mft2":
        entries, out_entries = struct.unpack_from(">HH", lut, 48)
        start, kind = 52, ">u2"
    else:
        entries = out_entries = 256
        start, kind = 48, ">u1"
    if entries < 2 or out_entries < 2:
        raise ValueError("a curve without points")
    counts = (INKS * entries, grid**INKS * 3, 3 * out_entries)
    numbers = np.frombuffer(lut, kind, sum(counts), start) / float(np.iinfo(kind).max)
    curves, nodes, outs = np.split(numbers, np.cumsum(counts)[:-1])
    shape = (grid,) * INKS + (3,)
    table = _through(outs.reshape(3, -1), nodes.reshape(shape))
    return curves.reshape(INKS, -1), table


def _read_mab(lut: bytes) -> tuple[Numbers, Numbers]:
    to_b, to_matrix, to_m, to_clut, to_a = struct.unpack_from(">5I", lut, 12)
    if not (to_clut and to_a and to_b):
        raise ValueError("a table without nodes")
    grids = [_checked_grid(grid) for grid in lut[to_clut : to_clut + INKS]]
    kind = {1: ">u1", 2: ">u2"}[lut[to_clut + 16]]
    count = math.prod(grids) * 3
    nodes = np.frombuffer(lut, kind, count, to_clut + 20) / float(np.iinfo(kind).max)
    table = _evened(nodes.reshape(*grids, 3))
    if to_m and to_matrix:
        table = _through(_curves(lut, to_m, 3), table)
        numbers = np.array(struct.unpack_from(">12i", lut, to_matrix)) / 65536
        table = np.clip(table @ numbers[:9].reshape(3, 3).T + numbers[9:], 0, 1)
    return _curves(lut, to_a, INKS), _through(_curves(lut, to_b, 3), table)


def _evened(table: Numbers) -> Numbers:
    """Returns a grid with as many nodes along every ink, those between the given ones in line.

    Of up to 33 nodes, if so many have all the given ones among them; else as many as the finest
    side has. Between nodes LittleCMS takes tetrahedra, and differs where a side has very few.
    """
    steps = [side - 1 for side in table.shape[:INKS]]
    shared = math.lcm(*steps) + 1
    grid = shared if shared <= _GRID_MAX else max(steps) + 1
    for ink, side in enumerate(table.shape[:INKS]):
        if side != grid:
            place = np.linspace(0, side - 1, grid)
            lower = np.minimum(place.astype(int), side - 2)
            share = (place - lower).reshape([-1 if k == ink else 1 for k in range(INKS + 1)])
            below, above = (np.take(table, lower + k, axis=ink) for k in (0, 1))
            table = below + (above - below) * share
    return table


def _checked_grid(grid: int) -> int:
    if not 2 <= grid <= _GRID_MAX:
        raise ValueError("a grid too fine or too coarse")
    return grid


def _through(curves: Numbers, values: Numbers) -> Numbers:
    """Returns values 0 to 1, (..., 3), each channel through its own curve (3, n)."""
    at = np.linspace(0, 1, curves.shape[1])
    return np.stack([np.interp(values[..., k], at, curves[k]) for k in range(3)], axis=-1)


def _curves(lut: bytes, start: int, count: int) -> Numbers:
    """Returns curves of either kind, each at 4096 places (ICC.1:2010, 10.5 and 10.15)."""
    at = np.linspace(0, 1, 4096)
    found: list[Numbers] = []
    for _ in range(count):
        kind = lut[start : start + 4]
        if kind == b"curv":
            (points,) = struct.unpack_from(">I", lut, start + 8)
            found.append(_sampled(lut, start + 12, points, at))
            used = 12 + 2 * points
        elif kind == b"para":
            (form,) = struct.unpack_from(">H", lut, start + 8)
            given = struct.unpack_from(f">{(1, 3, 4, 5, 7)[form]}i", lut, start + 12)
            found.append(_formula(form, [each / 65536 for each in given], at))
            used = 12 + 4 * len(given)
        else:
            raise ValueError("an unknown curve")
        start += math.ceil(used / 4) * 4
    return np.clip(np.array(found), 0, 1)


def _sampled(lut: bytes, start: int, points: int, at: Numbers) -> Numbers:
    if points == 0:
        return at
    values = np.frombuffer(lut, ">u2", points, start)
    if points == 1:
        return at ** (float(values[0]) / 256)
    return np.interp(at, np.linspace(0, 1, points), values / 65535)


def _formula(form: int, given: list[float], at: Numbers) -> Numbers:
    """Returns a parametric curve (ICC.1:2010, table 65)."""
    g, a, b, c, d, e, f = (given + [0.0] * 7)[:7]
    if form == 0:
        return at**g
    bent = np.maximum(a * at + b, 0) ** g
    if form in (1, 2):
        return np.where(a * at + b >= 0, bent, 0) + (c if form == 2 else 0)
    return np.where(at >= d, bent + e, c * at + f)
