"""What an SVG must not do: reach outside itself, refer to itself, unfold without end."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from mockup.errors import InputError, LimitError, with_file
from mockup.vector.svg_images import refuse_image
from mockup.vector.svg_tree import called, href_of, open_svg, tag_of
from mockup.vector.svg_unfolding import CSS_URL, NOT_DRAWN, is_told, refuse_endless

_TAKES_DATA = frozenset({"image", "feImage"})


def check_svg(name: str, source: bytes) -> None:
    """Returns nothing; raises InputError or LimitError where an SVG must not be drawn."""
    try:
        refuse_harm(open_svg(source))
    except (InputError, LimitError) as error:
        raise with_file(error, name) from error


def refuse_harm(root: Element) -> None:
    """Raises InputError where a tree reaches outside itself, LimitError where it never ends."""
    for element in root.iter():
        _refuse_outside(element)
    refuse_endless(root)


def _refuse_outside(element: Element) -> None:
    tag = tag_of(element)
    if tag not in NOT_DRAWN:
        reference = href_of(element)
        if reference.startswith("data:") and tag in _TAKES_DATA:
            refuse_image(element, reference)
        elif reference and not reference.startswith("#"):
            _refuse_reference(element, reference)
    for key, value in element.attrib.items():
        if is_told(key):
            continue
        for reference in CSS_URL.findall(value):
            if not reference.startswith("#"):
                _refuse_reference(element, reference)


def _refuse_reference(element: Element, reference: str) -> None:
    raise InputError(
        f'{called(element)}: the SVG reaches outside itself for "{reference[:60]}"; '
        "embed what it needs"
    )
