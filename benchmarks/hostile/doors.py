"""Outputs that must not be written over, odd arguments, and systems that fail."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

from benchmarks.hostile.case import Case
from benchmarks.hostile.tomls import demo
from benchmarks.yardstick import ART

WRONG = frozenset({2, 3, 4, 5, 7})
OUTPUT = frozenset({2, 5})
FLATLAY = ("flatlay", "suite.toml", "--width", "300", "-o")


def with_file(make: Callable[[Path], None]) -> Callable[[Path], None]:
    def lay(folder: Path) -> None:
        demo(folder)
        make(folder)

    return lay


def _leaf(folder: Path) -> None:
    """A suite with a template die and a scene of its own beside the demo's."""
    demo(folder)
    shutil.copytree(ART.parent / "scenes" / "slate", folder / "mine")
    shutil.copytree(ART / "printers", folder / "printers")
    (folder / "leaf.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="7in" height="9in" viewBox="0 0 7 9">'
        '<path id="cut" fill="none" stroke="#f0f" stroke-width=".01" d="M1 2L3.5 1L6 2V8H1Z"/></svg>'
    )
    text = (folder / "suite.toml").read_text(encoding="utf-8")
    text = text.replace('die = "lancet-arch"', 'die = { file = "leaf.svg" }')
    text = text.replace('name = "limewash"', 'name = "mine"')
    (folder / "suite.toml").write_text(text, encoding="utf-8")


def cases() -> Iterator[Case]:
    yield from _over_inputs()
    yield from _odd_places()
    yield from _endings()
    yield from _arguments()
    yield from _systems()


def _over_inputs() -> Iterator[Case]:
    """Every output of every command, aimed at every file it reads, by name, link and hard link."""
    inputs = ("suite.toml", "invitation.pdf", "liner.pdf", "leaf.svg", "mine/scene.toml",
              "printers/weir-lane.toml")  # fmt: skip
    commands = {
        "flatlay": ("flatlay", "suite.toml", "--width", "300", "-o"),
        "proof": ("proof", "suite.toml", "-o"),
        "options": ("options", "suite.toml", "reply", "-o"),
        "piece": ("piece", "invitation.pdf", "--die", "leaf.svg", "-o"),
        "marked": ("check", "suite.toml", "--marked"),
        "shifted": ("check", "suite.toml", "--shifted"),
        "sheet": ("dies", "suite.toml", "--sheet"),
        "start": ("start", "invitation.pdf", "reply.pdf", "--replace", "-o"),
    }
    endings = {"flatlay": ".png", "proof": ".pdf", "options": ".pdf", "piece": ".png",
               "marked": ".pdf", "shifted": ".png", "sheet": ".pdf", "start": ".toml"}  # fmt: skip
    for name, arguments in commands.items():
        for aim in inputs:
            if name == "start" and aim not in ("invitation.pdf",):
                continue
            yield Case(
                f"over-{name}-{aim}", _leaf, (*arguments, aim), WRONG, kept=(Path(aim).name,)
            )

        def hard(folder: Path, ending: str = endings[name]) -> None:
            _leaf(folder)
            os.link(folder / "invitation.pdf", folder / f"out{ending}")

        def soft(folder: Path, ending: str = endings[name]) -> None:
            _leaf(folder)
            (folder / f"out{ending}").symlink_to(folder / "invitation.pdf")

        out = f"out{endings[name]}"
        yield Case(f"hard-link-{name}", hard, (*arguments, out), WRONG, kept=("invitation.pdf",))
        yield Case(
            f"soft-link-{name}", soft, (*arguments, out), WRONG, kept=("invitation.pdf", out)
        )


