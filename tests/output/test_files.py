"""Files written whole: what goes wrong is told by the name a reader knows."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.errors import OutputError
from mockup.output.files import whole_folder, write_whole


def test_a_file_of_a_whole_folder_is_told_by_where_it_was_to_be(tmp_path: Path) -> None:
    with (
        pytest.raises(OutputError, match=r"cannot be written") as refused,
        whole_folder(tmp_path) as beside,
    ):
        write_whole(beside / "a.png", b"whole")
        write_whole(beside / "no" / "b.png", b"lost")
    assert str(refused.value).startswith(f"{tmp_path / 'no' / 'b.png'}: ")
    assert not [*tmp_path.iterdir()]
