"""What may be written in a suite file: its keys, their kinds and defaults, in TOML's own terms."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints

Length = float | str
"""A number in the file's units, or text with a unit: 0.125, "3 mm", "0.5 pt"."""

Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]
NAME = r"^[a-z0-9][a-z0-9_-]*$"
Name = Annotated[str, StringConstraints(pattern=NAME, max_length=60)]
Quantity = Annotated[int, Field(ge=1, le=1_000_000)]


class Table(BaseModel):
    """A table of the file: unknown keys are mistakes, and what was read does not change."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class PieceTable(Table):
    """`[pieces.NAME]`: one card."""

    art: Text
    page: Annotated[int, Field(ge=1)] = 1
    card: Text
    die: Text | dict[str, Any] = "rectangle"
    stock: Text = "cotton-110-white"
    quantity: Quantity | None = None
    title: Text | None = None
    bleed: Length | None = None


class LinerTable(Table):
    """`liner = { art = ... }`: the art and paper inside an envelope."""

    art: Text
    page: Annotated[int, Field(ge=1)] = 1
    stock: Text | None = None


class EnvelopeTable(Table):
    """`[envelopes.NAME]`: one envelope, what is in it and what lines it."""

    size: Text
    flap: Literal["straight", "pointed", "deep-pointed"] = "pointed"
    stock: Text | None = None
    colour: Text = "oat"
    liner: Text | LinerTable | None = None
    holds: Annotated[tuple[Name, ...], Strict(False)] = ()
    quantity: Quantity | None = None
    title: Text | None = None
    flap_depth: Length | None = None
    throat: Length | None = None
    liner_inset: Length | None = None


class CutLineTable(Table):
    """`[cut_line]`: the thin line along every die; its colour is chosen where none is given."""

    colour: Text | None = None
    width: Length = "0.5 pt"


class SceneTable(Table):
    """`[scene]`: the table the suite is laid on, and which of the arrangements is taken."""

    name: Text = "limewash"
    arrange: Annotated[int, Field(ge=1, le=50)] = 1
    seed: Annotated[int, Field(ge=0)] = 0


class ProofTable(Table):
    """`[proof]`: the paper the proof is set on."""

    paper: Literal["letter", "a4"] = "letter"


class AcceptTable(Table):
    """`[[accept]]`: a finding of the checks that the designer lives with, and why.

    `piece` is a piece, or `envelopes.NAME`, or `*` for all of them.
    """

    check: Text
    piece: Text = "*"
    reason: Text


class SuiteTable(Table):
    """The whole file."""

    title: Text
    client: Text | None = None
    designer: Text | None = None
    revision: Text = "1"
    units: Literal["in", "mm"] = "in"
    bleed: Length = "0.125 in"
    pieces: Annotated[dict[Name, PieceTable], Field(min_length=1, max_length=24)]
    envelopes: Annotated[dict[Name, EnvelopeTable], Field(max_length=6)] = {}
    cut_line: CutLineTable = CutLineTable()
    scene: SceneTable = SceneTable()
    proof: ProofTable = ProofTable()
    accept: Annotated[tuple[AcceptTable, ...], Strict(False)] = ()
