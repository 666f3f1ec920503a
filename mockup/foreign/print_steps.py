"""The steps of a die drawn over a page's art: layer, spot ink, overprint; seen, but not printed.

The art's own streams are left as they are: they are set between a save and a restore of the
graphics state, and ours comes after.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pikepdf

from mockup.artwork.print_copy import StepLines
from mockup.dies.step_layers import overprinting, step_ink, step_layer
from mockup.foreign.balance import balance_of
from mockup.foreign.drawings import packed
from mockup.geometry.affine import Affine
from mockup.geometry.path_data import pdf_path
from mockup.vector.pdf_objects import dictionary, entry, items_of
from mockup.vector.stumbling import asked

LINE_PT = 0.5  # common practice: die lines are drawn 0.25 to 1 pt
_EVENTS = ("Print", "View")
_OLDER = ("PDF/X-1", "PDF/X-3")


def add_steps(
    pdf: pikepdf.Pdf, steps: Sequence[StepLines], to_user: Affine, unit: float
) -> tuple[str, ...]:
    """Draws steps over the one page of a document, and returns what is to be told of it.

    `to_user` maps card inches to the page's own space, whose unit is `unit` points. Raises
    InputError for a page whose drawing cannot be read.
    """
    if not steps:
        return ()
    page = pdf.pages[0].obj
    resources = _own_resources(pdf, page)
    ours: list[str] = []
    for number, step in enumerate(steps):
        layer = step_layer(pdf, step.layer, step.step)
        _list_layer(pdf, layer)
        ink = step_ink(step.name, step.step)
        names = [
            _added(pdf, resources, kind, f"{stem}{number}", value)
            for kind, stem, value in (
                ("/Properties", "Step", layer),
                ("/ColorSpace", "StepInk", ink),
                ("/ExtGState", "StepOver", overprinting()),
            )
        ]
        ours.append(_drawn(step, names, to_user, LINE_PT / unit))
    _append(pdf, page, "".join(ours))
    return _told_older(pdf)


def _drawn(step: StepLines, names: Sequence[str], to_user: Affine, width: float) -> str:
    layer, ink, over = names
    paths = [f"{pdf_path(each.segments, to_user)}\nh" for each in step.outlines]
    paths += [pdf_path(each, to_user) for each in step.courses]
    state = f"{over} gs {ink} CS 1 SCN {width:.6g} w 0 J 0 j 10 M [] 0 d"
    drawn = "\n".join(paths)
    return f"/OC {layer} BDC\nq\n{state}\n{drawn}\nS\nQ\nEMC\n"


def _append(pdf: pikepdf.Pdf, page: Any, ours: str) -> None:
    """Puts our drawing after the page's, in the state the page began with."""
    told = entry(page, "/Contents")
    streams = items_of(told) if isinstance(told, pikepdf.Array) else [told]
    streams = [each for each in streams if isinstance(each, pikepdf.Stream)]
    balance = balance_of(page)
    # A state restored too often finds one of ours, which is the one the page began with.
    before = "q\n" * (1 + balance.surplus)
    closing = "ET\n" * balance.in_type + "EMC\n" * balance.marks + "Q\n" * (1 + balance.saved)
    after = packed(pdf, f"\n{closing}{ours}".encode("ascii"))
    page["/Contents"] = pikepdf.Array([pdf.make_stream(before.encode("ascii")), *streams, after])


def _own_resources(pdf: pikepdf.Pdf, page: Any) -> Any:
    """Returns a page's resources, as a copy that forms and patterns do not share: what is added is
    the page's alone."""
    held = dictionary(entry(page, "/Resources"))
    page["/Resources"] = pikepdf.Dictionary() if held is None else _copied(held)
    return page["/Resources"]


def _copied(held: Any) -> Any:
    keys: list[str] = list(held.keys())
    return pikepdf.Dictionary({key: held[key] for key in keys})


def _added(pdf: pikepdf.Pdf, resources: Any, kind: str, stem: str, value: Any) -> str:
    """Adds a resource under a name that is free, and returns the name."""
    held = dictionary(entry(resources, kind))
    own = pikepdf.Dictionary() if held is None else _copied(held)
    name = f"/{stem}"
    while name in own:
        name += "_"
    own[name] = value
    resources[kind] = own
    return name


def _list_layer(pdf: pikepdf.Pdf, layer: Any) -> None:
    """Enters a layer in the document's own list: seen on a screen, left out of a print (ISO 32000-1
    8.11.4.4)."""
    layer["/Usage"] = pikepdf.Dictionary(
        Print=pikepdf.Dictionary(PrintState=pikepdf.Name.OFF),
        View=pikepdf.Dictionary(ViewState=pikepdf.Name.ON),
        Export=pikepdf.Dictionary(ExportState=pikepdf.Name.ON),
    )
    properties = _held(pdf.Root, "/OCProperties")
    default = _held(properties, "/D")
    for holder, key in ((properties, "/OCGs"), (default, "/ON"), (default, "/Order")):
        holder[key] = pikepdf.Array([*items_of(entry(holder, key)), layer])
    events = [
        pikepdf.Dictionary(
            Event=pikepdf.Name(f"/{event}"),
            Category=pikepdf.Array([pikepdf.Name(f"/{event}")]),
            OCGs=pikepdf.Array([layer]),
        )
        for event in _EVENTS
    ]
    default["/AS"] = pikepdf.Array([*items_of(entry(default, "/AS")), *events])


def _held(holder: Any, key: str) -> Any:
    if dictionary(entry(holder, key)) is None:
        holder[key] = pikepdf.Dictionary()
    return holder[key]


def _told_older(pdf: pikepdf.Pdf) -> tuple[str, ...]:
    """Returns a line where the file claims a standard that knows no layers (ISO 15930-1 to -6)."""
    claim = str(asked(lambda: pdf.docinfo.get("/GTS_PDFXVersion"), otherwise=None) or "")
    if not claim.startswith(_OLDER):
        return ()
    return (f"the art says it is {claim}, which knows no layers; ask for PDF/X-4, or art alone",)
