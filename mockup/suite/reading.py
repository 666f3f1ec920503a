"""Reading a suite file: every mistake in it told at once, each with its key, value and remedy."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from mockup.artwork.art import Art, art_of
from mockup.artwork.press import press_of_file
from mockup.colour.press import UNCOATED, Press, assumed_press
from mockup.colour.srgb import Rgb, parse_hex
from mockup.colour.white_ink import WhiteInk, WhiteRule
from mockup.dies import Die
from mockup.dies.folding import Fold
from mockup.dies.making import check_size
from mockup.envelopes.spec import EnvelopeSpec, envelope_spec
from mockup.errors import Mistake, MockupError, SuiteError, quoted
from mockup.sources import is_there
from mockup.suite.band_reading import read_wraps
from mockup.suite.card_reading import CardRead, read_card
from mockup.suite.die_reading import read_die
from mockup.suite.drawn_reading import not_held
from mockup.suite.face_reading import Ground, read_outside
from mockup.suite.finish_reading import (
    back_finished,
    finished,
    finishes_of,
    read_edge,
    read_torn,
)
from mockup.suite.fold_reading import read_fold, read_shown
from mockup.suite.hole_reading import threaded
from mockup.suite.scene_file import read_scene_file
from mockup.suite.scene_reading import scene_choice
from mockup.suite.schema import (
    BLEED_MAX_IN,
    CUT_LINE_MAX_IN,
    BackTable,
    EnvelopeTable,
    Length,
    LinerTable,
    PieceTable,
    StockTable,
    SuiteTable,
    WhiteTable,
)
from mockup.suite.stock_reading import USUAL, read_stock
from mockup.suite.suite import Acceptance, CutLineChoice, Envelope, Liner, Piece, SceneChoice, Suite
from mockup.suite.together_reading import together_mistakes
from mockup.tables.reading import read_toml
from mockup.tables.wording import form_mistakes, shown, sound_part, told
from mockup.trade.papers import Stock, paper_colour
from mockup.trade.sizes import CardSize, envelope_size
from mockup.units import LONGEST_IN, PT_PER_INCH, Unit, format_length, parse_length

Found = TypeVar("Found")


def read_suite(path: Path) -> Suite:
    """Returns the suite a TOML file tells; paths in it are relative to the file.

    Raises SuiteError with every mistake of the file, of the scene it names and of its templates.
    """
    if not is_there(path):
        said = "no such file; `mockup start` writes one from your PDFs"
        raise SuiteError(Mistake(said, str(path)))
    raw = read_toml(path)
    mistakes = form_mistakes(str(path), raw, SuiteTable)
    table = sound_part(raw, SuiteTable)
    if table is None:
        raise SuiteError(*mistakes)
    reader = _Reader(path, table, _names(raw, "pieces"), _names(raw, "envelopes"))
    suite = reader.suite()
    # Without its unit a number says no length.
    unsure = reader.measures if any(each.key == "units" for each in mistakes) else set[str]()
    mistakes += [each for each in reader.mistakes if each.key not in unsure]
    if mistakes or suite is None:
        raise SuiteError(*dict.fromkeys(mistakes))
    return suite


class _Reader:
    """Reads the names of one suite file into things, and notes what cannot be read.

    `pieces` and `envelopes` are the names in the file, also those whose own tables are mistaken.
    """

    def __init__(
        self, path: Path, table: SuiteTable, pieces: Collection[str], envelopes: Collection[str]
    ) -> None:
        self.path = path
        self.table = table
        self.pieces = pieces
        self.envelopes = envelopes
        self.mistakes: list[Mistake] = []
        self.measures: set[str] = set()
        self.own_press = self.named_press()

    @property
    def common_bleed(self) -> Length:
        """What the file says of the bleed, else what its trade usually asks."""
        usual = "3 mm" if self.table.units == "mm" else "0.125 in"
        return usual if self.table.bleed is None else self.table.bleed

    def tried(self, key: str, value: object, reading: Callable[[], Found]) -> Found | None:
        """Returns what `reading` gives, or None after noting its mistakes under `key`."""
        try:
            return reading()
        except MockupError as error:
            for each in error.mistakes:
                inner = each.key if not each.file else ""
                sentence = str(replace(each, key="")) if inner else str(each)
                at = value.get(inner, value) if isinstance(value, dict) else value
                self.note(f"{key}.{inner}" if inner else key, sentence, each.value or at)
            return None

    def note(self, key: str, sentence: str, value: object) -> None:
        """Notes a mistake under a key path."""
        said = value if isinstance(value, str) else shown(value)
        self.mistakes.append(Mistake(sentence, str(self.path), key, said))

    def suite(self) -> Suite | None:
        """Returns the suite, or None after noting all that is wrong with it."""
        table = self.table
        pieces = [self.piece(name, piece) for name, piece in table.pieces.items()]
        envelopes = [self.envelope(name, each) for name, each in table.envelopes.items()]
        bleed_in = self.length("bleed", self.common_bleed, BLEED_MAX_IN)
        line = self.cut_line()
        accepted = self.accepted()
        scene = self.scene()
        read = [envelope for envelope in envelopes if envelope is not None]
        cards = [piece for piece in pieces if piece is not None]
        for mistake in together_mistakes(cards, read, [*self.pieces], table.pieces):
            self.note(*mistake)
        if self.mistakes or bleed_in is None or line is None:
            return None
        return Suite(
            self.path,
            table.title,
            table.client,
            table.designer,
            table.revision,
            bleed_in,
            tuple(cards),
            tuple(read),
            line,
            scene,
            table.proof.paper,
            accepted,
            table.units,
            table.post.sent_from,
        )

    def length(self, key: str, value: Length, most_in: float = LONGEST_IN) -> float | None:
        """Returns a length in inches of at most `most_in`."""

        def read() -> float:
            units = self.table.units
            length_in = parse_length(value, units)
            if length_in > most_in:
                said = f"{shown(value)} is too long; write at most {format_length(most_in, units)}"
                raise SuiteError(said)
            return length_in

        self.measures.add(key)
        return self.tried(key, value, read)

    def art(self, key: str, table: PieceTable | LinerTable, paper: Stock | None) -> Art | None:
        """Returns the page of artwork of the table at a key, on its paper, or None after noting why
        not."""
        press = self.press_for(f"{key.removesuffix('.art')}.stock", table.stock, paper)
        art = self.page_of(key, table.art, table.page, press)
        if art is None:
            return None
        swatch = None if paper is None else paper.swatch
        return replace(art, white=white_ink(table.white), swatch=swatch)

    def page_of(self, key: str, text: str, page: int, press: Press) -> Art | None:
        """Returns a page of a file beside the suite file, or None after noting why not."""
        path = self.file(key, text)
        return None if path is None else self.tried(key, text, lambda: art_of(path, page, press))

    def back(self, key: str, table: PieceTable, front: Art | None) -> Art | None:
        """Returns the art of a piece's back, or of a folded card's inside, on the front's paper and
        press; None where it has none, and after noting why it cannot be read."""
        what, said = ("back", table.back) if table.inside is None else ("inside", table.inside)
        given, key = BackTable(art=said) if isinstance(said, str) else said, f"{key}.{what}"
        if given is None or front is None:
            return None
        name = f"{key.split('.')[1]}-{what}"
        if name in self.pieces:
            self.note(key, f'a piece is called "{name}", as its files would be; rename it', name)
        art_key = key if isinstance(said, str) else f"{key}.art"
        text = given.art or table.art
        usual = table.page + 1 if text == table.art else 1
        art = self.page_of(art_key, text, given.page or usual, front.press)
        white = front.white if given.white is None else white_ink(given.white)
        return art and replace(art, white=white, swatch=front.swatch)

    def press_for(self, key: str, given: str | StockTable | None, paper: Stock | None) -> Press:
        """Returns the press of a paper, for art that names none: the paper's own, else the suite's,
        else the one that is assumed for its surface."""
        if isinstance(given, StockTable) and given.press is not None:
            own = self.press(f"{key}.press", given.press, "the stock's press")
            return own or UNCOATED
        assumed = assumed_press(paper.coated) if paper is not None else UNCOATED
        return self.own_press or assumed

    def named_press(self) -> Press | None:
        """Returns the press the file names, if it names one that can be used."""
        table = self.table.press
        return table and self.press("press.profile", table.profile, "the suite's press")

    def press(self, key: str, text: str, because: str) -> Press | None:
        """Returns the press of a profile beside the suite file, or None after noting why not."""
        path = self.file(key, text)
        return path and self.tried(key, text, lambda: press_of_file(path, because))

    def file(self, key: str, text: str) -> Path | None:
        """Returns a file beside the suite file, or None after noting that there is none."""
        path = self.path.parent / text
        if is_there(path):
            return path
        self.note(key, f"there is no file {quoted(text)} beside the suite file", text)
        return None

    def piece(self, name: str, table: PieceTable) -> Piece | None:
        """Returns a piece, or None after noting what is wrong with it."""
        key = f"pieces.{name}"
        paper = self.stock(f"{key}.stock", table.stock, "piece")
        art = finished(self, key, table, self.art(f"{key}.art", table, paper))
        back = back_finished(self, key, table, art, self.back(key, table, art))
        units = self.table.units
        read = self.tried(f"{key}.card", table.card, lambda: _cut_card(table.card, units, art))
        card = read and read.card
        own, common = f"{key}.bleed", "bleed"
        bleed_key, given = (
            (common, self.common_bleed) if table.bleed is None else (own, table.bleed)
        )
        bleed_in = self.length(bleed_key, given, BLEED_MAX_IN)
        whole = self.die(f"{key}.die", table, card) if card else None
        die, cord = threaded(self, key, table, whole, units)
        edge = read_edge(self, f"{key}.edge", table.edge)
        torn = read_torn(self, f"{key}.torn", table, die, units)
        fold = self.fold(key, table, die)
        if (
            read is None
            or card is None
            or paper is None
            or die is None
            or art is None
            or bleed_in is None
            or (back is None and (table.back or table.inside) is not None)
        ):
            return None
        title, finishes = table.title or title_of(name), finishes_of(table)
        told = (units, read.told, finishes, back, "", edge, torn, fold)
        wraps = read_wraps(table.wraps, self.length, f"{key}.wraps")
        lies = read_shown(table, self.table.scene.folded), table.over, wraps, cord
        return Piece(name, title, art, card, die, paper, table.quantity, bleed_in, *told, *lies)

    def stock(self, key: str, given: str | StockTable | None, what: str) -> Stock | None:
        """Returns the paper of a piece, an envelope or a liner: as given, else the usual one."""
        paper = given or USUAL[self.table.units][what]
        return self.tried(key, paper, lambda: read_stock(paper))

    def die(self, key: str, table: PieceTable, card: CardSize) -> Die | None:
        """Returns a piece's die."""
        folder, size = self.path.parent, (card.width_in, card.height_in)
        units = self.table.units
        return self.tried(key, table.die, lambda: read_die(table.die, size, folder, units))

    def fold(self, key: str, table: PieceTable, die: Die | None) -> Fold | None:
        """Returns along which side a piece of a die is folded, if it is."""
        if die is None:
            return None
        reading: Callable[[], Fold | None] = partial(read_fold, table, die, self.table.units)
        return self.tried(key, None, reading)

    def envelope(self, name: str, table: EnvelopeTable) -> Envelope | None:
        """Returns an envelope, or None after noting what is wrong with it."""
        key = f"envelopes.{name}"
        units = self.table.units
        size = self.tried(f"{key}.size", table.size, lambda: envelope_size(table.size, units))
        paper = self.stock(f"{key}.stock", table.stock, "envelope")
        own = paper if table.stock is not None else None
        given = table.colour or (own.colour_hex if own else "oat")
        colour = self.tried(f"{key}.colour", given, lambda: paper_colour(given))
        liner = self.liner(f"{key}.liner", table.liner) if table.liner is not None else None
        for number, held in enumerate(table.holds, 1):
            if said := not_held(held, self.pieces, self.table.envelopes):
                self.note(f"{key}.holds.{number}", said, held)
        spec = self.spec(key, table, size.width_in, size.height_in) if size is not None else None
        if size is None or paper is None or colour is None or spec is None:
            return None
        rgb: Rgb = parse_hex(colour.colour_hex)
        title = table.title or f"{title_of(name)} envelope"
        outside = read_outside(
            self, Ground(key, replace(paper, colour_hex=colour.colour_hex), spec, units), table
        )
        rest = (liner, table.holds, table.quantity, units, outside, table.drawn)
        return Envelope(name, title, size, spec, paper, rgb, colour.name, *rest)

    def spec(
        self, key: str, table: EnvelopeTable, width_in: float, height_in: float
    ) -> EnvelopeSpec | None:
        """Returns how an envelope is cut and folded, with the lengths the file gives."""
        given = {
            "flap_depth": table.flap_depth,
            "throat": table.throat,
            "liner_inset": table.liner_inset,
        }
        lengths: dict[str, float] = {}
        for name, value in given.items():
            length_in = self.length(f"{key}.{name}", value) if value is not None else None
            if value is not None and length_in is None:
                return None
            if length_in is not None:
                lengths[f"{name}_in"] = length_in
        try:
            return envelope_spec(width_in, height_in, table.flap, lengths, self.table.units)
        except SuiteError as error:
            # A measure the file does not give follows from one that it gives, or from the size.
            at = error.mistakes[0].key
            cause = at if at in lengths else next(iter(lengths), "size_in")
            name = cause.removesuffix("_in")
            self.measures.add(f"{key}.{name}")
            self.note(f"{key}.{name}", error.mistakes[0].sentence, given.get(name) or table.size)
            return None

    def liner(self, key: str, table: str | LinerTable) -> Liner | None:
        """Returns a liner, or None after noting what is wrong with it."""
        art_key = key if isinstance(table, str) else f"{key}.art"
        if isinstance(table, str):
            table = LinerTable(art=table)
        paper = self.stock(f"{key}.stock", table.stock, "liner")
        art = self.art(art_key, table, paper)
        return Liner(art, paper) if paper and art else None

    def cut_line(self) -> CutLineChoice | None:
        """Returns what the file says of the cut line."""
        table = self.table.cut_line
        width_in = self.length("cut_line.width", table.width, CUT_LINE_MAX_IN)
        colour = table.colour
        rgb = self.tried("cut_line.colour", colour, lambda: parse_hex(colour)) if colour else None
        return None if width_in is None else CutLineChoice(rgb, width_in * PT_PER_INCH)

    def accepted(self) -> tuple[Acceptance, ...]:
        """Returns what the designer lives with, after noting pieces that are not there."""
        owners = ["*", *self.pieces, *(f"envelopes.{name}" for name in self.envelopes)]
        for number, each in enumerate(self.table.accept, 1):
            if each.piece not in owners:
                self.note(f"accept.{number}.piece", told(each.piece, "piece", owners), each.piece)
        return tuple(Acceptance(each.check, each.piece, each.reason) for each in self.table.accept)

    def scene(self) -> SceneChoice:
        """Returns what is said of the scene; notes an unknown one under its key, and what is wrong
        with its file under the file."""
        name = self.table.scene.name
        try:
            read_scene_file(name, self.path.parent)
        except MockupError as error:
            for each in error.mistakes:
                placed = Mistake(each.sentence, str(self.path), "scene.name", name)
                self.mistakes.append(each if each.file else placed)
        return scene_choice(self.table.scene, self.pieces, self.envelopes, self.note)


def with_scene(suite: Suite, name: str | None, arrange: int | None) -> Suite:
    """Returns the suite on another scene or in another arrangement; None keeps its own."""
    chosen = suite.scene
    scene = replace(chosen, name=name or chosen.name, arrange=arrange or chosen.arrange)
    return replace(suite, scene=scene)


def title_of(name: str) -> str:
    """Returns a name as a title: `details-card` is "Details card"."""
    words = name.replace("-", " ").replace("_", " ").strip()
    return words[:1].upper() + words[1:]


def white_ink(given: WhiteRule | WhiteTable | None) -> WhiteInk:
    """Returns where white ink goes, and how often; where nothing is said, the art's own plate."""
    if isinstance(given, WhiteTable):
        return WhiteInk(given.rule, given.hits)
    return WhiteInk() if given is None else WhiteInk(given)


def _cut_card(text: str, units: Unit, art: Art | None) -> CardRead:
    read = read_card(text, units, art)
    check_size("rectangle", read.card.width_in, read.card.height_in, units)
    return read


def _names(raw: dict[str, Any], key: str) -> list[str]:
    tables = raw.get(key, {})
    return list(tables) if isinstance(tables, dict) else []
