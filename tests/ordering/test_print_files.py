"""Print files, read by other libraries than ours and by a reader of steps written apart."""

from __future__ import annotations

import math
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from pikepdf import Array, Dictionary, Name

from mockup.errors import InputError, LimitError, Mistake, RefusedError
from mockup.printers.files_asked import VARIANTS, FilesAsked
from tests.ordering.pages import ART, PAGE_PT, add_layer, ordered, page_pdf
from tests.ordering.processing_steps import steps_of

ALONE = FilesAsked(("art-alone",))


def on_page(pdf, page):
    """Draws the art where a page's MediaBox begins, turned as its Rotate asks."""
    page.MediaBox = Array([-20, 30, 214, 336])
    page.Contents = pdf.make_stream(b"q 1 0 0 1 -20 30 cm " + ART + b" Q")


def lying(pdf, page):
    """The page as a landscape one that is shown upright by a quarter turn."""
    page.MediaBox = Array([10, -10, 316, 224])
    page.Rotate = 90
    page.Contents = pdf.make_stream(b"q 0 1 -1 0 316 -10 cm " + ART + b" Q")


def in_double_units(pdf, page):
    page.MediaBox = Array([0, 0, 117, 153])
    page.UserUnit = 2
    page.Contents = pdf.make_stream(b".5 0 0 .5 0 0 cm " + ART)


def from_above(pdf, page):
    above = pdf.Root.Pages
    above.MediaBox = page.MediaBox
    above.Resources = Dictionary(ExtGState=Dictionary(G=Dictionary(LW=4)))
    del page["/MediaBox"]
    if "/Resources" in page:
        del page["/Resources"]
    page.Contents = pdf.make_stream(b"/G gs " + ART)


def shared_with_another(pdf, page):
    parts = [b"q 0.2 0.4 0.3 rg 0 0 234 306 re f 1 0 0 rg ", b"60 200 m 120 290 l 190 210 l f Q"]
    streams = pdf.make_indirect(Array([pdf.make_stream(each) for each in parts]))
    page.Contents = streams
    pdf.add_blank_page(page_size=PAGE_PT).obj.Contents = streams


def with_a_form(pdf, page):
    form = pdf.make_stream(ART, Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, 234, 306])
    page.Resources = Dictionary(XObject=Dictionary(X=form))
    page.Contents = pdf.make_stream(b"/X Do")


def with_a_layer_off(pdf, page):
    add_layer(pdf, page, "Notes to self", off=True)
    page.Contents = pdf.make_stream(ART + b"/OC /L BDC 10 10 50 50 re f EMC")


def left_open(content):
    return lambda pdf, page: page.__setitem__("/Contents", pdf.make_stream(content))


def layer_left_open(pdf, page):
    add_layer(pdf, page, "Notes to self", off=True)
    page.Contents = pdf.make_stream(ART + b"/OC /L BDC 10 10 50 50 re f")


PAGES = {
    "plain": None,
    "box not at nought": on_page,
    "a quarter turn": lying,
    "user unit of two": in_double_units,
    "resources from above": from_above,
    "streams shared": shared_with_another,
    "a form": with_a_form,
    "a layer switched off": with_a_layer_off,
    "states left saved": left_open(b"q q 0.5 0 0 0.5 10 10 cm " + ART),
    "states restored too often at the end": left_open(b"q " + ART + b" Q Q Q"),
    "type left open": left_open(ART + b"BT 0.5 g"),
    "a layer left open": layer_left_open,
}
"""What a page may be like (ISO 32000-1 7.7.3.4, 7.8.2, 8.4.2, 8.11, 14.11.2)."""


def seen(file: Path, page: int = 1, ppi: float = 600):
    """A page as PDFium prints it, its longer or shorter side as many pixels as at `ppi`."""
    with pypdfium2.PdfDocument(file) as document:
        drawn = document[page - 1]
        wide = round(PAGE_PT[0] / 72 * ppi)
        picture = drawn.render(
            scale=wide / drawn.get_width(), draw_annots=False, optimize_mode="print"
        )
        return picture.to_numpy().copy()


