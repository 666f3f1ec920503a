"""What the checks of a whole suite are given."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.checks.settings import Settings
from mockup.suite.suite import Envelope, Suite


@dataclass(frozen=True)
class SuiteContext:
    """A suite being checked, and what it is measured against."""

    suite: Suite
    settings: Settings


def owner(envelope: Envelope) -> str:
    """Returns what findings call an envelope: its place in the suite file."""
    return f"envelopes.{envelope.name}"
