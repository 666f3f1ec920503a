"""Which catalogues an ask reads: none of them is ever written over."""

from __future__ import annotations

from pathlib import Path

from mockup.printers.catalogue import catalogue_files, catalogue_folder


def inputs_of_catalogues(folder: Path | None, suite: Path | None) -> list[Path]:
    """Returns the catalogue files that are read where a folder, or none, is named."""
    place = catalogue_folder(folder, suite)
    return [] if place is None else catalogue_files(place)
