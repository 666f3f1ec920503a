"""The cut among outlines that speak for themselves more or less, and what is asked for."""

import hashlib

import pytest

from mockup.dies.importing import import_die
from mockup.errors import DieError, InputError

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" '
    'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" '
    'width="10in" height="10in" viewBox="0 0 10 10">'
    "<style>.off {{ display: none }} path, rect, circle {{ fill: none }}</style>{}</svg>"
)


def _rect(inset, colour, more="", wide=5, high=7):
    """A rectangle round or in one of 5 x 7 at 1, 1."""
    size = f'width="{wide - 2 * inset}" height="{high - 2 * inset}"'
    return f'<rect x="{1 + inset}" y="{1 + inset}" {size} stroke="{colour}" {more}/>'


def _line(colour, y, more=""):
    return f'<path d="M1 {y}H1.5" stroke="{colour}" {more}/>'


def _text(words, y, fill="#000"):
    return f'<text x="1.6" y="{y + 0.03}" font-size=".12" fill="{fill}">{words}</text>'


@pytest.fixture
def template(tmp_path):
    def write(*content):
        path = tmp_path / "leaf.svg"
        path.write_text(SVG.format("".join(content)), encoding="utf-8")
        return path

    return write


NESTED = (_rect(-0.125, "#00f"), _rect(0, "#f0f"), _rect(0.125, "#0a0"))


def _size(found):
    return (round(found.die.width_in, 4), round(found.die.height_in, 4))


@pytest.mark.parametrize("card", [None, (5, 7)])
def test_of_three_nested_outlines_the_middle_one_is_the_cut(card, template):
    found = import_die(template(*NESTED), card)
    assert _size(found) == (5, 7)
    assert "0.125 in inside the bleed line and 0.125 in outside the safe line" in found.die.because
    assert (found.die.bleed_in, found.die.safe_in) == pytest.approx((0.125, 0.125))
    assert found.die.others.startswith("the next candidates are the solid")


def test_the_sentence_is_one_a_designer_can_check(template):
    legend = (_line("#f0f", 9), _text("Cut line", 9), _line("#0a0", 9.3), _text("Safe", 9.3))
    said = import_die(template(*NESTED, *legend), (5, 7)).die.because
    assert said == (
        "the solid magenta outline, 5 × 7 in: it has the card's size, lies 0.125 in inside the "
        "bleed line and 0.125 in outside the safe line, and the legend beside a magenta line says "
        '"Cut line"'
    )
    assert "127 × 177.8 mm" in import_die(template(*NESTED), (5, 7), unit="mm").die.because


@pytest.mark.parametrize(
    ("legend", "wide"),
    [
        ((_line("#f00", 9), _text("Stanzlinie", 9)), 4.8),
        ((_line("#00f", 9), _text("Zone de sécurité", 9)), 4.8),
        ((_line("#f00", 9), _text("Safe zone: keep type inside the cut", 9)), 4.5),
        ((_text("Red: bleed. Blue: die cut", 9),), 4.5),
        ((_text("Linea di taglio", 9, "#f00"),), 4.8),
        ((_text("Final size 4.8 x 6.8 in", 9),), 4.8),
        ((_text("Bleed size 4.8 x 6.8 in", 9),), 4.5),
    ],
)
def test_a_legend_decides_between_two_outlines(legend, wide, template):
    pair = (_rect(0.1, "#f00"), _rect(0.25, "#00f"))
    assert _size(import_die(template(*pair, *legend)))[0] == wide


def test_two_outlines_that_nothing_tells_apart_are_refused_with_both(template):
    with pytest.raises(InputError) as told:
        import_die(template(_rect(0.1, "#f00"), _rect(0.225, "#00f")))
    assert "1: 4.8 × 6.8 in, solid red" in str(told.value)
    assert "2: 4.55 × 6.55 in, solid blue" in str(told.value)
    dashed = _rect(0.25, "#00f", 'stroke-dasharray=".1" id="limit"')
    path = template('<g inkscape:label="Layer 3">', _rect(0.1, "#00f"), dashed, "</g>")
    with pytest.raises(
        InputError, match='no layer or ink called "outside"; there are Layer 3, lim'
    ):
        import_die(path, pick="outside")
    with pytest.raises(InputError, match='2: 4.5 × 6.5 in, dashed blue, "Layer 3" "limit"'):
        import_die(path, pick="outside")


