"""Reading a suite file: every mistake in it told at once, each with its key, value and remedy."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from mockup.artwork.art import Art, art_of
from mockup.colour.srgb import Rgb, parse_hex
from mockup.dies import Die, make_die
from mockup.dies.family import Given
from mockup.dies.importing import import_die
from mockup.envelopes.spec import EnvelopeSpec, envelope_spec
from mockup.errors import MockupError, SuiteError
from mockup.suite.mistakes import lines, told, without_mistakes
from mockup.suite.schema import EnvelopeTable, LinerTable, PieceTable, SuiteTable
from mockup.suite.suite import Acceptance, CutLineChoice, Envelope, Liner, Piece, SceneChoice, Suite
from mockup.trade.papers import paper_colour, stock
from mockup.trade.sizes import CardSize, card_size, envelope_size
from mockup.units import PT_PER_INCH, parse_length

Found = TypeVar("Found")
LINER_STOCK = "text-70-white"
TEMPLATE_KEYS = ("file", "pick", "page")


def read_suite(path: Path) -> Suite:
    """Returns the suite a TOML file tells; paths in it are relative to the file.

    Raises SuiteError with a line for every mistake.
    """
    raw = _read_toml(path)
    try:
        return suite_from_table(path, SuiteTable.model_validate(raw))
    except ValidationError as error:
        raise SuiteError(*_all_mistakes(path, raw, error)) from error


def suite_from_table(path: Path, table: SuiteTable) -> Suite:
    """Returns the suite of a valid table. Raises SuiteError where its names mean nothing."""
    reader = _Reader(path, table)
    pieces = tuple(reader.piece(name, piece) for name, piece in table.pieces.items())
    envelopes = tuple(reader.envelope(name, each) for name, each in table.envelopes.items())
    bleed_in = reader.length("bleed", table.bleed)
    width_in = reader.length("cut_line.width", table.cut_line.width)
    colour = table.cut_line.colour
    line = reader.tried("cut_line.colour", lambda: parse_hex(colour)) if colour else None
    owners = ["*", *table.pieces, *(f"envelopes.{name}" for name in table.envelopes)]
    for number, each in enumerate(table.accept):
        if each.piece not in owners:
            reader.note(f"accept.{number}.piece", told(each.piece, "piece", owners))
    if reader.mistakes:
        raise SuiteError(*reader.mistakes)
    return Suite(
        path,
        table.title,
        table.client,
        table.designer,
        table.revision,
        _sure(bleed_in),
        tuple(_sure(piece) for piece in pieces),
        tuple(_sure(envelope) for envelope in envelopes),
        CutLineChoice(line, _sure(width_in) * PT_PER_INCH),
        SceneChoice(table.scene.name, table.scene.arrange, table.scene.seed),
        table.proof.paper,
        tuple(Acceptance(each.check, each.piece, each.reason) for each in table.accept),
    )


def parse_card(text: str) -> CardSize:
    """Returns a card from `"A7"`, `"A7 landscape"` or `"5 x 7 in"`. Raises SuiteError."""
    name, _, turn = text.strip().rpartition(" ")
    if turn.lower() not in ("portrait", "landscape") or not name:
        return card_size(text)
    card = card_size(name)
    short, long = sorted((card.width_in, card.height_in))
    wide, high = (short, long) if turn.lower() == "portrait" else (long, short)
    return CardSize(card.name, wide, high, card.source)


class _Reader:
    """Reads the names of one suite file into things, and notes what cannot be read."""

    def __init__(self, path: Path, table: SuiteTable) -> None:
        self.path = path
        self.table = table
        self.mistakes: list[str] = []

    def tried(self, key: str, reading: Callable[[], Found]) -> Found | None:
        """Returns what `reading` gives, or None after noting its mistake under `key`."""
        try:
            return reading()
        except MockupError as error:
            self.note(key, str(error))
            return None

    def note(self, key: str, message: str) -> None:
        """Notes a mistake under a key path."""
        self.mistakes.append(f"{self.path}: {key}: {message}")

    def length(self, key: str, value: float | str) -> float | None:
        """Returns a length in inches."""
        return self.tried(key, lambda: parse_length(value, self.table.units))

    def art(self, key: str, text: str, page: int) -> Art | None:
        """Returns a page of an artwork file beside the suite file, or None after noting why not."""
        path = self.path.parent / text
        if not path.exists():
            self.note(key, f'there is no file "{text}" beside the suite file')
            return None
        return self.tried(key, lambda: art_of(path, page))

    def piece(self, name: str, table: PieceTable) -> Piece | None:
        """Returns a piece, or None after noting what is wrong with it."""
        key = f"pieces.{name}"
        card = self.tried(f"{key}.card", lambda: parse_card(table.card))
        paper = self.tried(f"{key}.stock", lambda: stock(table.stock))
        bleed_text = self.table.bleed if table.bleed is None else table.bleed
        bleed = self.length(f"{key}.bleed", bleed_text) if table.bleed is not None else None
        bleed_in = bleed if bleed is not None else parse_length(self.table.bleed, self.table.units)
        art = self.art(f"{key}.art", table.art, table.page)
        die = self.tried(f"{key}.die", lambda: self.die(table, card)) if card else None
        if card is None or paper is None or die is None or art is None:
            return None
        title = table.title or title_of(name)
        return Piece(name, title, art, card, die, paper, table.quantity, bleed_in)

    def die(self, table: PieceTable, card: CardSize) -> Die:
        """Returns a piece's die: by name, as a shape with parameters, or from a template file."""
        if isinstance(table.die, str):
            return make_die(table.die, card.width_in, card.height_in)
        if "file" in table.die:
            return self.template_die(table.die, card)
        parameters: dict[str, Given] = {k: v for k, v in table.die.items() if k != "shape"}
        if "shape" not in table.die:
            raise SuiteError(
                'says no shape and no file; write { shape = "ticket-corner", radius = 0.4 }, '
                'or { file = "leaf.pdf" }'
            )
        return make_die(str(table.die["shape"]), card.width_in, card.height_in, parameters)

    def template_die(self, given: Mapping[str, Given], card: CardSize) -> Die:
        """Returns the die drawn in a template, at the card's size."""
        for key in given:
            if key not in TEMPLATE_KEYS:
                raise SuiteError(told(key, "key", TEMPLATE_KEYS))
        template = self.path.parent / str(given["file"])
        pick = str(given["pick"]) if "pick" in given else None
        page = given.get("page", 1)
        if not isinstance(page, int):
            raise SuiteError(f"page {page!r} is not a whole number")
        size = (card.width_in, card.height_in)
        return import_die(template, size, pick, page).die

    def envelope(self, name: str, table: EnvelopeTable) -> Envelope | None:
        """Returns an envelope, or None after noting what is wrong with it."""
        key = f"envelopes.{name}"
        size = self.tried(f"{key}.size", lambda: envelope_size(table.size))
        paper = self.tried(f"{key}.stock", lambda: stock(table.stock or "text-80-white"))
        colour = self.tried(f"{key}.colour", lambda: paper_colour(table.colour))
        liner = self.liner(f"{key}.liner", table.liner) if table.liner is not None else None
        for held in table.holds:
            if held not in self.table.pieces:
                self.note(f"{key}.holds", told(held, "piece", self.table.pieces))
        if size is None or paper is None or colour is None:
            return None
        spec = self.tried(key, lambda: self.spec(key, table, size.width_in, size.height_in))
        if spec is None:
            return None
        rgb: Rgb = parse_hex(colour.colour_hex)
        title = table.title or f"{title_of(name)} envelope"
        holds, quantity = table.holds, table.quantity
        return Envelope(name, title, size, spec, paper, rgb, colour.name, liner, holds, quantity)

    def spec(
        self, key: str, table: EnvelopeTable, width_in: float, height_in: float
    ) -> EnvelopeSpec:
        """Returns how an envelope is cut and folded, with the lengths the file gives."""
        given = {
            "flap_depth_in": table.flap_depth,
            "throat_in": table.throat,
            "liner_inset_in": table.liner_inset,
        }
        lengths: Mapping[str, float] = {
            name: parse_length(value, self.table.units)
            for name, value in given.items()
            if value is not None
        }
        return envelope_spec(width_in, height_in, table.flap, lengths)

    def liner(self, key: str, table: str | LinerTable) -> Liner | None:
        """Returns a liner, or None after noting what is wrong with it."""
        if isinstance(table, str):
            table = LinerTable(art=table)
        paper = self.tried(f"{key}.stock", lambda: stock(table.stock or LINER_STOCK))
        art = self.art(f"{key}.art", table.art, table.page)
        return Liner(art, paper) if paper and art else None