@pytest.mark.parametrize("name", PAGES)
def test_a_file_with_its_cut_line_is_the_art_and_a_step_by_iso_19593_1(name, tmp_path):
    made = ordered(tmp_path, page_pdf(PAGES[name]))
    assert (seen(made.path) == seen(tmp_path / "art.pdf")).all()
    (step,) = (each for each in steps_of(made.path) if each.paths)
    assert (step.group, step.kind, step.layer) == ("Structural", "Cutting", "Cut")
    assert step.seen and not step.printed
    (stroke,) = step.paths
    unit = made.boxes.unit
    assert stroke.ink == "Cut" and math.isclose(stroke.width * unit, 0.5)
    assert stroke.closed == [True]
    xs, ys = zip(*(point for path in stroke.subpaths for point in path), strict=True)
    left, bottom, right, top = made.boxes.trim
    assert math.isclose(min(xs), left, abs_tol=0.01) and math.isclose(max(xs), right, abs_tol=0.01)
    assert math.isclose(min(ys), bottom, abs_tol=0.01) and math.isclose(max(ys), top, abs_tol=0.01)
    sides = sorted([(right - left) * unit, (top - bottom) * unit])
    assert sides == pytest.approx([216, 288], abs=1e-3)


@pytest.mark.parametrize("name", PAGES)
def test_art_alone_keeps_every_stream_of_the_page(name, tmp_path):
    made = ordered(tmp_path, page_pdf(PAGES[name]), ALONE)
    with pikepdf.open(tmp_path / "art.pdf") as source, pikepdf.open(made.path) as own:
        assert drawing(own.pages[0]) == drawing(source.pages[0])
        assert own.pages[0].obj.get("/Rotate") == source.pages[0].obj.get("/Rotate")
        assert list(own.pages[0].mediabox) == list(source.pages[0].mediabox)
        assert not own.check_pdf_syntax()
    assert made.steps == () and made.removed == ()


def drawing(page: pikepdf.Page) -> list[bytes]:
    told = page.obj.Contents
    streams = list(told) if isinstance(told, pikepdf.Array) else [told]
    return [each.read_raw_bytes() for each in streams]


def test_the_same_art_gives_the_same_bytes(tmp_path):
    page_pdf(with_a_form).save(tmp_path / "source.pdf")
    source = (tmp_path / "source.pdf").read_bytes()
    first, second = (ordered(tmp_path, source).path.read_bytes() for _ in range(2))
    assert first == second


@pytest.mark.slow
def test_both_variants_of_every_piece_and_liner_are_written(tmp_path, demo_suite):
    from mockup.output.print_files import print_files
    from mockup.suite.reading import read_suite

    made = print_files(read_suite(demo_suite), tmp_path / "out", FilesAsked(VARIANTS))
    names = [each.path.name for each in made]
    assert names == [
        f"{piece}-{variant}.pdf"
        for piece in ("invitation", "details", "reply", "outer-liner")
        for variant in ("art", "cut-line")
    ]
    assert sorted(each.name for each in (tmp_path / "out").iterdir()) == sorted(names)


def test_only_what_prints_is_handed_on_and_the_rest_is_told(tmp_path):
    """ISO 32000-1 12.6.4.16 scripts, 7.11.4 attachments, 12.5 annotations, 14.5 private data."""

    def change(pdf, page):
        pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS="app.alert(1)")
        pdf.Root.Names = Dictionary(EmbeddedFiles=Dictionary(Names=Array([])))
        pdf.Root.OutputIntents = Array([Dictionary(S=Name.GTS_PDFX, OutputConditionIdentifier="X")])
        pdf.docinfo["/Title"] = "Supper"
        square = Dictionary(Type=Name.Annot, Subtype=Name.Square, Rect=[50, 50, 90, 90], F=4)
        page.Annots = Array([square])
        page.PieceInfo = Dictionary(Some=Dictionary(LastModified="D:2020"))
        pdf.add_blank_page(page_size=PAGE_PT)

    made = ordered(tmp_path, page_pdf(change), ALONE)
    told = " / ".join(made.dropped)
    for word in ("1 other page", "annotations", "own copy", "attached files", "actions"):
        assert word in told
    with pikepdf.open(made.path) as own:
        assert set(own.Root.keys()) == {"/Type", "/Pages", "/OutputIntents"}
        assert not {"/Annots", "/PieceInfo"} & set(own.pages[0].obj.keys())
        assert own.docinfo["/Title"] == "Supper"


