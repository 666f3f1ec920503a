"""The drawings of a page, operator by operator and byte by byte: its own, and those of its forms.

What is not changed is written back as it was read, to the byte.
"""

# The library's own name for what a filter is given.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

import zlib
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pikepdf

from mockup.errors import InputError, LimitError
from mockup.trade.limits import PDF_FORMS_MAX, PDF_OPERATORS_MAX
from mockup.vector.pdf_objects import dictionary, entry, identity, word
from mockup.vector.pdf_streams import Unpacked
from mockup.vector.stumbling import asked

TYPE_SHOWING = ("Tj", "TJ", "'", '"')
PATH_PAINTING = ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*")
INLINE_IMAGE = "EI"
_BROKEN = "is broken (its drawing cannot be read); save it again as PDF"
_BETWEEN = (pikepdf.TokenType.space, pikepdf.TokenType.comment)


@dataclass(frozen=True)
class Operation:
    """One operator and the bytes before it since the last one: operands, spaces, comments.

    An inline image is one operation, called EI, from its BI on.
    """

    before: bytes
    operator: str
    word: bytes
    operands: tuple[bytes, ...] = ()

    @property
    def written(self) -> bytes:
        """The operation as it stands in the file."""
        return self.before + self.word


@dataclass(frozen=True)
class Drawing:
    """One content stream: the page's (all its streams as one), or a form's."""

    holder: Any
    """The page or form it belongs to."""
    resources: Any
    operations: tuple[Operation, ...]
    tail: bytes
    """What stands behind the last operator."""

    def write(self, pdf: pikepdf.Pdf, change: Callable[[int, Operation], bytes]) -> None:
        """Puts a drawing in this one's place: what `change` answers to every operation."""
        told = b"".join(change(k, each) for k, each in enumerate(self.operations)) + self.tail
        if isinstance(self.holder, pikepdf.Stream):
            self.holder.write(zlib.compress(told), filter=pikepdf.Name.FlateDecode)
        else:
            self.holder["/Contents"] = packed(pdf, told)


def packed(pdf: pikepdf.Pdf, content: bytes) -> pikepdf.Stream:
    """Returns a new stream, packed as most are (ISO 32000-1 7.4.4): what is written back as it
    stands is not packed by anybody else."""
    return pdf.make_stream(zlib.compress(content), Filter=pikepdf.Name.FlateDecode)


def drawings_of(pdf: pikepdf.Pdf, page: Any) -> tuple[Drawing, ...]:
    """Returns the drawings a page is made of, its own first, then every form's within it, once
    each. Raises InputError for what cannot be read, LimitError for what has no end."""
    unpacked = Unpacked()
    found: list[Drawing] = []
    waiting: list[tuple[Any, Any]] = [(page, entry(page, "/Resources"))]
    met: set[tuple[int, int] | None] = set()
    count = 0
    while waiting:
        holder, resources = waiting.pop(0)
        drawing = _read(pdf, holder, resources, unpacked)
        count += len(drawing.operations)
        if count > PDF_OPERATORS_MAX:
            raise LimitError(f"has over {PDF_OPERATORS_MAX} drawing operators; simplify it")
        found.append(drawing)
        for form in _forms_in(resources):
            key = identity(form)
            if key not in met:
                met.add(key)
                kept = dictionary(entry(form, "/Resources"))
                waiting.append((form, resources if kept is None else kept))
        if len(met) > PDF_FORMS_MAX:
            raise LimitError(f"draws over {PDF_FORMS_MAX} forms; flatten it")
    return tuple(found)


def _forms_in(resources: Any) -> list[Any]:
    held = dictionary(entry(resources, "/XObject"))
    names: list[str] = [] if held is None else sorted(held.keys())
    found = [entry(held, name) for name in names]
    return [
        each
        for each in found
        if isinstance(each, pikepdf.Stream) and word(entry(each, "/Subtype")) == "Form"
    ]


class _Tokens(pikepdf.TokenFilter):
    """Collects a drawing's tokens."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[Any, bytes]] = []

    def handle_token(self, token: Any = None) -> Any:
        """Keeps a token, and hands it on."""
        if token.type_ != pikepdf.TokenType.eof:
            self.found.append((token.type_, token.raw_value))
        return token


def _read(pdf: pikepdf.Pdf, holder: Any, resources: Any, unpacked: Unpacked) -> Drawing:
    is_form = isinstance(holder, pikepdf.Stream)
    unpacked.take(holder if is_form else entry(holder, "/Contents"))
    tokens = _Tokens()

    def read() -> bool:
        read_from = holder
        if is_form:
            # The library filters pages: so a form's bytes are read as a page's.
            read_from = pikepdf.Dictionary(
                Type=pikepdf.Name.Page, Contents=pdf.make_stream(holder.read_bytes())
            )
        pikepdf.Page(read_from).get_filtered_contents(tokens)
        return True

    if entry(holder, "/Contents") is None and not is_form:
        return Drawing(holder, resources, (), b"")
    if not asked(read, otherwise=False):
        raise InputError(_BROKEN)
    return Drawing(holder, resources, *_operations(tokens.found))


def _operations(tokens: list[tuple[Any, bytes]]) -> tuple[tuple[Operation, ...], bytes]:
    found: list[Operation] = []
    before: list[bytes] = []
    operands: list[bytes] = []
    in_image = False
    for kind, raw in tokens:
        if kind == pikepdf.TokenType.word and raw not in (b"true", b"false", b"null"):
            in_image = (in_image or raw == b"BI") and raw != b"EI"
            if not in_image:
                operator = raw.decode("latin-1")
                found.append(Operation(b"".join(before), operator, raw, tuple(operands)))
                before, operands = [], []
                continue
        before.append(raw)
        if kind not in _BETWEEN:
            operands.append(raw)
    return tuple(found), b"".join(before)
