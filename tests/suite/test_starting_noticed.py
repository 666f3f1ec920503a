"""A first suite file of what art says by its plates, layers and lines: finishes, folds, fronts."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, String

from mockup.suite.reading import read_suite
from mockup.suite.starting import begin, find_art, read_art
from mockup.suite.starting_text import suite_text
from mockup.suite.suite import Suite
from tests.conftest import make_pdf
from tests.foreign.test_presses import spot

BLACK = "0 0 0 1 k 150 150 60 60 re f "
SPOTS = {
    "F": ("Gold foil", 0, 0.2, 1, 0),
    "U": ("Heissfolie", 0, 0.2, 1, 0),
    "E": ("Blind emboss", 0, 0, 0, 0.5),
    "T": ("Tide", 0.8, 0.2, 0, 0),
    "N": ('Salt "marsh"\n[pieces.x]', 0.8, 0.2, 0, 0),
    "C": ("Crease", 0, 1, 0, 0),
}


def page(path: Path, size_in: tuple[float, float], *contents: str, layer: str = "Score",
         step: str | None = None, **entries: object) -> Path:  # fmt: skip
    """Writes a PDF of a page for each content; /F cs and the like are spots, /L BDC a layer."""
    make_pdf(path, size_in, pages=len(contents), **entries)  # pyright: ignore[reportArgumentType]
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        group = Dictionary(Type=Name.OCG, Name=String(layer))
        if step is not None:
            group_name, _, kind = step.partition("/")
            group.GTS_Metadata = Dictionary(
                GTS_ProcStepsGroup=Name(f"/{group_name}"), GTS_ProcStepsType=Name(f"/{kind}")
            )
        made = pdf.make_indirect(group)
        pdf.Root.OCProperties = Dictionary(OCGs=Array([made]), D=Dictionary(ON=Array([made])))
        spaces = Dictionary({f"/{key}": spot(*each) for key, each in SPOTS.items()})
        for content, each in zip(contents, pdf.pages, strict=True):
            each.obj["/Resources"] = Dictionary(ColorSpace=spaces, Properties=Dictionary(L=made))
            each.Contents = pdf.make_stream(content.encode())
        pdf.save(path)
    return path


def painted(key: str) -> str:
    return f"/{key} cs 1 scn 100 100 40 40 re f "


def upright(x_in: float, high_in: float, key: str = "C") -> str:
    return f"/{key} CS 1 SCN 0.5 w {x_in * 72} 0 m {x_in * 72} {high_in * 72} l S "


def started(folder: Path) -> tuple[str, Suite]:
    """What is written of a folder's art, and the suite it reads back as."""
    text = suite_text(begin(read_art(find_art([folder]))), folder)
    path = folder / "suite.toml"
    path.write_text(text, encoding="utf-8")
    return text, read_suite(path)


def test_a_plate_named_as_a_finish_is_written(tmp_path: Path) -> None:
    page(tmp_path / "card.pdf", (5.25, 7.25), BLACK + painted("F") + painted("E"))
    text, suite = started(tmp_path)
    assert set(suite.piece("card").finishes) == {"foil", "emboss"}
    assert 'finish = ["foil", "emboss"]  # by the art\'s plates "' in text
    assert "metal" not in text  # its name says gold
    assert "printed as spot ink" not in text  # neither is an ink that may be one


def test_a_foil_of_no_metal_is_written_with_the_question(tmp_path: Path) -> None:
    page(tmp_path / "card.pdf", (5.25, 7.25), BLACK + painted("U"))
    text, suite = started(tmp_path)
    (said,) = suite.piece("card").art.finishing
    assert (said.finish, said.plate, said.metal) == ("foil", "Heissfolie", None)
    assert 'which metal is it? add metal = "rose-gold", "gold"' in text


def test_another_spot_is_asked_of_and_cannot_break_the_file(tmp_path: Path) -> None:
    page(tmp_path / "card.pdf", (5.25, 7.25), BLACK + painted("T") + painted("N"))
    text, suite = started(tmp_path)
    assert suite.piece("card").finishes == ()
    assert [piece.name for piece in suite.pieces] == ["card"]
    (asked,) = [line for line in text.splitlines() if line.startswith("# printed as spot ink")]
    assert '"Tide"' in asked and r"\n[pieces.x]" in asked and "plate = " in asked


