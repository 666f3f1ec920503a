"""What stands for the spots of a file, changed in a copy of it: a press's inks, or nothing."""

from __future__ import annotations

from typing import Any

import pymupdf
from pymupdf import mupdf

from mockup.foreign.library import asked

_SPOTS = ("Separation", "DeviceN")
_NESTED_MAX = 12  # judgement: dictionaries within one another, of one object; files have four
_NAMES, _SPACE, _FUNCTION = 1, 2, 3  # places in a spot's colour space (ISO 32000-1, 8.6.6)
_SAMPLED, _CALCULATED = 0, 4  # types of functions (ISO 32000-1, 7.10)


def stand_for_spots(copy: pymupdf.Document, profile: int | None, quiet: frozenset[str]) -> None:
    """Has the process inks that stand for spots be those of a press, whose profile is at `profile`
    in the file, and the spots of `quiet` be stood for by no ink, white where there is no press.

    The library takes inks that stand for spots for its own press's, whatever the output intent
    says (ISO 32000-1, 8.6.6).
    """
    settling = _Settling(copy, profile, quiet)
    for xref in range(1, copy.xref_length()):
        told = asked(copy.xref_object, xref, True, otherwise="")
        if any(f"/{name}" in told for name in _SPOTS):
            settling.settle(mupdf.pdf_load_object(settling.pdf, xref), _NESTED_MAX)


class _Settling:
    """Goes through the objects of one file."""

    def __init__(self, copy: pymupdf.Document, profile: int | None, quiet: frozenset[str]) -> None:
        self.pdf = mupdf.pdf_document_from_fz_document(copy.this)
        self._quiet = quiet
        self._press: Any = None
        if profile is not None:
            self._press = mupdf.pdf_new_array(self.pdf, 2)
            mupdf.pdf_array_push(self._press, mupdf.pdf_new_name("ICCBased"))
            mupdf.pdf_array_push(self._press, mupdf.pdf_new_indirect(self.pdf, profile, 0))

    def settle(self, thing: Any, depth: int) -> None:
        """Changes every spot's colour space within an object, but not in those it points at."""
        if depth == 0 or mupdf.pdf_is_indirect(thing):
            return
        if mupdf.pdf_is_dict(thing):
            for k in range(mupdf.pdf_dict_len(thing)):
                self.settle(mupdf.pdf_dict_get_val(thing, k), depth - 1)
        elif mupdf.pdf_is_array(thing):
            if mupdf.pdf_to_name(mupdf.pdf_array_get(thing, 0)) in _SPOTS:
                self._settle_spot(thing)
            for k in range(mupdf.pdf_array_len(thing)):
                self.settle(mupdf.pdf_array_get(thing, k), depth - 1)

    def _settle_spot(self, space: Any) -> None:
        names = _names(mupdf.pdf_array_get(space, _NAMES))
        loud = [name not in self._quiet for name in names]
        if not any(loud):
            self._silence(space, len(names))
        elif not all(loud):
            self._hush(space, [k for k, heard in enumerate(loud) if not heard], len(names))
        stands = mupdf.pdf_to_name(mupdf.pdf_array_get(space, _SPACE))
        if self._press is not None and stands == "DeviceCMYK":
            mupdf.pdf_array_put(space, _SPACE, self._press)

    def _silence(self, space: Any, count: int) -> None:
        """Has a spot be stood for by nothing."""
        inks = 4 if self._press is not None else 1
        nothing = "0 " * 4 if self._press is not None else "1"
        told = (
            f"<</FunctionType 4/Domain[{'0 1 ' * count}]/Range[{'0 1 ' * inks}]>>",
            f"{{{' pop' * count} {nothing} }}",
        )
        mupdf.pdf_array_put(
            space, _SPACE, mupdf.pdf_new_name(("DeviceGray", "DeviceCMYK")[inks > 1])
        )
        mupdf.pdf_array_put(space, _FUNCTION, self._function(*told))

    def _hush(self, space: Any, places: list[int], count: int) -> None:
        """Has some of several spots not count in what stands for all: their shares are nought."""
        function = mupdf.pdf_array_get(space, _FUNCTION)
        kind = mupdf.pdf_to_int(mupdf.pdf_dict_gets(function, "FunctionType"))
        if not mupdf.pdf_is_stream(function) or kind not in (_SAMPLED, _CALCULATED):
            return
        body = bytes(mupdf.fz_buffer_extract_copy(mupdf.pdf_load_stream(function)))
        own = mupdf.pdf_copy_dict(mupdf.pdf_resolve_indirect(function))
        for key in ("Filter", "DecodeParms", "Length"):
            mupdf.pdf_dict_dels(own, key)
        if kind == _CALCULATED:
            body = _without_inputs(body, places, count)
        else:
            _set_encode(self.pdf, own, places, count)
        buffer = mupdf.fz_new_buffer_from_copied_data(body)
        mupdf.pdf_array_put(space, _FUNCTION, mupdf.pdf_add_stream(self.pdf, buffer, own, 0))

    def _function(self, dictionary: str, body: str) -> Any:
        made = mupdf.pdf_new_dict(self.pdf, 3)
        read = mupdf.pdf_parse_stm_obj(
            self.pdf, mupdf.fz_open_buffer(_buffer(dictionary)), mupdf.PdfLexbuf(1024)
        )
        del made
        return mupdf.pdf_add_stream(self.pdf, _buffer(body), read, 0)


def _buffer(text: str) -> Any:
    return mupdf.fz_new_buffer_from_copied_data(text.encode())


def _names(told: Any) -> list[str]:
    if not mupdf.pdf_is_array(told):
        return [mupdf.pdf_to_name(told)]
    return [
        mupdf.pdf_to_name(mupdf.pdf_array_get(told, k)) for k in range(mupdf.pdf_array_len(told))
    ]


def _without_inputs(body: bytes, places: list[int], count: int) -> bytes:
    """Returns a calculator's program that takes the inputs at some places for nought."""
    before = b"".join(b" %d -1 roll pop 0 %d 1 roll" % (count - k, count - k) for k in places)
    head, brace, rest = body.partition(b"{")
    return head + brace + before + b" " + rest


def _set_encode(pdf: Any, function: Any, places: list[int], count: int) -> None:
    """Has a sampled function be looked up at nought for the inputs at some places."""
    sizes = mupdf.pdf_dict_gets(function, "Size")
    given = mupdf.pdf_dict_gets(function, "Encode")
    encode = mupdf.pdf_new_array(pdf, 2 * count)
    for k in range(count):
        least, most = 0.0, float(mupdf.pdf_to_int(mupdf.pdf_array_get(sizes, k)) - 1)
        if mupdf.pdf_is_array(given):
            least, most = (
                mupdf.pdf_to_real(mupdf.pdf_array_get(given, 2 * k + end)) for end in (0, 1)
            )
        mupdf.pdf_array_push_real(encode, least)
        mupdf.pdf_array_push_real(encode, least if k in places else most)
    mupdf.pdf_dict_puts(function, "Encode", encode)
