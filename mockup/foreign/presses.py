"""How a page goes to its press, in a worker: by which profile, and the copies of it that are drawn.

A file is never changed: where it names no press, or has to forget one, that is done to a copy in
memory.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import pymupdf
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.colour.icc_reading import PROFILE_MAX_BYTES, Condition, read_condition
from mockup.colour.press import COATED, UNCOATED, Press, ShownBy
from mockup.errors import InputError
from mockup.foreign.document import Opened, opened_file
from mockup.foreign.inks_used import InksUsed
from mockup.foreign.library import asked, drawing
from mockup.foreign.spot_spaces import stand_for_spots
from mockup.sources import read_whole, sha256_of

OWN = "the file's own output intent"
_CMYK_SPACE = 4  # enum fz_colorspace_type of MuPDF's fitz/color.h
_NAMED = {"FOGRA39": COATED, "FOGRA39L": COATED, "FOGRA29": UNCOATED, "FOGRA29L": UNCOATED}
"""Conditions that a file may name without bringing their profile (ISO 15930-7:2010, 6.2.2)."""


@dataclass(frozen=True)
class Chosen:
    """The press a page is shown by: its profile's bytes, what they say, and why it was chosen."""

    profile: bytes
    condition: Condition
    because: str


@dataclass(frozen=True)
class _Intent:
    """An output intent of a file: its profile, if it brings one, and the name of its condition."""

    profile: bytes
    named: str


def press_of(art: Art) -> Chosen | None:
    """Returns the press a page is shown by; None for one of RGB, with grey or not, which no plates
    are made of as it stands. Raises InputError for a profile of the user's that cannot be read."""
    opened = opened_file(art)
    own = _own(opened)
    if own is None and not _for_press(opened, art):
        return None
    return own or _chosen(art.press)


def printed_by(art: Art) -> Chosen:
    """Returns the press a page will be printed by: its file's own, else the art's. Raises what
    press_of raises."""
    return press_of(art) or _chosen(art.press)


def shown_by(art: Art) -> ShownBy | None:
    """Returns the press a page is shown by, as it is told. Raises what press_of raises."""
    chosen = press_of(art)
    if chosen is None:
        return None
    condition = chosen.condition
    return ShownBy(condition.name, chosen.because, condition.paper)


def condition_named(press: Press) -> str:
    """Returns the name of a press's condition. Raises InputError for what is no press's profile."""
    return _chosen(press).condition.name


def on_press(art: Art, chosen: Chosen, quiet: frozenset[str] = frozenset()) -> pymupdf.Page:
    """Returns the page in a copy of its file whose one output intent is the press, and whose spots
    are stood for by that press's inks, those of `quiet` by none."""
    with drawing():
        page = opened_file(art).page(art.page).page
        spots = mupdf.fz_page_separations(page.this).m_internal is not None
    key = f"press {chosen.condition.sha256} {spots} {sorted(quiet)}"

    def change(copy: pymupdf.Document) -> None:
        light = next((each.profile for each in _intents(copy) if _is_of_light(each.profile)), b"")
        if light:
            _say_light(copy, light)
        profile = _put_intent(copy, chosen.profile)
        if spots:
            stand_for_spots(copy, profile, quiet)

    return _copy_page(art, key, change)


def without_intent(art: Art) -> pymupdf.Page:
    """Returns the page in a copy of its file without output intents."""
    return _copy_page(art, "no press", _drop_intents)


def in_light(art: Art, quiet: frozenset[str]) -> pymupdf.Page:
    """Returns the page in a copy of its file whose spots of `quiet` are stood for by white."""
    key = f"in light {sorted(quiet)}"
    return _copy_page(art, key, lambda copy: stand_for_spots(copy, None, quiet))


def space_of(chosen: Chosen) -> mupdf.FzColorspace:
    """Returns the press's own space of ink."""
    with drawing():
        buffer = mupdf.fz_new_buffer_from_copied_data(chosen.profile)
        return mupdf.fz_new_icc_colorspace(_CMYK_SPACE, 0, "press", buffer)


def _for_press(opened: Opened, art: Art) -> bool:
    found = opened.page(art.page)
    key = f"for press {sorted(art.left_out)}"
    if key not in found.known:
        device = InksUsed(art.left_out)
        with drawing():
            pdf_page = mupdf.pdf_page_from_fz_page(found.page.this)
            mupdf.pdf_run_page_contents_with_usage(
                pdf_page, device, mupdf.FzMatrix(), "Print", mupdf.FzCookie()
            )
            mupdf.fz_close_device(device)
        device.raise_fault()
        found.known[key] = device.for_press
    return found.known[key]


def _own(opened: Opened) -> Chosen | None:
    """Returns the press a file names: the first of its output intents that can be used."""
    if "own" not in opened.known:
        found = map(_of_intent, _intents(opened.document))
        opened.known["own"] = next((each for each in found if each is not None), None)
    return opened.known["own"]


def _of_intent(intent: _Intent) -> Chosen | None:
    if intent.profile:
        try:
            return Chosen(intent.profile, read_condition(intent.profile), OWN)
        except InputError:  # of RGB, as PDF/A has it, or broken
            return None
    press = _NAMED.get(intent.named.strip().upper())
    if press is None:
        return None
    known = _chosen(press)
    return Chosen(known.profile, known.condition, f"{OWN}, by name")


