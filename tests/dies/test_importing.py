"""Templates of different open producers: the outline comes back within 0.001 in of the truth."""

import math
import random
from pathlib import Path

import pikepdf
import pytest

from mockup.dies import make_die
from mockup.dies.importing import import_die
from mockup.errors import DieError, InputError, LimitError, MockupError
from mockup.geometry.flatten import polygon
from mockup.geometry.measure import area
from mockup.geometry.outline import Outline, Shape, circle_arc
from mockup.geometry.point import Point
from mockup.output.die_file import export_die
from tests.dies.templates import PRODUCERS

MADE_ELSEWHERE = Path(__file__).parent / "made_elsewhere"

TRUTHS = {
    "quarter arch": make_die("quarter-arch", 4.5, 6.25, {"radius": 3}),  # like no mirror image
    "tag": make_die("tag", 2.5, 4, {"cut": 0.6, "hole": 0.3, "inset": 0.6, "side": "right"}),
    "scallops": make_die("scalloped-edge", 5, 7),
}


def hausdorff_in(a, b):
    """The farthest either outline strays from the other, inches, both flattened to 5e-5 in."""
    one, other = polygon(a, 5e-5).boundary, polygon(b, 5e-5).boundary
    return one.hausdorff_distance(other)


PAIRS = [(producer, truth) for producer in PRODUCERS for truth in TRUTHS]


# One die of each producer at every run, and each die of some producer.
@pytest.mark.parametrize(
    ("producer", "truth"),
    [
        pytest.param(
            *pair,
            marks=[] if n // len(TRUTHS) % len(TRUTHS) == n % len(TRUTHS) else pytest.mark.slow,
        )
        for n, pair in enumerate(PAIRS)
    ],
)
def test_outline_is_recovered(producer, truth, tmp_path):
    draw, kind = PRODUCERS[producer]
    die = TRUTHS[truth]
    path = tmp_path / f"template.{kind}"
    draw(die, path)
    found = import_die(path, (die.width_in, die.height_in))
    assert len(found.die.shape.holes) == len(die.shape.holes)
    # Loose ends were rounded to a thousandth of an inch by that template itself.
    limit = 0.001 if "loose" in producer else 0.0002
    assert hausdorff_in(found.die.shape, die.shape) < limit


@pytest.mark.parametrize("name", sorted(p.name for p in MADE_ELSEWHERE.glob("*.[sp][vd][gf]")))
def test_templates_saved_by_programs_with_windows(name):
    """Inkscape 1.2.2 and poppler 22.12; Inkscape rounds a corner 0.0005 in too full."""
    found = import_die(MADE_ELSEWHERE / name, (5, 7))
    card = make_die("rounded-corner", 5, 7, {"radius": 0.5}).shape.outer
    truth = Shape(card, (Outline((circle_arc(Point(4, 2), 0.25, 0, 360),)),))
    assert hausdorff_in(found.die.shape, truth) < 0.001


def test_says_what_it_took_and_why(tmp_path):
    die = TRUTHS["tag"]
    said = {}
    for name, (draw, kind) in PRODUCERS.items():
        path = tmp_path / f"template.{kind}"
        draw(die, path)
        said[name] = import_die(path).die.because
    assert said["by hand, processing steps, UserUnit"].startswith("the processing step Structural")
    assert said["ReportLab, spot ink, dashed"].startswith(
        'the ink "Die Cut", whose name means cut: the dashed outline, 2.5 × 4 in; '
        "it lies 0.125 in inside the bleed line"
    )
    assert 'the layer "Stanzkontur"' in said["MuPDF, layer, page turned"]
    assert 'the layer "FUSTELLA"' in said["by hand, forms in forms, membership"]
    assert 'the ink "CutContour"' in said["by hand, DeviceN, crop box, turned"]
    assert 'the layer "Die line"' in said["by hand, SVG symbol by use, arcs"]
    assert said["cairo PDF, dashed"].startswith("the dashed black outline, 2.5 × 4 in")


