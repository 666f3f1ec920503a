"""Proofs that come back oddly, and records that were damaged since."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pikepdf
import pymupdf
from pikepdf import Array, Dictionary, Name
from PIL import Image

import mockup
from benchmarks.hostile.case import Case
from benchmarks.yardstick import ART

REFUSED = frozenset({4})
SUITE = (
    'title = "T"\n[pieces.reply]\nart = "reply.pdf"\ncard = "4-bar landscape"\n'
    '[envelopes.outer]\nsize = "4-bar"\nholds = ["reply"]\n'
)
Change = Callable[[Path], None]


@cache
def _sent() -> dict[str, bytes]:
    """Returns a suite that was proofed: its files, its proof and its record, by their names."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "reply.pdf").write_bytes((ART / "reply.pdf").read_bytes())
        (folder / "suite.toml").write_text(SUITE, encoding="utf-8")
        mockup.write_proof(mockup.ProofRequest(folder / "suite.toml", folder / "proof.pdf"))
        files = [each for each in folder.rglob("*") if each.is_file()]
        return {str(each.relative_to(folder)): each.read_bytes() for each in files}


def _changed(change: Change) -> Change:
    def lay(folder: Path) -> None:
        for name, content in _sent().items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(content)
        change(folder)

    return lay


def _by_pikepdf(change: Callable[[pikepdf.Pdf], object]) -> Change:
    def write(folder: Path) -> None:
        with pikepdf.open(folder / "proof.pdf", allow_overwriting_input=True) as pdf:
            change(pdf)
            pdf.save(folder / "proof.pdf")

    return write


def _scanned(dpi: int, turn: int, skew: float) -> Change:
    """The page of answers, empty, as a scanner hands it over."""

    def write(folder: Path) -> None:
        with pymupdf.open(folder / "proof.pdf") as document:
            drawn = document[-1].get_pixmap(dpi=dpi)
        page = Image.frombytes("RGB", (drawn.width, drawn.height), drawn.samples)
        page = page.rotate(skew, Image.Resampling.BICUBIC, fillcolor="white")
        page.rotate(turn, expand=True).save(folder / "proof.pdf", resolution=dpi, quality=75)

    return write


def _event(change: Callable[[Path], object]) -> Change:
    def write(folder: Path) -> None:
        (event,) = (folder / "suite.record").glob("*-proof-*.toml")
        change(event)

    return write


def _ring(pdf: pikepdf.Pdf) -> None:
    field = pdf.Root.AcroForm.Fields[0]
    field.Kids = Array([field])


_RETURNED: dict[str, Callable[[pikepdf.Pdf], object]] = {
    "empty": lambda pdf: None,
    "fields-ring": _ring,
    "fields-null": lambda pdf: pdf.Root.AcroForm.__setitem__("/Fields", Array([None, 5])),
    "fields-name": lambda pdf: pdf.Root.AcroForm.__setitem__("/Fields", Name.X),
    "form-list": lambda pdf: pdf.Root.__setitem__("/AcroForm", Array([1])),
    "info": lambda pdf: pdf.trailer.__setitem__("/Info", pdf.make_indirect(Dictionary(Title=7))),
    "pages-last-gone": lambda pdf: pdf.pages.__delitem__(-1),
    "pages-turned": lambda pdf: [page.obj.__setitem__("/Rotate", 90) for page in pdf.pages],
}
_EVENTS: dict[str, Callable[[Path], object]] = {
    "cut": lambda path: path.write_bytes(path.read_bytes()[:500]),
    "zeros": lambda path: path.write_bytes(bytes(900)),
    "none": lambda path: path.write_bytes(b""),
    "large": lambda path: path.write_bytes(b"# " + b"x" * (9 << 20)),
    "changed": lambda path: path.write_text(path.read_text().replace("[[items]]", "[[item]]", 1)),
}


def cases() -> Iterator[Case]:
    """Yields every case: no empty page of answers says anything, whoever scanned it."""
    signoff = ("signoff", "proof.pdf", "suite.toml", "--by", "Ada Saltmarsh")
    for name, change in _RETURNED.items():
        lay = _changed(_by_pikepdf(change))
        yield Case(f"returned-{name}", lay, signoff, REFUSED, kept=("proof.pdf",))
    for dpi in (60, 75, 90, 100, 120, 150, 200):
        for turn in (0, 90, 180, 270):
            for skew in (0.0, 0.4):
                lay = _changed(_scanned(dpi, turn, skew))
                yield Case(f"scan-{dpi}-{turn}-{skew}", lay, signoff, REFUSED)
    for name, change in _EVENTS.items():
        lay = _changed(_event(change))
        told = "suite.record/0001"
        yield Case(f"event-{name}-signoff", lay, signoff, REFUSED, told)
        yield Case(f"event-{name}-status", lay, ("status", "suite.toml"), frozenset({10}), told)
