"""Pictures kept in the record: what a revision showed can be seen again, true to size."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from mockup.comparing.wording import WORDS_MOST, Word
from mockup.errors import InputError, LimitError, OutputError
from mockup.geometry.point import Box
from mockup.record.kept_words import words_kept
from mockup.record.pictures import (
    PX_MAX,
    Kept,
    keep_picture,
    kept_picture,
    kept_ppi,
    picture_file,
)
from mockup.record.reading import Record, read_record
from mockup.record.writing import write_event
from tests.record.made import item, proof, suite_in

CARD = item("card")
PICTURE = np.random.default_rng(1).integers(0, 256, (30, 20, 4), np.uint8)


@pytest.fixture
def record(tmp_path: Path) -> Record:
    write_event(read_record(suite_in(tmp_path)), proof(1, CARD, item("envelopes.outer")))
    return read_record(suite_in(tmp_path))


def test_a_picture_comes_back_as_it_was(record: Record) -> None:
    keep_picture(record, CARD, Kept(PICTURE, 200.0))
    kept = kept_picture(record, 1, "card")
    assert kept is not None and (kept.picture == PICTURE).all()
    assert kept.ppi == pytest.approx(200.0, abs=0.02)  # pHYs counts whole pixels a metre
    assert kept_picture(record, 2, "card") is None
    assert kept_picture(record, 1, "reply") is None
    assert kept_picture(record, 1, "envelopes.outer") is None


def test_an_unchanged_piece_is_kept_once_a_changed_one_beside_it(record: Record) -> None:
    first = keep_picture(record, CARD, Kept(PICTURE, 200.0))
    assert keep_picture(record, CARD, Kept(PICTURE[::-1], 200.0)) == first
    other = item("card", quantity="2")
    assert keep_picture(record, other, Kept(PICTURE[::-1], 200.0)) != first
    write_event(record, proof(2, other))
    again = read_record(suite_in(record.folder.parent))
    assert again.mistakes == ()  # pictures are no strangers in a record
    before, after = kept_picture(again, 1, "card"), kept_picture(again, 2, "card")
    assert before and after and (before.picture[::-1] == after.picture).all()


def test_the_words_of_a_picture_come_back_with_it(record: Record) -> None:
    words = (
        Word("o\u2019clock", Box(0.5, 1, 1.25, 1.2), 0),
        Word('"\u6c34\u8eca"', Box(-0.01, 2, 1, 2.2), 1),
    )
    keep_picture(record, CARD, Kept(PICTURE, 300.0, words))
    kept = kept_picture(record, 1, "card")
    assert kept is not None and kept.words == words and (kept.picture == PICTURE).all()


def test_a_picture_kept_without_words_says_nothing(record: Record) -> None:
    keep_picture(record, CARD, Kept(PICTURE, 300.0))
    kept = kept_picture(record, 1, "card")
    assert kept is not None and kept.words == ()


SOUND = '["cider",0.5,1,1.25,1.2,0]'


@pytest.mark.parametrize(
    "said",
    [
        "",
        "{}",
        "7",
        "null",
        "[7]",
        "[[]]",
        f"[{SOUND},7]",
        '[["cider",0,0,1,1]]',
        "[[7,0,0,1,1,0]]",
        '[["",0,0,1,1,0]]',
        '[["cider",NaN,0,1,1,0]]',
        '[["cider",1e999,0,1,1,0]]',
        '[["cider","0",0,1,1,0]]',
        '[["cider",null,0,1,1,0]]',
        '[["cider",true,0,1,1,0]]',
        '[["cider",0,0,1,1,0.5]]',
        '[["ci\\u0007der",0,0,1,1,0]]',
        '[["ci\\u202eder",0,0,1,1,0]]',
        '[["ci\\ud800der",0,0,1,1,0]]',
        f'[["{"x" * 10_000}",0,0,1,1,0]]',
        f"[{','.join([SOUND] * (WORDS_MOST + 1))}]",
        "[" * 100_000,
    ],
)
def test_words_that_are_not_as_they_were_written_say_nothing(said: str) -> None:
    assert words_kept(f"[{SOUND}]") == (Word("cider", Box(0.5, 1, 1.25, 1.2), 0),)
    assert words_kept(said) == ()


def test_a_picture_whose_words_unpack_to_very_much_is_refused_or_says_nothing(
    record: Record,
) -> None:
    file = keep_picture(record, CARD, Kept(PICTURE, 300.0))
    texts = PngInfo()
    texts.add_itxt("words", " " * 200_000_000, zip=True)
    file.unlink()
    Image.fromarray(PICTURE).save(file, "PNG", pnginfo=texts)
    assert file.stat().st_size < 1_000_000
    with pytest.raises(InputError):
        kept_picture(record, 1, "card")


@pytest.mark.parametrize(("size", "ppi"), [((5, 7), 300), ((8.27, 11.69), 300), ((20, 20), 150)])
def test_a_very_large_piece_is_kept_coarser(size: tuple[float, float], ppi: float) -> None:
    assert kept_ppi(*size) == pytest.approx(ppi)
    assert size[0] * size[1] * kept_ppi(*size) ** 2 <= PX_MAX * (1 + 1e-9)


def test_a_picture_that_was_spoilt_is_told_by_name(record: Record) -> None:
    file = keep_picture(record, CARD, Kept(PICTURE, 200.0))
    whole = file.read_bytes()
    for spoilt in (whole[:200], b"", b"GIF89a", whole[:60] + b"\0" * 40 + whole[100:]):
        file.write_bytes(spoilt)
        with pytest.raises(InputError, match=file.name):
            kept_picture(record, 1, "card")


def test_a_picture_too_large_to_be_ours_is_not_opened(record: Record) -> None:
    file = picture_file(record, CARD)
    file.parent.mkdir()
    Image.new("1", (5000, 5000)).save(file)
    with pytest.raises(LimitError, match="5000 x 5000 px"):
        kept_picture(record, 1, "card")
    Image.new("1", (14_000, 14_000)).save(picture_file(record, CARD))
    with pytest.raises(LimitError, match="far too large"):
        kept_picture(record, 1, "card")


def test_pictures_are_not_written_through_links(record: Record, tmp_path: Path) -> None:
    (tmp_path / "away").mkdir()
    picture_file(record, CARD).parent.symlink_to(tmp_path / "away")
    with pytest.raises(OutputError, match="is a link"):
        keep_picture(record, CARD, Kept(PICTURE, 200.0))
    assert list((tmp_path / "away").iterdir()) == []
