"""A suite as the rest of the program knows it: cards and envelopes, sizes in inches, dies drawn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal, get_args

from mockup.artwork.art import Art, FinishSaid
from mockup.colour.srgb import Rgb, to_hex
from mockup.dies import Die
from mockup.dies.folding import Fold, unfolded
from mockup.dies.mirroring import mirrored
from mockup.envelopes.spec import EnvelopeSpec
from mockup.suite.outside import BARE, EnvelopeSide, Outside
from mockup.trade.finishes import Finish
from mockup.trade.metals import Metal
from mockup.trade.papers import Stock
from mockup.trade.sizes import CardSize, EnvelopeSize
from mockup.units import Unit

CheckName = Literal[
    "size",
    "left-in",
    "bleed",
    "safe",
    "border",
    "shift",
    "die",
    "fold",
    "overlay",
    "band",
    "pages",
    "undrawn",
    "font",
    "live-type",
    "small-type",
    "resolution",
    "hairline",
    "rgb",
    "ink",
    "registration",
    "overprint",
    "white-ink",
    "finish",
    "bare-white",
    "code",
    "contrast",
    "gamut",
    "minimum",
    "fit",
    "liner",
    "face",
    "beside",
    "weight",
    "post",
]
"""What findings are called, so that a suite file can accept them."""

SideName = Literal["", "front", "back", "outside", "inside"]
"""Which side of a piece is looked at; nothing where the piece is whole, or has one side. A folded
card's sides are those of its flat sheet."""

Shown = Literal["closed", "half-open", "inside", "standing"]
"""How a folded card lies, or stands, on the table."""


Along = Literal["width", "height"]
"""Which side of the cards a band goes along, round them: from side to side, or head to foot."""

TornSide = Literal["left", "top", "right", "bottom"]
TORN_SIDES: tuple[TornSide, ...] = get_args(TornSide)
_OVER: dict[TornSide, TornSide] = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class Edge:
    """The finish of a card's cut edges: a colour, or the metal of a gilding in its place."""

    colour: Rgb
    metal: Metal | None = None


@dataclass(frozen=True)
class Cord:
    """A cord through a card's hole: its colour, and how thick it is in inches."""

    colour: Rgb
    thickness_in: float


@dataclass(frozen=True)
class Wrap:
    """What a band goes round: cards, the front one first; where its middle lies, inches from the
    front card's top or left, None for its middle; whether a picture shows them bound; the side it
    goes along, None where its own longer side tells; the overlap meant for its ends, inches."""

    cards: tuple[str, ...]
    at_in: float | None = None
    is_bound: bool = True
    along: Along | None = None
    overlap_in: float | None = None


@dataclass(frozen=True)
class Piece:
    """One card of a suite. `die` has the card's size, closed where it is folded; `bleed_in` is what
    the art should have; `units` are what is told of it in. `card_told` says how a card's name with
    two meanings was taken."""

    name: str
    title: str
    art: Art
    card: CardSize
    die: Die
    stock: Stock
    quantity: int | None
    bleed_in: float
    units: Unit = "in"
    card_told: str = ""
    finishes: tuple[Finish, ...] = ()
    """What the piece has beside ink, as the file says; white where it says anything of white."""
    back: Art | None = None
    """The art of its back, where that is printed, or of a folded card's inside; of a side, the art
    of the other one."""
    side: SideName = ""
    """Which side this is, of a piece made by `sides`."""
    edge: Edge | None = None
    """What its cut edges are painted or gilded with."""
    torn: tuple[TornSide, ...] = ()
    """Its sides that are torn and not cut, as this side sees them."""
    fold: Fold | None = None
    """Along which side it is folded; its art is then that of its flat sheet."""
    shown: Shown = "closed"
    """How it lies in a flat-lay, where it is folded."""
    over: str | None = None
    """The card it is laid on, of a sheet that is seen through."""
    wraps: Wrap | None = None
    """What it goes round, of a band: its art is that of the strip, flat."""
    cord: Cord | None = None
    """What is threaded through its hole."""

    @property
    def sides(self) -> tuple[Piece, ...]:
        """The sides that are printed, each as a piece to be drawn, checked and printed: the back
        has its own art, and the die's mirror image. A piece without a back is its only side.

        A folded card's are the outside and the inside of its flat sheet, die and all."""
        if self.side:
            return (self,)
        if self.fold is not None:
            flat = replace(self, die=unfolded(self.die, self.fold, self.units), side="outside")
            inside = () if self.back is None else (flat.other("inside", self.back),)
            return (flat, *inside)
        if self.back is None:
            return (self,)
        front = replace(self, side="front")
        torn = tuple(_OVER.get(each, each) for each in self.torn)
        back = replace(front.other("back", self.back), die=mirrored(self.die), torn=torn)
        return (front, back)

    def other(self, side: SideName, art: Art) -> Piece:
        """Returns the other side of a side, with its art."""
        return replace(self, art=art, back=self.art, side=side)

    @property
    def is_second(self) -> bool:
        """Whether this is the side that is printed second: a back, or the inside of a fold."""
        return self.side in ("back", "inside")

    @property
    def side_title(self) -> str:
        """The title with the side, where it has two."""
        return f"{self.title}, {self.side}" if self.side else self.title

    @property
    def side_name(self) -> str:
        """The name that files of this side have: `invitation`, `invitation-back`, `menu-inside`."""
        return f"{self.name}-{self.side}" if self.is_second else self.name

    @property
    def finish_pages(self) -> tuple[tuple[str, FinishSaid], ...]:
        """The finishes of this side that have a page of their own, by the names that their files
        have: `menu-foil`, `menu-foil-2`, `menu-back-deboss`."""
        found: dict[str, FinishSaid] = {}
        for said in self.art.finishing:
            if said.art is not None:
                name = f"{self.side_name}-{said.finish}"
                taken = sum(each.startswith(name) for each in found)
                found[f"{name}-{taken + 1}" if taken else name] = said
        return tuple(found.items())

    def leaving_out(self, marks: Sequence[frozenset[int]]) -> Piece:
        """Returns the piece with marks of its art not drawn: the front's, then the back's."""
        front, *others = marks
        back = self.back
        if back is not None and others:
            back = replace(back, left_out=others[0])
        return replace(self, art=replace(self.art, left_out=front), back=back)

    @property
    def alone(self) -> Piece:
        """The piece by itself: over no card, round none."""
        return replace(self, over=None, wraps=None)

    @property
    def whole(self) -> Piece:
        """The piece with all that its art has, on both sides."""
        return self.leaving_out((frozenset(), frozenset()))