def test_bleed_and_safe_outlines_are_kept_in_the_dies_own_place(tmp_path):
    die = TRUTHS["quarter arch"]
    draw, _ = PRODUCERS["by hand, processing steps, UserUnit"]
    draw(die, tmp_path / "steps.pdf")
    found = import_die(tmp_path / "steps.pdf")
    assert found.bleed.box == pytest.approx((-0.125, -0.125, 4.625, 6.375), abs=1e-5)
    assert found.safe.box == pytest.approx((0.125, 0.125, 4.375, 6.125), abs=1e-5)
    draw, _ = PRODUCERS["ReportLab, spot ink, dashed"]
    draw(die, tmp_path / "spot.pdf")
    found = import_die(tmp_path / "spot.pdf")
    assert found.bleed.box == pytest.approx((-0.125, -0.125, 4.625, 6.375), abs=1e-4)
    assert found.safe is None


@pytest.mark.parametrize("kind", ["svg", "pdf"])
@pytest.mark.parametrize(
    "die",
    [
        make_die("tag", 2.5, 4),
        make_die("superellipse", 5, 7),
        make_die("ogee-arch", 5, 7, {"side": "left"}),
        make_die("wavy-edge", 4.25, 5.5),
    ],
    ids=lambda die: die.name,
)
def test_our_own_die_written_and_read_is_the_same_die(die, kind, tmp_path):
    path = tmp_path / f"own.{kind}"
    export_die(die, path)
    found = import_die(path, (die.width_in, die.height_in))
    assert hausdorff_in(found.die.shape, die.shape) < 1e-4
    assert area(found.die.shape) == pytest.approx(area(die.shape), rel=1e-5)
    assert (found.die.width_in, found.die.height_in) == pytest.approx(
        (die.width_in, die.height_in), abs=1e-5
    )


def test_written_pdf_says_the_cutting_step_to_another_reader(tmp_path):
    """Keys of ISO 19593-1:2018, read back with MuPDF rather than the writer's library."""
    import pymupdf

    path = tmp_path / "own.pdf"
    export_die(make_die("ticket-corner", 5, 7), path)
    with pymupdf.open(path) as document:
        objects = [document.xref_object(k) for k in range(1, document.xref_length())]
        layer = next(text for text in objects if "/OCG" in text and "/GTS_Metadata" in text)
        assert "/GTS_ProcStepsGroup /Structural" in layer
        assert "/GTS_ProcStepsType /Cutting" in layer
        (drawing,) = document[0].get_drawings()
        assert drawing["rect"].width == pytest.approx(5 * 72, abs=0.01)
        assert any("/Separation /Die#20line" in text for text in objects)
        assert document[0].trimbox.width == pytest.approx(5 * 72)


SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="8in" viewBox="0 0 8 8">{}</svg>'


def _svg(tmp_path, content, name="t.svg"):
    path = tmp_path / name
    path.write_text(SVG.format(content), encoding="utf-8")
    return path


REFUSED = [
    # an open outline: the place and the gap
    ('<path id="cut" d="M1 1H6V6H1V1.5" fill="none" stroke="red"/>', r"open at 1, (1\.5|1) in.*0\.5"),
    # a figure of eight, crossing at 3, 3
    ('<path id="cut" d="M1 1L5 5V1L1 5Z"/>', r"crosses itself at 3, 3 in"),
    # nothing enclosed
    ('<path id="cut" d="M1 1L5 5"/>', "encloses nothing"),
    ("<text>no path</text>", "draws no path"),
    # two dies on one sheet
    ('<g id="die"><rect x="1" y="1" width="2" height="2"/>'
     '<rect x="4" y="4" width="2" height="2"/></g>', r"2 dies side by side; say which by `pick`.* at 4 in, 4 in"),
    # a stroke turned to outlines
    ('<path id="cut" d="M1 1H6V6H1Z M1.02 1.02V5.98H5.98V1.02Z"/>', "turned to shapes"),
    ('<path id="cut" d="M1 1 K 2 2"/>', 'holds "K"'),
    ('<path id="cut" d="M1 1 C 2 2"/>', "path data is broken"),
    ('<rect x="1" y="wide" width="2" height="2"/>', '"wide" is not a length'),
    ('<g transform="spin(3)"><rect width="2" height="2"/></g>', "is not a transform"),
]  # fmt: skip


@pytest.mark.parametrize(("content", "said"), REFUSED, ids=[said[:24] for _, said in REFUSED])
def test_unsound_templates_are_refused_with_the_place(content, said, tmp_path):
    with pytest.raises(InputError, match=said):
        import_die(_svg(tmp_path, content))


