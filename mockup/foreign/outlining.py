"""Type turned to outlines: each letter's path where the letter stood, painted as it was.

The library says which glyph stands where, encodings, spacing and writing modes worked in; the path
is the font's own, exact. What a letter is painted with is not touched: the colour, the overprint,
the pattern in force at that place are the path's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import pikepdf
import pymupdf
from pymupdf import mupdf

from mockup.errors import InputError
from mockup.foreign.drawings import TYPE_SHOWING, Drawing, Operation, drawings_of
from mockup.foreign.glyph_paths import GlyphPaths
from mockup.foreign.inspecting import fonts_of
from mockup.foreign.library import drawing as guarded
from mockup.foreign.marked_calls import Call, Glyph, Place, calls_of, marked_calls
from mockup.foreign.memberships import settled
from mockup.vector.pdf_objects import dictionary, entry, number

_FILLED = b" 0 Tr 0 g\n"  # so that the library tells every letter as one that is filled
_PAINT = {0: "f", 1: "S", 2: "B", 4: "f", 5: "S", 6: "B"}  # ISO 32000-1 table 106
_CLIPPING = 4  # this mode and those above it add to the clip
_TYPE_STATE = ("BT", "Td", "TD", "Tm", "T*", "Tf", "Tc", "Tw", "Tz", "TL", "Ts", "Tr")
_TYPE_CALLS = ("fill_text", "stroke_text")
_EM_BOX = 1e6


@dataclass
class _State:
    """What of the graphics state is followed: the render mode, and the letters that will clip."""

    mode: int = 0
    saved: list[int] = field(default_factory=list[int])
    clip: list[str] = field(default_factory=list[str])


def outline_type(pdf: pikepdf.Pdf, content: bytes) -> int:
    """Turns all type of the one page of `pdf`, whose bytes are `content`, to outlines; returns how
    many letters.

    Raises InputError, with the reason, where that cannot be done exactly: fonts that are not
    embedded, letters that are drawings (Type 3), type in patterns and masks.
    """
    page = pdf.pages[0].obj
    found = drawings_of(pdf, page)
    letters = _letters(marked_calls(content, True, _FILLED), found)
    _refuse_fonts(letters, content)
    count = sum(len(each) for each in letters.values())
    paths = GlyphPaths()
    for number_, each in enumerate(found if count else ()):
        _outline(pdf, each, number_, letters, paths)
    return count


def refuse_live_type(content: bytes) -> None:
    """Raises InputError where a PDF's one page still sets type."""
    with guarded():
        page = pymupdf.open(stream=settled(content), filetype="pdf")[0]
    if any(call.method in _TYPE_CALLS for call in calls_of(page)):
        raise _cannot("type is set in a pattern or a mask")


def forget_fonts(pdf: pikepdf.Pdf) -> None:
    """Has the one page of `pdf`, which sets no type any more, and its forms name no fonts."""
    for each in drawings_of(pdf, pdf.pages[0].obj):
        if dictionary(each.resources) is not None and entry(each.resources, "/Font") is not None:
            del each.resources["/Font"]


def _letters(calls: Sequence[Call], drawings: Sequence[Drawing]) -> dict[Place, tuple[Glyph, ...]]:
    """Returns the letters every type operator sets, in the user space of its drawing."""
    found: dict[Place, tuple[Glyph, ...]] = {}
    for call in calls:
        if call.method not in _TYPE_CALLS:
            continue
        if call.place is None or not _shows_type(drawings, call.place):
            raise _cannot("type is set in a pattern or a mask")
        told = [(each.gid, each.matrix) for each in call.glyphs]
        before = found.setdefault(call.place, call.glyphs)
        if [(each.gid, each.matrix) for each in before] != told:
            raise _cannot("a form is drawn twice with other type")
    return found


def _shows_type(drawings: Sequence[Drawing], place: Place) -> bool:
    number_, operation = place
    return drawings[number_].operations[operation].operator in TYPE_SHOWING


def _refuse_fonts(letters: Mapping[Place, Sequence[Glyph]], content: bytes) -> None:
    """Raises InputError where a font's outlines are not the file's own: those of the standard fonts
    the library has itself, and does not say so."""
    with guarded():
        page = pymupdf.open(stream=content, filetype="pdf")[0]
        _, missing = fonts_of(page)
    fonts = {id(each.font): each.font for own in letters.values() for each in own}
    for font in fonts.values():
        name, flags = mupdf.fz_font_name(font), mupdf.ll_fz_font_flags(font.m_internal)
        if font.m_internal.t3procs is not None:
            raise _cannot(f'the letters of "{name}" are drawings themselves (Type 3)')
        if flags.ft_substitute or flags.fake_bold or flags.fake_italic or name in missing:
            raise _cannot(f'the font "{name}" is not embedded; embed it, and save the art again')


def _outline(
    pdf: pikepdf.Pdf,
    each: Drawing,
    number_: int,
    letters: dict[Place, tuple[Glyph, ...]],
    paths: GlyphPaths,
) -> None:
    if not any(op.operator in TYPE_SHOWING or op.operator == "BT" for op in each.operations):
        return
    state = _State()

    def changed(k: int, operation: Operation) -> bytes:
        return _turned(operation, letters.get((number_, k), ()), state, paths)

    each.write(pdf, changed)


def _turned(
    operation: Operation, glyphs: tuple[Glyph, ...], state: _State, paths: GlyphPaths
) -> bytes:
    """Returns what stands in an operation's place where there is no type."""
    name = operation.operator
    if name in TYPE_SHOWING:
        return _painted(glyphs, state, paths)
    if name == "ET":
        clip, state.clip = state.clip, []
        return f"\n{''.join(clip)}W n\n".encode() if clip else b"\n"
    if name == "q":
        state.saved.append(state.mode)
    elif name == "Q" and state.saved:
        state.mode = state.saved.pop()
    elif name == "Tr":
        told = number(float(operation.operands[-1])) if operation.operands else None
        state.mode = int(told or 0)
    return b"\n" if name in _TYPE_STATE else operation.written


def _painted(glyphs: tuple[Glyph, ...], state: _State, paths: GlyphPaths) -> bytes:
    path = "".join(paths.path(each) for each in glyphs)
    if state.mode >= _CLIPPING:
        # Letters without a path, such as spaces, still clip: to nothing.
        state.clip.append(path or f"{-_EM_BOX:.0f} {-_EM_BOX:.0f} m\nh\n")
    paint = _PAINT.get(state.mode)
    return f"\n{path}{paint}\n".encode() if path and paint else b"\n"


def _cannot(because: str) -> InputError:
    return InputError(f"its type cannot be turned to outlines exactly: {because}")