@pytest.mark.parametrize(
    ("pick", "wide"),
    [
        ("2", 5), ("magenta", 5), ("pink", 5), ("#ff00ff", 5), ("blau", 5.25), ("#00f", 5.25),
        ("5 x 7 in", 5), ("4.75 x 6.75", 4.75), ("127 x 177.8 mm", 5), ("green", 4.75), ("page", 10),
    ],
)  # fmt: skip
def test_pick_takes_a_number_a_colour_or_a_size(pick, wide, template):
    found = import_die(template(*NESTED), pick=pick)
    assert found.die.width_in == pytest.approx(wide)
    assert "as asked" in found.die.because


def test_a_pick_that_means_more_than_one_lists_them(template):
    path = template(_rect(-0.125, "#f00"), _rect(0, "#f00"))
    with pytest.raises(InputError, match=r'"red" is said of 2 outlines.*1: 5\.25.*2: 5 × 7'):
        import_die(path, pick="red")
    assert _size(import_die(path, (5, 7), pick="red")) == (5, 7)


def test_the_card_is_never_told_to_follow_a_wrong_line(template):
    with pytest.raises(DieError) as told:
        import_die(template(*NESTED), (6, 9))
    assert "none of its outlines has the card's size, 6 × 9 in" in str(told.value)
    assert "1: 5.25 × 7.25 in" in str(told.value) and "2: 5 × 7 in" in str(told.value)
    assert "give the card" not in str(told.value)


def test_a_name_and_the_cards_size_that_contradict_each_other_are_refused(template):
    path = template(_rect(0, "#f00"), '<g id="die-cut">', _rect(0.5, "#00f"), "</g>")
    with pytest.raises(InputError, match="is named as the cut, but .* has the card's size"):
        import_die(path, (5, 7))
    assert _size(import_die(path, (4, 6))) == (4, 6)


def test_a_name_that_holds_the_whole_template_says_nothing_of_one_line(template):
    for card in (None, (5, 7)):
        die = import_die(template('<g id="Dieline">', *NESTED, "</g>"), card).die
        assert (die.width_in, die.safe_in, die.bleed_in) == pytest.approx((5, 0.125, 0.125))


def test_a_shape_within_its_own_rectangle_is_the_cut(template):
    arch = '<path d="M1 8V3.5A2.5 2.5 0 0 1 6 3.5V8Z" stroke="#f00"/>'
    found = import_die(template(_rect(0, "#888"), arch), (5, 7))
    assert "it has the card's size, and touches the rectangle round it" in found.die.because
    assert found.die.because.startswith("the solid red outline")


def test_a_stroke_turned_to_shapes_is_refused_whichever_edge_has_the_cards_size(template):
    for edge in (0.0, 0.01):
        low, wide, high = 1 - edge, 6 + edge, 8 + edge
        outer = f"M{low} {low}H{wide}V{high}H{low}Z"
        inner = f"M{low + 0.01} {low + 0.01}V{high - 0.01}H{wide - 0.01}V{low + 0.01}Z"
        path = template(f'<path d="{outer} {inner}" style="fill:#f0f"/>')
        with pytest.raises(InputError, match="turned to shapes"):
            import_die(path, (5, 7))


def test_hidden_is_hidden(template):
    shown = '<g id="Layer 1">' + _rect(0, "#f00") + "</g>"
    for off in ('class="off"', 'style="visibility:hidden"', 'opacity="0"', 'display="none"'):
        path = template(f'<g inkscape:label="Die cut" {off}>', _rect(0.5, "#f00"), "</g>", shown)
        assert _size(import_die(path)) == (5, 7)


