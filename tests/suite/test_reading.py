"""The suite file: read with defaults, and every mistake told with its key and remedy."""

from pathlib import Path

import pytest

from mockup.colour.srgb import to_hex
from mockup.errors import SuiteError
from mockup.geometry.measure import area
from mockup.suite.reading import read_suite, with_scene
from mockup.trade.papers import PAPER_COLOURS, stock
from tests.conftest import make_pdf

SMALLEST = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "A7"
"""


def written(folder: Path, text: str) -> Path:
    make_pdf(folder / "card.pdf")
    path = folder / "suite.toml"
    path.write_text(text, encoding="utf-8")
    return path


def mistakes(folder: Path, text: str) -> str:
    with pytest.raises(SuiteError) as caught:
        read_suite(written(folder, text))
    return str(caught.value)


def test_the_smallest_suite_takes_sensible_defaults(tmp_path: Path) -> None:
    suite = read_suite(written(tmp_path, SMALLEST))
    (piece,) = suite.pieces
    assert (piece.title, piece.die.name, piece.art.page) == ("Card", "rectangle", 1)
    assert (piece.die.width_in, piece.die.height_in, piece.bleed_in) == (5, 7, 0.125)
    assert (suite.revision, suite.scene.name, suite.paper) == ("1", "limewash", "letter")


def test_the_demo_suite_is_read(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    assert [piece.name for piece in suite.pieces] == ["invitation", "details", "reply"]
    reply = suite.piece("reply")
    assert (reply.die.width_in, reply.die.height_in) == (4.875, 3.5)
    outer, back = suite.envelopes
    assert outer.spec.flap == "deep-pointed"
    assert outer.liner is not None and back.liner is None
    assert back.holds == ("reply",)


def test_an_envelope_has_its_own_colour_or_its_stocks(tmp_path: Path) -> None:
    text = SMALLEST
    for name, more in (("a", ""), ("b", 'stock = "text-80-kraft"'), ("c", 'colour = "#102030"')):
        text += f'[envelopes.{name}]\nsize = "A7"\n{more}\n'
    colours = [to_hex(each.colour) for each in read_suite(written(tmp_path, text)).envelopes]
    assert colours == [
        PAPER_COLOURS["oat"].colour_hex,
        stock("text-80-kraft").colour_hex,
        "#102030",
    ]


def test_millimetres(tmp_path: Path) -> None:
    text = SMALLEST.replace("title", 'units = "mm"\nbleed = 3\ntitle').replace(
        "A7", "127 x 177.8 mm"
    )
    (piece,) = read_suite(written(tmp_path, text)).pieces
    assert (piece.die.width_in, piece.bleed_in) == pytest.approx((5.0, 3 / 25.4))


def test_a_die_with_parameters(tmp_path: Path) -> None:
    text = SMALLEST + 'die = { shape = "ticket-corner", radius = "10 mm" }\n'
    (piece,) = read_suite(written(tmp_path, text)).pieces
    assert dict(piece.die.parameters)["radius"] == pytest.approx(10 / 25.4)


TEMPLATE = """<svg xmlns="http://www.w3.org/2000/svg" width="5in" height="7in" viewBox="0 0 50 70">
<path id="{id}" d="M25 0 L50 35 L25 70 L0 35 Z" fill="none" stroke="#000"/></svg>"""


def test_a_die_from_a_printers_template(tmp_path: Path) -> None:
    (tmp_path / "kite.svg").write_text(TEMPLATE.format(id="cut"))
    (piece,) = read_suite(written(tmp_path, SMALLEST + 'die = { file = "kite.svg" }\n')).pieces
    assert piece.die.name == "kite"
    assert (piece.die.width_in, piece.die.height_in) == pytest.approx((5.0, 7.0))
    assert area(piece.die.shape) == pytest.approx(17.5)
    assert piece.die.because.startswith('the layer "cut", whose name means cut')


def test_a_template_of_another_size_is_not_stretched(tmp_path: Path) -> None:
    (tmp_path / "kite.svg").write_text(TEMPLATE.format(id="cut"))
    text = SMALLEST.replace('"A7"', '"A6"') + 'die = { file = "kite.svg" }\n'
    assert "pieces.card.die: " in mistakes(tmp_path, text)
    assert "0.5 in" in mistakes(tmp_path, text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (SMALLEST.replace("card =", "crad ="), 'pieces.card.crad: no key called "crad"; did you mean "card"?'),
        (SMALLEST.replace("card =", "crad ="), "pieces.card.card: is missing"),
        (SMALLEST + 'die = "tickt-corner"\n', 'no die called "tickt-corner"; did you mean "ticket-corner"?'),
        (SMALLEST + 'die = { file = "leaf.pdf" }\n', "leaf.pdf: no such file"),
        (SMALLEST + 'die = { file = "leaf.pdf", pik = "cut" }\n', 'no key called "pik"; did you mean "pick"?'),
        (SMALLEST + "die = { radius = 1 }\n", "says no shape and no file"),
        (SMALLEST + 'stock = "coton-110-white"\n', 'did you mean "cotton-110-white"?'),
        (SMALLEST + "quantity = 0\n", "pieces.card.quantity: 0 cannot be"),
        (SMALLEST + 'die = { shape = "ticket-corner", radius = 9 }\n', "pieces.card.die.radius: die ticket-corner at 5 × 7 in"),
        (SMALLEST.replace('"A7"', '"A99"'), "pieces.card.card:"),
        (SMALLEST.replace("card.pdf", "crad.pdf"), 'no file "crad.pdf" beside the suite file'),
        (SMALLEST + '[proof]\npaper = "a5"\n', 'proof.paper: "a5" is not allowed; it is "letter" or "a4"'),
        (SMALLEST + '[envelopes.outer]\nsize = "A7"\nholds = ["crad"]\n', 'no piece called "crad"; did you mean "card"?'),
        (SMALLEST + '[envelopes.outer]\nsize = "A7"\nholds = ["back"]\n[envelopes.back]\nsize = "4-bar"\n', '"back" is an envelope; it goes inside by itself'),
        (SMALLEST + '[envelopes.outer]\nsize = "A7"\nflap = "deep"\n', 'did you mean "deep-pointed"?'),
        (SMALLEST + '[envelopes.outer]\nsize = "A7"\ncolour = "inkblue"\n', 'did you mean "ink-blue"?'),
        (SMALLEST + '[cut_line]\ncolour = "pink"\n', 'cut_line.colour: "pink" is not a colour'),
        (SMALLEST.replace('"Supper"', '""'), "title: is empty"),
        ("title = \n", 'line 1, column 9, at "title =": this is no value'),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_its_key_and_the_nearest_match(
    tmp_path: Path, text: str, told: str
) -> None:
    assert told in mistakes(tmp_path, text)


def test_several_mistakes_are_reported_together(tmp_path: Path) -> None:
    text = SMALLEST + 'die = "tickt"\nstock = "silk"\n[envelopes.outer]\nsize = "Z9"\n'
    lines = mistakes(tmp_path, text).splitlines()
    assert len(lines) == 3
    assert all(line.startswith(str(tmp_path / "suite.toml")) for line in lines)


def test_mistakes_of_form_do_not_hide_mistaken_names(tmp_path: Path) -> None:
    text = SMALLEST + 'dei = "ellipse"\nstock = "silk"\n[pieces.other]\nart = "card.pdf"\n'
    text += '[envelopes.outer]\nsize = "A7"\ncolour = "inkblue"\n'
    told = mistakes(tmp_path, text)
    assert len(told.splitlines()) == 4
    for part in ('no key called "dei"', "pieces.other.card: is missing", '"silk"', '"inkblue"'):
        assert part in told


def test_a_missing_suite_file_says_how_to_write_one(tmp_path: Path) -> None:
    with pytest.raises(SuiteError, match="`mockup start` writes one"):
        read_suite(tmp_path / "none.toml")


def test_another_scene_leaves_the_rest_as_it_was(tmp_path: Path) -> None:
    suite = read_suite(written(tmp_path, SMALLEST))
    other = with_scene(suite, "slate", None)
    assert (other.scene.name, other.scene.arrange) == ("slate", 1)
    assert other.pieces == suite.pieces


def test_an_unknown_shape_is_told_at_its_own_key(tmp_path):
    make_pdf(tmp_path / "card.pdf")
    file = tmp_path / "suite.toml"
    file.write_text(
        'title = "T"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\ndie = { shape = "tickt" }\n'
    )
    with pytest.raises(SuiteError) as refused:
        read_suite(file)
    (mistake,) = refused.value.mistakes
    assert (mistake.key, mistake.value) == ("pieces.card.die.shape", "tickt")
    assert 'no die called "tickt"; did you mean "ticket' in mistake.sentence


def test_a_thing_that_is_nowhere_is_told_when_the_scene_is_read(tmp_path):
    make_pdf(tmp_path / "card.pdf")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "own.svg").write_text("<svg/>")
    things = "".join(f'[[things]]\nsvg = "{name}"\n' for name in ("twine", "twien", "own.svg"))
    (tmp_path / "mine" / "scene.toml").write_text(things)
    file = tmp_path / "suite.toml"
    file.write_text(
        'title = "T"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n[scene]\nname = "mine"\n'
    )
    with pytest.raises(SuiteError) as refused:
        read_suite(file)
    (mistake,) = refused.value.mistakes
    assert mistake.file == str(tmp_path / "mine" / "scene.toml")
    assert (mistake.key, mistake.value) == ("things.2.svg", "twien")
    assert 'no thing called "twien"; did you mean "twine"' in mistake.sentence


def test_more_mistakes_than_anybody_reads_are_told_as_that(tmp_path):
    file = tmp_path / "suite.toml"
    file.write_text("".join(f"odd{k} = 1\n" for k in range(500)))
    with pytest.raises(SuiteError) as refused:
        read_suite(file)
    assert len(refused.value.mistakes) == 101
    assert "more than 100 mistakes" in refused.value.mistakes[-1].sentence