def all_sides(pieces: Iterable[Piece]) -> list[Piece]:
    """Returns the printed sides of pieces, one piece after another."""
    return [side for piece in pieces for side in piece.sides]


@dataclass(frozen=True)
class Liner:
    """The art and the paper inside an envelope; the art's page is the liner's box and bleed."""

    art: Art
    stock: Stock


@dataclass(frozen=True)
class Envelope:
    """One envelope of a suite: its size and cut, its colour, its liner, the pieces it holds;
    `units` are what is told of it in."""

    name: str
    title: str
    size: EnvelopeSize
    spec: EnvelopeSpec
    stock: Stock
    colour: Rgb
    colour_name: str
    liner: Liner | None
    holds: tuple[str, ...]
    quantity: int | None
    units: Unit = "in"
    outside: Outside = BARE
    """What is printed or written on it, and which side of it lies up."""
    drawn: str | None = None
    """The piece it holds that a flat-lay shows half drawn out of it."""

    @property
    def paper(self) -> Stock:
        """Its stock in its own colour, which art on its outside is printed on."""
        return replace(self.stock, colour_hex=to_hex(self.colour))

    def side_name(self, side: EnvelopeSide) -> str:
        """Returns the name that files of a side have: `outer-face`, `outer-flap`."""
        return f"{self.name}-{side}"


@dataclass(frozen=True)
class CutLineChoice:
    """What the designer said of the cut line: a colour, or none for the program to choose."""

    colour: Rgb | None
    width_pt: float


@dataclass(frozen=True)
class SceneChoice:
    """Which scene, which arrangement of it, and the seed of all chance in the picture; the piece it
    is built around, the envelopes that lie open, and what lies over what, the higher first: None
    and nothing where the program chooses. Of two things with one name a piece comes first; what is
    said of an envelope is `envelopes.NAME`."""

    name: str
    arrange: int
    seed: int
    main: str | None = None
    open: tuple[str, ...] | None = None
    above: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Acceptance:
    """A finding the designer lives with: check, piece, and why. `*` as piece stands for all."""

    check: CheckName
    piece: str
    reason: str


@dataclass(frozen=True)
class Suite:
    """A whole suite, as one file tells it. `units` are what its reader is told lengths in."""

    path: Path
    title: str
    client: str | None
    designer: str | None
    revision: str
    bleed_in: float
    pieces: tuple[Piece, ...]
    envelopes: tuple[Envelope, ...]
    cut_line: CutLineChoice
    scene: SceneChoice
    paper: str
    accepted: tuple[Acceptance, ...] = ()
    units: Unit = "in"
    post_from: str | None = None
    """Whose rules of post are asked, where the file says it."""

    def piece(self, name: str) -> Piece:
        """Returns the piece of a name. Raises KeyError."""
        return {piece.name: piece for piece in self.pieces}[name]
