"""Workers started while the rest of the program still loads: two cores are there to be used."""

from __future__ import annotations


def make_ready() -> None:
    """Starts the workers that will draw; returns at once."""
    from mockup.workshop import crew

    crew.make_ready("mockup.foreign.raster:drawn")