def test_of_many_spots_and_endless_names_a_few_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    many = {f"M{k}": (f"Tide {k}", 0.8, 0.2, 0, 0) for k in range(20)}
    monkeypatch.setitem(SPOTS, "X", ("Tide " + "x" * 4000, 0.8, 0.2, 0, 0))
    for key, each in many.items():
        monkeypatch.setitem(SPOTS, key, each)
    page(tmp_path / "card.pdf", (5.25, 7.25), BLACK + "".join(map(painted, ["X", *many])))
    text, _ = started(tmp_path)
    assert " and 14 more; is one" in text and "xxx" not in text


def test_a_layer_in_ordinary_ink_is_asked_of(tmp_path: Path) -> None:
    marks = "/OC /L BDC 0 0 0 1 k 20 20 30 30 re f EMC "
    page(tmp_path / "card.pdf", (5.25, 7.25), BLACK + marks, layer="Emboss")
    text, suite = started(tmp_path)
    assert '# the layer "Emboss" holds marks in ordinary ink' in text
    assert '{ as = "emboss", plate = "Emboss" }' in text
    assert suite.piece("card").finishes == ()


def test_a_backs_own_finishes_are_the_backs(tmp_path: Path) -> None:
    page(tmp_path / "card.pdf", (5.25, 7.25), BLACK, BLACK + painted("F"))
    text, suite = started(tmp_path)
    assert 'back = { page = 2, finish = ["foil"] }  # both pages are one size' in text
    assert suite.piece("card").finishes == ("foil",)


@pytest.mark.parametrize("step", [None, "Structural/Creasing"])
@pytest.mark.parametrize("trim", [None, (0.125, 0.125, 10.125, 7.125)])
def test_a_crease_in_the_middle_folds_the_card(
    tmp_path: Path, step: str | None, trim: tuple[float, float, float, float] | None
) -> None:
    """ISO 19593-1 calls the step Creasing; else the layer's name says it."""
    line = f"/OC /L BDC 0 1 0 0 K 0.5 w {5.125 * 72} 0 m {5.125 * 72} 522 l S EMC "
    name = "Score" if step is None else "Layer 4"
    page(tmp_path / "menu.pdf", (10.25, 7.25), BLACK + line, BLACK, layer=name, step=step)
    if trim is not None:
        with pikepdf.open(tmp_path / "menu.pdf", allow_overwriting_input=True) as pdf:
            for each in pdf.pages:
                each.TrimBox = Array([72 * side for side in trim])
            pdf.save()
    text, suite = started(tmp_path)
    menu = suite.piece("menu")
    assert (menu.fold, menu.die.width_in, menu.die.height_in) == ("left", 5, 7)
    assert [side.side for side in menu.sides] == ["outside", "inside"]
    assert 'card = "A7"' in text and f'by the line "{name}"' in text
    assert suite.envelopes[0].size.name == "A7"  # of the closed card


def test_a_level_crease_folds_at_the_top(tmp_path: Path) -> None:
    line = f"/C CS 1 SCN 0.5 w 0 {5.125 * 72} m 522 {5.125 * 72} l S "
    page(tmp_path / "tent.pdf", (7.25, 10.25), BLACK + line)
    text, suite = started(tmp_path)
    assert suite.piece("tent").fold == "top"
    assert 'card = "A7 landscape"' in text


@pytest.mark.parametrize("places", [(3.0,), (3.5, 7.0)])
def test_creases_elsewhere_are_asked_of(tmp_path: Path, places: tuple[float, ...]) -> None:
    lines = "".join(upright(0.125 + each, 7.25) for each in places)
    page(tmp_path / "menu.pdf", (10.25, 7.25), BLACK + lines)
    text, suite = started(tmp_path)
    assert suite.piece("menu").fold is None
    told = " and ".join(f"{each:g} in" for each in places)
    assert f'# the line "Crease" lies {told} from the left: is the sheet folded there?' in text