def _intents(document: pymupdf.Document) -> list[_Intent]:
    nothing: list[_Intent] = []

    def read() -> list[_Intent]:
        pdf = mupdf.pdf_document_from_fz_document(document.this)
        rows = mupdf.pdf_dict_getp(mupdf.pdf_trailer(pdf), "Root/OutputIntents")
        return [_intent(mupdf.pdf_array_get(rows, k)) for k in range(mupdf.pdf_array_len(rows))]

    return asked(read, otherwise=nothing)


def _intent(row: Any) -> _Intent:
    named = mupdf.pdf_to_text_string(mupdf.pdf_dict_gets(row, "OutputConditionIdentifier"))
    stream = mupdf.pdf_dict_gets(row, "DestOutputProfile")
    if not mupdf.pdf_is_stream(stream):
        return _Intent(b"", named)
    content = bytes(mupdf.fz_buffer_extract_copy(mupdf.pdf_load_stream(stream)))
    return _Intent(content if len(content) <= PROFILE_MAX_BYTES else b"", named)


@lru_cache(maxsize=8)
def _chosen(press: Press) -> Chosen:
    content = read_whole(press.profile, PROFILE_MAX_BYTES)
    if press.sha256 and sha256_of(content) != press.sha256:
        raise InputError(f"{press.profile} changed while it was being read; run the command again")
    return Chosen(content, read_condition(content), press.because)


def _copy_page(art: Art, key: str, change: Callable[[pymupdf.Document], None]) -> pymupdf.Page:
    opened = opened_file(art)
    if key not in opened.copies:
        with drawing():
            opened.copies[key] = Opened(_copy(opened.document, change), opened.size)
    return opened.copies[key].page(art.page).page


def _copy(
    document: pymupdf.Document, change: Callable[[pymupdf.Document], None]
) -> pymupdf.Document:
    copy = pymupdf.open(stream=document.tobytes(), filetype="pdf")
    change(copy)
    content = copy.tobytes()
    copy.close()
    return pymupdf.open(stream=content, filetype="pdf")


def _put_intent(copy: pymupdf.Document, profile: bytes) -> int:
    """Makes a profile a file's one output intent, and returns where in the file it is."""
    xref = copy.get_new_xref()
    copy.update_object(xref, "<</N 4>>")
    copy.update_stream(xref, profile, compress=False)  # read back at once, from memory
    intent = (
        "[<</Type/OutputIntent/S/GTS_PDFX/OutputConditionIdentifier(Custom)"
        f"/DestOutputProfile {xref} 0 R>>]"
    )
    copy.xref_set_key(copy.pdf_catalog(), "OutputIntents", intent)
    return xref


def _is_of_light(profile: bytes) -> bool:
    """Returns whether an output intent is of RGB, as PDF/A has it."""
    return profile[16:20] == b"RGB " and profile[36:40] == b"acsp"


def _say_light(copy: pymupdf.Document, profile: bytes) -> None:
    """Has RGB be what an output intent said, where a page says nothing itself: the press takes that
    intent's place (ISO 32000-1, 8.6.5.6 and 14.11.5)."""
    xref = copy.get_new_xref()
    copy.update_object(xref, "<</N 3>>")
    copy.update_stream(xref, profile, compress=False)  # read back at once, from memory
    pdf = mupdf.pdf_document_from_fz_document(copy.this)
    light = mupdf.pdf_new_array(pdf, 2)
    mupdf.pdf_array_push(light, mupdf.pdf_new_name("ICCBased"))
    mupdf.pdf_array_push(light, mupdf.pdf_new_indirect(pdf, xref, 0))
    for number in range(copy.page_count):
        _default_to(pdf, mupdf.pdf_lookup_page_obj(pdf, number), light)


def _default_to(pdf: Any, own: Any, light: Any) -> None:
    """Makes a space the default for RGB of one page, in resources of its own."""
    spaces = mupdf.pdf_new_dict(pdf, 4)
    resources = mupdf.pdf_new_dict(pdf, 8)
    told = mupdf.pdf_dict_get_inheritable(own, mupdf.pdf_new_name("Resources"))
    for source, target in ((told, resources), (mupdf.pdf_dict_gets(told, "ColorSpace"), spaces)):
        for k in range(mupdf.pdf_dict_len(source)):
            key, value = mupdf.pdf_dict_get_key(source, k), mupdf.pdf_dict_get_val(source, k)
            mupdf.pdf_dict_put(target, key, value)
    if not mupdf.pdf_is_array(mupdf.pdf_dict_gets(spaces, "DefaultRGB")):
        mupdf.pdf_dict_puts(spaces, "DefaultRGB", light)
    mupdf.pdf_dict_puts(resources, "ColorSpace", spaces)
    mupdf.pdf_dict_puts(own, "Resources", resources)


def _drop_intents(copy: pymupdf.Document) -> None:
    copy.xref_set_key(copy.pdf_catalog(), "OutputIntents", "null")