def test_two_dies_on_a_sheet_can_be_told_apart_by_name(tmp_path):
    path = _svg(
        tmp_path,
        '<g id="die"><rect id="left" x="1" y="1" width="2" height="2"/>'
        '<ellipse id="right" cx="5" cy="5" rx="1" ry="2"/></g>',
    )
    found = import_die(path, pick="Right")
    assert area(found.die.shape) == pytest.approx(2 * math.pi, rel=1e-12)
    assert "as asked" in found.die.because
    with pytest.raises(InputError, match='no layer or ink called "rigt"; did you mean "right"'):
        import_die(path, pick="rigt")


def test_sizes_that_differ_are_told_and_never_stretched(tmp_path):
    path = _svg(tmp_path, '<rect x="1" y="1" width="5.01" height="7"/>')
    near = import_die(path, (5, 7))
    assert near.die.width_in == pytest.approx(5.01)
    assert "0.01 in wider" in near.size_note
    with pytest.raises(DieError, match="0.99 in narrower than the card"):
        import_die(path, (6, 7))
    with pytest.raises(DieError, match="turn the card"):
        import_die(path, (7, 5))
    with pytest.raises(DieError, match="72 pixels to the inch"):
        import_die(path, (5.01 / 0.75, 7 / 0.75))


def test_a_gap_within_tolerance_is_bridged_and_one_beyond_is_not(tmp_path):
    sides = '<path d="M1 1H6{}"/><path d="M6 {}V6H1V1"/>'
    wrapped = f'<g id="cut" fill="none" stroke="red">{sides}</g>'
    found = import_die(_svg(tmp_path, wrapped.format("", "1.004")))
    assert area(found.die.shape) == pytest.approx(25, abs=1e-3)
    with pytest.raises(InputError, match=r"0\.006 in away"):
        import_die(_svg(tmp_path, wrapped.format("", "1.006")))


def test_a_bleed_inside_a_group_called_die_is_not_the_cut(tmp_path):
    path = _svg(
        tmp_path,
        '<g id="die"><rect class="bleed" x=".5" y=".5" width="6" height="6"/>'
        '<circle cx="3.5" cy="3.5" r="2"/></g>',
    )
    found = import_die(path)
    assert found.die.width_in == pytest.approx(4)
    assert found.bleed.box == pytest.approx((-1, -1, 5, 5))


def test_holes_named_beside_the_cut_are_cut_and_creases_are_not(tmp_path):
    path = _svg(
        tmp_path,
        '<g id="Crease" fill="none" stroke="red"><rect x="0" y="0" width="7" height="7"/></g>'
        '<g id="Die cut" fill="none" stroke="red"><rect x="1" y="1" width="5" height="4"/></g>'
        '<g id="Drill holes" fill="none" stroke="red"><circle cx="3" cy="2" r=".25"/></g>',
    )
    die = import_die(path).die
    assert (die.width_in, die.height_in) == pytest.approx((5, 4))
    assert area(die.shape) == pytest.approx(20 - math.pi / 16, abs=1e-4)


def test_a_crease_inside_a_group_called_die_is_not_the_cut(tmp_path):
    path = _svg(
        tmp_path,
        '<g id="dieline"><path class="fold" d="M1 3H6" stroke="#000"/>'
        '<rect x="1" y="1" width="5" height="4"/></g>',
    )
    die = import_die(path).die
    assert (die.width_in, die.height_in) == pytest.approx((5, 4))


@pytest.mark.parametrize(
    ("inner", "because"),
    [
        ("Trim", 'the layer "Trim", whose name means trim'),
        ("Endformat", 'the layer "Endformat", whose name means trim'),
        ("Layer 1", "the filled black outline, 5 × 5 in"),
    ],
)
def test_bleed_and_safe_are_not_the_cut_where_nothing_is_named_so(inner, because, tmp_path):
    path = _svg(
        tmp_path,
        f'<g id="Bleed"><rect x=".5" y=".5" width="6" height="6"/></g>'
        f'<g id="{inner}"><rect x="1" y="1" width="5" height="5"/></g>',
    )
    die = import_die(path).die
    assert die.width_in == pytest.approx(5)
    assert because in die.because