def test_the_second_page_of_three_is_taken_alone(tmp_path):
    def change(pdf, page):
        for shade in (b"1 0 0 rg", b"0 0 1 rg"):
            added = pdf.add_blank_page(page_size=PAGE_PT).obj
            added.Contents = pdf.make_stream(shade + b" 0 0 234 306 re f")

    made = ordered(tmp_path, page_pdf(change), ALONE, page=2)
    assert (seen(made.path) == seen(tmp_path / "art.pdf", page=2)).all()
    assert made.dropped == ("2 other pages",)


def test_bleed_is_cut_down_by_its_box_alone_and_told_where_it_is_short(tmp_path):
    def change(pdf, page):
        page.MediaBox = Array([5, 0, 234, 306])
        page.TrimBox = Array([9, 9, 225, 297])

    made = ordered(tmp_path, page_pdf(change), FilesAsked(("art-alone",), bleed_in=1 / 12))
    assert made.boxes.media == (5, 0, 234, 306)
    assert made.boxes.bleed == pytest.approx((5, 3, 231, 303))
    assert "left 0.056 in" in " ".join(made.notes)
    with pikepdf.open(made.path) as own:
        assert [float(each) for each in own.pages[0].obj.TrimBox] == [9, 9, 225, 297]


LINE = b"0 1 1 0 K .5 w 9 9 216 288 re S"
BLUE = b"\n0 0 1 rg 50 50 20 20 re f"


def dieline_layer(pdf, page):
    add_layer(pdf, page, "Dieline")
    page.Contents = pdf.make_stream(ART + b"/OC /L BDC " + LINE + b" EMC" + BLUE)


def dieline_form(pdf, page):
    add_layer(pdf, page, "Dieline")
    form = pdf.make_stream(LINE, Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, 234, 306])
    page.Resources.XObject = Dictionary(X=form)
    page.Contents = pdf.make_stream(ART + b"/OC /L BDC /X Do EMC" + BLUE)


def line_of_a_ground(pdf, page):
    drawn = b"0.9 0.9 0.5 rg 0 1 1 0 K .5 w 9 9 216 288 re B"
    page.Contents = pdf.make_stream(drawn + BLUE)


def own_step(pdf, page):
    step = Dictionary(GTS_ProcStepsGroup=Name.Structural, GTS_ProcStepsType=Name.Cutting)
    add_layer(pdf, page, "Die", GTS_Metadata=step)
    page.Contents = pdf.make_stream(ART + b"/OC /L BDC " + LINE + b" EMC" + BLUE)


@pytest.mark.parametrize("change", [dieline_layer, dieline_form, line_of_a_ground, own_step])
@pytest.mark.parametrize("variant", VARIANTS)
def test_a_line_left_in_is_taken_out_and_listed_and_nothing_else(change, variant, tmp_path):
    made = ordered(tmp_path, page_pdf(change), FilesAsked((variant,)))
    assert len(made.removed) == 1 and "3.007" in made.removed[0]
    source, own = seen(tmp_path / "art.pdf"), seen(made.path)
    differs = (source != own).any(axis=2)
    near = round(0.02 * 600)
    trim = [round(each / 72 * 600) for each in (9, 9, 225, 297)]
    inside = differs[trim[1] + near : trim[3] - near, trim[0] + near : trim[2] - near]
    assert differs.any() and not inside.any()


def test_type_that_names_a_line_goes_with_it_and_what_follows_stays(tmp_path):
    """Labels are taken out where no other type depends on where they end (ISO 32000-1 9.4.4)."""
    from tests.ordering.type_pages import labelled

    made = ordered(tmp_path, labelled(b"ET BT /F1 9 Tf 60 60 Td (tide) Tj ET"), ALONE)
    assert any("cut line" in each for each in made.removed) and len(made.removed) >= 2
    with pytest.raises(InputError, match="other type follows on"):
        ordered(tmp_path, labelled(b"0 0 1 rg [-9000 (tide)] TJ ET"), ALONE)


