"""The live type of an SVG, line by line, with its place: SVG 1.1 chapter 10."""

import pytest

from mockup.vector.svg_reading import read_svg_template

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="4in" viewBox="0 0 4 4">'
    "<style>.off {{ display: none }}</style><path d='M0 0h1'/>{}</svg>"
)


def _words(content):
    return read_svg_template("t.svg", SVG.format(content).encode()).words


def test_a_line_has_its_words_place_and_colour():
    (found,) = _words('<text x="1" y="2" font-size=".2" fill="#f0f">Cut  line</text>')
    assert found.words == "Cut line"
    assert found.box.left == pytest.approx(1)
    assert found.box.bottom > 2 > found.box.top
    assert found.colour.values == (1, 0, 1)


def test_every_tspan_with_a_place_is_a_line_and_one_beside_another_goes_on():
    content = (
        '<text font-size=".2"><tspan x="1" y="1">Cut<tspan> line</tspan></tspan>'
        '<tspan x="1" y="2"><tspan fill="red">Safe</tspan></tspan><tspan x="1.6" y="2">zone</tspan>'
        "</text>"
    )
    assert [each.words for each in _words(content)] == ["Cut line", "Safe zone"]


def test_what_is_hidden_says_nothing():
    for off in ('class="off"', 'visibility="hidden"', 'display="none"', 'opacity="0"'):
        assert _words(f'<g {off}><text x="1" y="1">Cut line</text></g>') == ()
    assert _words('<text x="1" y="1"><tspan class="off">Cut line</tspan></text>') == ()


def test_type_is_moved_with_what_it_lies_in_and_anchored():
    moved = '<g transform="translate(1 1)"><text x="1" y="1" font-size=".2">Cut</text></g>'
    assert _words(moved)[0].box.left == pytest.approx(2)
    ended = '<text x="3" y="1" font-size=".2" text-anchor="end">Cut</text>'
    assert _words(ended)[0].box.right == pytest.approx(3)


def test_a_shapes_title_is_one_of_its_names():
    content = '<g><title>Die line</title><path d="M0 0h1v1z"/></g>'
    paths = read_svg_template("t.svg", SVG.format(content).encode()).paths
    assert paths[-1].layers == ("Die line",)
