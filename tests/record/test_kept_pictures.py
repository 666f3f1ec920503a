"""Pictures kept in the record: what a revision showed can be seen again, true to size."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from mockup.errors import InputError, LimitError, OutputError
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
