"""What the art asks for that is not drawn here: what is seen is not what will be printed."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext


def check_undrawn(context: PageContext) -> list[Finding]:
    """Returns one finding where an SVG asks for filters, blend modes and the like."""
    asked = context.page.undrawn
    if not asked:
        return []
    message = f"the art asks for {', '.join(asked)}: not drawn, in any picture made here"
    fix = "save it as PDF from the program it was made in, and use that"
    return [found("undrawn", Severity.WARN, context.page.piece.name, message, fix)]
