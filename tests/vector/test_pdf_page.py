"""A template's page: colour, line and dash of every path, and what hostile files come to."""

from __future__ import annotations

import io

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.errors import InputError, LimitError
from mockup.vector.pdf_page import read_pdf_template
from mockup.vector.template import Colour, TemplatePath


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