def _odd_places() -> Iterator[Case]:
    def fifo(folder: Path) -> None:
        demo(folder)
        os.mkfifo(folder / "out.png")

    def folder_there(folder: Path) -> None:
        demo(folder)
        (folder / "out.png").mkdir()

    def dangling(folder: Path) -> None:
        demo(folder)
        (folder / "out.png").symlink_to(folder / "nowhere.png")

    yield Case("out-fifo", fifo, (*FLATLAY, "out.png"), OUTPUT, kept=("out.png",))
    yield Case("out-folder", folder_there, (*FLATLAY, "out.png"), OUTPUT, kept=("out.png",))
    yield Case("out-dangling", dangling, (*FLATLAY, "out.png"), OUTPUT, kept=("out.png",))
    yield Case("out-device", demo, (*FLATLAY, "/dev/null"), OUTPUT)
    yield Case("out-full", demo, (*FLATLAY, "/dev/full"), OUTPUT)
    yield Case("out-stdout", demo, (*FLATLAY, "/dev/stdout"), OUTPUT)
    yield Case("out-no-folder", demo, (*FLATLAY, "no/such/out.png"), OUTPUT)
    yield Case("out-proc", demo, (*FLATLAY, "/proc/out.png"), OUTPUT)
    yield Case("out-empty", demo, (*FLATLAY, ""), OUTPUT)
    yield Case("out-nul", demo, ("proof", "suite.toml", "-o", "x" * 300 + ".pdf"), OUTPUT)
    yield Case("out-under-file", demo, (*FLATLAY, "suite.toml/out.png"), OUTPUT)
    yield Case("portfolio-file", demo, ("portfolio", "suite.toml", "-o", "suite.toml"), OUTPUT)
    yield Case("demo-file", demo, ("demo", "suite.toml"), OUTPUT)
    for special in ("/dev/zero", "/dev/null", "/dev/stdin", "/proc/self/mem", "."):
        yield Case(f"suite-{special}", demo, ("flatlay", special, "-o", "o.png"), WRONG, seconds=10)
        yield Case(f"art-{special}", demo, ("piece", special, "-o", "o.png"), WRONG, seconds=10)

    def fifo_in(folder: Path) -> None:
        demo(folder)
        os.mkfifo(folder / "in")

    for arguments in (("flatlay", "in", "-o", "o.png"), ("piece", "in", "-o", "o.png"),
                      ("piece", "invitation.pdf", "--die", "in.svg", "-o", "o.png"),
                      ("dies", "--catalogues", "in"), ("start", "in", "-o", "o.toml"),
                      ("check", "in")):  # fmt: skip
        yield Case(f"fifo-{arguments[0]}-{len(arguments)}", fifo_in, arguments, WRONG, seconds=10)


def _endings() -> Iterator[Case]:
    for out in ("o.pdf", "o.gif", "o", "o.png.exe", "o.tiff", "o.svg"):
        yield Case(f"ending-flatlay-{out}", demo, (*FLATLAY, out), OUTPUT)
    for out in ("o.png", "o", "o.ps"):
        yield Case(f"ending-proof-{out}", demo, ("proof", "suite.toml", "-o", out), OUTPUT)
    for out in ("o.jpg", "o.pdf", "o"):
        yield Case(f"ending-piece-{out}", demo, ("piece", "reply.pdf", "-o", out), OUTPUT)
    for out in ("o.jpeg", "o.JPG"):
        yield Case(f"ending-flatlay-{out}", demo, (*FLATLAY, out), frozenset({0}))
    yield Case("ending-sheet", demo, ("dies", "--sheet", "o.png"), OUTPUT)
    yield Case("ending-marked", demo, ("check", "suite.toml", "--marked", "o.png"), OUTPUT)
    yield Case("ending-shifted", demo, ("check", "suite.toml", "--shifted", "o.pdf"), OUTPUT)


