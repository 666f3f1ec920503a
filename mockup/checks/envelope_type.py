"""Type that is set on an envelope: does the post find it, and who prints it?"""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext, owner
from mockup.envelopes.flap import closed_flap
from mockup.envelopes.views import face
from mockup.geometry.flatten import polygon
from mockup.reading.envelope_type import READ_AREA, SetType, type_on
from mockup.suite.suite import Envelope
from mockup.trade.postal import ADVICE, zones
from mockup.trade.postal_tables import PostalOperator, postal_operator
from mockup.trade.tolerances import Limit

CHECK, POST = "face", "post"
_INSIDE_IN = 1e-6
_SENDER = Limit(0, "in", "USPS DMM 602.1.5: preferred at the upper left of the address side")
_SENDER_SHARES = (1 / 2, 1 / 3)  # an older guidance of the DMM, as told by a mail room
_RIM_IN = Limit(0.25, "in", "common practice, no source")


def check_type(context: SuiteContext) -> list[Finding]:
    """Returns what is told of addresses and senders' lines that the suite file says."""
    findings: list[Finding] = []
    for envelope in context.suite.envelopes:
        for side in ("face", "flap"):
            for each in type_on(context.suite, envelope, side):
                findings += _told(context, envelope, each)
    return findings


def _told(context: SuiteContext, envelope: Envelope, each: SetType) -> Iterator[Finding]:
    yield from _in_no_file(envelope, each)
    yield from _near_edge(context, envelope, each)
    for name in context.settings.operators:
        operator = postal_operator(name)
        if each.what == "address":
            yield from _in_place(operator, envelope, each)
            yield from _large_enough(operator, envelope, each)
        elif operator.key == "us":
            yield from _sender(operator, envelope, each)


def _in_no_file(envelope: Envelope, each: SetType) -> Iterator[Finding]:
    """Yields that a sender's lines are shown and not printed; an address is every guest's own."""
    if each.what == "address":
        return
    key = "face" if each.lettering.side == "face" else "flap_art"
    message = f"the {each.what} is set for show: it is in no print file"
    fix = f"draw it into `{key}` to have it printed"
    yield Finding(CHECK, Severity.NOTE, owner(envelope), message, fix)


def _near_edge(context: SuiteContext, envelope: Envelope, each: SetType) -> Iterator[Finding]:
    """Yields that lines come near the side's edge, or run off it."""
    outline = face if each.lettering.side == "face" else closed_flap
    side, own = polygon(outline(envelope.spec)), shapely.box(*each.block.box)
    least = float(side.boundary.distance(own)) if side.contains(own) else 0.0
    if least >= _RIM_IN.value - _INSIDE_IN:
        return
    length = context.settings.length
    how = f"comes within {length(least)} of" if least > 0 else "runs over"
    message = f"the {each.what} {how} the {each.lettering.side}'s edge"
    fix = f"keep it {length(_RIM_IN.value)} inside"
    yield found(CHECK, Severity.WARN, owner(envelope), message, fix, _RIM_IN, round(least, 3))


def _in_place(operator: PostalOperator, envelope: Envelope, each: SetType) -> Iterator[Finding]:
    """Yields that an address is not where the post's machines read it."""
    kept = zones(operator, envelope.spec.width_in, envelope.spec.height_in)
    area = next((zone for zone in kept if zone.name == READ_AREA), None)
    if area is None:
        return
    own = shapely.box(*each.block.box)
    off = own.difference(shapely.box(*area.box.grown(_INSIDE_IN)))
    if off.is_empty:
        return
    share = off.area / own.area
    message = f"{operator.title}: {share * 100:.0f} % of the address lies outside the {READ_AREA}"
    fix = f"set it there: take `at` out, or write fewer lines. {ADVICE}"
    limit = Limit(0, "of the address", area.source)
    yield found(POST, Severity.WARN, owner(envelope), message, fix, limit, round(share, 3))


def _large_enough(operator: PostalOperator, envelope: Envelope, each: SetType) -> Iterator[Finding]:
    limit = operator.limits.get("address_type")
    size_pt = each.block.size_pt
    if limit is None or size_pt >= limit.value - _INSIDE_IN:
        return
    message = f"{operator.title}: the address is set at {size_pt:.3g} pt"
    fix = f"set it at {limit.value:g} pt or more. {ADVICE}"
    yield found(POST, Severity.WARN, owner(envelope), message, fix, limit, round(size_pt, 2))


def _sender(operator: PostalOperator, envelope: Envelope, each: SetType) -> Iterator[Finding]:
    """Yields where a sender's lines stand: on the flap they may, though the post would have them
    on the address side."""
    if each.lettering.side == "flap":
        message = f"{operator.title}: the return address is on the flap, which is allowed"
        fix = f"nothing; the post prefers it at the upper left of the address side. {ADVICE}"
        source = _SENDER.source
        yield Finding(POST, Severity.NOTE, owner(envelope), message, fix, source=source)
        return
    along, down = _SENDER_SHARES
    box, spec = each.block.box, envelope.spec
    if box.right <= along * spec.width_in and box.bottom <= down * spec.height_in:
        return
    message = f"{operator.title}: the return address is not at the upper left; a machine may take "
    message += "it for the address"
    fix = f"keep it in the left half and the upper third. {ADVICE}"
    source = f"{_SENDER.source}; half and third: older guidance, as told by a mail room"
    yield Finding(POST, Severity.WARN, owner(envelope), message, fix, source=source)
