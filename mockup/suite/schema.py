"""What may be written in a suite file: its keys, their kinds and defaults, in TOML's own terms."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints

from mockup.colour.white_ink import HITS_MOST, WhiteRule
from mockup.dies.folding import Fold
from mockup.envelopes.lettering import Align, TypeFace
from mockup.suite.outside import EnvelopeSide
from mockup.suite.outside import Shown as EnvelopeShown
from mockup.suite.suite import Along, CheckName, Shown, TornSide
from mockup.trade.finishes import Finish
from mockup.trade.limits import PAGES_MAX
from mockup.trade.metals import Metal
from mockup.trade.papers import Grain
from mockup.trade.swatch import Backing, Light

Length = float | str
"""A number in the file's units, or text with a unit: 0.125, "3 mm", "0.5 pt"."""

ARRANGE_MAX = 50  # judgement: nobody looks at more; each asks for a longer search
SEED_MAX = 2**31 - 1  # judgement: more chances than anyone looks at
PIECES_MAX, ENVELOPES_MAX = 24, 6  # judgement: the largest suites seen have half of that
FINISHES_MAX = 12  # judgement: twice as many as there are kinds
ABOVE_MAX = 100  # judgement: every piece over a few others
ACCEPT_MAX = 500  # judgement: every check of every piece
BLEED_MAX_IN = 2.0  # judgement: no printer asks for a quarter of it
GSM_LEAST, GSM_MOST = 15, 2500  # judgement: from tissue to mounted board
OPACITY_LEAST = 5  # per cent; judgement: clearer than any paper
LINES_MAX = 12  # judgement: no address has more
CUT_LINE_MAX_IN = 0.25  # judgement: thicker, it is no line any more

Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]
FileName = Annotated[str, StringConstraints(min_length=1, max_length=1024)]
"""A path, kept as it is: names of files may begin and end with spaces."""

NAME = r"^[a-z0-9][a-z0-9_-]*$"
Name = Annotated[str, StringConstraints(pattern=NAME, max_length=60)]
Quantity = Annotated[int, Field(ge=1, le=1_000_000)]
Page = Annotated[int, Field(ge=1, le=PAGES_MAX)]


class Table(BaseModel):
    """A table of the file: unknown keys are mistakes, and what was read does not change."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)


Lab = Annotated[
    tuple[
        Annotated[float, Field(ge=0, le=100)],
        Annotated[float, Field(ge=-128, le=127)],
        Annotated[float, Field(ge=-128, le=127)],
    ],
    Strict(False),
]
"""`[62, 8, 22]`: L*, a* and b* under D50."""


class LabTable(Table):
    """`colour = { lab = [62, 8, 22], condition = "M1", backing = "black" }`: a colour measured."""

    lab: Lab
    condition: Light | None = None
    backing: Backing | None = None


class SwatchTable(Table):
    """`swatch = { paper = [...], cyan = [...], ... }`: CIELAB of a bare paper and of solid inks on
    it, measured."""

    paper: Lab
    cyan: Lab
    magenta: Lab
    yellow: Lab
    black: Lab
    condition: Light | None = None
    backing: Backing | None = None


class StockTable(Table):
    """`stock = { gsm = 300, ... }`: a paper by what its maker says of it.

    Grams per square metre, thousandths of a millimetre; a colour's name, `#rrggbb` or CIELAB; its
    opacity in per cent (ISO 2471), for paper that is seen through; what was measured of ink on it;
    the ICC profile of the press it goes through.
    """

    gsm: Annotated[float, Field(ge=GSM_LEAST, le=GSM_MOST)]
    caliper_um: Annotated[float, Field(ge=10, le=5000)] | None = None
    colour: Text | LabTable | None = None
    texture: Grain = "smooth"
    coated: bool = False
    opacity: Annotated[float, Field(ge=OPACITY_LEAST, le=100)] | None = None
    swatch: SwatchTable | None = None
    press: FileName | None = None


class WhiteTable(Table):
    """`white = { from = "plate", hits = 2 }`: where white ink is printed, and how often."""

    rule: Annotated[WhiteRule, Field(alias="from")] = "plate"
    hits: Annotated[int, Field(ge=1, le=HITS_MOST)] = 1


class FinishTable(Table):
    """`{ as = "foil", plate = "Tide", metal = "gold" }`: which plate is a finish's, where its name
    does not say it: a spot colour or a layer of the art, or a page of its own, of `art` or of the
    art's own file."""

    finish: Annotated[Finish, Field(alias="as")]
    plate: Text | None = None
    art: FileName | None = None
    page: Page | None = None
    metal: Metal | None = None


