"""A template's page: colour, line and dash of every path, and what hostile files come to."""

from __future__ import annotations

import io
import time
import zlib

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.errors import InputError, LimitError
from mockup.trade.limits import PDF_CONTENT_MAX_BYTES
from mockup.vector.pdf_page import read_pdf_template
from mockup.vector.template import Colour, TemplatePath
from mockup.workshop import crew
from mockup.workshop.job import Job


def page(content: bytes, **resources: object) -> bytes:
    pdf = pikepdf.new()
    blank = pdf.add_blank_page(page_size=(144, 144))
    blank.Resources = Dictionary(**resources)
    blank.Contents = pdf.make_stream(content)
    saved = io.BytesIO()
    pdf.save(saved)
    return saved.getvalue()


def paths(content: bytes, **resources: object) -> tuple[TemplatePath, ...]:
    return read_pdf_template("t.pdf", page(content, **resources)).paths


def test_line_width_and_dashes_are_inches_as_placed() -> None:
    (path,) = paths(b"2 0 0 2 0 0 cm 3 w [6 3] 0 d 0 0 m 9 9 l S")
    assert path.width_in == pytest.approx(6 / 72)
    assert path.dashes_in == pytest.approx((12 / 72, 6 / 72))
    state = Dictionary(E=Dictionary(LW=9, D=Array([Array([1, 2]), 0])))
    (path,) = paths(b"/E gs 0 0 m 9 9 l S", ExtGState=state)
    assert path.width_in == pytest.approx(9 / 72)
    assert path.dashes_in == pytest.approx((1 / 72, 2 / 72))


def test_colours_keep_their_space_and_their_ink() -> None:
    spot = Array([Name.Separation, Name("/Die"), Name.DeviceCMYK, Dictionary()])
    both = Array([Name.DeviceN, Array([Name("/Die"), Name.Black]), Name.DeviceCMYK, Dictionary()])
    spaces = Dictionary(S=spot, N=both)
    for content, colour in (
        (b"1 0 0 RG", Colour("rgb", (1, 0, 0))),
        (b"0 1 0 0 K", Colour("cmyk", (0, 1, 0, 0))),
        (b"", Colour("gray", (0,))),
        (b"/S CS", Colour("spot", (1,), ("Die",))),
        (b"/S CS .5 SCN", Colour("spot", (0.5,), ("Die",))),
        (b"/N CS 1 0 SCN", Colour("spot", (1, 0), ("Die", "Black"))),
        (b"/Pattern CS /P SCN", Colour("pattern")),
    ):
        (path,) = paths(content + b" 0 0 m 9 9 l S", ColorSpace=spaces)
        assert (path.stroke, path.fill) == (colour, None)
        assert path.inks == colour.names


ODD: dict[str, object] = {
    "word": Name.Odd, "text": pikepdf.String("x"), "nothing": None, "list": Array([1, Name.A]),
    "table": Dictionary(A=1), "huge": 10**15, "negative": -1, "yes": True,
}  # fmt: skip
KEYS = ("/MediaBox", "/CropBox", "/Rotate", "/UserUnit", "/Resources", "/Contents", "/Parent")


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("odd", ODD)
def test_odd_values_at_a_pages_keys_are_read_or_refused_in_a_line(key: str, odd: str) -> None:
    pdf = pikepdf.open(io.BytesIO(page(b"0 0 9 9 re f")))
    pdf.pages[0].obj[key] = ODD[odd] if ODD[odd] is not None else Dictionary()
    saved = io.BytesIO()
    pdf.save(saved)
    try:
        template = read_pdf_template("t.pdf", saved.getvalue())
    except (InputError, LimitError) as error:
        assert str(error).startswith("t.pdf: ") and "\n" not in str(error)
    else:
        assert template.width_in > 0


@pytest.mark.parametrize("odd", [each for each in ODD if ODD[each] is not None])
@pytest.mark.parametrize("kind", ["XObject", "Properties", "ColorSpace", "ExtGState"])
def test_odd_resources_are_passed_over(kind: str, odd: str) -> None:
    content = b"/OC /R BDC /R CS 1 SCN /R gs /R Do 0 0 9 9 re S EMC"
    assert len(paths(content, **{kind: Dictionary(R=ODD[odd])})) == 1
    assert len(paths(content, **{kind: ODD[odd]})) == 1


@pytest.mark.parametrize("content", [b"1 m", b"(a) 2 l", b"re", b"/N w", b"1 0 0 cm", b"c"])
def test_operators_without_their_numbers(content: bytes) -> None:
    with pytest.raises(InputError, match=r"t\.pdf: is broken \(\w+ without its numbers\)"):
        paths(content)


RECTANGLE = b"9 9 99 99 re S "
FLATE, HEX, BASE_85 = Name.FlateDecode, Name.ASCIIHexDecode, Name.ASCII85Decode


def packed(content: bytes, filters: list[Name], times: int = 1) -> bytes:
    """A page whose drawing is one stream under filters, listed so many times."""
    pdf = pikepdf.new()
    blank = pdf.add_blank_page(page_size=(144, 144))
    stream = pdf.make_stream(content, Filter=Array(filters))
    blank.Contents = Array([stream] * times)
    saved = io.BytesIO()
    pdf.save(saved, compress_streams=False)
    return saved.getvalue()


def with_form(content: bytes, inside: bytes) -> bytes:
    pdf = pikepdf.open(io.BytesIO(page(content)))
    form = pdf.make_stream(inside, Subtype=Name.Form, BBox=Array([0, 0, 144, 144]))
    pdf.pages[0].Resources = Dictionary(XObject=Dictionary(F=form))
    saved = io.BytesIO()
    pdf.save(saved)
    return saved.getvalue()