def with_scene(suite: Suite, name: str | None, arrange: int | None) -> Suite:
    """Returns the suite on another scene or in another arrangement; None keeps its own."""
    chosen = suite.scene
    scene = SceneChoice(name or chosen.name, arrange or chosen.arrange, chosen.seed)
    return replace(suite, scene=scene)


def title_of(name: str) -> str:
    """Returns a name as a title: `details-card` is "Details card"."""
    words = name.replace("-", " ").replace("_", " ").strip()
    return words[:1].upper() + words[1:]


def _read_toml(path: Path) -> dict[str, Any]:
    if not path.exists():
        raise SuiteError(f"{path}: no such file; `mockup start` writes one from your PDFs")
    if path.is_dir():
        raise SuiteError(f"{path}: is a folder; name the suite file inside it")
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except UnicodeDecodeError as error:
        raise SuiteError(f"{path}: is not text in UTF-8; is it a suite file?") from error
    except tomllib.TOMLDecodeError as error:
        raise SuiteError(f"{path}: is not well-formed TOML: {error}") from error
    except OSError as error:
        raise SuiteError(f"{path}: cannot be read ({error.strerror})") from error


def _all_mistakes(path: Path, raw: dict[str, Any], error: ValidationError) -> list[str]:
    """Returns what is wrong with the form of a file, and with the names in its sound parts."""
    found = lines(path, raw, error)
    try:
        suite_from_table(path, SuiteTable.model_validate(without_mistakes(raw, error)))
    except SuiteError as names:
        found += [line for line in str(names).splitlines() if line not in found]
    except ValidationError:
        pass  # nothing sound is left to read further
    return found


def _sure(found: Found | None) -> Found:
    assert found is not None  # every None has left a mistake, and mistakes were raised
    return found
