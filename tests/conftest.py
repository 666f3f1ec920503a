"""What the tests share: the demo suite's files, and small PDFs made on the spot."""

from __future__ import annotations

import gc
import os
import shutil
import signal
import sys
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

# Before numpy is loaded: as many tests run at once as there are cores, and threads of a library
# beside them only wait for one another. The workshop's workers have it so too.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
import pikepdf
import pytest
from hypothesis import settings

# The program is started a hundred times, and its modules are many: what is compiled is kept.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# How long one example takes says nothing on a machine that is busy.
settings.register_profile("mockup", deadline=None)
settings.load_profile("mockup")

# A run in the background ignores interrupts, and so do its children; some tests send them one.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

ART = Path(__file__).parent.parent / "assets_demo"


def pytest_collection_finish() -> None:
    """Has the collector of garbage pass over the libraries and the tests, which stay to the end, and
    come seldom: a thirtieth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000)


@pytest.fixture(scope="session")
def art() -> Path:
    """The folder of the demo suite; read only."""
    return ART


@pytest.fixture
def demo_suite(tmp_path: Path) -> Path:
    """A copy of the demo's suite file and art, to be changed by a test."""
    for file in [ART / "suite.toml", *ART.glob("*.pdf")]:
        shutil.copy(file, tmp_path / file.name)
    return tmp_path / "suite.toml"


@contextmanager
def covers_left_plain() -> Generator[None]:
    """Has proofs drawn with a grey cover: its picture takes longer than all the rest of a proof.

    The golden pictures draw it.
    """

    def grey(*_: object) -> np.ndarray:
        return np.full((60, 80, 3), 200, np.uint8)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("mockup.asks.proof.flatlay_picture", grey)
        yield


@pytest.fixture(scope="module")
def plain_cover() -> Generator[None]:
    """Proofs with a grey cover, for all of a module's tests: `usefixtures("plain_cover")`."""
    with covers_left_plain():
        yield


def make_pdf(
    path: Path,
    size_in: tuple[float, float] = (5.25, 7.25),
    content: str = "0.2 g 60 60 100 100 re f",
    trim_in: tuple[float, float, float, float] | None = None,
    pages: int = 1,
    **entries: object,
) -> Path:
    """Writes a PDF of plain pages; `trim_in` is left, bottom, right, top; entries go on pages."""
    pdf = pikepdf.new()
    width, height = (side * 72 for side in size_in)
    for _ in range(pages):
        page = pdf.add_blank_page(page_size=(width, height))
        page.Contents = pdf.make_stream(content.encode())
        if trim_in is not None:
            page.TrimBox = pikepdf.Array([side * 72 for side in trim_in])
        for key, value in entries.items():
            page.obj[f"/{key}"] = value
    pdf.save(path)
    return path
