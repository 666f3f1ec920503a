"""Names of sizes that mean two things, and which was taken."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity
from mockup.checks.suite_context import SuiteContext

CHECK = "size"


def check_names(context: SuiteContext) -> list[Finding]:
    """Returns a note for every card whose name could have meant another size."""
    fix = "write the size, or the name in full, and nobody has to guess"
    return [
        Finding(CHECK, Severity.NOTE, piece.name, piece.card_told, fix)
        for piece in context.suite.pieces
        if piece.card_told
    ]
