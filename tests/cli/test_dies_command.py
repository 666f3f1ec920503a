"""`mockup dies` and `mockup options` as typed: answers for machines, tables, and exit codes."""

import json

import pytest
from typer.testing import CliRunner

from mockup.cli.commands import app
from tests.conftest import ART, make_pdf
from tests.mockup_command import mockup

RUN = CliRunner()
DEMO = ("--catalogues", str(ART / "printers"))


def _asked(*words):
    answer = RUN.invoke(app, list(words))
    assert answer.exit_code == 0, answer.output
    return answer.output


def test_dies_answer_in_json_names_parameters_and_who_has_them():
    answer = json.loads(_asked("dies", "--card", "A7", "--json", *DEMO))
    lancet = next(die for die in answer["dies"] if die["name"] == "lancet-arch")
    assert lancet["parameters"]["rise"] == pytest.approx(4.3301, abs=1e-4)
    assert lancet["available"][0].keys() >= {"printer", "card", "price"}
    assert lancet["available"][0]["card"] == "A7"


def test_dies_are_listed_in_a_table_one_printer_alone():
    text = _asked("dies", "--printer", "weir", *DEMO)
    assert "stadium" in text and "Weir Lane" in text and "Sluice" not in text


def test_a_suite_is_told_who_has_its_dies(tmp_path):
    import pymupdf

    document = pymupdf.open()
    document.new_page(width=5.25 * 72, height=7.25 * 72).draw_rect((20, 20, 99, 99), fill=(1, 0, 0))
    document.save(tmp_path / "a.pdf")
    (tmp_path / "suite.toml").write_text(
        'title = "T"\n[pieces.one]\nart = "a.pdf"\ncard = "A7"\ndie = "trefoil-top"\n'
    )
    text = _asked("dies", str(tmp_path / "suite.toml"), *DEMO)
    assert "nobody has it" in text and "lancet-arch" in text and "made to order" in text
    answer = json.loads(_asked("dies", str(tmp_path / "suite.toml"), "--json", *DEMO))
    assert "lancet-arch" in answer["pieces"][0]["dies"]
    out = tmp_path / "o.pdf"
    words = ["options", str(tmp_path / "suite.toml"), "one", "--dies", "ellipse,gable", "--json"]
    shown = json.loads(_asked(*words, "-o", str(out)))
    assert [option["die"] for option in shown["options"]] == ["ellipse", "gable"]
    assert [option["in_stock"] for option in shown["options"]] == [None, None]
    assert "catalogue" in shown["advice"]
    assert out.read_bytes().startswith(b"%PDF")


def _page(path):
    import pymupdf

    with pymupdf.open(path) as document:
        return " ".join("".join(page.get_text() for page in document).split())


def _suite(folder, die):
    make_pdf(folder / "a.pdf")
    suite = folder / "suite.toml"
    suite.write_text(
        f'title = "T"\n[pieces.one]\nart = "a.pdf"\ncard = "A7"\ndie = "{die}"\n'
        '[pieces.two]\nart = "a.pdf"\ncard = "A7"\ndie = "ellipse"\n'
    )
    return str(suite)


@pytest.mark.slow
def test_a_suite_without_catalogues_is_told_nothing_of_invented_printers(tmp_path):
    suite = _suite(tmp_path, "lancet-arch")
    for words in (["dies", suite], ["dies", suite, "--json"]):
        text = _asked(*words)
        assert "Sluice" not in text and "USD" not in text
    assert "put a printer's catalogue" in " ".join(_asked("dies", suite).split())
    for studio in ([], ["--for", "studio", "--dies", "lancet-arch,ellipse"]):
        out = tmp_path / "o.pdf"
        said = " ".join(_asked("options", suite, "one", "-o", str(out), *studio).split())
        told = _page(out)
        assert "put a printer's catalogue" in said and "Sluice" not in told
        assert "in stock" not in told.lower().replace("are in stock", "")
        assert "the present shape" in told
        assert ("for the studio" in told.lower()) == bool(studio)
        assert ("put a printer" in told) == bool(studio)


def test_the_present_die_is_marked_once(tmp_path):
    suite = _suite(tmp_path, "lancet-arch")
    words = ["options", suite, "one", "--dies", "ellipse,lancet-arch,gable", *DEMO, "--json"]
    shown = json.loads(_asked(*words, "-o", str(tmp_path / "o.pdf")))["options"]
    assert [each["die"] for each in shown if each["present"]] == ["lancet-arch"]
    assert _page(tmp_path / "o.pdf").count("the present shape") == 1


def test_four_shapes_fill_the_page(tmp_path):
    """Two by two on letter: 11 in less title, captions and foot leave each row 3.5 in at least."""
    suite = _suite(tmp_path, "lancet-arch")
    words = ["options", suite, "one", "--dies", "ellipse,gable,hexagon,ogee-label", "--json"]
    assert json.loads(_asked(*words, "-o", str(tmp_path / "o.pdf")))["scale"] >= 0.5


def test_the_sheet_of_a_suite_holds_its_dies(tmp_path):
    sheet = tmp_path / "dies.pdf"
    _asked("dies", _suite(tmp_path, "lancet-arch"), "--sheet", str(sheet), *DEMO)
    told = _page(sheet)
    assert "One: lancet-arch" in told and "Two: ellipse" in told and "stadium" not in told
    assert "A7 0.58 USD, Sluice End Letterpress (invented)" in told


def test_arch_names_the_arches(tmp_path):
    answer = RUN.invoke(app, ["dies", _suite(tmp_path, "arch")])
    told = str(answer.exception)
    for each in ("round-arch", "lancet-arch", "ogee-arch", "three-centred-arch", "twin-arch"):
        assert each in told
    assert "stadium" not in told


def test_a_mistake_ends_with_one_line_and_the_suites_exit_code(tmp_path):
    """Exit code 3: a name or value that cannot be."""
    ended = mockup("dies", "--card", "A77")
    assert ended.returncode == 3
    assert len(ended.stderr.splitlines()) == 1 and 'no card size called "A77"' in ended.stderr
