"""Codes for machines: large enough, dark enough on light enough, and not light on dark."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.codes import Code
from mockup.trade.tolerances import CODE_BAR, CODE_CONTRAST, CODE_MODULE, CODE_SIDE

CHECK = "code"


def check_codes(context: PageContext) -> list[Finding]:
    """Returns the codes that a reader may fail on."""
    return [
        finding
        for code in context.page.codes
        for finding in (_too_small(context, code), _too_pale(context, code))
        if finding is not None
    ]


def _too_small(context: PageContext, code: Code) -> Finding | None:
    length, name = context.settings.length, context.page.piece.name
    at = Point(code.box.left, code.box.top)
    side = max(code.box.width, code.box.height)
    if code.kind == "bars" and code.module_in < CODE_BAR.value:
        message = f"a bar code's narrowest bar is {length(code.module_in)}: readers may fail on it"
        scale = CODE_BAR.value / code.module_in
        fix = f"scale it to {scale * 100:.0f} %"
        return found(CHECK, Severity.WARN, name, message, fix, CODE_BAR, code.module_in, at)
    if code.kind == "matrix" and (side < CODE_SIDE.value or code.module_in < CODE_MODULE.value):
        message = (
            f"a code is {length(side)} wide, its dots {length(code.module_in)}: telephones may "
            "fail on it"
        )
        wanted = max(CODE_SIDE.value, side * CODE_MODULE.value / code.module_in)
        fix = f"make it {length(wanted)} wide or more, or put less into it"
        return found(CHECK, Severity.WARN, name, message, fix, CODE_SIDE, side, at)
    return None


def _too_pale(context: PageContext, code: Code) -> Finding | None:
    name, at = context.page.piece.name, Point(code.box.left, code.box.top)
    share = f"{code.contrast * 100:.0f} % in reflectance"
    if code.contrast < CODE_CONTRAST.value:
        message = f"a code differs from its ground by {share}: too pale for readers"
        fix = "print it in a dark ink on a light ground"
        return found(CHECK, Severity.WARN, name, message, fix, CODE_CONTRAST, code.contrast, at)
    if code.reversed_:
        message = "a code is light on dark: some readers fail on it"
        fix = "print it dark on a light ground, or try it with several telephones"
        return found(CHECK, Severity.NOTE, name, message, fix, CODE_CONTRAST, code.contrast, at)
    return None