def test_what_unfolds_without_end_is_refused(tmp_path):
    bomb = "<defs><g id='a0'><rect width='1' height='1'/></g>"
    for k in range(1, 12):
        uses = f"<use href='#a{k - 1}'/>" * 10
        bomb += f"<g id='a{k}'>{uses}</g>"
    with pytest.raises(LimitError):
        import_die(_svg(tmp_path, bomb + "</defs><use href='#a11'/>"))
    with pytest.raises(LimitError):
        import_die(_svg(tmp_path, "<g id='a'><use href='#a'/></g>"))
    pdf = pikepdf.new()
    page = pdf.add_blank_page(page_size=(100, 100))
    form = pdf.make_stream(b"/F Do /F Do", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form)
    form.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(F=form))
    page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(F=form))
    page.Contents = pdf.make_stream(b"/F Do")
    pdf.save(tmp_path / "bomb.pdf")
    with pytest.raises(LimitError, match="without end"):
        import_die(tmp_path / "bomb.pdf")


def test_files_that_are_no_templates_are_refused(tmp_path):
    with pytest.raises(InputError, match="no such file"):
        import_die(tmp_path / "none.svg")
    (tmp_path / "x.txt").write_text("hello")
    with pytest.raises(InputError, match="neither SVG nor PDF"):
        import_die(tmp_path / "x.txt")
    (tmp_path / "x.pdf").write_bytes(b"%PDF-1.7\nnothing")
    with pytest.raises(InputError, match="is broken"):
        import_die(tmp_path / "x.pdf")
    (tmp_path / "e.svg").write_text('<!DOCTYPE s [<!ENTITY a "b">]><svg>&a;</svg>')
    with pytest.raises(InputError, match="declares entities"):
        import_die(tmp_path / "e.svg")
    (tmp_path / "n.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'><rect/></svg>")
    with pytest.raises(InputError, match="neither a size nor a viewBox"):
        import_die(tmp_path / "n.svg")
    pdf = pikepdf.new()
    pdf.add_blank_page()
    pdf.save(tmp_path / "locked.pdf", encryption=pikepdf.Encryption(user="a", owner="b"))
    with pytest.raises(InputError, match="password"):
        import_die(tmp_path / "locked.pdf")
    pdf.save(tmp_path / "blank.pdf")
    with pytest.raises(InputError, match="draws no path"):
        import_die(tmp_path / "blank.pdf")
    with pytest.raises(InputError, match="no page 3"):
        import_die(tmp_path / "blank.pdf", page=3)


@pytest.mark.parametrize("producer", ["by hand, forms in forms, membership", "cairo SVG, filled"])
def test_damaged_files_are_refused_or_read_and_never_crash(producer, tmp_path):
    """Bytes changed and dropped at random, 150 times with one seed."""
    draw, kind = PRODUCERS[producer]
    whole = tmp_path / f"whole.{kind}"
    draw(TRUTHS["tag"], whole)
    chance = random.Random(7)
    outcomes = {"read": 0, "refused": 0}
    for _ in range(150):
        damaged = bytearray(whole.read_bytes())
        for _ in range(chance.randint(1, 6)):
            place = chance.randrange(len(damaged))
            # Bytes no XML takes end most reading at once; those of path data go further.
            byte = chance.choice(b' 0123456789.<"Mz') if kind == "svg" else chance.randrange(256)
            damaged[place : place + chance.randint(0, 8)] = bytes([byte])
        path = tmp_path / f"damaged.{kind}"
        path.write_bytes(damaged)
        try:
            import_die(path)
            outcomes["read"] += 1
        except MockupError:
            outcomes["refused"] += 1
    assert outcomes["read"] and outcomes["refused"]


def test_operators_without_operands_and_places_off_any_page_are_refused(tmp_path):
    for content, said in (
        (b"1 m 2 l S", "is broken"),
        (b"0 0 m 9000000000 1 l 5 5 l s", "beyond any"),
    ):
        pdf = pikepdf.new()
        page = pdf.add_blank_page(page_size=(100, 100))
        page.Contents = pdf.make_stream(content)
        pdf.save(tmp_path / "odd.pdf")
        with pytest.raises(InputError, match=said):
            import_die(tmp_path / "odd.pdf")
