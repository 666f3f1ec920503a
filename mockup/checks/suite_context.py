"""What the checks of a whole suite are given."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from mockup.checks.settings import Settings
from mockup.suite.suite import Envelope, Suite

if TYPE_CHECKING:  # a catalogue's form takes its time, and a flat-lay reads none
    from mockup.printers.catalogue import Printer


@dataclass(frozen=True)
class SuiteContext:
    """A suite being checked, what it is measured against, and the printers that are asked."""

    suite: Suite
    settings: Settings
    printers: tuple[Printer, ...] = ()


def owner(envelope: Envelope) -> str:
    """Returns what findings call an envelope: its place in the suite file."""
    return f"envelopes.{envelope.name}"