@pytest.mark.parametrize(
    ("content", "holes"),
    [
        ('<circle cx="3.5" cy="1.6" r=".125" stroke="#f0f"/>', 1),
        ('<g id="Drill"><circle cx="2" cy="2" r=".125" stroke="#00f"/></g>', 1),
        ('<circle cx="3.5" cy="4" r=".125" stroke="#000"/>', 0),  # an ornament
        ('<rect x="2" y="3" width="3" height="1" stroke="#000"/>', 0),  # a frame for type
        (_rect(0.125, "#f0f"), 0),  # a safe zone in the colour of the cut
        ('<path d="M2 9l.1 -.05v.1z" style="fill:#f0f"/>', 0),  # an arrow
    ],
)
def test_what_is_a_hole_and_what_is_not(content, holes, template):
    found = import_die(template(_rect(0, "#f0f"), content), (5, 7))
    assert len(found.die.shape.holes) == holes


def test_a_sample_in_the_legend_inside_the_card_is_no_hole(template):
    sample = '<rect x="2" y="5" width=".3" height=".2" stroke="#f0f"/>'
    label = '<text x="2.4" y="5.15" font-size=".15">Cut line</text>'
    found = import_die(
        template('<g id="dieline">', _rect(0, "#f0f"), sample, "</g>", label), (5, 7)
    )
    assert found.die.shape.holes == ()


def test_a_page_that_is_the_card_is_the_cut_and_its_safe_zone_is_kept(tmp_path):
    page = '<svg xmlns="http://www.w3.org/2000/svg" width="5in" height="7in" viewBox="0 0 5 7">{}</svg>'
    path = tmp_path / "page.svg"
    safe = '<rect x=".125" y=".125" width="4.75" height="6.75" fill="none" stroke="green"/>'
    path.write_text(page.format(safe))
    found = import_die(path, (5, 7))
    assert _size(found) == (5, 7)
    assert found.die.because.startswith("the page's own edge")
    assert found.die.safe_in == pytest.approx(0.125)
    with pytest.raises(InputError, match="it may be the cut, or be drawn on a card as large"):
        import_die(path)
    path.write_text(page.format('<rect width="5" height="7" fill="#eee"/>'))
    assert _size(import_die(path)) == (5, 7)


def test_lines_drawn_one_by_one_are_joined_past_a_fold_that_meets_them(template):
    sides = "M1 1H6 M6 1V4.5 M6 4.5V8 M6 8H1 M1 8V4.5 M1 4.5V1"
    lines = "".join(
        f'<path d="{each}" stroke="#000"/>' for each in sides.replace(" M", "|M").split("|")
    )
    fold = '<path d="M1 4.5H6" stroke="#000"/>'
    found = import_die(template(lines, fold), (5, 7))
    assert _size(found) == (5, 7)
    assert len(found.folds) == 1


def test_the_fingerprint_is_the_files(template):
    path = template(*NESTED)
    assert import_die(path).die.template_sha256 == hashlib.sha256(path.read_bytes()).hexdigest()


def _ring(radius, colour="#f0f", x=3.5):
    return f'<circle cx="{x}" cy="2" r="{radius}" stroke="{colour}"/>'


@pytest.mark.parametrize("inner", [0.125, 0.19])
def test_two_rings_round_one_hole_are_refused_with_both_and_the_way_out(inner, template):
    with pytest.raises(InputError) as told:
        import_die(template(_rect(0, "#f0f"), _ring(0.2), _ring(inner)), (5, 7))
    said = str(told.value)
    assert f"two rings, 0.4 in across and {2 * inner:g} in across, lie round one hole at" in said
    assert "3.5, 2 in from the top left" in said and 'a layer called "no cut"' in said


def test_a_ring_put_aside_as_told_is_no_hole(template):
    """What the refusal says to do is what helps."""
    aside = f'<g id="no cut">{_ring(0.2)}</g>'
    found = import_die(template(_rect(0, "#f0f"), _ring(0.125), aside), (5, 7))
    (hole,) = found.die.shape.holes
    assert hole.box.width == pytest.approx(0.25, abs=1e-3)


def test_holes_that_overlap_are_told_as_two(template):
    with pytest.raises(InputError, match="two holes, 0.4 in across and 0.3 in across, overlap"):
        import_die(template(_rect(0, "#f0f"), _ring(0.2), _ring(0.15, x=3.75)), (5, 7))
