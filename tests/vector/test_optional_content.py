"""Which layers are seen: ISO 32000-1 8.11.2.2 (policies, expressions) to 8.11.4 (configuration)."""

from __future__ import annotations

import io

import numpy as np
import pikepdf
import pymupdf
import pypdfium2
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.foreign.memberships import settled
from mockup.vector.optional_content import layers_of
from mockup.vector.pdf_page import read_pdf_template


def layered(**default: object) -> tuple[pikepdf.Pdf, pikepdf.Object, pikepdf.Object]:
    """A page with two groups: one on, and one that the default configuration switches off."""
    pdf = pikepdf.new()
    pdf.add_blank_page(page_size=(100, 100))
    on, off = (
        pdf.make_indirect(Dictionary(Type=Name.OCG, Name=pikepdf.String(name)))
        for name in ("shown", "hidden")
    )
    told = default or {"OFF": Array([off])}
    pdf.Root.OCProperties = Dictionary(OCGs=Array([on, off]), D=Dictionary(**told))
    return pdf, on, off


def member(**told: object) -> Dictionary:
    return Dictionary(Type=Name.OCMD, **told)


def test_groups_by_the_default_configuration() -> None:
    pdf, on, off = layered()
    assert layers_of(pdf).shows(on) and not layers_of(pdf).shows(off)
    pdf, on, off = layered(BaseState=Name.OFF)
    assert not layers_of(pdf).shows(on)
    pdf.Root.OCProperties.D.ON = Array([on])
    assert layers_of(pdf).shows(on) and not layers_of(pdf).shows(off)


def test_what_is_not_printed_is_not_seen_and_another_intent_plays_no_part() -> None:
    pdf, on, off = layered()
    on.Usage = Dictionary(Print=Dictionary(PrintState=Name.OFF))
    off.Intent = Name.Design
    assert not layers_of(pdf).shows(on) and layers_of(pdf).shows(off)


@pytest.mark.parametrize(
    ("policy", "both", "only_on", "only_off"),
    [("AllOn", 0, 1, 0), ("AnyOn", 1, 1, 0), ("AnyOff", 1, 0, 1), ("AllOff", 0, 0, 1)],
)
def test_policies_of_table_99(policy: str, both: int, only_on: int, only_off: int) -> None:
    pdf, on, off = layered()
    layers, name = layers_of(pdf), Name(f"/{policy}")
    assert layers.shows(member(OCGs=Array([on, off]), P=name)) == bool(both)
    assert layers.shows(member(OCGs=on, P=name)) == bool(only_on)
    assert layers.shows(member(OCGs=off, P=name)) == bool(only_off)
    assert layers.shows(member(OCGs=Array([]), P=name))  # "no effect on the visibility"


def expressions(on: object, off: object) -> list[tuple[Array, bool]]:
    no = Array([Name.Not, off])
    return [
        (Array([Name.And, on, off]), False),
        (Array([Name.Or, on, off]), True),
        (no, True),
        (Array([Name.And, on, no]), True),
        (Array([Name.Not, Array([Name.Or, on, off])]), False),
        (Array([Name.Not, Array([Name.And, off, on])]), True),
    ]


def test_visibility_expressions_win_over_policies() -> None:
    pdf, on, off = layered()
    layers = layers_of(pdf)
    for expression, shown in expressions(on, off):
        contrary = off if shown else on
        assert layers.shows(member(VE=expression, OCGs=contrary)) == shown
    assert layers.shows(member(VE=Array([Name.Nor, off]), OCGs=on))  # says nothing: the policy does


@pytest.mark.parametrize("number", range(6))
def test_art_is_drawn_as_its_expressions_say(number: int) -> None:
    """A black square under an expression; PDFium, which knows them, has the second opinion."""
    pdf, on, off = layered()
    expression, shown = expressions(on, off)[number]
    drawn_under(pdf, member(VE=expression, OCGs=off if shown else on), shown)


@pytest.mark.parametrize("policy", ["AllOn", "AnyOn", "AnyOff", "AllOff"])
@pytest.mark.parametrize("which", [(0,), (1,), (0, 1)])
def test_art_is_drawn_as_its_policies_say(policy: str, which: tuple[int, ...]) -> None:
    pdf, *groups = layered()
    told = member(OCGs=Array([groups[k] for k in which]), P=Name(f"/{policy}"))
    drawn_under(pdf, told, layers_of(pdf).shows(told))


def test_art_hidden_by_a_layer_that_is_on() -> None:
    pdf, on, _ = layered()
    drawn_under(pdf, member(VE=Array([Name.Not, on])), False)


def drawn_under(pdf: pikepdf.Pdf, told: Dictionary, shown: bool) -> None:
    group = pdf.make_indirect(told)
    page = pdf.pages[0]
    page.Resources = Dictionary(Properties=Dictionary(M=group))
    page.Contents = pdf.make_stream(b"/OC /M BDC 20 20 60 60 re f EMC")
    for streams in pikepdf.ObjectStreamMode.disable, pikepdf.ObjectStreamMode.generate:
        saved = io.BytesIO()
        pdf.save(saved, object_stream_mode=streams)
        source = saved.getvalue()
        with pymupdf.open(stream=settled(source), filetype="pdf") as document:
            pixels = np.frombuffer(document[0].get_pixmap().samples, np.uint8)
        second = pypdfium2.PdfDocument(source)[0].render().to_numpy()
        assert ((pixels < 99).any(), (second < 99).any()) == (shown, shown)
        (path,) = read_pdf_template("t.pdf", source).paths
        assert path.hidden != shown


def test_a_file_without_expressions_is_left_as_it_is() -> None:
    pdf, _, _ = layered()
    saved = io.BytesIO()
    pdf.save(saved, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    assert settled(saved.getvalue()) is not None
    assert settled(saved.getvalue()) == saved.getvalue()


def test_expressions_nested_without_end_say_nothing() -> None:
    pdf, on, off = layered()
    ring = pdf.make_indirect(Array([Name.Not]))
    ring.append(ring)
    assert not layers_of(pdf).shows(member(VE=ring, OCGs=off))
    assert layers_of(pdf).shows(member(VE=ring, OCGs=on))
