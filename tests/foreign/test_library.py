"""What is told of a PDF library's complaints: their meaning, not its words."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from tests.mockup_command import mockup


def _grouped(depth: int, pdf: pikepdf.Pdf) -> None:
    """Knockout groups in one another (ISO 32000-1, 11.4.6), none of which may be left out."""
    box = Array([0, 0, 400, 600])
    group = Dictionary(S=Name.Transparency, K=True, I=True)
    keys = {"Subtype": Name.Form, "BBox": box, "Group": group}
    form = pdf.make_indirect(pdf.make_stream(b"0 0 99 99 re f", **keys))
    for _ in range(depth):
        inner = Dictionary(XObject=Dictionary(F=form))
        form = pdf.make_indirect(pdf.make_stream(b"/F Do", **keys, Resources=inner))
    pdf.pages[0].Resources = Dictionary(XObject=Dictionary(F=form))
    pdf.pages[0].Contents = pdf.make_stream(b"/F Do")


def _mixed(inks: int, pdf: pikepdf.Pdf) -> None:
    """A colour of many inks (ISO 32000-1, 8.6.6.5)."""
    names = Array([Name(f"/Ink{each}") for each in range(inks)])
    code = b"{" + b"pop " * inks + b"0 0 0 1}"
    tint = pdf.make_stream(
        code, FunctionType=4, Domain=Array([0, 1] * inks), Range=Array([0, 1] * 4)
    )
    space = Array([Name.DeviceN, names, Name.DeviceCMYK, tint])
    pdf.pages[0].Resources = Dictionary(ColorSpace=Dictionary(C=space))
    pdf.pages[0].Contents = pdf.make_stream(b"/C cs " + b"1 " * inks + b"scn 60 60 99 99 re f")


@pytest.mark.parametrize(
    ("draw", "count", "told"),
    [(_grouped, 120, "groups lie in groups too deep"), (_mixed, 32, "mixed of more inks than")],
)
def test_what_cannot_be_drawn_is_told_by_its_meaning(
    draw: object, count: int, told: str, tmp_path: Path
) -> None:
    pdf = pikepdf.new()
    pdf.add_blank_page(page_size=(378, 522))
    draw(count, pdf)  # type: ignore[operator]
    pdf.save(tmp_path / "art.pdf")
    (tmp_path / "suite.toml").write_text('title = "T"\n[pieces.a]\nart = "art.pdf"\ncard = "A7"\n')
    answer = mockup("check", "suite.toml", cwd=tmp_path)
    assert answer.returncode == 4 and told in answer.stderr
    assert "code=" not in answer.stderr and "stack" not in answer.stderr
