"""Catalogues of papers: read, and every mistake in them told at once."""

from pathlib import Path

import pytest

from mockup.errors import SuiteError
from mockup.printers.paper_catalogue import (
    catalogue_place,
    find_papers,
    paper_named,
    read_papers,
)

SHIPPED = Path(__file__).parents[2] / "assets_demo" / "papers"

GOOD = """
name = "Groyne Papers"
[[papers]]
name = "Bladder Wrack"
colour = "#3B3A2C"
gsm = 120
texture = "laid"
[[papers]]
name = "Sea Lavender"
lab = [62, 8.5, -14.25]
condition = "M1"
backing = "black"
"""

BAD = """
name = ""
color = 3
[[papers]]
name = "A"
colour = "blue"
[[papers]]
name = "a"
lab = [1, 2]
condition = "M9"
[[papers]]
name = "B,c"
lab = [120, 0, 0]
condition = "M1"
[[papers]]
colour = "#123456"
[[papers]]
name = "D"
colour = "#123456"
lab = [50, 0, 0]
condition = "M1"
backing = "white"
gsm = -3
[[papers]]
name = "E"
backing = "white"
[[papers]]
name = "G"
lab = [nan, inf, 3]
condition = "M1"
backing = "black"
texture = "velvet"
[[papers]]
name = "H"
lab = [50, 0, -129]
condition = "M0"
backing = "black"
"""


def written(folder, name, text):
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_a_catalogue_is_read(tmp_path):
    first, second = read_papers(written(tmp_path, "g.toml", GOOD))
    assert (first.name, first.merchant, first.colour_hex) == (
        "Bladder Wrack", "Groyne Papers", "#3b3a2c",
    )  # fmt: skip
    assert (first.lab, first.texture, first.gsm) == (None, "laid", 120)
    assert second.lab == (62, 8.5, -14.25) and second.colour_hex is None
    assert second.measured == "measured M1, black backing"


def test_the_demos_catalogue_is_read_and_says_that_it_is_invented():
    papers = find_papers(SHIPPED)
    assert 6 <= len(papers) <= 12
    assert all(paper.merchant.endswith("(invented)") for paper in papers)


def test_every_mistake_is_told_once_with_its_key(tmp_path):
    with pytest.raises(SuiteError) as told:
        read_papers(written(tmp_path, "bad.toml", BAD))
    keys = [mistake.key for mistake in told.value.mistakes]
    assert sorted(keys) == sorted(
        [
            "name", "color", "papers.1.colour", "papers.2.name", "papers.2.lab",
            "papers.2.condition", "papers.2.backing", "papers.3.name", "papers.3.lab",
            "papers.3.backing", "papers.4.name", "papers.5.gsm", "papers.5.lab", "papers.6",
            "papers.7.lab.1", "papers.7.lab.2", "papers.7.texture",
            "papers.8.lab",
        ]
    )  # fmt: skip
    assert all(mistake.file.endswith("bad.toml") for mistake in told.value.mistakes)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is missing"),
        (b"name = 'A'\npapers = []", "is empty"),
        (b"name = 'A'\npapers = 3", "3 is a whole number"),
        (b"name = 'A'\n[papers]\nx = 1", "papers"),
        (b"name = 'A'\n[[papers]]\nname = 3\ncolour = 4", "text in quotes"),
        (b"name = 'A'\n[[papers]]\nname = 'B'\nlab = 'x'\ncondition='M1'\nbacking='white'", "list"),
        (b"name = 'A'\n[[papers]]\nname = '  '\ncolour = '#123456'", "is empty"),
        (b"\xff\xfen\x00", "UTF-16"),
        (b"name = ", "line 1"),
        (b"name = 'A'\n" + b"[[papers]]\nname = 'x'\ncolour = '#123456'\n" * 501, "at most 500"),
    ],
    ids=range(10),
)
def test_hostile_files_are_refused_in_a_line(tmp_path, content, said):
    path = tmp_path / "x.toml"
    path.write_bytes(content)
    with pytest.raises(SuiteError) as told:
        read_papers(path)
    assert said in str(told.value)
    assert len(told.value.mistakes) <= 101


def test_papers_are_found_beside_the_suite_in_a_folder_or_a_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    suite = tmp_path / "work" / "suite.toml"
    written(tmp_path, "work/suite.toml", "")
    assert find_papers(None, suite) == ()
    single = written(tmp_path, "work/papers.toml", GOOD)
    assert catalogue_place(None, suite) == single
    assert [paper.name for paper in find_papers(None, suite)] == ["Bladder Wrack", "Sea Lavender"]
    folder = tmp_path / "work" / "papers"
    folder.mkdir()
    assert find_papers(None, suite) == ()  # of something else, that has the name by chance
    written(folder, "a.toml", GOOD)
    written(folder, "b.toml", GOOD.replace("Groyne", "Staithe"))
    assert len(find_papers(None, suite)) == 4
    with pytest.raises(SuiteError, match="holds no catalogue"):
        (tmp_path / "empty").mkdir()
        find_papers(tmp_path / "empty")
    with pytest.raises(SuiteError, match="no such file"):
        find_papers(tmp_path / "nothing.toml")


def test_mistakes_of_several_files_are_told_together(tmp_path):
    written(tmp_path, "a.toml", "name = 3")
    written(tmp_path, "b.toml", "name = 'B'\n[[papers]]\nname = 'x'")
    with pytest.raises(SuiteError) as told:
        find_papers(tmp_path)
    assert {Path(mistake.file).name for mistake in told.value.mistakes} == {"a.toml", "b.toml"}


def test_a_paper_is_named_in_any_case_and_by_its_merchant_where_two_have_it(tmp_path):
    written(tmp_path, "a.toml", GOOD)
    papers = find_papers(tmp_path)
    assert paper_named(papers, " sea LAVENDER ").name == "Sea Lavender"
    assert paper_named(papers, "thrift") is None
    written(tmp_path, "b.toml", GOOD.replace("Groyne", "Staithe"))
    both = find_papers(tmp_path)
    with pytest.raises(SuiteError, match='write "Groyne Papers/Sea Lavender"'):
        paper_named(both, "sea lavender")
    assert paper_named(both, "staithe papers/sea lavender").merchant == "Staithe Papers"


def test_a_list_whose_one_row_is_wrong_is_not_told_as_empty(tmp_path):
    text = 'name = "M"\n[[papers]]\nname = "A"\ncolour = "#f1eee5"\ngsm = nan\n'
    (tmp_path / "m.toml").write_text(text)
    with pytest.raises(SuiteError) as refused:
        read_papers(tmp_path / "m.toml")
    assert [each.key for each in refused.value.mistakes] == ["papers.1.gsm"]
