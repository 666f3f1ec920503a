"""What the checks of a whole suite are given."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.checks.settings import Settings
from mockup.suite.suite import Suite


@dataclass(frozen=True)
class SuiteContext:
    """A suite being checked, and what it is measured against."""

    suite: Suite
    settings: Settings
