"""What every ask for a list of what there is looks at: where its picture goes, in what units."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.asks.values import PathGiven, choice_of, path_or_none, pixels
from mockup.output.destination import PICTURE_OR_PDF, Destination, refuse_unfit
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX
from mockup.units import Unit

WIDTH_MIN_PX = 600  # judgement: narrower, the names cannot be read


@dataclass(frozen=True)
class GalleryRequest:
    """A list of what there is. output: a .png, .jpg or .pdf to draw it into, None for none. units:
    "in" or "mm". width_px: of a picture, 600 to 12000."""

    output: PathGiven | None = None
    units: str = "in"
    width_px: int = 2000


@dataclass(frozen=True)
class Looked:
    """A request looked at."""

    output: Path | None
    units: Unit
    width_px: int


def looked_at(request: GalleryRequest) -> Looked:
    """Returns a request's values. Raises RequestError, LimitError, OutputError."""
    output = path_or_none("output", request.output)
    units: Unit = "mm" if choice_of("units", request.units, ("in", "mm")) == "mm" else "in"
    width_px = pixels("width_px", request.width_px, WIDTH_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    if output is not None:
        refuse_unfit([Destination(output, "gallery", PICTURE_OR_PDF)])
    return Looked(output, units, width_px)