Finishes = Annotated[
    tuple[Finish | FinishTable, ...], Strict(False), Field(max_length=FINISHES_MAX)
]
"""`finish = ["letterpress", { as = "foil", art = "foil.pdf" }]`: what is there beside ink."""


class EdgeTable(Table):
    """`edge = { colour = "#8a2b1f" }` or `{ metal = "gold" }`: cut edges painted or gilded."""

    colour: Text | None = None
    metal: Literal["rose-gold", "gold", "silver", "copper", "bronze"] | None = None


FoldedLies = Literal["closed", "half-open", "inside"]
"""How all folded cards lie in a picture; one of them may also stand."""


class BackTable(Table):
    """`back = { art = ..., page = 2 }`: the other side of a card; `inside` of a folded one.

    Without `art` it is in the front's file; without `page` it is the first page of its file, or of
    the front's own file the one after the front. `white` and `finish` are the front's where
    nothing is said.
    """

    art: FileName | None = None
    page: Page | None = None
    white: WhiteRule | WhiteTable | None = None
    finish: Finishes | None = None


Cards = Annotated[tuple[Name, ...], Strict(False), Field(min_length=1, max_length=PIECES_MAX)]


class WrapTable(Table):
    """`wraps = { cards = ["invitation", "reply"], at = 5 }`: a band round cards, the front one
    first; `at` is its middle's place from that card's top, or left. `along` is the side of the
    cards it goes along; without it, by the strip's longer side. `overlap` is by how much its ends
    are meant to lie over each other. `shown = "apart"` has a picture show the cards loose, without
    it."""

    cards: Cards
    at: Length | None = None
    along: Along | None = None
    overlap: Length | None = None
    shown: Literal["bound", "apart"] = "bound"


HoleSide = Literal["top", "left", "right", "bottom"]


class HoleTable(Table):
    """`hole = { diameter = "1/4 in", side = "top", inset = "3/8 in" }`: a hole drilled near the
    middle of a side, its own middle `inset` from that edge."""

    diameter: Length
    side: HoleSide = "top"
    inset: Length | None = None


class CordTable(Table):
    """`cord = { colour = "#b08d57", thickness = "1/16 in" }`: what is threaded through the hole."""

    colour: Text
    thickness: Length | None = None


class PieceTable(Table):
    """`[pieces.NAME]`: one card."""

    art: FileName
    page: Page = 1
    card: Text
    die: Text | dict[str, Any] = "rectangle"
    stock: Text | StockTable | None = None
    quantity: Quantity | None = None
    title: Text | None = None
    bleed: Length | None = None
    white: WhiteRule | WhiteTable | None = None
    finish: Finishes = ()
    back: FileName | BackTable | None = None
    edge: Text | EdgeTable | None = None
    torn: bool | Annotated[tuple[TornSide, ...], Strict(False), Field(max_length=4)] = False
    fold: Fold | None = None
    inside: FileName | BackTable | None = None
    shown: Shown | None = None
    over: Name | None = None
    wraps: Cards | WrapTable | None = None
    hole: Length | HoleTable | None = None
    cord: Text | CordTable | None = None


class LinerTable(Table):
    """`liner = { art = ... }`: the art and paper inside an envelope."""

    art: FileName
    page: Page = 1
    stock: Text | StockTable | None = None
    white: WhiteRule | WhiteTable | None = None


class FaceTable(Table):
    """`face = { art = ... }`, `flap_art = { art = ... }`: art on the outside of an envelope."""

    art: FileName
    page: Page = 1
    white: WhiteRule | WhiteTable | None = None


