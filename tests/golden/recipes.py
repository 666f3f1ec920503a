"""The golden pictures: which commands draw them, and which of their files are kept.

All of them come through the command line, so that they hold while what is behind it is moved.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

import pypdfium2 as pdfium

from tests.mockup_command import mockup

HERE = Path(__file__).parent
ART = HERE.parent.parent / "assets_demo"


@dataclass(frozen=True)
class Golden:
    """A picture that is kept: its name, the file it is read from, and its pixels an inch.

    A page of a PDF is drawn at `ppi` by PDFium, another engine than the one that drew the art.
    """

    name: str
    file: str
    ppi: float
    page: int | None = None


@dataclass(frozen=True)
class Recipe:
    """A command in a folder of the demo's art, and the pictures that are kept of what it makes."""

    arguments: tuple[str, ...]
    goldens: tuple[Golden, ...]


def _flatlay(name: str, suite: str, width: int, table_in: float, *more: str) -> Recipe:
    out = f"{name}.png"
    arguments = ("flatlay", suite, "-o", out, "--width", str(width), *more)
    return Recipe(arguments, (Golden(name, out, width / table_in),))


def _piece(name: str, art: str, die: str, stock: str) -> Recipe:
    out = f"{name}.png"
    arguments = ("piece", art, "--die", die, "--stock", stock, "--ppi", "50", "-o", out)
    return Recipe(arguments, (Golden(name, out, 50),))


_CLOSED = "closed.toml"
RECIPES: dict[str, Recipe] = {
    "piece in an arch": _piece("piece-arch", "invitation.pdf", "lancet-arch", "cotton-110-white"),
    "piece with a hole": _piece("piece-hole", "reply.pdf", "holed.svg", "kraft-100"),
    "flatlay plain": _flatlay("flatlay-plain", "suite.toml", 300, 14, "--plain"),
    "flatlay lit": _flatlay("flatlay-lit", "suite.toml", 300, 14),
    "envelope open": _flatlay("envelope-open", "open.toml", 240, 12, "--aspect", "1:1"),
    "envelope closed": _flatlay("envelope-closed", _CLOSED, 200, 10, "--aspect", "1:1"),
    "flatlay bound": _flatlay("flatlay-bound", "bound.toml", 300, 14),
    "options": Recipe(
        ("options", "suite.toml", "reply", "-o", "options.png", "--width", "600",
         "--dies", "ticket-corner,ellipse,ogee-label"),
        (Golden("options", "options.png", 600 / 11),),
    ),
    "proof": Recipe(
        ("proof", "suite.toml", "-o", "proof.pdf", "--date", "2026-11-26"),
        (
            Golden("proof-cover", "proof.pdf", 30, page=1),
            Golden("proof-invitation", "proof.pdf", 36, page=2),
            Golden("proof-envelope", "proof.pdf", 36, page=5),
        ),
    ),
    "portfolio": Recipe(
        ("portfolio", _CLOSED, "-o", "portfolio", "--long-side", "200", "--scene", "sunroom"),
        (
            Golden("portfolio-edge", "portfolio/detail-edge.png", 200 / 3.5),
            Golden("portfolio-9x16", "portfolio/suite-9x16.png", 20),
        ),
    ),
    "flatlay with things": _flatlay(
        "flatlay-things", "suite.toml", 270, 14, "--scene", "slate", "--things"
    ),
}  # fmt: skip


def lay_out(folder: Path) -> None:
    """Copies the demo's suite, art and printers, and the goldens' own suites, into a folder."""
    shutil.copytree(ART / "printers", folder / "printers")
    files = (HERE / "files").iterdir()
    for file in (ART / "suite.toml", *ART.glob("*.pdf"), *files):
        shutil.copy(file, folder)


def drawn(recipe: Recipe, folder: Path) -> dict[str, Path]:
    """Returns the pictures a recipe's command makes in a folder laid out, PNG files by name."""
    answer = mockup(*recipe.arguments, cwd=folder)
    assert answer.returncode == 0, answer.stderr
    return {golden.name: _picture(golden, folder) for golden in recipe.goldens}


def _picture(golden: Golden, folder: Path) -> Path:
    made = folder / golden.file
    if golden.page is None:
        return made
    page = pdfium.PdfDocument(made)[golden.page - 1]
    path = folder / f"{golden.name}.png"
    page.render(scale=golden.ppi / 72, rev_byteorder=True).to_pil().convert("RGB").save(path)
    return path