def _arguments() -> Iterator[Case]:
    odd = ("nan", "inf", "-1", "0", "1e308", "9" * 500, "", "x", "\x1b[2J", "1/8 in", "3,5 mm")
    commands: dict[str, tuple[str, ...]] = {
        "ppi": ("piece", "reply.pdf", "-o", "o.png", "--ppi"),
        "page": ("piece", "reply.pdf", "-o", "o.png", "--page"),
        "card": ("piece", "reply.pdf", "-o", "o.png", "--card"),
        "line-width": ("piece", "reply.pdf", "-o", "o.png", "--line-width"),
        "line-colour": ("piece", "reply.pdf", "-o", "o.png", "--line-colour"),
        "die": ("piece", "reply.pdf", "-o", "o.png", "--die"),
        "stock": ("piece", "reply.pdf", "-o", "o.png", "--stock"),
        "width": ("flatlay", "suite.toml", "-o", "o.png", "--width"),
        "aspect": ("flatlay", "suite.toml", "-o", "o.png", "--width", "300", "--aspect"),
        "scene": ("flatlay", "suite.toml", "-o", "o.png", "--width", "300", "--scene"),
        "safe": ("check", "suite.toml", "--safe"),
        "wander": ("check", "suite.toml", "--wander"),
        "turn": ("check", "suite.toml", "--turn"),
        "near": ("check", "suite.toml", "--near"),
        "post": ("check", "suite.toml", "--post"),
        "paper": ("dies", "--sheet", "o.pdf", "--paper"),
        "proof-paper": ("proof", "suite.toml", "-o", "o.pdf", "--paper"),
        "printer": ("dies", "--printer"),
        "dies-card": ("dies", "--card"),
        "options-piece": ("options", "suite.toml", "-o", "o.png", "--"),
        "options-dies": ("options", "suite.toml", "reply", "-o", "o.png", "--dies"),
        "options-width": ("options", "suite.toml", "reply", "-o", "o.png", "--width"),
    }
    for name, arguments in commands.items():
        for k, value in enumerate(odd):
            yield Case(f"argument-{name}-{k}", demo, (*arguments, value))
    yield Case(
        "argument-a5", demo, ("dies", "--sheet", "o.pdf", "--paper", "a5"), frozenset({2, 3, 5})
    )
    yield Case("argument-none", demo, ())
    yield Case("argument-unknown", demo, ("flatly", "suite.toml"), frozenset({2}))
    yield Case("argument-nul-name", demo, ("piece", "no\x01such.pdf", "-o", "o.png"), WRONG)
    yield Case(
        "piece-136-megapixels",
        demo,
        ("piece", "invitation.pdf", "-o", "o.png", "--ppi", "1970"),
        frozenset({0}),
        seconds=120,
    )


def _systems() -> Iterator[Case]:
    full = frozenset({5})
    for name, arguments in {
        "dies": ("dies",), "json": ("dies", "--json"), "check": ("check", "suite.toml"),
        "help": ("--help",), "version": ("--version",),
        "start": ("start", "reply.pdf", "-o", "o.toml"),
    }.items():  # fmt: skip
        yield Case(
            f"stdout-full-{name}",
            demo,
            arguments,
            full,
            stdout="full",
            kept=("suite.toml",),
            written=("o.toml",),
        )
    for coding in ("cp1252", "ascii", "cp437"):
        environment = {"PYTHONIOENCODING": coding, "PYTHONUTF8": "0"}
        for name, arguments in {"dies": ("dies",), "check": ("check", "suite.toml"),
                                "start": ("start", "reply.pdf", "-o", "o.toml")}.items():  # fmt: skip
            yield Case(f"terminal-{coding}-{name}", demo, arguments, environment=environment)

        def named(folder: Path) -> None:
            demo(folder)
            shutil.copy(folder / "reply.pdf", folder / "\u6f6e\u98df-\U0001f9a2.pdf")

        yield Case(
            f"terminal-{coding}-name",
            named,
            ("start", "\u6f6e\u98df-\U0001f9a2.pdf", "-o", "o.toml"),
            environment=environment,
        )
    plain = {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    yield Case("terminal-c", demo, ("dies",), environment=plain)

    def escapes(folder: Path) -> None:
        demo(folder)
        shutil.copy(folder / "reply.pdf", folder / "re\x1b[31mply\x07.pdf")

    yield Case("name-escape", escapes, ("piece", "re\x1b[31mply\x07.pdf", "-o", "o.png"))
    yield Case("name-escape-start", escapes, ("start", "re\x1b[31mply\x07.pdf", "-o", "o.toml"))
    yield Case(
        "no-home", demo, ("dies",), environment={"HOME": "/nonexistent", "TMPDIR": "/nonexistent"}
    )
    yield Case("no-temporary", demo, (*FLATLAY, "o.png"), environment={"TMPDIR": "/nonexistent"})