Lines = Annotated[tuple[Text, ...], Strict(False), Field(min_length=1, max_length=LINES_MAX)]


class LetteringTable(Table):
    """`address = { lines = ["...", "..."], ink = "white" }`: lines the program sets, as a sample.

    `size` is in points where it has no unit; `at` is the block's top left, from the side's.
    """

    lines: Lines
    face: TypeFace = "text"
    size: Length | None = None
    align: Align | None = None
    at: Annotated[tuple[Length, Length], Strict(False)] | None = None
    ink: Text | None = None
    hits: Annotated[int, Field(ge=1, le=HITS_MOST)] = 1
    side: EnvelopeSide | None = None


class EnvelopeTable(Table):
    """`[envelopes.NAME]`: one envelope, what is in it, what lines it and what is on it."""

    size: Text
    flap: Literal["straight", "pointed", "deep-pointed"] = "pointed"
    stock: Text | StockTable | None = None
    colour: Text | None = None
    liner: FileName | LinerTable | None = None
    holds: Annotated[tuple[Name, ...], Strict(False), Field(max_length=PIECES_MAX)] = ()
    quantity: Quantity | None = None
    title: Text | None = None
    flap_depth: Length | None = None
    throat: Length | None = None
    liner_inset: Length | None = None
    face: FileName | FaceTable | None = None
    flap_art: FileName | FaceTable | None = None
    address: Lines | LetteringTable | None = None
    return_address: Lines | LetteringTable | None = None
    shown: EnvelopeShown | None = None
    drawn: Name | None = None


class CutLineTable(Table):
    """`[cut_line]`: the thin line along every die; its colour is chosen where none is given."""

    colour: Text | None = None
    width: Length = "0.5 pt"


class SceneTable(Table):
    """`[scene]`: the table the suite is laid on, and which of the arrangements is taken.

    `main` is the piece the picture is built around, `open` the envelopes that lie open, `above`
    lines like "reply over details".
    """

    name: Text = "limewash"
    arrange: Annotated[int, Field(ge=1, le=ARRANGE_MAX)] = 1
    seed: Annotated[int, Field(ge=0, le=SEED_MAX)] = 0
    folded: FoldedLies | None = None
    main: Text | None = None
    open: Annotated[tuple[Text, ...], Strict(False), Field(max_length=ENVELOPES_MAX)] | None = None
    above: Annotated[tuple[Text, ...], Strict(False), Field(max_length=ABOVE_MAX)] = ()


class PressTable(Table):
    """`[press]`: the ICC profile of the press, for art that names none itself; a stock that has a
    press of its own goes through that."""

    profile: FileName


class ProofTable(Table):
    """`[proof]`: the paper the proof is set on."""

    paper: Literal["letter", "a4"] = "letter"


class PostTable(Table):
    """`[post]`: whose rules of post are asked; guessed from the proof's paper where not said."""

    sent_from: Annotated[
        Literal["us", "uk", "canada", "germany", "france", "upu"] | None, Field(alias="from")
    ] = None


class AcceptTable(Table):
    """`[[accept]]`: a finding of the checks that the designer lives with, and why.

    `piece` is a piece, or `envelopes.NAME`, or `*` for all of them.
    """

    check: CheckName
    piece: Text = "*"
    reason: Text


class SuiteTable(Table):
    """The whole file."""

    title: Text
    client: Text | None = None
    designer: Text | None = None
    revision: Text = "1"
    units: Literal["in", "mm"] = "in"
    bleed: Length | None = None
    pieces: Annotated[dict[Name, PieceTable], Field(min_length=1, max_length=PIECES_MAX)]
    envelopes: Annotated[dict[Name, EnvelopeTable], Field(max_length=ENVELOPES_MAX)] = {}
    cut_line: CutLineTable = CutLineTable()
    scene: SceneTable = SceneTable()
    press: PressTable | None = None
    proof: ProofTable = ProofTable()
    post: PostTable = PostTable()
    accept: Annotated[tuple[AcceptTable, ...], Strict(False), Field(max_length=ACCEPT_MAX)] = ()