@pytest.mark.parametrize(
    "content", [upright(5.125, 2.0), f"/T CS 1 SCN {5.125 * 72} 0 m {5.125 * 72} 522 l S "]
)
def test_a_sheet_of_two_cards_without_a_crease_is_asked_of(tmp_path: Path, content: str) -> None:
    """A short line is no crease, nor is a line in an ink that is called otherwise."""
    page(tmp_path / "menu.pdf", (10.25, 7.25), BLACK + content, BLACK)
    text, suite = started(tmp_path)
    assert suite.piece("menu").fold is None and suite.piece("menu").back is not None
    asked = 'folded A7, its front the right half? then card = "A7", fold = "left" and `inside` in'
    assert asked in text


@pytest.mark.parametrize(
    ("size_in", "pages", "said"),
    [
        ((5.25, 7.25), 4, '10 × 7 in and the bleed, the front right of the back, and the inside; '
         'and say fold = "left"'),
        ((7.25, 5.25), 4, "7 × 10 in and the bleed, the front below the back"),
        ((5.25, 7.25), 3, ""),
    ],
)  # fmt: skip
def test_four_pages_of_one_size_are_asked_whether_they_are_panels(
    tmp_path: Path, size_in: tuple[float, float], pages: int, said: str
) -> None:
    make_pdf(tmp_path / "menu.pdf", size_in, pages=pages)
    told = [line for line in begin(read_art(find_art([tmp_path]))).told if "panels" in line]
    assert len(told) == bool(said) and all(said in line for line in told)


# Common practice, no source: an A7 envelope is 7 1/4 by 5 1/4 in, an A7 card 5 by 7 in.
def test_an_envelopes_front_is_its_face(tmp_path: Path) -> None:
    make_pdf(tmp_path / "invitation.pdf")
    page(tmp_path / "outer-envelope.pdf", (7.5, 5.5), BLACK, BLACK)
    text, suite = started(tmp_path)
    (outer,) = suite.envelopes
    assert outer.size.name == "A7" and outer.outside.face is not None
    assert [piece.name for piece in suite.pieces] == ["invitation"]
    assert '# flap_art = { art = "outer-envelope.pdf", page = 2 }  # is page 2 its back' in text


def test_a_replys_front_is_the_replys(tmp_path: Path) -> None:
    make_pdf(tmp_path / "invitation.pdf")
    make_pdf(tmp_path / "reply.pdf", (5.125, 3.75))
    make_pdf(tmp_path / "reply-envelope.pdf", (5.125, 3.625))
    make_pdf(tmp_path / "envelope.pdf", (7.25, 5.25))
    _, suite = started(tmp_path)
    names = {each.name: each.outside.face for each in suite.envelopes}
    assert {key: art and art.path.name for key, art in names.items()} == {
        "outer": "envelope.pdf",
        "reply": "reply-envelope.pdf",
    }


def test_a_front_for_no_envelope_of_the_suite_is_told(tmp_path: Path) -> None:
    make_pdf(tmp_path / "invitation.pdf")
    make_pdf(tmp_path / "envelope.pdf", (9.5, 4.125))
    begun = begin(read_art(find_art([tmp_path])))
    assert begun.told == (
        "envelope: no envelope of the suite is left for this front; write it into one as `face`",
    )


@pytest.mark.parametrize(("trim", "asked"), [(None, True), ((0.125, 0.125, 7.125, 5.125), False)])
def test_a_page_of_an_envelopes_size_is_asked_of(
    tmp_path: Path, trim: tuple[float, float, float, float] | None, asked: bool
) -> None:
    """7.25 by 5.25 in is an A7 card lying, with its bleed, and an A7 envelope's front; not where a
    TrimBox says which."""
    make_pdf(tmp_path / "invitation.pdf")
    make_pdf(tmp_path / "calligraphy.pdf", (7.25, 5.25), trim_in=trim)
    text, suite = started(tmp_path)
    assert suite.envelopes[0].outside.face is None
    assert ("is calligraphy this envelope's front?" in text) == asked


def test_what_cannot_be_looked_at_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from mockup.errors import LimitError
    from mockup.suite import noticing

    def refuse(*_: object) -> None:
        raise LimitError("card.pdf, page 1: too much")

    monkeypatch.setattr(noticing, "inspect", refuse)
    make_pdf(tmp_path / "card.pdf")
    (told,) = begin(read_art(find_art([tmp_path]))).told
    assert told == "card: its plates and lines are not looked at: card.pdf, page 1: too much"