def bombs() -> dict[str, bytes]:
    once = zlib.compress(b"q Q " * (PDF_CONTENT_MAX_BYTES // 4) + RECTANGLE, 9)
    twice = zlib.compress(once, 9)
    assert len(twice) < 2000
    return {
        "packed once": packed(once, [FLATE]),
        "packed twice": packed(twice, [FLATE, FLATE]),
        "packed in hexadecimal": packed(twice.hex().encode() + b">", [HEX, FLATE, FLATE]),
        "listed many times": packed(zlib.compress(RECTANGLE * 200), [FLATE], 20_000),
        "a form drawn many times": with_form(b"/F Do " * 1900, b" " * 40_000),
    }


@pytest.mark.parametrize("bomb", ["packed once", "packed twice", "packed in hexadecimal",
                                  "listed many times", "a form drawn many times"])  # fmt: skip
def test_a_drawing_that_unpacks_without_end_is_refused_before_it_is_unpacked(bomb: str) -> None:
    source = bombs()[bomb]
    before = time.process_time()
    with pytest.raises(LimitError, match=r"^t.pdf: its drawing unpacks to over 32 MB, the limit"):
        read_pdf_template("t.pdf", source)
    assert time.process_time() - before < 5


@pytest.mark.parametrize("filters", [[FLATE], [HEX, FLATE], [FLATE, FLATE]])
def test_a_sound_drawing_is_read_whatever_it_is_packed_by(filters: list[Name]) -> None:
    content = RECTANGLE
    for each in reversed(filters):
        content = zlib.compress(content) if each == FLATE else content.hex().encode() + b">"
    assert len(read_pdf_template("t.pdf", packed(content, filters, 3)).paths) == 3


def test_marked_content_within_marked_content_takes_no_room() -> None:
    group = Dictionary(Type=Name.OCG, Name=pikepdf.String("Cut"))
    content = b"/OC /L BDC " * 20_000 + RECTANGLE
    (path,) = paths(content, Properties=Dictionary(L=group))
    assert path.layers == ("Cut",)


def membership_of(pdf: pikepdf.Pdf, told: object) -> bytes:
    blank = pdf.add_blank_page(page_size=(144, 144))
    blank.Resources = Dictionary(Properties=Dictionary(M=told))
    blank.Contents = pdf.make_stream(b"/OC /M BDC 9 9 99 99 re S EMC " * 50)
    saved = io.BytesIO()
    pdf.save(saved)
    return saved.getvalue()


def test_expressions_and_memberships_that_share_their_parts_are_weighed_once() -> None:
    pdf = pikepdf.new()
    group = pdf.make_indirect(Dictionary(Type=Name.OCG, Name=pikepdf.String("Cut")))
    pdf.Root.OCProperties = Dictionary(OCGs=Array([group]), D=Dictionary(OFF=Array([group])))
    shared, member = pdf.make_indirect(Array([Name.Or, group, group])), group
    for _ in range(28):
        shared = pdf.make_indirect(Array([Name.Or, shared, shared, shared]))
        member = pdf.make_indirect(Dictionary(Type=Name.OCMD, OCGs=Array([member] * 8)))
    expressed = pdf.make_indirect(Dictionary(Type=Name.OCMD, VE=shared, OCGs=group))
    before = time.process_time()
    for told in expressed, member:
        found = read_pdf_template("t.pdf", membership_of(pdf, told)).paths
        assert all(path.layers == ("Cut",) for path in found)
        pdf.pages.remove(pdf.pages[0])
    assert time.process_time() - before < 5


def test_a_layer_of_thousands_of_layers_is_refused() -> None:
    pdf = pikepdf.new()
    groups = [
        pdf.make_indirect(Dictionary(Type=Name.OCG, Name=pikepdf.String(f"L{k}")))
        for k in range(2000)
    ]
    told = pdf.make_indirect(Dictionary(Type=Name.OCMD, OCGs=Array(groups)))
    with pytest.raises(LimitError, match="made of over 1000; flatten its layers"):
        read_pdf_template("t.pdf", membership_of(pdf, told))


def test_lines_and_curves_are_counted_and_long_dashes_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    (path,) = paths(b"[" + b"1 " * 5000 + b"] 0 d 9 9 m 99 99 l S")
    assert len(path.dashes_in) == 16
    monkeypatch.setattr("mockup.vector.pdf_content.TEMPLATE_SEGMENTS_MAX", 100)
    paths(RECTANGLE * 25)
    with pytest.raises(LimitError, match="draws over 100 lines and curves"):
        paths(RECTANGLE * 26)


def test_after_a_bomb_in_a_worker_the_next_template_is_read() -> None:
    bomb, sound = bombs()["packed twice"], page(RECTANGLE)
    task = "mockup.vector.pdf_page:read_pdf_template"
    with pytest.raises(LimitError, match=r"^b.pdf: its drawing unpacks"):
        crew.done(task, [Job(("b.pdf", bomb), "b.pdf")])
    (template,) = crew.done(task, [Job(("s.pdf", sound), "s.pdf")])
    assert len(template.paths) == 1


@pytest.mark.parametrize("source", [b"%PDF-1.7\n", b"%PDF-1.4\n" + b"x" * 99])
def test_a_broken_file_is_told_without_the_words_of_the_reader(source: bytes) -> None:
    with pytest.raises(InputError, match=r"^t.pdf: is broken \(unable to find") as refused:
        read_pdf_template("t.pdf", source)
    assert "<" not in str(refused.value)
