"""Suite, scene and catalogue files that are no files of text: each ends in one clear line, soon."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from mockup.errors import MockupError
from mockup.printers.catalogue import read_printers
from mockup.suite.reading import read_suite
from mockup.suite.scene_file import read_scene_file

SECONDS = 5.0  # of work; what is opened wrongly never ends

READERS: dict[str, tuple[str, Callable[[Path], object]]] = {
    "suite": ("suite.toml", lambda folder: read_suite(folder / "suite.toml")),
    "scene": ("mine/scene.toml", lambda folder: read_scene_file("mine", folder)),
    "catalogue": ("printers/one.toml", lambda folder: read_printers(folder / "printers")),
}
ODD: dict[str, tuple[Callable[[Path], object], str]] = {
    "pipe": (lambda path: os.mkfifo(path), "is no regular file, but a device or a pipe"),
    "endless device": (lambda path: path.symlink_to("/dev/zero"), "is no regular file, but a device"),
    "empty device": (lambda path: path.symlink_to("/dev/null"), "is no regular file, but a device"),
    "dangling link": (lambda path: path.symlink_to("nowhere.toml"), "no such file"),
    "link to itself": (lambda path: path.symlink_to(path.name), "cannot be read"),
    "folder": (lambda path: path.mkdir(), "is a folder"),
    "large": (lambda path: path.write_bytes(b"# " + b"x" * 2_000_000), "the limit is 1 MB"),
    "text in UTF-16": (lambda path: path.write_text('title = "T"', encoding="utf-16"), "is text in UTF-16; save it as UTF-8"),
    "text in UTF-16 without its mark": (lambda path: path.write_text('title = "T"', encoding="utf-16-be"), "is not text in UTF-8"),
    "print file": (lambda path: path.write_bytes(b"%PDF-1.7\n%\xbf\xf7\n"), "is a PDF, no text; name the .toml file"),
    "large print file": (lambda path: path.write_bytes(b"%PDF-1.7" + bytes(2_000_000)), "is a PDF, no text"),
    "picture": (lambda path: path.write_bytes(b"\x89PNG\r\n\x1a\n"), "is a PNG picture, no text; name"),
    "zeros": (lambda path: path.write_bytes(bytes(5000)), "is not text in UTF-8"),
    "key of many parts": (lambda path: path.write_text("a" + ".a" * 20_000 + " = 1\n"), "nested more than 16 deep"),
    "table of many parts": (lambda path: path.write_text("[a" + ".b" * 20_000 + "]\n"), "nested more than 16 deep"),
    "spaced key of many parts": (lambda path: path.write_text("a" + " . 'b'" * 20_000 + " = 1\n"), "nested more than 16 deep"),
    "inline key of many parts": (lambda path: path.write_text("a = {b" + ".c" * 20_000 + " = 1}\n"), "nested more than 16 deep"),
    "many short keys": (lambda path: path.write_text("".join(f"a{k}.b.c = 1\n" for k in range(15_000))), "no key called"),
    "nested lists": (lambda path: path.write_text("title = " + "[" * 5_000 + "]" * 5_000), "nested more than 16 deep"),
}  # fmt: skip


@pytest.mark.parametrize("kind", READERS)
@pytest.mark.parametrize("odd", ODD)
def test_what_is_no_file_of_text_ends_in_one_line_that_names_it(
    tmp_path: Path, kind: str, odd: str
) -> None:
    name, read = READERS[kind]
    make, said = ODD[odd]
    path = tmp_path / name
    path.parent.mkdir(exist_ok=True)
    make(path)
    before = time.process_time()
    with pytest.raises(MockupError) as refused:
        read(tmp_path)
    assert time.process_time() - before < SECONDS
    lines = [str(each) for each in refused.value.mistakes]
    assert any(said in line for line in lines), lines[0][:300]
    for line in lines:
        assert line.startswith(str(path)) and line.isprintable() and len(line) < 1000, line[:300]