REFUSED = {
    "draws on after restoring": (
        left_open(b"0.9 0 0 0.9 9 9 cm " + ART + b" Q Q 10 10 9 9 re f"),
        "every program reads in its own way",
    ),
    "a stream in another file": (
        lambda pdf, page: page.Contents.__setitem__("/F", "other.txt"),
        "draws from another file",
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_handed_on_is_refused_and_nothing_is_left(name, tmp_path):
    change, said = REFUSED[name]
    with pytest.raises(InputError, match=said):
        ordered(tmp_path, page_pdf(change))
    assert not (tmp_path / "out").exists()


def test_protected_files_and_svg_are_refused(tmp_path):
    locked = pikepdf.Encryption(owner="tide", user="")
    with pytest.raises(InputError, match="protected"):
        ordered(tmp_path, page_pdf(), encryption=locked)
    size = 'width="3.25in" height="4.25in"'
    drawn = f'<svg xmlns="http://www.w3.org/2000/svg" {size}><rect width="9" height="9"/></svg>'
    with pytest.raises(InputError, match="another rendering"):
        ordered(tmp_path, drawn.encode())


def spot(page: pikepdf.Object, name: str) -> None:
    tint = Dictionary(FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 1, 0, 0], N=1)
    space = Array([Name.Separation, Name(f"/{name}"), Name.DeviceCMYK, tint])
    page.Resources = Dictionary(ColorSpace=Dictionary(C=space))


def test_art_in_the_ink_of_the_cut_is_refused_and_another_name_goes(tmp_path):
    def change(pdf, page):
        spot(page, "Cut")
        page.Contents = pdf.make_stream(ART + b"/C cs 1 scn 40 40 30 50 re f")

    with pytest.raises(InputError, match='an ink called "Cut"'):
        ordered(tmp_path, page_pdf(change))
    made = ordered(tmp_path, page_pdf(change), FilesAsked(cut_name="Knife line"))
    assert made.inks == ("Cut", "RGB") and made.steps == ("Knife line",)
    assert {each.layer for each in steps_of(made.path, ("Knife line",))} == {"Knife line"}


def test_art_on_a_layer_of_the_name_of_the_cut_is_printed_still(tmp_path):
    def change(pdf, page):
        add_layer(pdf, page, "Cut")
        page.Contents = pdf.make_stream(ART + b"/OC /L BDC 1 0 0 rg 80 80 60 90 re f EMC")

    made = ordered(tmp_path, page_pdf(change))
    assert (seen(made.path) == seen(tmp_path / "art.pdf")).all()
    (step,) = steps_of(made.path, ("Cut 2",))
    assert [stroke.ink for stroke in step.paths] == ["Cut"]


def test_a_cut_line_switched_off_is_not_cut_twice(tmp_path):
    def change(pdf, page):
        step = Dictionary(GTS_ProcStepsGroup=Name.Structural, GTS_ProcStepsType=Name.Cutting)
        add_layer(pdf, page, "Die", off=True, GTS_Metadata=step)
        page.Contents = pdf.make_stream(ART + b"/OC /L BDC " + LINE + b" EMC")

    with pytest.raises(InputError, match="cut twice"):
        ordered(tmp_path, page_pdf(change))
    assert ordered(tmp_path, page_pdf(change), ALONE).removed == ()


def test_a_file_that_reads_otherwise_is_refused_and_not_left(tmp_path, monkeypatch):
    """A fault of the writer's own is found by the reader: here a copy with a dot too many."""
    from mockup.output import print_files

    written = print_files.print_copies

    def with_a_dot(orders):
        (copy,) = written(orders)
        import io
        from dataclasses import replace

        with pikepdf.open(io.BytesIO(copy.content)) as pdf:
            pdf.pages[0].contents_add(b"q 1 0 0 rg 100 100 1 1 re f Q")
            file = io.BytesIO()
            pdf.save(file)
        return [replace(copy, content=file.getvalue())]

    monkeypatch.setattr(print_files, "print_copies", with_a_dot)
    with pytest.raises(RefusedError, match="read again"):
        ordered(tmp_path, page_pdf())
    assert not (tmp_path / "out").exists()


def test_a_file_that_takes_too_long_to_read_again_is_told_by_the_name_of_its_art(
    tmp_path, monkeypatch
):
    """The file itself is not left, and has a name nobody has seen."""
    from mockup.output import print_files

    def slow(draft, path):
        raise LimitError(Mistake("takes over 30 s to read or draw", f"{path}, page 1"))

    monkeypatch.setattr(print_files, "read_back", slow)
    with pytest.raises(LimitError) as told:
        ordered(tmp_path, page_pdf())
    (mistake,) = told.value.mistakes
    assert mistake.file == str(tmp_path / "art.pdf")
    assert mistake.sentence == "its print file takes over 30 s to read or draw"
    assert not (tmp_path / "out").exists()
