"""Images: are they placed with enough pixels an inch, pictures and line art by their own limits?"""

from __future__ import annotations

from mockup.artwork.inspection import Painted, Placed
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.page_facts import on_card
from mockup.trade.tolerances import (
    BITMAP_PPI,
    BITMAP_PPI_LOW,
    BITMAP_PPI_STOP,
    IMAGE_PPI,
    IMAGE_PPI_LOW,
    IMAGE_PPI_STOP,
    IMAGE_SKIPPED_PX,
)

CHECK = "resolution"


def check_images(context: PageContext) -> list[Finding]:
    """Returns the images that are too coarse as placed."""
    return [
        finding
        for painted in on_card(context.page)
        if painted.image is not None
        and (finding := _too_coarse(context, painted, painted.image)) is not None
    ]


def _too_coarse(context: PageContext, painted: Painted, image: Placed) -> Finding | None:
    line_art = image.bits == 1
    warned, stopped, wanted = (
        (BITMAP_PPI_LOW, BITMAP_PPI_STOP, BITMAP_PPI)
        if line_art
        else (IMAGE_PPI_LOW, IMAGE_PPI_STOP, IMAGE_PPI)
    )
    if min(image.width_px, image.height_px) <= IMAGE_SKIPPED_PX:
        return None
    if round(image.ppi) >= warned.value:
        return None
    low = round(image.ppi) < stopped.value
    what = "a picture of black and white alone" if line_art else "an image"
    message = (
        f"{what} is placed at {image.ppi:.0f} pixels an inch ({image.width_px} × "
        f"{image.height_px} px)"
    )
    pixels = image.width_px * wanted.value / image.ppi
    fix = f"place one {pixels:.0f} px wide ({wanted.value:.0f} an inch)"
    if not line_art:
        fix += f", or this at {image.ppi / wanted.value * 100:.0f} % of its size"
    else:
        fix += ", or draw it as outlines"
    return found(
        CHECK,
        Severity.STOP if low else Severity.WARN,
        context.page.piece.name,
        message,
        fix,
        stopped if low else warned,
        image.ppi,
        Point(painted.box.left, painted.box.top),
    )
